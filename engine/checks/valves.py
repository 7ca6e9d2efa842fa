"""Air admittance valves: whether they are taken, how high they stand, and that one vent is open to the outdoors."""

from __future__ import annotations

from engine.checks.records import Rule

RULES: tuple[Rule, ...] = ()
