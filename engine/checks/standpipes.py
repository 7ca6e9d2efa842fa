"""A washer's standpipe: how high over its trap, and where the trap stands."""

from __future__ import annotations

from engine.checks.records import Rule

RULES: tuple[Rule, ...] = ()
