"""Openings framed in the floor, by IRC 2021 R502.10 ("Framing According to Code")."""

from __future__ import annotations

from typing import Any

import pytest

from engine.checks.floor_openings import RULES
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from engine.plan.records import Beam, Floor, FloorOpening, JoistField, Plan
from engine.study import work_out

JUDGES = {rule.id: rule.judge for rule in RULES}


def said(rule: str, opening: FloorOpening, **given: Any) -> list[Outcome]:
    beams = given.pop("beams", ())
    field = JoistField(**({"id": "j1", "corner": (0.0, 0.0), "size": (240.0, 240.0)} | given))
    outline = ((0.0, 0.0), (240.0, 0.0), (240.0, 240.0), (0.0, 240.0))
    plan = Plan(floor=Floor(outline=outline), fields=(field,), floor_openings=(opening,), beams=beams)
    return list(JUDGES[rule](work_out(plan)))


def opening(wide: float, south: float = 30.0, **given: Any) -> FloorOpening:
    """An opening so wide between its trimmers whose south edge lies so far from the floor's."""
    return FloorOpening("o1", (64.0, south), (64.0 + wide, south + 40.0), **given)


class TestHeaders:
    @pytest.mark.parametrize(("wide", "expected"), [(48.0, Holds), (48.0 + 1 / 16, Finding)])
    def test_past_four_feet_a_header_is_double(self, wide: float, expected: type[Outcome]) -> None:
        found = said("header-too-light", opening(wide))
        assert [type(one) for one in found] == [expected, expected]
        if isinstance(found[0], Finding):
            assert (found[0].measured, found[0].limit, found[0].cites) == (wide, 48.0, "IRC 2021 R502.10")
        assert {type(one) for one in said("header-too-light", opening(wide, headers=2))} == {Holds}

    def test_engineered_members_go_by_their_maker(self) -> None:
        assert {type(one) for one in said("header-too-light", opening(60.0), member="engineered")} == {DoesNotApply}


class TestTrimmers:
    # the plate ends 3-1/2 in from the floor's edge, and the header's middle lies 3/4 in before the clear way
    @pytest.mark.parametrize(("south", "expected"), [(40.25, Holds), (40.25 + 1 / 16, Finding)])
    def test_single_within_three_feet_of_its_bearing(self, south: float, expected: type[Outcome]) -> None:
        # the north header is nearer to its bearing than the south one
        found = said("trimmer-too-light", FloorOpening("o1", (64.0, south), (100.0, 210.0)))
        assert [type(one) for one in found] == [expected, expected]
        if isinstance(found[0], Finding):
            assert (found[0].measured, found[0].limit) == (36.0625, 36.0)

    def test_the_piece_past_a_beam_bears_no_header(self) -> None:
        # the beam's north face lies at y 122, and does for a header; the north one's middle at y 157-3/4 is 35-3/4 in from
        # there. South of the beam the trimmers' pieces are joists like others
        beam = Beam("b1", (1.5, 120.0), (238.5, 120.0), width=4.0, top_z=0.0)
        found = said("trimmer-too-light", FloorOpening("o1", (64.0, 122.0), (100.0, 157.0)), beams=(beam,))
        assert [type(one) for one in found] == [DoesNotApply, Holds, DoesNotApply, Holds]
        farther = said("trimmer-too-light", FloorOpening("o1", (64.0, 122.0), (100.0, 158.0)), beams=(beam,))
        measured = [one.measured for one in farther if isinstance(one, Finding)]
        assert measured == [36.75, 36.75]

    def test_beside_a_long_header_it_is_double(self) -> None:
        found = said("trimmer-too-light", FloorOpening("o1", (64.0, 20.0), (64.0 + 48.0625, 220.0)))
        assert {type(one) for one in found} == {Finding}
        double = FloorOpening("o1", (64.0, 20.0), (64.0 + 48.0625, 220.0), trimmers=2)
        assert {type(one) for one in said("trimmer-too-light", double)} == {Holds}

    def test_without_a_bearing_it_is_not_judged(self) -> None:
        assert {type(one) for one in said("trimmer-too-light", opening(30.0), end_bearing=0.0)} == {NotJudged}


class TestHangers:
    @pytest.mark.parametrize(("wide", "noted"), [(72.0, 0), (72.0625, 2)])
    def test_headers_past_six_feet(self, wide: float, noted: int) -> None:
        found = said("opening-wants-hangers", opening(wide, headers=2, trimmers=2))
        headers = [one for one in found if isinstance(one, Finding) and one.text.startswith("Header")]
        assert len(headers) == noted

    # a tail from the rim's inner face at 238-1/2 back to the header's outer face
    @pytest.mark.parametrize(("north", "noted"), [(93.0, False), (93.0 - 1 / 16, True)])
    def test_tails_past_twelve_feet(self, north: float, noted: bool) -> None:
        found = said("opening-wants-hangers", FloorOpening("o1", (64.0, 40.0), (94.0, north)))
        tails = [one for one in found if isinstance(one, Finding) and one.text.startswith("Tail")]
        assert bool(tails) is noted
        if tails:
            assert (tails[0].weight, tails[0].limit) == ("note", 144.0)


def test_an_opening_off_the_joists_frames_nothing() -> None:
    (found,) = said("opening-frames-nothing", FloorOpening("o1", (300.0, 0.0), (320.0, 20.0)))
    assert isinstance(found, Finding)
    assert type(said("opening-frames-nothing", opening(30.0))[0]) is Holds
