"""A plan under another rule book beside its own, in lines for a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from app.commands.terminal import table, wrapped
from app.commands.verb import Refusal

if TYPE_CHECKING:
    from engine.comparing import Comparison
    from engine.comparing.telling import Section
    from engine.plan.records import Plan

_NARROW = 24
"""A table whose cells are all this short is printed as one; longer cells are paragraphs."""


def comparison_of(path: Path, plan: Plan, other: str) -> Comparison:
    """The plan under `other` beside its own book. Raises `Refusal` where that cannot be."""
    from engine.comparing import SameBookError, compare
    from engine.rulebooks import names

    if other not in names():
        raise Refusal(f"there is no rule book {other!r}; the books are {', '.join(names())}")
    try:
        return compare(plan, other)
    except SameBookError as fault:
        raise Refusal(f"{path}: {fault}") from fault


def beside_lines(comparison: Comparison) -> list[str]:
    """The whole comparison, line by line."""
    from engine.comparing.telling import CAUTION, labels, told

    here, there = labels(comparison)
    lines = wrapped(f"{comparison.plan or 'The plan'} by {here}, beside itself by {there}")
    for section in told(comparison, all_values=False):
        lines += ["", section.title.upper(), *wrapped(section.note), *_body(section)]
    left = sum(not value.tells for value in comparison.values)
    if left:
        lines += ["", *wrapped(f"{left} more values differ and change nothing on this plan; --json lists them.")]
    return [*lines, "", *wrapped(CAUTION)]


def _body(section: Section) -> Iterator[str]:
    if not section.rows:
        return
    yield ""
    if all(len(cell) <= _NARROW for row in section.rows for cell in row[1:]):
        numbers = frozenset(n for n in range(len(section.columns)) if all(row[n].isdigit() for row in section.rows))
        yield from ("  " + line for line in table([title for title, _ in section.columns], section.rows, numbers))
        return
    titles = [title for title, _ in section.columns]
    for row in section.rows:
        yield from wrapped(row[0], "  ", "    ")
        for title, cell in zip(titles[1:], row[1:], strict=True):
            if cell:
                yield from wrapped(f"{title}: {cell}", "    ", "      ")
