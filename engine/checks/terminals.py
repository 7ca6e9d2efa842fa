"""Where vents end over the roof: how high, how far from openings, and whether frost closes them."""

from __future__ import annotations

from engine.checks.records import Rule

RULES: tuple[Rule, ...] = ()
