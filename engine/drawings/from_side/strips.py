"""A line parted into strips that fit the paper, with the letters where they meet; and what is printed under each place."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import accumulate, pairwise

from engine.crossings.records import JoistCut
from engine.drawings import columns as under
from engine.drawings.columns import AIR, BIG, Row
from engine.drawings.struck import letter
from engine.drawings.templates import wrapped
from engine.drawings.typeface import text_width
from engine.lengths import down, inches, nearest, up
from engine.plan.records import Record
from engine.takeoff.drain_lines import DrainLine, Place

PAST = 3.0
"""How much of what a line goes on as is drawn beyond its ends, inches."""

_HELD = {"bored joist": "bored", "notched joist": "notched", "base": "carried"}
_CAN_STAND = 0.86
"""Lettering of a place's name, as a share: it may take several lines."""

_WIDEST_NAME = 0.75
_CROWDED = 12.0
"""Parting a line at two places an inch apart costs as much as so many places too many, squared."""

_SAME = 1e-6


class Strip(Record, frozen=True, gc=False):
    """One drawing: a stretch of a line from `low` to `high`, inches from the exit, with the places on it.

    `before` and `after` are the letters under which the line goes on at its left and right, empty where it ends.
    """

    line: DrainLine
    low: float
    high: float
    places: tuple[Place, ...]
    before: str = ""
    after: str = ""
    part: int = 1
    of: int = 1

    @property
    def length(self) -> float:
        """How much of the line is drawn, inches."""
        return self.high - self.low


def strips(lines: Sequence[DrainLine], most: int, length: float) -> tuple[Strip, ...]:
    """Every line in strips of no more than `most` places and `length` inches, as few as they take, alike in places.

    Letters run on over all lines, so that each stands at two edges only.
    """
    made: list[Strip] = []
    letters = 0
    for line in lines:
        groups = _parted(line, most, length)
        cuts = [(a[-1].station + b[0].station) / 2.0 for a, b in pairwise(groups)]
        edges = [line.begins - PAST, *cuts, line.ends + PAST]
        names = ["", *(letter(letters + n) for n in range(len(cuts))), ""]
        letters += len(cuts)
        made += [
            Strip(line, low, high, group, before, after, n, len(groups))
            for n, (group, (low, high), (before, after)) in enumerate(
                zip(groups, pairwise(edges), pairwise(names), strict=True), 1
            )
        ]
    return tuple(made)


def _parted(line: DrainLine, most: int, length: float) -> list[tuple[Place, ...]]:
    """A line's places in as few groups as may be, much alike in number, parted where the next place is not near.

    A group is not too many and reaches not too far, if that can be; places at one distance are never parted.
    """
    clusters: list[list[Place]] = []
    for place in line.places:
        if clusters and place.station - clusters[-1][0].station <= _SAME:
            clusters[-1].append(place)
        else:
            clusters.append([place])
    stations = [cluster[0].station for cluster in clusters]
    edges = [line.begins - PAST, *((a + b) / 2.0 for a, b in pairwise(stations)), line.ends + PAST]
    size = [0, *accumulate(len(cluster) for cluster in clusters)]

    def fits(first: int, last: int) -> bool:
        few, short = size[last] - size[first] <= most, edges[last] - edges[first] <= length
        return last - first == 1 or (few and short)

    def near(last: int) -> float:
        return _CROWDED / (stations[last] - stations[last - 1]) if last < len(stations) else 0.0

    ends = _greedy(len(clusters), fits)
    mean = size[-1] / len(ends)
    best: dict[int, tuple[float, list[int]]] = {0: (0.0, [])}
    for _ in ends:
        after: dict[int, tuple[float, list[int]]] = {}
        for first, (cost, before) in best.items():
            for last in range(first + 1, len(clusters) + 1):
                if not fits(first, last):
                    break
                weighed = cost + (size[last] - size[first] - mean) ** 2 + near(last)
                if last not in after or weighed < after[last][0]:
                    after[last] = (weighed, [*before, last])
        best = after
    cuts = best[len(clusters)][1]
    return [line.places[size[first] : size[last]] for first, last in pairwise([0, *cuts])]


def _greedy(count: int, fits: Callable[[int, int], bool]) -> list[int]:
    """Where groups end if each takes as much as fits: there are no fewer groups."""
    ends: list[int] = []
    first = 0
    for last in range(1, count + 1):
        if last == count or not fits(first, last + 1):
            ends.append(last)
            first = last
    return ends


# what is printed -------------------------------------------------------------------------------------------------------


def rows(line: DrainLine, places: Sequence[Place], height: float) -> tuple[Row, ...]:
    """The rows under a strip, in the order in which they are needed, with a column for each place."""
    wet = line.system == "waste"
    width = _name_width(line, height)
    ends = {place.row.seat.start for place in line.places} - {""}
    one = ends.pop() if len(ends) == 1 else ""

    def row(words: str, cells: Sequence[tuple[str, ...]], share: float = 1.0, bold: bool = False) -> Row:
        return Row(words, tuple(cells), share, bold)

    found = [
        row("what is there", [tuple(wrapped(p.row.what, height * _CAN_STAND, width)) for p in places], _CAN_STAND),
        row("ALONG FROM EXIT", [(f'{inches(p.station)}"',) for p in places], BIG, bold=True),
        row("or from upper end" if wet else "or from its drain", [(f'{inches(p.row.along)}"',) for p in places]),
        row("DOWN FROM TOP: CENTRE", [(_past(p.row.centre_down),) for p in places], BIG, bold=True),
        row("underside", [(_past(p.row.bottom_down),) for p in places]),
        row("from bottom edge: centre", [(_edge(p.row.centre_below),) for p in places]),
        row("underside", [(_edge(p.row.bottom_below),) for p in places]),
        row(
            f"along the joists, from {one} end" if one else "along the joists, from end",
            [(_along(p, bool(one)),) for p in places],
        ),
        row("across the bay, from face of joist", [_across(p, width, height) for p in places]),
    ]
    if any(p.cut is not None or p.row.held for p in places):
        found.append(row("BIT, or what holds it", [_made(p) for p in places], bold=True))
    return tuple(found)


def column_width(lines: Sequence[DrainLine], height: float) -> float:
    """How far two columns stand apart on every strip of these lines, so that the widest figure has air."""
    wide = [height * 5.0]
    for line in lines:
        figures = rows(line, line.places, height)[1:]
        wide += [under.widest(figures, height), _name_width(line, height)]
    return max(wide) + AIR


def label_width(lines: Sequence[DrainLine], height: float) -> float:
    """How wide the words left of the rows are."""
    return max((under.label_width(rows(line, line.places, height), height) for line in lines), default=0.0)


def _name_width(line: DrainLine, height: float) -> float:
    """How wide a place's name may stand: its longest word, or what lets most names stand in a few lines."""
    words = (word for place in line.places for word in place.row.what.split())
    longest = max((text_width(word, height * _CAN_STAND) for word in words), default=0.0)
    return max(longest, _WIDEST_NAME * height / 0.08)


def _past(value: float | None) -> str:
    """A height down from the joists' top; over it it says so."""
    if value is None:
        return "not known"
    return f'{inches(value)}"' if nearest(value) >= 0.0 else f'{inches(-value)}" above'


def _edge(value: float | None) -> str:
    """A height from the bottom edge of the joist or bay there."""
    if value is None:
        return "no joist"
    shown = nearest(value)
    return "at it" if not shown else f'{inches(abs(shown))}" {"below" if shown > 0.0 else "up"}'


def _along(place: Place, one: bool) -> str:
    """How far along the joist, or the bay's first one, from its south or west end."""
    seat = place.row.seat
    if seat.from_start is None:
        return ""
    return f'{inches(seat.from_start)}"' + ("" if one else f" {seat.start}")


def _across(place: Place, width: float, height: float) -> tuple[str, ...]:
    """How far over the bay from the face of its first joist, by its number; on more lines where it has a long name."""
    seat = place.row.seat
    if seat.off is None:
        under = seat.joist is not None and seat.hangs != place.row.what
        return tuple(wrapped(f"at {seat.hangs}", height, width)) if under else ("–",)
    name, off = seat.off_from.removeprefix("joist "), f'{inches(seat.off)}"'
    words = f"{name}: {off}"
    return (words,) if text_width(words, height) <= width else (*wrapped(name, height, width), off)


def _made(place: Place) -> tuple[str, ...]:
    """The bit that bores a joist, or what to cut to hold the pipe there."""
    if place.cut is not None:
        return _bit(place.cut)
    held, support = place.row.held, place.support
    if support is None or held == "base":
        return (_HELD.get(held, held),)
    strap = () if support.strap is None else (f'{inches(up(support.strap))}" strap',)
    block = () if support.block is None else (f'{inches(down(support.block))}" block',)
    return (*strap, *block) or (held,)


def _bit(cut: JoistCut) -> tuple[str, ...]:
    what = "notch" if cut.kind == "notch" else f'{cut.bit}" bit' if cut.bit else f'{inches(up(cut.diameter))}" hole'
    return (what,) if cut.legal is not False else (what, "NOT LEGAL")
