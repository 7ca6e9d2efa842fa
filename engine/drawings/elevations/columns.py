"""Under the joist: which figures stand in the column of each cut."""

from __future__ import annotations

from functools import partial

from engine.drawings.columns import BIG
from engine.drawings.cut_columns import DONE, Row
from engine.drawings.elevations.figures import Shown
from engine.drawings.elevations.subjects import Elevation


def rows(drawn: Elevation) -> tuple[Row[Shown], ...]:
    """The rows under a joist, in the order in which they are needed there."""
    end, other = drawn.hook.end, drawn.hook.other
    most = max((len(cut.pipes) for cut in drawn.cuts), default=1)
    return (
        Row(f"FROM {end.upper()} END", lambda cut: cut.along, BIG, bold=True),
        Row(f"or from {other} end", lambda cut: cut.other),
        Row("DOWN FROM TOP", lambda cut: cut.down, BIG, bold=True),
        Row("or up from bottom", lambda cut: cut.up),
        Row("BIT", lambda cut: cut.bit, bold=True),
        Row("for", lambda cut: cut.pipes[0]),
        *(Row("and", partial(_another, n)) for n in range(1, most)),
        Row("legal?", lambda cut: {"legal": "yes", "NOT LEGAL": "NO"}.get(cut.verdict, cut.verdict)),
    )


def _another(n: int, cut: Shown) -> str:
    """One more tube that shares the hole, nothing where there are not so many."""
    return cut.pipes[n] if n < len(cut.pipes) else ""


def done(drawn: Elevation) -> tuple[str, ...]:
    """The words of the rows of boxes to tick: one for each joist that shares the drawing."""
    return DONE if len(drawn.names) == 1 else tuple(f"{name}: marked, bored" for name in drawn.names)
