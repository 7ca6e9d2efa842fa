"""A half bath's fittings against a published list: one closet, one lavatory, under both rule books.

Source: a trade page on plumbing a bathroom and a plumbers' guide. International-code column: sanitary tees
1-1/2 x 2 and 3 x 1; wye 3x3x1-1/2 with a 45; 3 in long-turn combination; 1-1/2 quarter bend; closet bend 4x3 and
flange; 1-1/2 trap and adapter; 3 in cleanout adapter and plug; bushing 3 x 1-1/2. Uniform-code column: the closet's
vent is 2 in, so one tee is 2x2x1-1/2 and the bushing 3 x 2.
"""

from __future__ import annotations

from collections import Counter

import msgspec
import pytest

from engine.plan.records import (
    Cleanout,
    Drain,
    Exit,
    Fixture,
    Floor,
    PinnedFitting,
    Plan,
    Riser,
    Vent,
)
from engine.study import Study, study


@pytest.fixture
def half_bath() -> Plan:
    """Over a crawl space: the closet's arm runs to an upright 3 in, which drops to a main below.

    The closet's vent goes through the roof. The lavatory comes straight down onto the main; its vent runs over and
    into the closet's, 42 in above the floor.
    """
    return Plan(
        floor=Floor(outline=((0, 0), (120, 0), (120, 108), (0, 108))),
        drains=(
            Drain(id="d1", points=((24, 100), (24, 84)), size="3", join="drop", rise=20.0),
            Drain(id="d2", points=((24, 84), (24, 50), (24, 20)), size="3"),
        ),
        vents=(Vent(id="v1", points=((24, 50), (24, 84)), above_floor=42.0),),
        fixtures=(
            Fixture(id="wc1", kind="water_closet", at=(24, 100)),
            Fixture(id="lav1", kind="lavatory", at=(24, 50), turn=0),
        ),
        risers=(Riser(id="r1", at=(24, 84)), Riser(id="r2", at=(24, 50), top="none")),
        fittings=(
            PinnedFitting(id="p1", at=(24, 100), pattern="closet_bend"),
            PinnedFitting(id="p2", at=(24, 50), pattern="wye"),
        ),
        cleanouts=(Cleanout(id="k1", at=(24, 84)),),
        exits=(Exit(id="x1", at=(24, 20), how="through-rim"),),
    )


def counted(found: Study) -> Counter[tuple[str, tuple[float, ...]]]:
    return Counter((part.kind, part.size) for part in found.model.joinery.parts)


def test_the_published_list(half_bath: Plan) -> None:
    found = study(half_bath)
    assert [f.text for f in found.findings if f.weight == "stop"] == []
    parts = counted(found)
    glued = {
        kind: n
        for kind, n in parts.items()
        if kind[0] not in ("closet_bolts", "flange_screws", "closet_seal", "test_cap", "test_plug")
    }
    assert glued == {
        ("sanitary_tee", (1.5, 1.5, 1.5)): 2,
        ("sanitary_tee", (3.0, 3.0, 3.0)): 1,
        ("wye", (3.0, 3.0, 1.5)): 1,
        ("street_eighth_bend", (1.5, 1.5)): 1,
        ("combo_wye_eighth_bend", (3.0, 3.0, 3.0)): 1,
        # the list's 1-1/2 quarter bend stands in the dry vent, where the short vent pattern does
        ("vent_quarter_bend", (1.5, 1.5)): 1,
        ("closet_bend", (4.0, 3.0)): 1,
        ("closet_flange_hub", (4.0, 4.0)): 1,
        ("tubular_trap", (1.25,)): 1,
        ("trap_adapter_spigot", (1.5, 1.25)): 1,
        ("cleanout_adapter_spigot_fpt", (3.0, 3.0)): 1,
        ("cleanout_plug", (3.0,)): 1,
        ("flush_bushing", (3.0, 1.5)): 1,
        ("vent_flashing", (1.5,)): 1,
    }


def test_the_published_list_under_the_uniform_code(half_bath: Plan) -> None:
    found = study(msgspec.structs.replace(half_bath, rulebook="upc-2021"))
    irc, upc = counted(study(half_bath)), counted(found)
    assert upc - irc == {
        ("sanitary_tee", (2.0, 2.0, 1.5)): 1,
        ("flush_bushing", (3.0, 2.0)): 1,
        ("vent_flashing", (2.0,)): 1,
    }
    assert irc - upc == {
        ("sanitary_tee", (1.5, 1.5, 1.5)): 1,
        ("flush_bushing", (3.0, 1.5)): 1,
        ("vent_flashing", (1.5,)): 1,
    }


def test_both_traps_are_vented(half_bath: Plan) -> None:
    traps = {trap.fixture: trap.method for trap in study(half_bath).model.network.traps}
    assert traps == {"wc1": "individual vent", "lav1": "individual vent"}


def test_wye_and_eighth_bend_by_the_composition_rule(half_bath: Plan) -> None:
    model = study(half_bath).model
    wye = next(part for part in model.joinery.parts if part.kind == "wye")
    bend = next(part for part in model.joinery.parts if part.kind == "street_eighth_bend")
    # 3x3x1-1/2 wye: branch 3.4375, run in 3.125, run out 0.25 (assumed by geometry); street eighth bend: hub 1.125,
    # tip 1.8125 (estimate). back = 0.70711 (3.4375 + 1.8125) = 3.7123
    back = 0.7071068 * (3.4375 + 1.8125)
    assert wye.ports[0].takeoff.length == pytest.approx(3.125 - back, abs=1e-4)
    assert wye.ports[1].takeoff.length == pytest.approx(0.25 + back, abs=1e-4)
    assert bend.ports[1].takeoff.length == pytest.approx(1.125 + back, abs=1e-4)
    assert wye.centre[1] == pytest.approx(50.0 - back, abs=1e-4)
