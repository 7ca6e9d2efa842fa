"""Cleanouts: where the book wants one, how big, how it opens, and whether one reaches it."""

from __future__ import annotations

from engine.checks.records import Rule

RULES: tuple[Rule, ...] = ()
