"""The figures and words of a wall's drawing: what a tape, a bit and a saw need at each place, as they are printed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from engine.checks.model import Model
from engine.checks.plate_cuts import TIES, tie_words
from engine.drawings.columns import BIG
from engine.drawings.cut_columns import Row
from engine.drawings.linetypes import LINE_TYPES
from engine.drawings.walls.records import Fitting, Shown, WallView
from engine.lengths import inches, up
from engine.takeoff.wall_holes import Bored, WallHole
from engine.takeoff.wall_hooks import WallHook
from engine.takeoff.wall_words import face_letters

_VERDICTS = {"yes": "legal", "no": "NOT LEGAL", "not judged": "not judged"}
_ORDINALS = ("FITTING, OVER SUBFLOOR", "second fitting", "third fitting", "fourth fitting")


def rows(drawn: WallView) -> tuple[Row[Shown], ...]:
    """The rows under a wall in the order in which they are needed there; what no cut has stands in none."""
    hook, cuts = drawn.hook, drawn.cuts
    most = max((len(cut.fittings) for cut in cuts), default=0)
    found: list[tuple[Row[Shown], bool]] = [
        (Row(f"FROM {hook.end.upper()} END", lambda cut: cut.along, BIG, bold=True), True),
        (Row(f"or from {hook.other} end", lambda cut: cut.other), True),
        (Row(f"FROM {hook.near.upper()} FACE", lambda cut: cut.near, BIG, bold=True), True),
        (Row(f"or from {hook.far} face", lambda cut: cut.far), True),
        (Row("OVER SUBFLOOR", lambda cut: cut.over, BIG, bold=True), any(cut.over for cut in cuts)),
        (Row("BIT, SOLE PLATE", lambda cut: cut.sole_bit, bold=True), any(cut.sole_bit for cut in cuts)),
        (Row("BIT, STUD", lambda cut: cut.stud_bit, bold=True), any(cut.stud_bit for cut in cuts)),
        (Row("BIT, TOP PLATES", lambda cut: cut.top_bit, bold=True), any(cut.top_bit for cut in cuts)),
        (Row("for", lambda cut: f"{cut.pipe} {cut.run}"), True),
        *((Row(_ORDINALS[n], _fitting(n)), True) for n in range(min(most, len(_ORDINALS)))),
        (Row("steel shields", lambda cut: cut.shields), any(cut.shields for cut in cuts)),
        (Row("tie on top plate", lambda cut: cut.tie), any(cut.tie for cut in cuts)),
        (Row("legal?", lambda cut: {"legal": "yes", "NOT LEGAL": "NO"}.get(cut.verdict, cut.verdict)), True),
    ]
    return tuple(row for row, wanted in found if wanted)


def _fitting(number: int) -> Callable[[Shown], str]:
    return lambda cut: cut.fittings[number] if number < len(cut.fittings) else ""


def shown(model: Model, hook: WallHook, group: Sequence[Bored], fittings: Sequence[Fitting]) -> Shown:
    """One place with its figures: a stud's cut, or a pipe's holes in sole plate and top plates."""
    first = group[0]
    row, at, across = first.row, hook.along(first.along), hook.across(first.left)
    sole = next((one.row for one in group if one.row.part == "sole plate"), None)
    top = next((one.row for one in group if one.row.part == "top plates"), None)
    stud = row if row.part == "stud" else None
    worst = next((word for word in ("no", "not judged") if any(one.row.verdict == word for one in group)), "yes")
    tie = any(one.row.tie for one in group)
    return Shown(
        numbers=(row.number,),
        kind="plates" if stud is None else "notch" if stud.kind == "notch" else "hole",
        verdict=_VERDICTS[worst],
        at=at,
        across=across,
        sole=None if sole is None else sole.hole,
        top=None if top is None else top.hole,
        height=None if stud is None else stud.above_subfloor,
        wide=row.hole,
        behind=stud is not None and stud.kind == "notch" and stud.face == hook.far,
        along=f'{inches(at)}"',
        other=f'{inches(hook.length - at)}"',
        near=f'{inches(across)}"',
        far=f'{inches(hook.depth - across)}"',
        over="" if stud is None or stud.above_subfloor is None else f'{inches(stud.above_subfloor)}"',
        sole_bit=_bit(sole),
        stud_bit=_bit(stud),
        top_bit=_bit(top),
        pipe=f'{row.size}" {LINE_TYPES[row.system].letters}',
        run=row.element,
        fittings=tuple(f'{inches(one.height)}"' for one in fittings),
        shields=_shields([one.row for one in group]),
        tie="yes" if tie else "",
        notes=tuple(_notes(model, [one.row for one in group], stud)),
    )


def _bit(row: WallHole | None) -> str:
    """The tool for a hole; a notch's depth, or the width that no listed bit makes."""
    if row is None:
        return ""
    if row.deep is not None:
        return f'notch {inches(up(row.deep))}"'
    return f'{row.bit}"' if row.bit else f'{inches(up(row.hole))}" hole'


def _shields(found: Sequence[WallHole]) -> str:
    """How many shields, and on which faces: ``4: E, W``."""
    count = sum(row.shields for row in found)
    if not count:
        return ""
    faces = dict.fromkeys(letters for row in found for letters in face_letters(row.shield_faces))
    return f"{count}: {', '.join(faces)}"


def _notes(model: Model, found: Sequence[WallHole], stud: WallHole | None) -> Iterator[str]:
    """What has no column, a sentence each."""
    for faults in dict.fromkeys(row.faults for row in found if row.verdict == "no"):
        yield f"NOT LEGAL, do not cut: {faults.lower()}."
    if any(row.verdict == "not judged" for row in found):
        yield "Not judged: the book does not give what it would be judged by."
    for row in found:
        if row.breaks_out:
            yield f"Its hole in the {row.part} breaks out of the {row.face} face."
        if not row.bit and row.deep is None:
            yield "No bit of that size is listed."
    if any(row.tie for row in found) and all(model.book.has(key) for key in TIES):
        yield f"Nail {tie_words(model)}."
    if stud is not None and stud.deep is not None and stud.above_subfloor is not None:
        low, high = stud.above_subfloor - stud.hole / 2.0, stud.above_subfloor + stud.hole / 2.0
        yield (
            f'Notch in the {stud.face} face: saw at {inches(low)}" and at {inches(high)}" over the subfloor, '
            f'{inches(up(stud.deep))}" deep.'
        )
