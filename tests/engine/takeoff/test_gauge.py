"""The gauge sheet: exactly the legs that a cut or a height rests on, held against changing each leg and cutting again."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import msgspec
import pytest

from engine.checks.model import Model
from engine.lengths import LengthError
from engine.plan.file import read
from engine.plan.records import MeasuredTakeOff, Plan
from engine.study import work_out
from engine.takeoff.gauge import Gauge, gauge, least, measures, question_of, taken_over, written_down
from engine.takeoff.measuring import ITS_OWN_STOP, measuring, read_measure
from engine.takeoff.resting import LegOf, Resting
from engine.trade.fittings import KINDS, LegName, Size, size_label, takeoff
from tests.engine.joinery.vent_nodes import NODES

Floor = Callable[..., Plan]
SAMPLES = sorted((Path(__file__).parents[3] / "samples").glob("*.jway"))
MORE = 1.0 / 64.0
SEEN = 1.0 / 512.0


def pinned(plan: Plan) -> Plan:
    """A plan with its exits where they lie, so that no height moves by itself."""
    chosen = {window.exit: window.chosen for window in work_out(plan).windows}
    return msgspec.structs.replace(
        plan, exits=tuple(msgspec.structs.replace(exit_, pinned_z=chosen[exit_.id]) for exit_ in plan.exits)
    )


def longer(plan: Plan, kind: str, size: Size, leg: LegName) -> Model:
    """The plan worked out with one leg measured a 1/64 in longer than it stands."""
    length = takeoff(kind, size, leg, plan.takeoffs).length + MORE
    row = MeasuredTakeOff(kind, size_label(size), leg, length)
    return work_out(msgspec.structs.replace(plan, takeoffs=(*plan.takeoffs, row)))


def changed(before: Model, after: Model) -> set[str]:
    """Marks of pieces whose length or tolerance differs."""
    old = {piece.mark: piece for piece in before.joinery.pieces}
    return {
        piece.mark
        for piece in after.joinery.pieces
        if abs(piece.cut - old[piece.mark].cut) > SEEN or piece.tolerance != old[piece.mark].tolerance
    }


def bounds_moved(before: Model, after: Model) -> bool:
    pairs = zip(before.windows, after.windows, strict=True)
    return any(
        abs(a - b) > SEEN
        for old, new in pairs
        for a, b in (
            *zip((bound.z for bound in old.bounds), (bound.z for bound in new.bounds), strict=True),
            *zip((z for z, _ in old.others), (z for z, _ in new.others), strict=True),
        )
    )


def run_of(model: Model, marks: set[str]) -> set[str]:
    """Pieces with all those that couplings join to them: a difference may fall to any of a run."""
    couplings = {part.id for part in model.joinery.parts if part.kind == "coupling"}
    found = set(marks)
    while True:
        held = {
            end
            for piece in model.joinery.pieces
            if piece.mark in found
            for end in (piece.from_part, piece.to_part)
            if end in couplings
        }
        more = {p.mark for p in model.joinery.pieces if held & {p.from_part, p.to_part}} - found
        if not more:
            return found
        found |= more


def legs_of(model: Model) -> Iterator[LegOf]:
    """Every leg of every fitting of the job, and of the bushings."""
    fittings = {(part.kind, part.size) for part in model.joinery.parts if part.kind in KINDS}
    fittings |= {(leg.kind, leg.size) for leg in Resting(model).legs()}
    for kind, size in sorted(fittings):
        for leg in KINDS[kind].legs:
            yield LegOf(kind, size, leg)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_exactly_what_a_longer_leg_changes_is_listed(path: Path) -> None:
    assert listed_exactly(read(path)) > 20


@pytest.mark.parametrize("name", [name for name in NODES if "drop" not in name])
def test_so_it_is_for_every_node_of_the_ways_of_venting(name: str) -> None:
    """Runs that drop by an open height are left out: there a longer leg moves the drain above it too."""
    assert listed_exactly(NODES[name]) > 5


def listed_exactly(drawn: Plan) -> int:
    """Make each leg a 1/64 in longer, cut again, and hold what differs against what is listed. How many were looked at."""
    plan = pinned(drawn)
    before = work_out(plan)
    resting = Resting(before)
    looked = 0
    for leg in legs_of(before):
        after = longer(plan, *leg)
        listed = set(resting.pieces.get(leg, ()))
        differs = changed(before, after)
        assert differs <= run_of(before, listed), f"{leg} changes {differs}, {listed} is listed"
        if leg.kind != "coupling" or leg.leg == "run_in":
            assert bool(differs) == bool(listed), f"{leg} changes {differs}, {listed} is listed"
        alone = {mark for mark in differs | listed if run_of(before, {mark}) == {mark}}
        assert differs & alone == listed & alone
        if leg.kind != "p_trap":
            assert bounds_moved(before, after) == any("how high" in said for said in resting.holds(leg)), leg
        looked += 1
    return looked


def test_a_trap_outlet_sets_its_weir() -> None:
    plan = pinned(read(SAMPLES[-1]))
    before = work_out(plan)
    assert any("weir" in said for said in Resting(before).holds(LegOf("p_trap", (2.0, 2.0), "run_out")))
    after = longer(plan, "p_trap", (2.0, 2.0), "run_out")
    arms = [[trap.weir for trap in model.network.traps if trap.fixture == "sh1"] for model in (before, after)]
    assert arms[1][0] - arms[0][0] == pytest.approx(MORE)


@pytest.fixture
def sheet(hand_floor: Floor) -> dict[str, Gauge]:
    return {gauged.name: gauged for gauged in gauge(work_out(hand_floor()))}


def test_the_fittings_of_the_closet_and_lavatory(sheet: dict[str, Gauge]) -> None:
    """Each counted by hand on the drawing; trap adapter and flashing are nothing whoever made them."""
    assert {name: gauged.count for name, gauged in sheet.items()} == {
        "closet flange 4 x 3": 1,
        "quarter bend 3": 2,
        "wye 3x3x1-1/2": 1,
        "long-sweep quarter bend 1-1/2": 1,
        "eighth bend 1-1/2": 1,
        "sanitary tee 1-1/2": 1,
        "coupling 1-1/2": 1,
    }


def test_letters_legs_and_what_stands(sheet: dict[str, Gauge]) -> None:
    (bend,) = sheet["quarter bend 3"].legs
    assert (bend.letter, bend.legs, bend.stands, bend.standing) == ("A", ("run_in", "run_out"), 3.0625, "memory")
    wye = {leg.letter: leg for leg in sheet["wye 3x3x1-1/2"].legs}
    # Modern Plumbing gives no wye: outsides that just clear, 3.500 / 2 + 0.7071 x 1.900 = 3.0935, up to 3-1/8
    assert {letter: leg.stands for letter, leg in wye.items()} == {"A": 3.125, "B": 0.25, "C": 3.4375}
    assert {leg.standing for leg in wye.values()} == {"assumed"}
    assert {letter: leg.socket for letter, leg in wye.items()} == {"A": 1.5, "B": 1.5, "C": 0.6875}


def test_what_each_leg_changes(sheet: dict[str, Gauge]) -> None:
    tee = {leg.name: leg for leg in sheet["sanitary tee 1-1/2"].legs}
    assert set(tee) == {"upper hub", "lower hub"}  # no pipe enters its branch, whose trap adapter fills it
    assert tee["upper hub"].pieces == ("V1",)
    assert tee["lower hub"].holds == ("how high the drain may lie under r1",)


@pytest.mark.parametrize(
    ("kind", "leg", "shown", "stored"),
    [
        ("quarter_bend", "run_in", 3.0625, 3.0625),
        ("p_trap", "run_in", 2.3125, -2.3125),
        ("p_trap", "run_out", 6.9375, 6.9375),
        ("coupling", "run_in", 0.125, 0.0625),
        ("street_quarter_bend", "run_out", 4.5625, 4.5625),
    ],
)
def test_what_a_rule_shows_and_what_a_take_off_is(kind: str, leg: LegName, shown: float, stored: float) -> None:
    way = measuring(kind, leg)
    assert way.takeoff(shown) == stored
    assert way.measured(stored) == shown


def test_one_measure_of_a_bend_is_both_its_legs(hand_floor: Floor, sheet: dict[str, Gauge]) -> None:
    bend = sheet["quarter bend 3"]
    rows = measures(bend, bend.legs[0], 3.0)
    assert rows == (
        MeasuredTakeOff("quarter_bend", "3x3", "run_in", 3.0),
        MeasuredTakeOff("quarter_bend", "3x3", "run_out", 3.0),
    )
    plan = msgspec.structs.replace(hand_floor(), takeoffs=rows)
    again = next(one for one in gauge(work_out(plan)) if one.name == bend.name)
    assert again.measured
    assert (again.legs[0].stands, again.legs[0].tolerance) == (3.0, 1.0 / 16.0)


def test_legs_measured_apart_stand_apart(hand_floor: Floor) -> None:
    rows = (MeasuredTakeOff("quarter_bend", "3", "run_in", 3.0), MeasuredTakeOff("quarter_bend", "3", "run_out", 3.125))
    found = gauge(work_out(msgspec.structs.replace(hand_floor(), takeoffs=rows)))
    bend = next(one for one in found if one.name == "quarter bend 3")
    assert [(leg.letter, leg.stands) for leg in bend.legs] == [("A", 3.0), ("B", 3.125)]


def test_a_face_not_taken_off_is_asked_about() -> None:
    """A 3 in quarter bend is 3-1/16 to the stop and its socket 1-1/2 deep: 4-9/16 is the face."""
    stands = takeoff("quarter_bend", (3.0, 3.0), "run_in")
    face = MeasuredTakeOff("quarter_bend", "3", "run_in", 4.5625)
    assert "Was it taken off the hub's face?" in question_of(face, stands, 1.5)
    assert question_of(MeasuredTakeOff("quarter_bend", "3", "run_in", 3.0), stands, 1.5) == ""
    assert "half the outside by the tangent" in question_of(
        MeasuredTakeOff("quarter_bend", "3", "run_in", 1.5), stands, 1.5
    )


def test_the_least_that_a_rule_can_show() -> None:
    assert least("quarter_bend", (3.0, 3.0), "run_in") == pytest.approx(1.75)
    assert least("p_trap", (2.0, 2.0), "run_in") is None


@pytest.mark.parametrize(
    ("text", "length"), [("3 1/16", 3.0625), ("4 9/16 - 1 1/2", 3.0625), ("1 9/16 + 3/4", 2.3125), ("3-1/16", 3.0625)]
)
def test_what_was_written_down_is_read(text: str, length: float) -> None:
    assert read_measure(text) == length


@pytest.mark.parametrize("text", ["", "long", "3 - ", "3 - x", "- 3 -"])
def test_what_is_no_measure_is_told(text: str) -> None:
    with pytest.raises(LengthError, match="is not a length"):
        read_measure(text)


def test_every_kind_says_how_to_measure_each_leg() -> None:
    for kind, shape in KINDS.items():
        if kind in ITS_OWN_STOP or kind.startswith("pex"):
            continue
        for leg in shape.legs:
            way = measuring(kind, leg)
            assert len(way.how) > 15
            assert way.name


def test_an_empty_floor_asks_for_nothing(hand_floor: Floor) -> None:
    assert gauge(work_out(Plan(floor=hand_floor().floor))) == ()


def test_a_measure_is_written_down_and_taken_back(hand_floor: Floor, sheet: dict[str, Gauge]) -> None:
    bend = sheet["quarter bend 3"]
    old = msgspec.structs.replace(hand_floor(), takeoffs=(MeasuredTakeOff("quarter_bend", "3", "run_in", 3.125),))
    plan = written_down(old, bend, bend.legs[0], 3.0)
    assert [(row.leg, row.length) for row in plan.takeoffs] == [("run_in", 3.0), ("run_out", 3.0)]
    assert written_down(plan, bend, bend.legs[0], None) == hand_floor()


def test_what_was_measured_before_is_taken_over_where_nothing_is_known(hand_floor: Floor) -> None:
    own = MeasuredTakeOff("quarter_bend", "3", "run_in", 3.0)
    known = (MeasuredTakeOff("quarter_bend", "3x3", "run_in", 9.0), MeasuredTakeOff("wye", "2", "branch", 2.5))
    odd = (MeasuredTakeOff("knee", "2", "branch", 2.5),)
    plan = taken_over(msgspec.structs.replace(hand_floor(), takeoffs=(own,)), (*known, *odd))
    assert plan.takeoffs == (own, known[1])
    assert taken_over(plan, known) is plan
