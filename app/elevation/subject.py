"""What the window shows: a cut joist, or a wall that pipe stands in; how it is drawn, and its cuts in words."""

from __future__ import annotations

from engine.drawings.elevations import Elevation, elevation_drawing, elevations
from engine.drawings.elevations import parted as parted_joist
from engine.drawings.elevations import scales_for as scales_of_joist
from engine.drawings.strokes import Drawing
from engine.drawings.walls import WallView, parted, scales_for, wall_drawing, wall_views
from engine.plan.outline import listed
from engine.study import Study

Subject = Elevation | WallView

ROUNDEST = 2.0
"""A joist's heights are drawn no more than so many times as large as its lengths where that can be: holes stay fairly round."""

_SHORT = 2.4
"""How tall a wall stands on the screen at most, paper inches: its figures are to be seen with it."""


def subjects(study: Study | None) -> tuple[Subject, ...]:
    """Every cut joist in the order in which one walks them, then every wall with pipes."""
    return () if study is None else (*elevations(study), *wall_views(study))


def ids(shown: Subject) -> tuple[str, ...]:
    """The joists or the wall that are shown, by which the next study finds them again."""
    return shown.joists if isinstance(shown, Elevation) else (shown.wall,)


def runs(shown: Subject) -> tuple[tuple[str, ...], ...]:
    """The elements that each of its cuts is for, from the left."""
    if isinstance(shown, Elevation):
        return tuple(cut.runs for cut in shown.cuts)
    return tuple((cut.run,) for cut in shown.cuts)


def drawings(shown: Subject, width: float, lettering: float) -> list[Drawing]:
    """The drawing over a width of paper, or several where it has too many cuts for one; inches."""
    if isinstance(shown, Elevation):
        parts = parted_joist(shown, width, lettering)
        fit = scales_of_joist(parts, width, lettering)
        scales = next((one for one in fit if one.along.ratio <= ROUNDEST * one.up.ratio), fit[-1])
        return [elevation_drawing(part, scales, width, lettering) for part in parts]
    found = []
    for part in parted(shown, width, lettering):
        high = part.plates[1] + part.subfloor
        choice = scales_for(part, width, lettering)
        found.append(
            wall_drawing(
                part, next((one for one in choice if high / one.up.ratio <= _SHORT), choice[-1]), width, lettering
            )
        )
    return found


def counted(shown: Subject) -> str:
    """What it is called, how many cuts it has, and how many of them are not legal."""
    bad = sum(cut.verdict == "NOT LEGAL" for cut in shown.cuts)
    many = len(shown.cuts) != 1
    words = f"{len(shown.cuts)} cut{'s' if many else ''}"
    if isinstance(shown, WallView):
        words = f"{len(shown.cuts)} place{'s' if many else ''} to bore"
    return f"{_named(shown)}: {words}, {bad} not legal" if bad else f"{_named(shown)}: {words}"


def _named(shown: Subject) -> str:
    return shown.title.capitalize() if isinstance(shown, Elevation) else f"Wall: {shown.name}"


def figures(shown: Subject, number: int) -> str:
    """All figures and notes of one cut, counted from the left, for who hears them instead of seeing them."""
    if isinstance(shown, Elevation):
        cut = shown.cuts[number]
        numbers = ", ".join(map(str, cut.numbers))
        told = (
            f"No. {numbers}, {cut.verdict}: {cut.along} from the {shown.hook.end} end ({cut.other} from the "
            f"{shown.hook.other} end), {cut.down} down from the top, {cut.up} up from the bottom; {cut.kind}, "
            f"{cut.bit}, for {listed(cut.pipes)}."
        )
        return " ".join((told, *cut.notes))
    place, hook = shown.cuts[number], shown.hook
    wood = {"sole plate": place.sole_bit, "stud": place.stud_bit, "top plates": place.top_bit}
    tools = ", ".join(f"{tool} in the {part}" for part, tool in wood.items() if tool)
    over = f", {place.over} over the subfloor" if place.over else ""
    told = (
        f"No. {place.numbers[0]}, {place.verdict}: {place.along} from the {hook.end} end ({place.other} from the {hook.other} "
        f"end), {place.near} from the {hook.near} face ({place.far} from the {hook.far} face){over}; {tools}, for "
        f"{place.pipe} {place.run}."
    )
    return " ".join((told, *place.notes))
