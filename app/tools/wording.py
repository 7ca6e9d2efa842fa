"""How steps of history call the things they are about."""

from __future__ import annotations

from collections.abc import Collection

from engine.plan import edits
from engine.plan.outline import called
from engine.plan.records import Plan


def named(plan: Plan, ids: Collection[str]) -> str:
    """The things of these ids in few words: `drain d1`, `3 things`."""
    return called(edits.find(plan, next(iter(ids)))) if len(ids) == 1 else f"{len(ids)} things"
