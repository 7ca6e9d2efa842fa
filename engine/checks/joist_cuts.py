"""Joist cuts: everything that is asked where a pipe meets a joist's wood, drains and water alike."""

from __future__ import annotations

from engine.checks import bores, cross_members, members, notch_pairs, notches, spans
from engine.checks.records import Rule

RULES: tuple[Rule, ...] = (
    *bores.RULES,
    *notches.RULES,
    *notch_pairs.RULES,
    *spans.RULES,
    *members.RULES,
    *cross_members.RULES,
)
"""The rules on crossings. Each looks at every crossing and has one outcome for it."""
