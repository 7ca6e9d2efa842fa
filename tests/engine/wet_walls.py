"""A plan with much in its walls: risers, tees, a cleanout, water tube, a bored vent, a notched one, ties, a single top plate."""

from __future__ import annotations

from engine.plan.records import (
    Cleanout,
    Drain,
    Exit,
    Fixture,
    Floor,
    JoistField,
    Plan,
    Riser,
    Supply,
    Vent,
    Wall,
)


def wet_walls() -> Plan:
    """Three walls on a floor 20 ft by 10 ft: an outside one at its west, a 2x6 across the middle, a short bearing one."""
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (240.0, 0.0), (240.0, 120.0), (0.0, 120.0))),
        fields=(JoistField("j", (0.0, 0.0), (240.0, 120.0)),),
        name="Wet walls",
        walls=(
            Wall("w", (1.75, 0.0), (1.75, 120.0), bearing=True, exterior=True, name="west wall"),
            Wall("a", (100.0, 3.5), (100.0, 116.5), lumber="2x6", name="wet wall", first_stud=12.0, doubled=(3,)),
            Wall("n", (60.0, 100.0), (20.0, 100.0), bearing=True, name="short wall", top_plate="single"),
            Wall("s", (0.0, 1.75), (240.0, 1.75), exterior=True, name="south wall"),
        ),
        fixtures=(
            Fixture("l", "lavatory", (100.0, 30.0), turn=180.0, name="left basin"),
            Fixture("k", "lavatory", (100.0, 33.0), turn=0.0, name="right basin"),
            Fixture("t", "kitchen_sink", (1.75, 60.0), turn=0.0, name="sink"),
            Fixture("q", "lavatory", (40.0, 100.0), turn=270.0),
        ),
        drains=(
            Drain("d", ((100.0, 30.0), (20.0, 30.0)), size="1-1/2"),
            Drain("e", ((100.0, 33.0), (140.0, 33.0)), size="1-1/2"),
            Drain("f", ((1.75, 60.0), (30.0, 60.0)), size="2"),
            Drain("g", ((40.0, 100.0), (40.0, 60.0)), size="1-1/2"),
        ),
        risers=(
            Riser("r1", (100.0, 30.0), wall="a", size="1-1/2", vent="1-1/2", top="none"),
            Riser("r2", (100.0, 33.0), wall="a", size="1-1/2", vent="1-1/2"),
            Riser("r3", (100.0, 90.0), wall="a", vent="2"),
            Riser("r4", (1.75, 60.0), wall="w", size="2", vent="1-1/2"),
            Riser("r5", (40.0, 100.0), wall="n", size="1-1/2", vent="1-1/2"),
        ),
        vents=(
            Vent("v1", ((100.0, 30.0), (100.0, 90.0)), above_floor=45.0, size="1-1/2"),
            Vent("v2", ((101.7, 20.0), (101.7, 70.0)), above_floor=60.0, size="1-1/2", passing="notched", slope=0.0),
        ),
        cleanouts=(Cleanout("co", (1.75, 60.0), above_floor=24.0),),
        supplies=(
            Supply("c1", "cold", ((120.0, 26.0), (100.0, 26.0))),
            Supply("h1", "hot", ((120.0, 37.0), (100.0, 37.0))),
        ),
        exits=(
            Exit("x1", (20.0, 30.0)),
            Exit("x2", (140.0, 33.0)),
            Exit("x3", (30.0, 60.0)),
            Exit("x4", (40.0, 60.0)),
        ),
    )
