"""A plan that is saved and opened again is the same plan, and the same plan is the same bytes."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given, settings
from msgspec.structs import replace

from engine.plan import edits
from engine.plan.file import dumps, loads, read, save
from engine.plan.records import Cleanout, Fixture, Floor, OnHand, Plan, StickForSale
from engine.plan.start import new_floor
from engine.plan.writing import number
from tests.engine.plan.drawn_plans import plans


@given(plans())
@settings(deadline=None)
def test_a_plan_survives_its_file(plan: Plan) -> None:
    raw = dumps(plan)
    again = loads(raw)
    assert again == plan
    assert dumps(again) == raw


def test_through_the_disk(tmp_path: Path) -> None:
    plan = new_floor(120, 240)
    save(plan, tmp_path / "floor.jway")
    assert read(tmp_path / "floor.jway") == plan
    assert [entry.name for entry in tmp_path.iterdir()] == ["floor.jway"]


def test_what_equals_a_default_is_left_out_whoever_made_it() -> None:
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 240.0))
    built = Plan(floor=Floor(outline, subfloor=float("0.75")), name="".join(()))
    assert dumps(built) == dumps(Plan(floor=Floor(outline)))


def test_one_thing_a_line() -> None:
    text = dumps(new_floor(120, 240)).decode()
    assert sum('"id": "w' in line for line in text.splitlines()) == 4
    assert '    {"id": "j1", "corner": [0, 0], "size": [120, 240]}' in text.splitlines()


def test_cleanouts_sticks_and_what_is_on_hand_stand_a_line_each() -> None:
    plan = edits.add_new(new_floor(120, 240), Cleanout, at=(30.5, 40), size="2")
    plan = edits.put_on_hand(edits.sell(plan, StickForSale("3", 120.0, 23.75)), OnHand("cement"))
    lines = dumps(edits.set_plan(plan, spares=0.25)).decode().splitlines()
    begin = lines.index('  "cleanouts": [')
    assert lines[begin : begin + 10] == [
        '  "cleanouts": [',
        '    {"id": "k1", "at": [30.5, 40], "size": "2"}',
        "  ],",
        '  "sticks": [',
        '    {"size": "3", "length": 120, "price": 23.75}',
        "  ],",
        '  "on_hand": [',
        '    {"part": "cement"}',
        "  ],",
        '  "spares": 0.25',
    ]


def test_points_are_put_on_the_grid_when_read() -> None:
    raw = dumps(new_floor(120, 240)).replace(b"[118.25, 3.5]", b"[118.2500001, 3.4999]")
    east = loads(raw).walls[1]
    assert east.start == (118.25, 3.5)


def test_what_is_said_needlessly_is_kept_as_said() -> None:
    plan = new_floor(120, 240)
    field = replace(plan.fields[0], first=16.0)
    tub = Fixture("f1", "bathtub", (60.0, 60.0), turn=-90.0, trap_at=(60.0, 60.0))
    plan = replace(plan, fields=(field,), fixtures=(tub,))
    assert loads(dumps(plan)) == plan


def test_numbers_are_plain_and_exact() -> None:
    assert number(1 / 1024) == "0.0009765625"
    assert number(-0.0) == "0"
    assert number(16.0) == "16"
    assert number(19.2) == "19.2"
    assert float(number(0.1 + 0.2)) == 0.1 + 0.2
    assert float(number(1e-300)) == 1e-300


def test_a_byte_order_mark_is_no_fault() -> None:
    plan = new_floor(120, 240)
    assert loads(b"\xef\xbb\xbf" + dumps(plan)) == plan
