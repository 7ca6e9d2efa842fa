"""Sizes of vents: by the drain, by the length, by what they serve, and all together."""

from __future__ import annotations

from engine.checks.records import Rule

RULES: tuple[Rule, ...] = ()
