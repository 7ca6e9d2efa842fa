"""What sticks are called on paper, alone and in a row, and where the tape is butted on their pieces."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from engine.plan.records import Beam, Floor, FloorOpening, JoistField, Plan, Supply
from engine.study import work_out
from engine.takeoff.boring import hook, own_end
from engine.takeoff.marks.edges import edges
from engine.takeoff.naming import joist_words, together, whole_words


def plan(beams: Sequence[Beam] = (), openings: Sequence[FloorOpening] = (), **given: object) -> Plan:
    field = JoistField(**({"id": "j1", "corner": (0.0, 0.0), "size": (120.0, 240.0)} | given))  # type: ignore[arg-type]
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 240.0), (0.0, 240.0))
    return Plan(floor=Floor(outline=outline), fields=(field,), beams=tuple(beams), floor_openings=tuple(openings))


def girder(name: str, y: float, called: str = "") -> Beam:
    return Beam(name, (0.0, y), (120.0, y), width=4.0, top_z=0.0, name=called)


@pytest.mark.parametrize(
    ("stick", "words"),
    [
        ("j1.4a", "joist 4a (south of girder)"),
        ("j1.4b", "joist 4b (between girder and beam b2)"),
        ("j1.4c", "joist 4c (north of beam b2)"),
        ("j1.0a", "west end joist (south of girder)"),
    ],
)
def test_a_piece_is_told_by_what_cuts_it(stick: str, words: str) -> None:
    model = work_out(plan([girder("b1", 80.0, "girder"), girder("b2", 160.0)]))
    assert joist_words(model, model.joists[stick]) == words
    assert whole_words(model, model.joists[stick]) == words.partition(" (")[0]


def test_a_lapped_one_is_told_by_the_lap() -> None:
    model = work_out(plan(bearings=(120.0,), laps=(120.0,)))
    assert joist_words(model, model.joists["j1.4b"]) == "joist 4b (north of the lap)"


@pytest.mark.parametrize(
    ("names", "said"),
    [
        (["joist 2"], "joist 2"),
        (["joist 2", "joist 3", "joist 4"], "joists 2, 3 and 4"),
        (["joist 2a (south of girder)", "joist 3a (south of girder)"], "joists 2a and 3a (south of girder)"),
        (["joist 2a (south of girder)", "joist 3"], "joist 2a (south of girder) and joist 3"),
        (["south rim", "north rim"], "south rim and north rim"),
    ],
)
def test_names_in_a_row_say_what_they_share_once(names: list[str], said: str) -> None:
    assert together(names, " and ") == said


def test_the_tape_is_butted_on_what_a_pieces_end_stands_against() -> None:
    model = work_out(plan([girder("b1", 80.0, "girder")], laps=(160.0,)))
    told = [hook(model, model.joists[f"j1.4{letter}"]).stands for letter in "abc"]
    assert told == [
        "stands against the north face of the south rim",
        "stands against the north face of the girder",
        "is open where it is joined to the next",
    ]
    assert own_end(model) == (
        "the rim's inside face, or the beam's face where a beam cuts it, or its own open end in a lap"
    )
    assert own_end(work_out(plan())) == "the rim's inside face"


def test_an_outside_face_is_one_though_a_beam_leaves_two_pieces_of_its_joist() -> None:
    whole, cut = (edges(work_out(drawn)) for drawn in (plan(), plan([girder("b1", 80.0)])))
    assert cut == whole
    assert {edge.words for edge in cut} >= {"outside face of the west end joist", "outside face of the south rim"}


def test_bores_of_a_piece_run_from_its_own_end() -> None:
    """A tube at y 100: the north piece begins at the beam's face at 82, so its bore is 18 in along it."""
    drawn = plan([girder("b1", 80.0)])
    tube = Supply("c1", "cold", ((10.0, 100.0), (40.0, 100.0)), insulation=0.0, down=4.0)
    model = work_out(Plan(floor=drawn.floor, fields=drawn.fields, beams=drawn.beams, supplies=(tube,)))
    assert [(made.joist, made.from_start) for made in model.cuts] == [("j1.1b", 18.0), ("j1.2b", 18.0)]
