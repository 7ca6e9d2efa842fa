"""Measuring: the best of many runs, since everything that disturbs a run makes it slower."""

from __future__ import annotations

import gc
import math
import time
from collections.abc import Callable, Sequence


def best_ms(action: Callable[[], object], runs: int) -> float:
    """Milliseconds of the fastest of `runs` calls, after one to warm up."""
    action()
    gc.collect()
    gc.freeze()
    fastest = math.inf
    for _ in range(runs):
        begun = time.perf_counter()
        action()
        fastest = min(fastest, time.perf_counter() - begun)
    gc.unfreeze()
    return 1000.0 * fastest


def exponent(sizes: Sequence[float], times: Sequence[float]) -> float:
    """Slope of the least-squares line through log size and log time: 1 is growth in step with the size."""
    xs, ys = [math.log(size) for size in sizes], [math.log(spent) for spent in times]
    x, y = sum(xs) / len(xs), sum(ys) / len(ys)
    return sum((a - x) * (b - y) for a, b in zip(xs, ys, strict=True)) / sum((a - x) ** 2 for a in xs)
