"""The limits of each way of venting that several traps share."""

from __future__ import annotations

from engine.checks.records import Rule

RULES: tuple[Rule, ...] = ()
