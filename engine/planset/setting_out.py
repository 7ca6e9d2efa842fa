"""The sheet for setting out: where every pipe comes up, from faces of the framing that a tape can be hooked on."""

from __future__ import annotations

import math
from itertools import groupby
from typing import TYPE_CHECKING, Any

from engine.drafting.finished import at_outlet, flooring_under, under_fixture
from engine.drawings.setting_out import setting_out_drawing, setting_out_scale
from engine.drawings.struck import Setting, Struck, setting
from engine.lengths import feet_inches, inches
from engine.plan.outline import compass, flooring_words
from engine.plan.records import Fixture
from engine.planset.block import Titled
from engine.planset.book import Area, Book, Page
from engine.planset.deck import deck
from engine.planset.flow import Column, flowed, heading, note, table
from engine.study import Study
from engine.takeoff.marking import Hole
from engine.takeoff.squareness import largest_rectangle
from engine.trade import fixtures as trade
from engine.water.joints import joints

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

TITLE = "Setting out"


def setting_out(book: Book, study: Study) -> list[Page]:
    """The plan with its numbered crosses, then their table; only the reasons where nothing can be marked."""
    marks = setting(study.model)
    first = [_plan(book, study, marks)] if marks.struck else []
    return [*first, *flowed(book, TITLE, _story(book, study, marks))]


def _plan(book: Book, study: Study, marks: Setting) -> Page:
    lettering = book.paper.lettering

    def ratio(landscape: bool) -> float:
        area = book.area(landscape)
        return setting_out_scale(study, marks, area.width, area.height, lettering).ratio

    landscape = min((True, False), key=ratio)
    room = book.area(landscape)
    drawing = setting_out_drawing(study, marks, room.width, room.height, lettering)

    def fill(_canvas: Any, area: Area) -> None:
        book.drawing(drawing, area.left, area.bottom)

    return book.page(Titled(TITLE, drawing.scale_name), fill, landscape)


def _story(book: Book, study: Study, marks: Setting) -> list[Flowable]:
    size, width = book.paper.type_size, book.area().width
    story: list[Flowable] = []
    if marks.struck:
        story += [note(words, size, lead=lead) for lead, words in _how(study, marks)]
        columns = (
            Column("No.", 4, "RIGHT"),
            Column("What comes up there", 26),
            Column(_from(marks, 0), 10, "RIGHT"),
            Column(_from(marks, 1), 10, "RIGHT"),
            Column("Holes to make", 46),
            Column("How it stands to its wall, and what finish is allowed for", 36),
            Column("Check diagonal", 14, "RIGHT"),
        )
        story.append(table(columns, [_row(marks, one) for one in marks.struck], width, size))
        story += _in_walls(study, marks, width, size)
    else:
        story.append(note("No pipe that is drawn comes up through the floor or leaves it.", size))
    if marks.layout.not_marked:
        story.append(heading("What could not be marked", size * 1.2))
        story += [note(f"{one.why}.", size, lead=f"{one.words}:") for one in marks.layout.not_marked]
    return story


def _how(study: Study, marks: Setting) -> list[tuple[str, str]]:
    """How to strike the marks: from which faces, what to check first, what is not counted."""
    faces = "; ".join(f"{letter}, the {face.words}" for face, letter in marks.letters.items())
    squares = [
        f"{f'{field.id}: ' if len(study.plan.fields) > 1 else ''}{feet_inches(math.hypot(*field.size))}"
        for field in study.plan.fields
        if not field.to_outline
    ]
    cut = largest_rectangle(study.plan.floor.outline)
    if cut is not None and any(field.to_outline for field in study.plan.fields):
        squares.append(f"of the rectangle on the framing sheet: {feet_inches(cut.diagonal)}")
    said = [
        (
            "Measure from:",
            f"{faces}. Every distance runs from there to the centre, none is added to another. The framing is what is "
            "measured; walls and finish need not stand yet.",
        ),
    ]
    if squares:
        said.append(
            (
                "First:",
                "see that the framing is as drawn and square, corner to corner outside to outside the same both ways "
                f"({', '.join(squares)}). Then strike the crosses, and measure the diagonals before boring.",
            )
        )
    return said


def _from(marks: Setting, axis: int) -> str:
    faces = marks.along(axis)
    if len(faces) == 1:
        return f"From {marks.letters[faces[0]]}"
    return ("East-west, from", "North-south, from")[axis]


def _row(marks: Setting, one: Struck) -> list[str]:
    mark = one.mark
    across = f"to {one.to}" if one.to is not None else f"to corner {marks.letters[one.east]}-{marks.letters[one.north]}"
    return [
        str(one.number),
        f"{mark.words[:1].upper()}{mark.words[1:]}",
        _distance(marks, 0, one),
        _distance(marks, 1, one),
        holes_words(mark.holes),
        mark.walls or "–",
        f"{across}: {feet_inches(mark.diagonal)}",
    ]


def _distance(marks: Setting, axis: int, one: Struck) -> str:
    value, face = (one.mark.east_from, one.east) if axis == 0 else (one.mark.north_from, one.north)
    several = len(marks.along(axis)) > 1
    return feet_inches(value) + (f" from {marks.letters[face]}" if several else "")


def holes_words(holes: tuple[Hole, ...]) -> str:
    """The holes of one mark in words, those of one width told together; assumed widths say so."""
    said = []
    for _, group in groupby(holes, key=lambda hole: (hole.diameter, hole.tool, hole.passes)):
        alike = list(group)
        hole = alike[0]
        *others, last = (one.through for one in alike)
        through = f"{', '.join(others)} and {last}" if others else last
        if hole.diameter is None:
            said.append(f"{through}: {hole.tool}, for {hole.passes}")
            continue
        why = f"; {hole.source}" if hole.standing == "assumed" else ""
        said.append(f'{inches(hole.diameter)}" through {through}, for {hole.passes}{why}')
    return "\n".join(said) or "none"


def _in_walls(study: Study, marks: Setting, width: float, size: float) -> list[Flowable]:
    """The heights of drain and water stubs over what lies of the floor by then, all that comes over it allowed for."""
    rows = [*_floor_outlets(study, marks), *_drain_stubs(study, marks), *_water_stubs(study, marks)]
    if not rows:
        return []
    laid = deck(study.plan.floor)
    columns = (
        Column("No.", 4, "RIGHT"),
        Column("Stub", 34),
        Column(f"Over {laid.top}", 15, "RIGHT"),
        Column("Allowed for above that", 24),
        Column("Looks", 10),
        Column("Rests on", 48),
    )
    return [
        heading("How high the stubs come out", size * 1.2),
        note(
            f"Centres, and of a flange the underside of its ring, from {laid.top}, since nothing lies over it yet: what is allowed "
            "for stands beside each. Let every stub stand out past the wall's finish, and cut it with the fixture.",
            size,
        ),
        table(columns, rows, width, size),
    ]


def _floor_outlets(study: Study, marks: Setting) -> list[list[str]]:
    """Flanges, and the pipe's ends in floor drains: their heights, and that they look up."""
    found = []
    places = {one.mark.element: one.number for one in marks.struck if one.mark.kind in ("closet", "floor outlet")}
    for fixture in study.plan.fixtures:
        above = trade.outlet_of(fixture)
        if fixture.id in places and above is not None:
            closet = trade.fixture(fixture.kind).outlet == "closet"
            words = f"{'flange' if closet else 'outlet'} of {called(fixture)}"
            over = under_fixture(study.plan, fixture) + above
            found.append(_stub(study, places[fixture.id], fixture, words, over, "outlet_above_floor"))
    return found


def _drain_stubs(study: Study, marks: Setting) -> list[list[str]]:
    found = []
    places = {one.mark.at: one.number for one in marks.struck if one.mark.kind == "riser"}
    for fixture in study.plan.fixtures:
        above = trade.outlet_of(fixture)
        if trade.fixture(fixture.kind).outlet == "wall" and fixture.at in places and above is not None:
            words = f"drain of {called(fixture)}"
            over = at_outlet(study.plan, fixture) + above
            found.append(_stub(study, places[fixture.at], fixture, words, over, "outlet_above_floor"))
    return found


def _water_stubs(study: Study, marks: Setting) -> list[list[str]]:
    found = []
    fixtures = {fixture.id: fixture for fixture in study.plan.fixtures}
    places = {(one.mark.element, one.mark.at): one.number for one in marks.struck if one.mark.kind == "water"}
    made, _ = joints(study.plan, study.model.water)
    for joint in made:
        number = places.pop((joint.elements[0], joint.at), None) if joint.fixture is not None else None
        if number is None or joint.fixture is None:
            continue
        fixture = fixtures[joint.fixture]
        above = trade.fixture(fixture.kind).supply_above_floor
        if above is not None:
            words = f"{joint.water} water for {called(fixture)}"
            over = under_fixture(study.plan, fixture) + above
            found.append(_stub(study, number, fixture, words, over, "supply_above_floor"))
    return sorted(found, key=lambda row: int(row[0]))


def _stub(study: Study, number: int, fixture: Fixture, words: str, z: float, field: str) -> list[str]:
    """A row for what comes out `z` over the joists' top."""
    fact = trade.fixture(fixture.kind).how_known(field)
    own = getattr(fixture, field, None) is not None
    rests = "as written into the plan" if own or fact is None else f"{fact.standing}: {fact.source}"
    over = feet_inches(z - deck(study.plan.floor).thickness)
    looks = (
        "up"
        if trade.fixture(fixture.kind).outlet in ("closet", "floor") and field != "supply_above_floor"
        else compass(fixture.turn)
    )
    return [str(number), f"{words[:1].upper()}{words[1:]}", over, _finish_under(study, fixture, field), looks, rests]


def _finish_under(study: Study, fixture: Fixture, field: str) -> str:
    """What comes over the deck that a stub's height allows for, and where it is that of another fixture at its riser."""
    plan, board = study.plan, deck(study.plan.floor).board
    later = f"{board}; " if board else ""
    if field == "outlet_above_floor" and (counts := at_outlet(plan, fixture)) != under_fixture(plan, fixture):
        return f"{later}{inches(counts - plan.floor.subfloor)} in, the highest at its riser"
    return f"{later}{flooring_words(flooring_under(plan, fixture))}"


def called(fixture: Fixture) -> str:
    """What a fixture is called on the sheet, with its id."""
    return f"{fixture.name or trade.fixture(fixture.kind).words} ({fixture.id})"
