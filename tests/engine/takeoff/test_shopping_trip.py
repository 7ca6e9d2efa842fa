"""The shopping list as a trip: spares, what is there, where it is found, what it was made under."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import msgspec
import pytest

from engine.lengths import inches, up
from engine.plan.file import read
from engine.plan.records import OnHand, Plan, StickForSale, Supply
from engine.study import study, work_out
from engine.takeoff.answers import parts_answer
from engine.takeoff.records import Trip, TripLine
from engine.takeoff.schedules import as_csv, schedules, taken_off
from engine.takeoff.supports import supports
from engine.trade.forgotten import check_list, listed
from tests.engine.checks.judged_plans import armed

Floor = Callable[..., Plan]
SAMPLES = sorted((Path(__file__).parents[3] / "samples").glob("*.jway"))


def tripped(plan: Plan, **changes: Any) -> Trip:
    return taken_off(work_out(msgspec.structs.replace(plan, **changes))).trip


def line(trip: Trip, part: str, size: str = "") -> TripLine:
    (found,) = (one for one in trip.lines if (one.part, one.size) == (part, size))
    return found


def stop_of(trip: Trip, part: str) -> set[str]:
    return {stop.title for stop in trip.stops for one in stop.lines if one.part == part}


def test_it_is_walked_from_the_pipe_to_the_tape(hand_floor: Floor) -> None:
    water = (Supply(id="c1", water="cold", points=((8.0, 6.0), (8.0, 98.0), (24.0, 98.0)), down=3.0),)
    assert [stop.title for stop in tripped(hand_floor(), supplies=water).stops] == [
        "Drain pipe",
        "Drain fittings, 3 in",
        "Drain fittings, 1-1/2 in",
        "Vents and roof",
        "At the fixtures: closet, tub, shower, sinks",
        "Water: tube, fittings, rings, valves",
        "Cement and primer",
        "Straps, blocks, plates, screws",
        "Insulation and tape",
        "Bits and saws for every hole",
    ]


def test_where_things_hang(hand_floor: Floor) -> None:
    trip = tripped(hand_floor())
    assert stop_of(trip, "wye") == {"Drain fittings, 3 in"}  # a 3x3x1-1/2 hangs with the 3 in
    assert stop_of(trip, "roof flashing") == {"Vents and roof"}
    assert stop_of(trip, "closet seal") == {"At the fixtures: closet, tub, shower, sinks"}
    assert stop_of(trip, "primer, ASTM F656") == {"Cement and primer"}


@pytest.mark.parametrize(("share", "spares"), [(0.0, 0), (0.1, 1), (0.5, 1), (0.51, 2), (2.0, 4)])
def test_spares_are_rounded_up_for_each_kind_and_size(hand_floor: Floor, share: float, spares: int) -> None:
    """Two 3 in quarter bends: 10 % of 2 is 0.2, one spare; 51 % is 1.02, two."""
    found = line(tripped(hand_floor(), spares=share), "quarter bend", "3")
    assert (found.need, found.spares, found.buy) == (2, spares, 2 + spares)


def test_no_spares_of_pipe_cement_or_dear_parts(hand_floor: Floor) -> None:
    water = (Supply(id="c1", water="cold", points=((8.0, 6.0), (8.0, 98.0), (24.0, 98.0)), down=3.0),)
    trip = tripped(hand_floor(), supplies=water, spares=1.0)
    assert all(one.spares == 0 for stop in trip.stops[:1] for one in stop.lines)
    for part in ("PVC cement, ASTM D2564", "primer, ASTM F656", "angle stop"):
        assert line(trip, part).spares == 0
    assert line(trip, "closet bolt set").spares == 1


def test_what_is_there_is_taken_off(hand_floor: Floor) -> None:
    there = (OnHand("quarter bend", "3", 1), OnHand("closet seal", "", 5), OnHand("anvil", "", 1))
    trip = tripped(hand_floor(), on_hand=there)
    bend, seal = line(trip, "quarter bend", "3"), line(trip, "closet seal")
    assert (bend.wanted, bend.on_hand, bend.buy) == (3, 1, 2)
    assert (seal.wanted, seal.on_hand, seal.buy) == (2, 5, 0)
    assert trip.unknown == ("anvil",)


def test_cold_and_hot_are_one_line_of_a_trip() -> None:
    trip = taken_off(work_out(read(SAMPLES[0]))).trip
    rings = line(trip, "crimp ring, copper", "1/2")
    assert rings.systems == ("cold", "hot")
    answer = parts_answer(study(read(SAMPLES[0])))
    by_system = [one for one in answer["parts"] if (one["part"], one["size"]) == ("crimp ring, copper", "1/2")]
    assert sum(one["count"] for one in by_system) == rings.need


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_one_ring_for_each_end_of_tube_in_a_fitting(path: Path) -> None:
    """A tee takes three, an elbow and a coupling two, whatever ends a tube one."""
    ends = {"tube_tee": 3, "tube_elbow": 2, "tube_reducing_elbow": 2, "tube_reducing_coupling": 2, "heater_valve": 2}
    ends |= dict.fromkeys(("main_valve", "tube_plug", "tube_adapter", "tube_stub_elbow"), 1)
    model = work_out(read(path))
    wanted = sum(ends.get(part.kind, 0) for part in model.joinery.parts)
    rings = [one for one in taken_off(model).trip.lines if one.kind == "tube_ring"]
    assert sum(one.need for one in rings) == wanted


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_part_of_the_joinery_is_on_the_trip(path: Path) -> None:
    model = work_out(read(path))
    needed = {(one.kind, one.size): one.need for one in taken_off(model).trip.lines}
    from engine.takeoff.partnames import size_words

    counts: dict[tuple[str, str], int] = {}
    for part in model.joinery.parts:
        key = (part.kind, size_words(part.size))
        counts[key] = counts.get(key, 0) + 1
    assert {key: needed.get(key) for key in counts} == counts


def test_screws_by_what_they_hold(hand_floor: Floor) -> None:
    """Common practice, no source: four for a block, two for a strap or guide."""
    plan = hand_floor()
    each = {"block": 4, "base": 4, "strap": 2, "guide": 2}
    wanted = sum(each.get(one.kind, 0) for one in supports(work_out(plan)))
    assert line(tripped(plan), "hanger screw").need == wanted > 0


def test_lumber_for_the_blocks_by_the_stick(hand_floor: Floor) -> None:
    """Bays of joists 16 in apart are 14-1/2 clear: six blocks with their kerfs come out of 8 ft (6 x 14-5/8 = 87-3/4)."""
    plan = hand_floor()
    blocks = [one.block for one in supports(work_out(plan)) if one.block is not None]
    # the branch's last one, beside the main, stands out from one joist only
    assert blocks == [14.5, 14.5, pytest.approx(8.7), 14.5, 14.5]
    assert line(tripped(plan), "2x4 for blocks").need == 1
    assert "5 blocks, 66 11/16 in together" in line(tripped(plan), "2x4 for blocks").why


def test_strap_off_the_roll_for_what_hangs(hand_floor: Floor) -> None:
    plan = hand_floor(pinned=-14.0)
    drains = (msgspec.structs.replace(plan.drains[0], passing="under"), *plan.drains[1:])
    plan = msgspec.structs.replace(plan, drains=drains)
    held = supports(work_out(plan))
    hung = [up(one.strap) for one in held if one.strap is not None]
    roll = line(tripped(plan), "hanger strap, plastic")
    assert (roll.unit, roll.need, roll.spares) == ("10 ft roll", 1, 0)
    assert f"{len(hung)} straps, {inches(sum(hung))} in together" in roll.why
    assert sum(hung) <= 120.0


def test_a_bored_plate_of_a_bearing_wall_is_tied(hand_floor: Floor) -> None:
    """IRC 2021 R602.6.1: 2-1/8 in bored is more than half of 3-1/2; eight nails at each side."""
    plan = hand_floor()
    assert not [one for one in tripped(plan).lines if one.kind == "plate_tie"]
    bearing = tuple(msgspec.structs.replace(wall, bearing=wall.id == "p1") for wall in plan.walls)
    trip = tripped(plan, walls=bearing)
    assert line(trip, "top plate tie").need == 1
    assert line(trip, "10d nail, 1-1/2 in").need == 16


def test_a_wide_plate_needs_no_tie(hand_floor: Floor) -> None:
    """2-1/8 in is less than half of a 2x6's 5-1/2."""
    plan = hand_floor()
    wide = tuple(
        msgspec.structs.replace(wall, bearing=True, lumber="2x6") if wall.id == "p1" else wall for wall in plan.walls
    )
    assert not [one for one in tripped(plan, walls=wide).lines if one.kind == "plate_tie"]


def test_it_says_under_which_book_it_was_made(hand_floor: Floor) -> None:
    assert "IRC 2021" in tripped(hand_floor()).made_under
    assert "UPC 2021" in tripped(hand_floor(), rulebook="upc-2021").made_under
    assert "with it this list changes too" in tripped(hand_floor()).made_under


def test_the_list_changes_with_the_book(hand_floor: Floor) -> None:
    """A 3 in quarter bend under a closet is the residential code's own exception (IRC 2021 P3005.1.4)."""
    irc, upc = (tripped(hand_floor(), rulebook=book) for book in ("irc-2021", "upc-2021"))
    assert {(one.part, one.size, one.need) for one in irc.lines} != {
        (one.part, one.size, one.need) for one in upc.lines
    }


def test_prices_are_summed_where_they_are_known(hand_floor: Floor) -> None:
    sold = (StickForSale("3", 120.0, 21.5), StickForSale("1-1/2", 240.0, 14.25))
    trip = tripped(hand_floor(), sticks=sold)
    pipe = {one.size: one for one in trip.stops[0].lines}
    assert (pipe["3"].part, pipe["3"].price) == ("PVC pipe, 10 ft stick", 21.5 * pipe["3"].buy)
    assert (pipe["1-1/2"].part, pipe["1-1/2"].price) == ("PVC pipe, 20 ft stick", 14.25 * pipe["1-1/2"].buy)


def test_sticks_on_hand_are_taken_off(hand_floor: Floor) -> None:
    sold = (StickForSale("3", 120.0, 21.5),)
    trip = tripped(hand_floor(), sticks=sold, on_hand=(OnHand("PVC pipe, 10 ft stick", "3", 1),))
    three = next(one for one in trip.stops[0].lines if one.size == "3")
    assert (three.buy, three.price) == (three.need - 1, 21.5 * (three.need - 1))


def test_the_check_list_fits_the_job(hand_floor: Floor) -> None:
    pvc, abs_ = tripped(hand_floor()), tripped(hand_floor(), material="ABS")
    assert any("Primer" in words for words in pvc.check_list)
    assert any("No primer for ABS" in words for words in abs_.check_list)
    assert not any("shower" in words for words in pvc.check_list[1:])
    assert any("shower base" in words for words in taken_off(work_out(read(SAMPLES[-1]))).trip.check_list)


def test_a_disposer_is_thought_of_where_a_sink_has_one() -> None:
    for has in (True, False):
        lines = taken_off(work_out(armed("kitchen_sink", 12.0, disposer=has))).trip.check_list
        assert any("disposer" in words for words in lines) is has


def test_every_line_of_the_check_list_can_be_asked_for() -> None:
    assert len(check_list({line.when for line in listed()})) == len(listed()) > 15
    assert check_list(()) == ()


def test_an_empty_floor_asks_for_nothing(hand_floor: Floor) -> None:
    trip = tripped(Plan(floor=hand_floor().floor))
    assert (trip.stops, trip.check_list) == ((), ())


def test_the_answer_for_programs_holds_the_trip(hand_floor: Floor) -> None:
    plan = msgspec.structs.replace(hand_floor(), on_hand=(OnHand("quarter bend", "3", 1),))
    answer = parts_answer(study(plan))["trip"]
    rows = [row for stop in answer["stops"] for row in stop["lines"]]
    (bend,) = (row for row in rows if (row["part"], row["size"]) == ("quarter bend", "3"))
    assert (bend["need"], bend["spares"], bend["on_hand"], bend["buy"]) == (2, 1, 1, 2)


def test_the_table_for_a_spreadsheet(hand_floor: Floor) -> None:
    found = study(msgspec.structs.replace(hand_floor(), on_hand=(OnHand("closet seal", "", 2),)))
    (table,) = (one for one in schedules(found, taken_off(found.model)) if one.name == "shopping-list")
    seal = next(row for row in table.rows if row[table.columns.index("part")] == "closet seal")
    named = dict(zip(table.columns, seal, strict=True))
    assert (named["done"], named["buy"], named["need"], named["on hand"]) == ("x", 0, 1, 2)
    assert as_csv(table).startswith("done,buy,unit,part,size,where in the store,")
