"""Headers, blocks and beams in a pipe's way: no rule on joists speaks of them. Common practice, no source.

Joists are 2x10, 9-1/4 in deep; a 1-1/2 in pipe is 1.900 in outside.
"""

from __future__ import annotations

from typing import Any

import pytest

from engine.checks import ALL_RULES
from engine.checks.joist_cuts import RULES
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from engine.plan.records import Beam, Drain, Exit, Fixture, Floor, FloorOpening, JoistField, Plan, Supply
from engine.study import study, work_out

JUDGES = {rule.id: rule.judge for rule in RULES}
SQUARE = ((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))


def plan(z: float | None = -5.0, passing: str | None = None, beam: Beam | None = None, **given: Any) -> Plan:
    """A level-drawn shower drain north to south in a bay, from (24, 90) to (24, 20), its exit's axis at `z`."""
    field = JoistField("j1", (0.0, 0.0), (120.0, 108.0), **given)
    return Plan(
        floor=Floor(outline=SQUARE),
        fields=(field,),
        beams=(beam,) if beam is not None else (),
        floor_openings=(),
        fixtures=(Fixture("f1", "shower", (24.0, 90.0)),),
        drains=(Drain("d1", ((24.0, 90.0), (24.0, 20.0)), size="2", passing=passing),),  # type: ignore[arg-type]
        exits=(Exit("x1", (24.0, 20.0), pinned_z=z),) if z is not None else (),
    )


def said(rule: str, drawn: Plan) -> list[Outcome]:
    return [one for one in JUDGES[rule](work_out(drawn)) if type(one) is not DoesNotApply]


class TestBlocks:
    def test_pipe_through_a_block_is_to_be_looked_at(self) -> None:
        (found,) = said("blocking-cut", plan(blocking=(54.0,)))
        assert isinstance(found, Finding)
        assert (found.weight, found.elements, found.cites) == ("look", ("d1", "j1.block-1-2"), "common practice")

    def test_pipe_below_it_holds(self) -> None:
        (found,) = said("blocking-cut", plan(z=-30.0, blocking=(54.0,)))
        assert type(found) is Holds

    def test_no_number_for_joists_judges_it(self) -> None:
        study_ = study(plan(z=-1.0, blocking=(54.0,)))
        assert not [one for one in study_.findings if one.rule.startswith("bore") and "block" in one.text]


class TestHeaders:
    opening = FloorOpening("o1", (17.0, 40.0), (47.0, 70.0))

    def test_pipe_through_a_header_stops(self) -> None:
        drawn = plan()
        drawn = Plan(
            **{name: getattr(drawn, name) for name in drawn.__struct_fields__} | {"floor_openings": (self.opening,)}
        )
        found = said("header-cut", drawn)
        assert [(type(one), one.elements) for one in found if isinstance(one, Finding)] == [
            (Finding, ("d1", "o1.header-north")),
            (Finding, ("d1", "o1.header-south")),
        ]
        assert all(isinstance(one, Finding) and one.weight == "stop" for one in found)


class TestBeams:
    dropped = Beam("b1", (0.0, 60.0), (120.0, 60.0))
    steel = Beam("b1", (0.0, 60.0), (120.0, 60.0), width=4.0, depth=6.0, top_z=0.0, material="steel", bearing=False)

    def test_pipe_in_the_bay_passes_over_a_dropped_beam(self) -> None:
        (found,) = said("beam-in-the-way", plan(beam=self.dropped))
        assert type(found) is Holds

    # at y 60 a 2 in drain's axis has risen 40 x 1/48 in from its exit; the beam's top lies at -9-1/4
    def test_the_exit_may_go_no_lower_than_clears_the_beam(self) -> None:
        free = plan(beam=self.dropped)
        model = work_out(
            Plan(**{n: getattr(free, n) for n in free.__struct_fields__} | {"exits": (Exit("x1", (24.0, 20.0)),)})
        )
        low = [bound for bound in model.windows[0].bounds if bound.element == "b1"]
        assert [(one.side, one.by) for one in low] == [("low", "beam b1: pipe clear over it")]
        # along the far face of the beam or at its middle: the middle decides, 40 in up the run
        assert low[0].z == pytest.approx(-9.25 + 2.375 / 2 - 40.0 / 48.0)

    @pytest.mark.parametrize(("touch", "expected"), [(0.0, Holds), (1 / 16, Finding)])
    def test_it_may_touch_its_top(self, touch: float, expected: type[Outcome]) -> None:
        z = -9.25 + 2.375 / 2 - 40.0 / 48.0 - touch
        (found,) = said("beam-in-the-way", plan(z=z, beam=self.dropped))
        assert type(found) is expected
        if isinstance(found, Finding):
            assert found.measured == pytest.approx(touch)
            assert found.mend.startswith("Raise it 1/16 in to pass over it, or lower it")
            assert found.mend.endswith("or lead it round the beam's end, or have an engineer allow a hole.")

    def test_steel_at_the_joists_level_is_passed_under_only(self) -> None:
        (found,) = said("beam-in-the-way", plan(z=-5.0, beam=self.steel))
        assert isinstance(found, Finding)
        assert "steel is never cut" in found.text
        assert found.mend.startswith("Lower it") and "engineer" not in found.mend
        (clear,) = said("beam-in-the-way", plan(z=-20.0, beam=self.steel))
        assert type(clear) is Holds

    def test_a_run_under_the_joists_passes_under_the_beam_too(self) -> None:
        model = work_out(plan(z=-30.0, passing="under", beam=self.dropped))
        high = [bound for bound in model.windows[0].bounds if bound.element == "b1"]
        assert [one.side for one in high] == ["high"]
        assert high[0].z == pytest.approx(-18.5 - 2.375 / 2 - 40.0 / 48.0)

    def test_without_a_height_it_is_not_judged(self) -> None:
        (found,) = said("beam-in-the-way", plan(z=None, beam=self.dropped))
        assert type(found) is NotJudged

    def test_nothing_is_cut_out_of_a_beam(self) -> None:
        assert work_out(plan(z=-5.0, beam=self.steel)).cuts == ()


def test_tube_along_a_row_of_blocks_is_no_bore() -> None:
    """A row at y 54: a tube at 54 runs lengthwise in its blocks, one at 50 beside them in the bays."""
    judge = {rule.id: rule.judge for rule in ALL_RULES}["no-straight-bore"]
    field = JoistField("j1", (0.0, 0.0), (120.0, 108.0), blocking=(54.0,))
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))
    for y, along in ((54.0, True), (50.0, False)):
        tube = Supply("s1", "cold", ((10.0, y), (110.0, y)), down=4.0)
        model = work_out(Plan(floor=Floor(outline=outline), fields=(field,), supplies=(tube,)))
        found = [one for one in judge(model) if isinstance(one, Finding)]
        assert bool(found) is along
        assert all("runs along inside" in one.text for one in found)
