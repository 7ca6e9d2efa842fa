"""Traps and the fixtures over them: one each, of a size, with a seal and a tailpiece."""

from __future__ import annotations

from engine.checks.records import Rule

RULES: tuple[Rule, ...] = ()
