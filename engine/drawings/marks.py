"""Numbered marks: a circle for each cut in a joist, a square or diamond for each finding."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Literal

from engine.checks.records import Finding
from engine.drawings.labels import SOFT, SOLID, Box
from engine.drawings.linetypes import FINE, MEDIUM, THIN
from engine.drawings.pipes import shown
from engine.drawings.sheet import Sheet
from engine.drawings.strokes import Arc, Fill, Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.plan.records import Point
from engine.study import Study
from engine.takeoff.naming import numbered_cuts

Kind = Literal["stop", "look", "note", "legal cut", "illegal cut", "unjudged cut"]


_NEAR = 0.12
"""How near to a cut's cross a number may be taken for that cut's, paper inches."""


def badge(kind: Kind, at: Point, number: str, height: float) -> tuple[Stroke, ...]:
    """One numbered mark: shapes and filling tell the kinds apart without colour."""
    x, y = at
    width = max(text_width(number, height, bold=True), height)
    words = Text((x, y - height / 2.0), number, height, "middle", grey=_INK[kind], bold=True)
    if kind in ("stop", "look"):
        half_w, half_h = width / 2.0 + 0.035, height * 0.5 + 0.04
        box = ((x - half_w, y - half_h), (x + half_w, y - half_h), (x + half_w, y + half_h), (x - half_w, y + half_h))
        if kind == "stop":
            return (Fill(box, 0.0), words)
        return (Fill(box, 1.0), Line(box, MEDIUM, closed=True), words)
    if kind == "note":
        reach = (width + height) / 2.0 + 0.025
        tips = ((x - reach, y), (x, y - reach), (x + reach, y), (x, y + reach))
        return (Fill(tips, 1.0), Line(tips, THIN, closed=True), words)
    radius = width / 2.0 + 0.035
    if kind == "illegal cut":
        return (Arc(at, radius, THIN, fill=0.0), words)
    dashes = (0.03, 0.025) if kind == "unjudged cut" else ()
    return (Arc(at, radius, THIN, fill=1.0, grey=1.0), Arc(at, radius, THIN, dashes=dashes), words)


_INK: dict[Kind, float] = {
    "stop": 1.0,
    "look": 0.0,
    "note": 0.0,
    "legal cut": 0.0,
    "illegal cut": 1.0,
    "unjudged cut": 0.0,
}


def draw_cuts(sheet: Sheet, study: Study) -> None:
    """A tick where each bore or notch lies, and its number in the joist-cut schedule beside it."""
    crossings = {crossing.id: crossing for crossing in study.model.crossings}
    drawn = [
        (number, made, sheet.frame.at(made.at))
        for number, made in numbered_cuts(study.model)
        if any(shown(sheet, crossings[crossing].system) for crossing in made.crossings)
    ]
    for _, _, at in drawn:
        reach = 0.035
        cross = (((-reach, -reach), (reach, reach)), ((-reach, reach), (reach, -reach)))
        for (x0, y0), (x1, y1) in cross:
            sheet.add("marks", Line(((at[0] + x0, at[1] + y0), (at[0] + x1, at[1] + y1)), THIN))
        sheet.room.take(Box(at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach))
        sheet.room.take(Box(at[0] - _NEAR, at[1] - _NEAR, at[0] + _NEAR, at[1] + _NEAR), SOFT / 4.0)
    for number, made, at in drawn:
        kind: Kind = "legal cut" if made.legal else "unjudged cut" if made.legal is None else "illegal cut"
        _seat(sheet, at, kind, str(number), sheet.height * 0.85)


def draw_findings(sheet: Sheet, findings: Iterable[Finding]) -> None:
    """A numbered mark at each finding's place; findings at one place share a leader."""
    by_place: dict[tuple[int, int], list[tuple[int, Finding]]] = {}
    for number, finding in enumerate(findings, 1):
        if all(map(math.isfinite, finding.at[:2])):
            by_place.setdefault((round(finding.at[0]), round(finding.at[1])), []).append((number, finding))
    for group in by_place.values():
        at = sheet.frame.at(group[0][1].at[:2])
        for number, finding in group:
            _seat(sheet, at, finding.weight, str(number), sheet.height)


def _seat(sheet: Sheet, at: Point, kind: Kind, number: str, height: float) -> None:
    """Place a mark beside its point, with a leader to it."""
    width = max(text_width(number, height, bold=True), height) + 0.1
    box = sheet.room.seat(at, width, height + 0.1, 0.04)
    sheet.room.take(box, SOLID)
    centre = ((box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0)
    nearest = (min(max(at[0], box.left), box.right), min(max(at[1], box.bottom), box.top))
    if math.dist(at, nearest) > 0.03:
        sheet.add("marks", Line((at, centre), FINE))
        sheet.room.take_line(at, nearest, 0.01)
    sheet.add("labels", *badge(kind, centre, number, height))
