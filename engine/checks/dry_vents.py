"""Dry vents on their way: how they leave the drain, rise before they turn, drain back, and join."""

from __future__ import annotations

from engine.checks.records import Rule

RULES: tuple[Rule, ...] = ()
