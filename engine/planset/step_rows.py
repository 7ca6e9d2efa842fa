"""The rows of the assembly order: a box to tick, signs, what to do, and dials for what has to be turned."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from engine.checks.model import Model
from engine.drawings.dial import dial
from engine.drawings.linetypes import MEDIUM
from engine.drawings.signs import WIDTH, Sign, sign
from engine.drawings.strokes import Drawing, Line, Stroke
from engine.drawings.templates import shift
from engine.planset.figures import figure
from engine.planset.papers import POINTS
from engine.planset.subassemblies import Subassembly
from engine.planset.words import paragraph
from engine.takeoff.assembling.records import Rotation, Step
from engine.takeoff.assembling.words import check_words, turned
from engine.trade.fittings import KINDS
from engine.trade.pipe import label

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

_MIXED = re.compile(r"(?<=\d) (?=\d+/\d)")
_BOX = 0.13
_SIGNS_IN_ROW = 3
_TURNS = 0.31
"""Share of a row's width that its dials take."""

_KINDS: dict[str, tuple[Sign, ...]] = {
    "thread": ("thread", "leave dry"),
    "start": ("start",),
    "set": (),
    "dry fit": ("dry-fit", "leave dry"),
    "close": ("closing",),
    "stuck": ("stop",),
    "test": ("test",),
    "untest": ("untest",),
    "roof": ("roof",),
    "finish": ("finish",),
    "loose": ("loose",),
}
_GLUED = ("start", "set", "finish")


def rows(
    model: Model,
    group: Subassembly,
    long: frozenset[str],
    width: float,
    size: float,
    beside: Sequence[tuple[str, str]] = (),
) -> list[Flowable]:
    """A group's heading and steps; each step stays whole, the heading with the first. `long` are pieces left long.

    `beside` are notes under the heading, each with its first words.
    """
    found: list[Flowable] = []
    head = [paragraph(group.title, size * 1.15, bold=True)]
    head += [paragraph(words, size, lead=lead) for lead, words in beside]
    for n, step in enumerate(group.steps):
        cells = [
            figure(_tick_box()),
            paragraph(str(step.number), size * 1.15, bold=True, alignment=2),
            figure(_signs(signs_of(step, long))),
            [paragraph(words, size, lead=lead) for lead, words in told(model, step)],
            _turns(step.rotations, width * _TURNS, size),
        ]
        found.append(_whole((head if n == 0 else []), cells, width, bool(step.rotations)))
    return found


def signs_of(step: Step, long: frozenset[str]) -> tuple[Sign, ...]:
    """The signs of one step."""
    signs = list(_KINDS[step.kind])
    if step.slides and "thread" not in signs:
        signs.append("thread")
    if step.kind in _GLUED and step.bonds:
        signs.append("glue")
    if step.checks:
        signs.append("level")
    if step.kind != "finish" and long & set(step.pieces):
        signs.append("long")
    return tuple(signs)


def told(model: Model, step: Step) -> list[tuple[str, str]]:
    """A step's words, with those of its dials left to them; checks with the level and things to buy stand apart."""
    text = step.text
    for part in dict.fromkeys(turn.part for turn in step.rotations):
        text = text.replace(turned(tuple(turn for turn in step.rotations if turn.part == part)), "", 1)
    found = []
    for check in step.checks:
        words = check_words(model, check)
        if words in text:
            text = text.replace(words, "", 1)
            lead, rest = words.split(": ", 1)
            found.append((f"{lead}:", unbroken(rest)))
    found.insert(0, ("", unbroken(text)))
    for kind, pipe, count in step.needs:
        found.append(("Take besides:", f"{count} of {KINDS[kind].words} {label(pipe)}."))
    return found


def unbroken(text: str) -> str:
    """A text whose mixed numbers (2 11/16) no line's end tears apart."""
    return _MIXED.sub("\u00a0", " ".join(text.split()))


def _tick_box() -> Drawing:
    corners = ((0.02, 0.0), (0.02 + _BOX, 0.0), (0.02 + _BOX, _BOX), (0.02, _BOX))
    side = _BOX + 0.04
    return Drawing((Line(corners, MEDIUM, closed=True),), side, side, (0.0, 0.0, side, side))


def _signs(kinds: tuple[Sign, ...]) -> Drawing:
    """Signs side by side, three in a row."""
    drawn = [sign(kind) for kind in kinds]
    lines = [drawn[n : n + _SIGNS_IN_ROW] for n in range(0, len(drawn), _SIGNS_IN_ROW)]
    heights = [max(one.height for one in line) for line in lines]
    height = sum(heights) + 0.03 * max(len(lines) - 1, 0)
    strokes: list[Stroke] = []
    top = height
    for line, high in zip(lines, heights, strict=True):
        for n, one in enumerate(line):
            strokes += [shift(stroke, n * WIDTH, top - one.height) for stroke in one.strokes]
        top -= high + 0.03
    width = WIDTH * _SIGNS_IN_ROW
    return Drawing(tuple(strokes), width, height, (0.0, 0.0, width, height))


def _turns(rotations: tuple[Rotation, ...], width: float, size: float) -> Any:
    """A dial with its words for each leg that has to be turned."""
    from reportlab.platypus import Table

    if not rotations:
        return ""
    lines = []
    for turn in rotations:
        face = dial(turn.degrees, turn.looking == "seen from above")
        words = turned((turn,)).removeprefix(": ").replace(f"({turn.degrees:.1f} degrees", "(", 1)
        words = words.replace("(; ", "(").replace("(, ", "(")
        lines.append([figure(face), paragraph(unbroken(words), size * 0.92, lead=f"{turn.degrees:.1f}°")])
    side = face.width * POINTS
    style = [
        ("LEFTPADDING", (0, 0), (-1, -1), 0.0),
        ("RIGHTPADDING", (0, 0), (0, -1), 4.0),
        ("RIGHTPADDING", (1, 0), (1, -1), 0.0),
        ("TOPPADDING", (0, 0), (-1, -1), 0.0),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1.0),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ]
    return Table(lines, colWidths=[side + 4.0, width * POINTS - side - 10.0], style=style)


def _whole(head: list[Any], cells: list[Any], width: float, with_dial: bool) -> Flowable:
    """One step as a table that is never split, with its group's heading over it where it is the first.

    The words of a step with nothing to turn take the dials' place too.
    """
    from reportlab.lib.colors import Color
    from reportlab.platypus import Table

    fixed = (0.22, 0.3, WIDTH * _SIGNS_IN_ROW + 0.08)
    turns = width * _TURNS
    widths = [*fixed, width - sum(fixed) - turns, turns]
    data: list[list[Any]] = [[head, "", "", "", ""]] if head else []
    data.append(cells)
    last = len(data) - 1
    style: list[tuple[Any, ...]] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 2.0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 4.0),
        ("TOPPADDING", (0, last), (-1, last), 3.0),
        ("BOTTOMPADDING", (0, last), (-1, last), 3.0),
        ("LINEBELOW", (0, last), (-1, last), 0.3, Color(0.7, 0.7, 0.7)),
        ("NOSPLIT", (0, 0), (-1, -1)),
    ]
    if not with_dial:
        style.append(("SPAN", (3, last), (4, last)))
    if head:
        ink = Color(0.0, 0.0, 0.0)
        style += [
            ("SPAN", (0, 0), (-1, 0)),
            ("TOPPADDING", (0, 0), (-1, 0), 7.0),
            ("LINEBELOW", (0, 0), (-1, 0), 0.9, ink),
        ]
    return Table(data, colWidths=[w * POINTS for w in widths], style=style, hAlign="LEFT")
