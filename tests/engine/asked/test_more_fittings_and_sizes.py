"""Made-up cases of the usual kinds about fittings and drain sizes: IRC 2021 P3005; UPC 2021 Tables 702.1, 703.2, 704, 706.

Units are the tables': tub, shower, kitchen sink and laundry tub 2, a lavatory 1, a closet 3, a washer 2 (IRC) or 3 (UPC).
"""

from __future__ import annotations

from msgspec.structs import replace

from engine.plan.records import Drain, Fixture, PinnedFitting, Plan, Riser
from tests.engine.asked.asked_plans import floor, leaving, run
from tests.engine.asked.made_up import Case, Said, asked_of, both, held
from tests.engine.checks.vented_plans import column

TURN, LOAD, PAST, NARROWS = "turn-in-wrong-fitting", "drain-too-small", "drain-too-small-past-arm", "drain-gets-smaller"
UNLIKE, PUMPED, BACK = "double-fitting-unlike", "double-tee-takes-pumped", "double-tee-back-to-back"
WALL = ("lavatory", "kitchen_sink", "washer_standpipe", "laundry_tub")


def at_the_foot(pattern: str, size: str) -> Plan:
    """A lavatory's upright drain that turns level in a fitting chosen by hand."""
    at = (100.0, 40.0)
    return floor(
        fixtures=(Fixture("lav", "lavatory", at, turn=90.0),),
        drains=(run(at, (20.0, 40.0), size=size),),
        risers=(Riser("r1", at, size=size),),  # type: ignore[arg-type]
        exits=leaving((20.0, 40.0)),
        fittings=(PinnedFitting("p1", at, pattern),),  # type: ignore[arg-type]
    )


def side_by_side(pattern: str) -> Plan:
    """Two vented showers whose level 2 in drains meet square in a fitting chosen by hand."""
    return floor(
        fixtures=(Fixture("sh1", "shower", (100.0, 80.0)), Fixture("sh2", "shower", (160.0, 40.0))),
        drains=(
            run((160.0, 40.0), (130.0, 40.0), (100.0, 40.0), (20.0, 40.0), size="2"),
            run((100.0, 80.0), (100.0, 60.0), (100.0, 40.0), id="d2", size="2"),
        ),
        risers=(Riser("r1", (130.0, 40.0)), Riser("r2", (100.0, 60.0))),
        exits=leaving((20.0, 40.0)),
        fittings=(PinnedFitting("p1", (100.0, 40.0), pattern),),  # type: ignore[arg-type]
    )


def double_tee(one: str, other: str, height: float, size: str) -> Plan:
    """Two fixtures opposite each other at one double tee in the wall."""
    plan = column((one, height), (other, height), size=size)
    return replace(plan, fittings=(PinnedFitting("p1", plan.risers[0].at, "sanitary_tee", level="wall"),))


def two_sizes(kind: str, first: str, second: str) -> Plan:
    """A fixture vented 20 in down its drain, which changes size on the way."""
    return floor(
        fixtures=(Fixture("f", kind, (200.0, 40.0)),),  # type: ignore[arg-type]
        drains=(
            run((200.0, 40.0), (180.0, 40.0), (120.0, 40.0), id="a", size=first),
            run((120.0, 40.0), (20.0, 40.0), id="b", size=second),
        ),
        risers=(Riser("r1", (180.0, 40.0)),),
        exits=leaving((20.0, 40.0)),
    )


def in_the_wall(kind: str, size: str) -> Plan:
    """A wall fixture on an upright and a level drain of one size."""
    at = (200.0, 40.0)
    return floor(
        fixtures=(Fixture("f", kind, at, turn=90.0),),  # type: ignore[arg-type]
        drains=(run(at, (20.0, 40.0), id="d1", size=size),),
        risers=(Riser("r1", at, size=size),),  # type: ignore[arg-type]
        exits=leaving((20.0, 40.0)),
    )


def house(*kinds: str, size: str) -> Plan:
    """Fixtures 40 in apart, each on a vent of its own, whose drains join one main square from the north."""
    fixtures: list[Fixture] = []
    drains: list[Drain] = []
    joints = [(440.0 - 40.0 * number, 20.0) for number in range(len(kinds))]
    for number, (kind, joint) in enumerate(zip(kinds, joints, strict=True)):
        riser = (joint[0], 60.0)
        start = riser if kind in WALL else (joint[0], 100.0)
        own = "3" if kind == "water_closet" else "2"
        fixtures.append(
            Fixture(f"f{number}", kind, start, turn=90.0, trap_at=start if kind == "bathtub" else None)  # type: ignore[arg-type]
        )
        drains.append(run(*dict.fromkeys((start, riser, joint)), id=f"b{number}", size=own))
    return floor(
        fixtures=tuple(fixtures),
        drains=(*drains, run(*joints, (20.0, 20.0), id="m", size=size)),
        risers=tuple(Riser(f"r{n}", (x, 60.0), size="2") for n, (x, _) in enumerate(joints)),
        exits=leaving((20.0, 20.0)),
    )


FITTINGS = (
    Case("quarter bend under a 2 in lavatory drain", "Table P3005.1 note a, UPC 706.4", at_the_foot("quarter_bend", "2"), {TURN: []}, {TURN: [(90.0, None)]}),
    both("quarter bend under 3 in", "the same", at_the_foot("quarter_bend", "3"), {TURN: [(90.0, None)]}),
    both("long sweep under it", "the same", at_the_foot("long_sweep_quarter_bend", "2"), {TURN: []}),
    both("tee on its side", "Table P3005.1, UPC 706.3", side_by_side("sanitary_tee"), {TURN: [(90.0, None)]}),
    both("combination on its side", "the same", side_by_side("combo_wye_eighth_bend"), {TURN: []}),
    # the UPC: barrel two sizes over the branches
    Case("lavatories on a double tee", "IRC P3005.1.1, UPC 706.2, 704.2", double_tee("lavatory", "lavatory", 18.0, "1-1/2"), {UNLIKE: [], PUMPED: [], BACK: [], TURN: []}, {TURN: [(1.5, 2.5)], BACK: [(None, None)]}),
    Case("lavatory opposite a sink", "IRC P3005.1.1", double_tee("lavatory", "kitchen_sink", 18.0, "2"), {UNLIKE: [], PUMPED: []}, None),
    Case("washer opposite a laundry tub", "IRC P3005.1.1", double_tee("washer_standpipe", "laundry_tub", 14.0, "2"), {PUMPED: [(None, None)], UNLIKE: [(None, None)]}, None),
    both("4 in made 3", "IRC P3005.1.7, UPC 310.5", two_sizes("water_closet", "4", "3"), {NARROWS: [(3.0, 4.0)]}),
    both("2 in made 3", "the same", two_sizes("shower", "2", "3"), {NARROWS: []}),
)  # fmt: skip

SIZES = (
    Case("kitchen sink on 1-1/2", "Table 702.1 note, Table 703.2", in_the_wall("kitchen_sink", "1-1/2"), {LOAD: [], PAST: []}, {LOAD: [(2.0, 1.0)], PAST: [(1.5, 2.0)] * 2, "sink-on-small-stack": [(1.5, 2.0)]}),
    both("kitchen sink on 2", "the same", in_the_wall("kitchen_sink", "2"), {LOAD: [], PAST: [], "sink-on-small-stack": []}),
    Case("laundry tub on 1-1/2", "Table 703.2", in_the_wall("laundry_tub", "1-1/2"), {LOAD: []}, {LOAD: [(2.0, 1.0)]}),
    both("lavatory on 1-1/2", "Tables P3005.4.1, 703.2", in_the_wall("lavatory", "1-1/2"), {LOAD: [], PAST: []}),
    both("closet on 2", "IRC P3005.4.1 note b, UPC Table 703.2 note", two_sizes("water_closet", "2", "2"), {"closet-drain-too-small": [(2.0, 3.0), (2.0, 3.0)]}),
    # 2 + 2 + 1 + 2 units
    Case("tub, shower, lavatory, sink on 2: 7 units", "Table 703.2", house("bathtub", "shower", "lavatory", "kitchen_sink", size="2"), None, {LOAD: []}),
    # 2 + 2 + 2 + 3 units
    Case("tub, shower, sink, washer on 2: 9 units", "Table 703.2", house("bathtub", "shower", "kitchen_sink", "washer_standpipe", size="2"), None, {LOAD: [(9.0, 8.0)]}),
    both("washer and laundry tub on 2", "Tables P3005.4.1, 703.2", house("washer_standpipe", "laundry_tub", size="2"), {LOAD: []}),
    both("a small house on 3", "the same", house("water_closet", "lavatory", "bathtub", "kitchen_sink", "washer_standpipe", size="3"), {LOAD: [], NARROWS: [], "trap-without-vent": [], "closets-too-many-on-drain": []}),
    # three to the 2018 edition; later ones may take five, from memory
    Case("four closets on 3", "UPC Table 703.2, note", house(*["water_closet"] * 4, size="3"), {"closets-too-many-on-drain": []}, {"closets-too-many-on-drain": [(4.0, 3.0)]}),
)  # fmt: skip


@asked_of(FITTINGS)
def test_fittings(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)


@asked_of(SIZES)
def test_sizes(plan: Plan, book: str, said: Said) -> None:
    held(plan, book, said)
