"""A comparison as plain data for programs: lengths in inches, `here` the plan's own book, `there` the other."""

from __future__ import annotations

import math
from typing import Any

import msgspec

from engine.comparing.records import Comparison

_FINE = 6
"""Decimals kept of a length."""


def beside_answer(comparison: Comparison) -> dict[str, Any]:
    """All of a comparison; each finding tells where it is made, each trap and exit whether it differs."""
    answer: dict[str, Any] = _plain(msgspec.to_builtins(comparison))
    answer["counts"] = {words: {"here": here, "there": there} for words, here, there in comparison.counts}
    for row, finding in zip(answer["findings"], comparison.findings, strict=True):
        row["where"] = finding.where
    for row, trap in zip(answer["traps"], comparison.traps, strict=True):
        row["differs"] = trap.differs
    for row, drawn in zip(answer["exits"], comparison.exits, strict=True):
        row["differs"] = drawn.differs
    return answer


def _plain(value: Any) -> Any:
    """Plain data with its numbers rounded; what is not finite is null."""
    if isinstance(value, dict):
        return {key: _plain(held) for key, held in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(held) for held in value]
    if isinstance(value, float):
        return round(value, _FINE) if math.isfinite(value) else None
    return value
