"""Where outlets stand from the finished wall, against what the usual fixtures want."""

from __future__ import annotations

from engine.checks.records import Rule

RULES: tuple[Rule, ...] = ()
