"""Pieces that are first sawn longer than they end: stubs for the test, vents until the roof is covered."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest

from engine.plan.file import read
from engine.plan.records import Plan, StickForSale
from engine.study import study, work_out
from engine.takeoff.answers import parts_answer
from engine.takeoff.assembly import assembly
from engine.takeoff.buying import buy
from engine.takeoff.cutlist import cut_list
from engine.takeoff.trimming import trims

Floor = Callable[..., Plan]
SAMPLES = sorted((Path(__file__).parents[3] / "samples").glob("*.jway"))


def test_the_closets_stub_and_the_vent_are_left_long(hand_floor: Floor) -> None:
    rows = {row.mark: row for row in cut_list(work_out(hand_floor()))}
    long = {mark: row.extra for mark, row in rows.items() if row.extra}
    # worked by hand: the closet's stub is 3-1/8, the vent 112-15/16, six inches more each (common practice, no source)
    assert sorted((rows[mark].length, extra) for mark, extra in long.items()) == [(3.125, 6.0), (112.9375, 6.0)]
    assert {rows[mark].until for mark in long} == {
        "capped for the test; cut off once the finish stands",
        "cut off above the roof once it is covered",
    }
    assert all(rows[mark].plumb for mark in long)
    assert rows["V1"].saw == 118.9375


def test_upright_pieces_tell_their_heights(hand_floor: Floor) -> None:
    """From the lavatory's riser foot at -5.5386 to the tee at 19, from there to the vent's top at 133."""
    rows = {row.mark: row for row in cut_list(work_out(hand_floor()))}
    assert rows["V1"].lies == "r1: plumb at 5'-10 1/4\" E, 5'-9\" N, 1'-7\" up to 11'-1\" up"
    riser = next(row for row in rows.values() if row.lies.startswith("r1: plumb") and row.mark != "V1")
    assert riser.lies.endswith('5 9/16" down to 1\'-7" up')


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_the_assembly_order_leaves_the_same_pieces_long(path: Path) -> None:
    model = work_out(read(path))
    said = {mark for step in assembly(model) for mark in step.pieces if "Leave it" in step.text and "long" in step.text}
    assert {mark for mark, trim in trims(model).items() if trim.extra} == said


def test_sticks_are_bought_for_the_length_first_sawn(hand_floor: Floor) -> None:
    model = work_out(hand_floor())
    cuts = {cut.mark: cut.length for entry in buy(model) for stick in entry.plan.sticks for cut in stick.cuts}
    assert cuts == pytest.approx(_first_sawn(hand_floor()))


def _first_sawn(plan: Plan) -> dict[str, float]:
    model = work_out(plan)
    longer = trims(model)
    return {p.mark: p.cut + (longer[p.mark].extra if p.mark in longer else 0.0) for p in model.joinery.pieces}


def test_waste_counts_what_is_trimmed(hand_floor: Floor) -> None:
    answer = parts_answer(study(hand_floor()))
    bought = sum(row["stick_length"] * row["count"] for row in answer["sticks"])
    assert bought == pytest.approx(
        sum(piece["length"] for piece in answer["pieces"]) + sum(row["waste"] for row in answer["sticks"])
    )
    assert {piece["mark"] for piece in answer["pieces"] if piece["extra"]} == set(trims(work_out(hand_floor())))


def test_no_piece_is_left_longer_than_the_sticks_for_sale(hand_floor: Floor) -> None:
    """Ten-foot sticks: 120 less the vent's 112-15/16 leaves 7-1/16; of 115 in sticks 2-1/16 are left."""
    sold = (StickForSale("1-1/2", 115.0),)
    model = work_out(msgspec.structs.replace(hand_floor(), sticks=sold))
    assert trims(model)["V1"].extra == pytest.approx(115.0 - 112.9375)
    assert all(not entry.plan.too_long for entry in buy(model))


def test_a_piece_longer_than_the_sticks_for_sale_is_coupled(hand_floor: Floor) -> None:
    """A vent of 112-15/16 in from sticks of 60: one coupling makes two pieces of it."""
    sold = (StickForSale("1-1/2", 60.0),)
    model = work_out(msgspec.structs.replace(hand_floor(), sticks=sold))
    vents = [piece for piece in model.joinery.pieces if piece.system == "vent"]
    assert len(vents) == 2
    assert all(piece.cut <= 60.0 for piece in vents)
    assert sum(piece.cut for piece in vents) == pytest.approx(112.9375 - 2 * 0.0625)
    assert all(not entry.plan.too_long for entry in buy(model))


def test_what_the_store_sells_is_what_is_bought(hand_floor: Floor) -> None:
    sold = (StickForSale("3", 48.0), StickForSale("3", 96.0), StickForSale("1-1/2", 120.0))
    bought = {entry.size: entry.plan for entry in buy(work_out(msgspec.structs.replace(hand_floor(), sticks=sold)))}
    assert {stick.length for stick in bought[3.0].sticks} <= {48.0, 96.0}
    assert {stick.length for stick in bought[1.5].sticks} == {120.0}
    assert bought[3.0].judged_by == "length"


def test_prices_decide_where_all_are_known(hand_floor: Floor) -> None:
    """82.77 in of 3 in pipe and a 6 in longer stub: one 10 ft stick at 20 is cheaper than two of 5 ft at 11."""
    sold = (StickForSale("3", 60.0, 11.0), StickForSale("3", 120.0, 20.0))
    plan = msgspec.structs.replace(hand_floor(), sticks=sold)
    three = next(entry.plan for entry in buy(work_out(plan)) if entry.size == 3.0)
    assert (three.judged_by, three.price, three.counts) == ("price", 20.0, ((120.0, 1),))
    dear = msgspec.structs.replace(plan, sticks=(StickForSale("3", 60.0, 9.0), StickForSale("3", 120.0, 20.0)))
    three = next(entry.plan for entry in buy(work_out(dear)) if entry.size == 3.0)
    assert (three.price, three.counts) == (18.0, ((60.0, 2),))


def test_offcuts_worth_keeping_have_names_of_their_own() -> None:
    sticks = [stick for entry in buy(work_out(read(SAMPLES[0]))) for stick in entry.plan.sticks]
    named = [stick.offcut for stick in sticks if stick.offcut]
    assert named == [f"R{n}" for n in range(1, len(named) + 1)]
    # common practice, no source: six inches are worth keeping
    assert all(bool(stick.offcut) == (stick.left >= 6.0) for stick in sticks)
