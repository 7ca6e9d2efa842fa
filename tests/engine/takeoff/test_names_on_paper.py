"""What sticks of wood are called on paper, and that a text speaks of them so."""

from __future__ import annotations

from engine.plan.records import Beam, Floor, FloorOpening, JoistField, Plan
from engine.study import work_out
from engine.takeoff.naming import joist_words, on_paper

_OUTLINE = ((0.0, 0.0), (240.0, 0.0), (240.0, 108.0), (0.0, 108.0))


def plan(*fields: JoistField) -> Plan:
    return Plan(
        floor=Floor(outline=_OUTLINE),
        fields=fields,
        floor_openings=(FloorOpening("o1", (33.0, 40.0), (63.0, 76.0), name="hatch"),),
        beams=(Beam("b1", (0.0, 54.0), (240.0, 54.0), name="girder"),),
    )


def test_one_field_needs_no_name_and_several_are_told_after_the_stick() -> None:
    alone = work_out(plan(JoistField("j1", (0.0, 0.0), (240.0, 108.0), blocking=(20.0,))))
    two = work_out(plan(JoistField("j1", (0.0, 0.0), (120.0, 108.0)), JoistField("j2", (120.0, 0.0), (120.0, 108.0))))
    said = {joist.id: joist_words(alone, joist) for joist in alone.framing.members}
    assert (said["j1.1"], said["j1.rim-south"], said["j1.0"]) == ("joist 1", "south rim", "west end joist")
    assert (said["j1.block-1-2"], said["b1"]) == ("block 2 of row 1", "girder")
    said = {joist.id: joist_words(two, joist) for joist in two.framing.members}
    assert (said["j1.1"], said["j2.rim-south"], said["j1.0"]) == (
        "joist 1 of j1",
        "south rim of j2",
        "west end joist of j1",
    )
    assert said["o1.header-south"] == "south header of hatch"


def test_a_text_names_wood_as_the_sheets_do() -> None:
    model = work_out(plan(JoistField("j1", (0.0, 0.0), (240.0, 108.0), blocking=(20.0,))))
    assert on_paper(model, "d1's pipe passes block j1.block-1-2 (9 1/4 in deep).") == (
        "d1's pipe passes block 2 of row 1 (9 1/4 in deep)."
    )
    assert on_paper(model, "d1, j1.rim-north, b1") == "d1, north rim, girder"
    # joist 1's name begins that of joist 14, and a sentence may end behind it
    assert on_paper(model, "joist j1.14 and joist j1.1.") == "joist 14 and joist 1."


def test_a_field_named_by_a_figure_changes_no_measure() -> None:
    model = work_out(plan(JoistField("1", (0.0, 0.0), (240.0, 108.0))))
    assert on_paper(model, "joist 1.5 wants 1.5 in, not 1.2 in") == "joist 5 wants 1.5 in, not 1.2 in"
