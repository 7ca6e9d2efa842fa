"""The answers for programs, the shopping list and the cut list, on the floor that is worked by hand."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import msgspec
import pytest

from engine.plan.records import MeasuredTakeOff, Plan, Supply
from engine.study import study
from engine.takeoff.answers import check_answer, parts_answer
from engine.takeoff.buying import rises, tube_needed
from engine.takeoff.cutlist import cut_list
from engine.takeoff.joist_cuts import cut_rows

Floor = Callable[..., Plan]


def count_of(answer: dict[str, Any], part: str, size: str = "") -> int:
    return sum(line["count"] for line in answer["parts"] if line["part"] == part and line["size"] == size)


@pytest.fixture
def answer(hand_floor: Floor) -> dict[str, Any]:
    return parts_answer(study(hand_floor()))


def test_the_parts_of_the_closet_and_lavatory(answer: dict[str, Any]) -> None:
    # counted by hand on the drawing
    assert count_of(answer, "quarter bend", "3") == 2
    assert count_of(answer, "wye", "3x3x1-1/2") == 1
    assert count_of(answer, "long-sweep quarter bend", "1-1/2") == 1
    assert count_of(answer, "eighth bend", "1-1/2") == 1
    assert count_of(answer, "coupling", "1-1/2") == 1
    assert count_of(answer, "sanitary tee", "1-1/2") == 1
    assert count_of(answer, "closet bolt set") == 1
    assert count_of(answer, "mid-storey guide", "1-1/2") == 1


def test_shield_plates_by_hand(answer: dict[str, Any]) -> None:
    # 1.9 in pipe in a 3.5 in plate: 0.80 in each side, under 1-1/4 (IRC 2021 P2603.2.1): two faces x two plates
    assert count_of(answer, "steel shield plate") == 4


def test_cement_by_the_cans(answer: dict[str, Any]) -> None:
    # 10 joints of 1-1/2 at 90 a quart and 7 of 3 at 40 a quart (a cement maker's guide): 0.286 quart, so two
    # half pints, and one more; primer half of that, so one and one more
    assert count_of(answer, "PVC cement, ASTM D2564") == 3
    assert count_of(answer, "primer, ASTM F656") == 2
    (line,) = (line for line in answer["parts"] if line["kind"] == "cement")
    assert "10 of 1-1/2 in, 7 of 3 in make 0.29 quart" in line["why"]


def test_abs_takes_no_primer(hand_floor: Floor) -> None:
    found = parts_answer(study(msgspec.structs.replace(hand_floor(), material="ABS")))
    assert [line["part"] for line in found["parts"] if line["kind"] == "primer"] == []


def test_every_length_of_pipe_is_bought(answer: dict[str, Any]) -> None:
    for size in ("3", "1-1/2"):
        cut = sum(piece["length"] for piece in answer["pieces"] if piece["size"] == size)
        bought = [row for row in answer["sticks"] if row["size"] == size]
        total = sum(row["stick_length"] * row["count"] for row in bought)
        assert total == pytest.approx(cut + sum(row["waste"] for row in bought), abs=1e-4)
    assert answer["cheapest_proven"] is True


def test_a_length_on_an_unmeasured_fitting_says_so(hand_floor: Floor) -> None:
    rows = cut_list(study(hand_floor(lavatory=False)).model)
    (bend_to_exit,) = (row for row in rows if row.length == 65.875)
    assert bend_to_exit.rests_on == "memory"
    assert bend_to_exit.unmeasured == ("quarter bend 3",)
    assert bend_to_exit.warning == "not measured: quarter bend 3; measure before sawing"


def test_a_measured_fitting_takes_the_warning_away(hand_floor: Floor) -> None:
    measured = tuple(
        MeasuredTakeOff(kind="quarter_bend", size="3", leg=leg, length=3.0)  # type: ignore[arg-type]
        for leg in ("run_in", "run_out")
    )
    plan = msgspec.structs.replace(hand_floor(lavatory=False), takeoffs=measured)
    # 72 x 1.000217 - 2 x 3.0 = 66.0156, printed 66
    (row,) = (row for row in cut_list(study(plan).model) if row.start == row.end == "quarter bend 3")
    assert (row.length, row.rests_on, row.warning) == (66.0, "measured", "")


def test_tube_by_routed_length(hand_floor: Floor) -> None:
    # 60 + 6 in drawn; up to the lavatory 3 down + 1 floor + 20.5 above it; 5 % slack; 12 in at each end
    tube = Supply(id="c1", water="cold", points=((4.0, 10.0), (64.0, 10.0), (64.0, 64.0)), down=3.0)
    found = study(msgspec.structs.replace(hand_floor(), supplies=(tube,)))
    assert rises(found.model, tube) == [("lav1", 24.5)]
    assert tube_needed(found.model, tube) == pytest.approx((60 + 54 + 24.5) * 1.05 + 24)
    answer = parts_answer(found)
    (bought,) = (row for row in answer["sticks"] if row["material"] == "PEX")
    assert bought["stick_length"] == 240.0
    # one ring for the stub-out elbow at the lavatory, one for the plug at the other end, where nothing is near, and two
    # for the elbow that turns the tube up: 3 in under the floor is no room for a bend of 5
    assert count_of(answer, "elbow, crimp", "1/2") == 1
    assert count_of(answer, "crimp ring, copper", "1/2") == 4
    assert not any("ittings" in words for words in answer["not_counted"])


def test_the_check_answer_holds_what_was_worked_out(hand_floor: Floor) -> None:
    found = check_answer(study(hand_floor()))
    assert found["rulebook"] == "irc-2021"
    window = found["exit_window"]
    # joist 48's wood below the bore; the closet's stub (worked by hand beside the study's own tests)
    assert window["low"] == pytest.approx(-7.3729, abs=5e-5)
    assert window["high"] == pytest.approx(-7.0625)
    assert found["exit_windows"][0] == window
    cuts = {made["joist"]: made for made in found["joist_cuts"]}
    assert cuts["f1.3"]["down_from_top"] == pytest.approx(6.0021, abs=5e-5)
    assert cuts["f1.3"]["bit"] == "2-1/8"
    assert {trap["fixture"]: trap["limit"] for trap in found["traps"]} == {"wc1": None, "lav1": 60.0}


def test_a_cut_that_no_rule_on_joists_covers_has_no_limit(hand_floor: Floor) -> None:
    """A rim is none of the joists of which IRC 2021 R502.8.1 speaks: null, and not a limit of nought."""
    plan = hand_floor()
    tube = Supply("c1", "cold", ((4.0, 20.0), (4.0, 0.5)), down=3.6)
    found = study(msgspec.structs.replace(plan, supplies=(tube,)))
    limits = {made["joist"]: made["limit"] for made in check_answer(found)["joist_cuts"]}
    assert limits["f1.rim-south"] is None
    assert limits["f1.3"] == pytest.approx(9.25 / 3.0)
    assert {row.limit for row in cut_rows(found.model) if "rim" in row.joist} == {None}


def test_both_answers_are_json(hand_floor: Floor) -> None:
    found = study(hand_floor())
    for answer in (check_answer(found), parts_answer(found)):
        assert json.loads(json.dumps(answer, allow_nan=False)) == answer


def test_an_empty_floor_has_empty_answers(hand_floor: Floor) -> None:
    bare = Plan(floor=hand_floor().floor)
    answer = parts_answer(study(bare))
    assert (answer["parts"], answer["pieces"], answer["sticks"], answer["supports"]) == ([], [], [], [])
    assert answer["cheapest_proven"] is True
    assert set(check_answer(study(bare))["exit_window"].values()) == {None}
