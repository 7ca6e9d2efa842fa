"""Sizes of drains: what each carries against what its size may, and no reduction along the flow."""

from __future__ import annotations

from engine.checks.records import Rule

RULES: tuple[Rule, ...] = ()
