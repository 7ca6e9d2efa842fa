"""A fitting counted on the isometric is on the list, and nothing on the list is not on the isometric."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import get_args

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings

from engine.drawings.isometric import isometrics
from engine.drawings.isometric.names import short
from engine.drawings.isometric.sheets import skeleton
from engine.drawings.isometric.skeleton import SYSTEMS, Cover
from engine.drawings.isometric.symbols import SYMBOLS
from engine.plan.file import read
from engine.plan.records import Cleanout, Drain, Exit, Fixture, Floor, JoistField, Plan, Riser, Vent
from engine.study import Study, study
from engine.takeoff.answers import parts_answer
from engine.trade.habits import CLOSET_EXTRAS
from engine.trade.kinds import KINDS
from tests.engine.checks.judged_plans import armed
from tests.engine.coarse_plans import bathrooms, plans
from tests.engine.drawings.isometric_reading import listed, marks, named_parts, texts

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))
COVERS: tuple[Cover, ...] = get_args(Cover)
PAPER = (10.0, 6.4)

samples = pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
covers = pytest.mark.parametrize("cover", COVERS)


@pytest.fixture(scope="module")
def studied() -> Callable[[Path], Study]:
    known: dict[Path, Study] = {}

    def get(path: Path) -> Study:
        return known.setdefault(path, study(read(path)))

    return get


def many_kinds() -> Plan:
    """A floor with a rolled join, a drop, a tub, an overhead vent, a valve, a cap, and cleanouts at an end and in a riser."""
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (144.0, 0.0), (144.0, 200.0), (0.0, 200.0))),
        fields=(JoistField("j1", (0.0, 0.0), (144.0, 200.0), lumber="2x12"),),
        fixtures=(
            Fixture("wc1", "water_closet", (36.0, 180.0)),
            Fixture("sh1", "shower", (84.0, 136.0)),
            Fixture("lav1", "lavatory", (84.0, 100.0), turn=90.0),
            Fixture("bt1", "bathtub", (12.0, 60.0), trap_at=(16.0, 60.0)),
            Fixture("wm1", "washer_standpipe", (100.0, 60.0), turn=180.0),
        ),
        drains=(
            Drain("d1", ((36.0, 180.0), *((36.0, y) for y in (136.0, 100.0, 60.0, 40.0, 16.0))), size="3"),
            Drain("d2", ((84.0, 136.0), (36.0, 136.0)), size="2", join="rolled", roll=45.0, rise=5.75),
            Drain("d3", ((84.0, 100.0), (36.0, 100.0)), size="1-1/2", join="drop", rise=9.0),
            Drain("d4", ((16.0, 60.0), (36.0, 40.0)), size="2"),
            Drain("d5", ((120.0, 60.0), (100.0, 60.0), (36.0, 60.0)), size="2"),
        ),
        risers=(
            Riser("r1", (84.0, 100.0), top="none"),
            Riser("r2", (120.0, 100.0), top="valve", above_floor=70.0),
            Riser("r3", (100.0, 60.0), top="capped", above_floor=90.0),
        ),
        vents=(Vent("v1", ((84.0, 100.0), (120.0, 100.0)), above_floor=50.0),),
        exits=(Exit("x1", (36.0, 16.0)),),
        cleanouts=(Cleanout("co1", (120.0, 60.0)), Cleanout("co2", (100.0, 60.0), above_floor=30.0, turn=90.0)),
    )


@covers
@samples
def test_what_is_written_is_what_is_listed(path: Path, cover: Cover, studied: Callable[[Path], Study]) -> None:
    """Read off the drawing, word by word, against the joinery and against the list that goes to the store."""
    answer = studied(path)
    parts = [part for part in answer.model.joinery.parts if part.system in SYSTEMS[cover]]
    sheets = isometrics(answer, cover, *PAPER)
    assert named_parts(sheets) == listed(parts)
    kinds = {part.kind for part in parts}
    bought = Counter[str]()
    for line in parts_answer(answer)["parts"]:
        if line["kind"] in kinds and line["system"] in SYSTEMS[cover]:
            bought[f"{short(line['kind'])} {line['size']}".rstrip()] += line["count"]
    assert named_parts(sheets) == bought


@covers
@samples
def test_every_part_has_one_symbol_and_no_symbol_is_of_anything_else(
    path: Path, cover: Cover, studied: Callable[[Path], Study]
) -> None:
    answer = studied(path)
    parts = {part.id: part for part in answer.model.joinery.parts if part.system in SYSTEMS[cover]}
    sheets = isometrics(answer, cover, *PAPER)
    drawn = [shown for sheet in sheets for shown in sheet.shown if shown.what == "part"]
    assert Counter(shown.name for shown in drawn) == Counter(
        name for name, part in parts.items() if part.kind not in CLOSET_EXTRAS
    )
    for sheet in sheets:
        ink = list(sheet.drawing.strokes)
        for shown in sheet.shown:
            assert shown.strokes, f"{shown.name} is not drawn"
            assert all(stroke in ink for stroke in shown.strokes)


@covers
@samples
def test_every_piece_is_drawn_and_marked_once(path: Path, cover: Cover, studied: Callable[[Path], Study]) -> None:
    answer = studied(path)
    sheets = isometrics(answer, cover, *PAPER)
    if cover == "drains":
        expected = Counter(piece.mark for piece in answer.model.joinery.pieces)
    else:
        expected = Counter(supply.id for supply in answer.plan.supplies)
    assert marks(sheets) == expected
    assert Counter(shown.name for sheet in sheets for shown in sheet.shown if shown.what != "part") == expected


def test_a_floor_with_many_kinds() -> None:
    answer = study(many_kinds())
    parts = answer.model.joinery.parts
    assert {"waste_and_overflow", "admittance_valve", "end_cap", "test_tee", "cleanout_plug", "p_trap"} <= {
        part.kind for part in parts
    }
    sheets = isometrics(answer, "drains", *PAPER)
    assert named_parts(sheets) == listed(parts)
    assert marks(sheets) == Counter(piece.mark for piece in answer.model.joinery.pieces)


def test_a_tag_tells_what_the_fixture_gives() -> None:
    """A shower of six heads is 12 fixture units by IRC 2021 Table P3004.1, 7 by UPC 2021 Table 702.1 (2 + 5 x 1)."""
    for book, units in (("irc-2021", 12), ("upc-2021", 7)):
        plan = msgspec.structs.replace(armed("shower", 12.0, heads=6), rulebook=book)
        assert f"SH f1, {units} DFU" in texts(isometrics(study(plan), "drains", *PAPER))


def test_what_shares_a_trap_hangs_on_it() -> None:
    """Two bowls and a dishwasher on one trap, and a tub's drain into a standpipe beside them: common practice, no source."""
    sink = armed("kitchen_sink", 12.0, bowls=2)
    pipe = Fixture("f3", "washer_standpipe", (200.0, 300.0), turn=0.0)
    plan = msgspec.structs.replace(
        sink,
        rulebook="upc-2021",
        fixtures=(
            *sink.fixtures,
            Fixture("f2", "dishwasher", (240.0, 270.0), through="f1"),
            pipe,
            Fixture("f4", "laundry_tub", (180.0, 300.0), through="f3"),
        ),
        risers=(*sink.risers, Riser("r3", pipe.at)),
        drains=(*sink.drains, Drain("d3", (pipe.at, (200.0, 240.0)))),
    )
    answer = study(plan)
    named = named_parts(isometrics(answer, "drains", *PAPER))
    assert named == listed(answer.model.joinery.parts)
    shared = ("continuous waste 1-1/2", "branch tailpiece 1-1/2", "hose clamp", "air gap", "tee for a tub 2x1-1/2")
    assert [named[name] for name in shared] == [1] * 5
    written = texts(isometrics(answer, "drains", *PAPER))
    assert [text for text in written if text.startswith("takes ")] == ["takes DW f2", "takes LT f4"]


def test_counted_by_hand(hand_floor: Callable[..., Plan]) -> None:
    """The closet and the lavatory over one bay: the parts that somebody who looks at the drawing counts."""
    assert named_parts(isometrics(study(hand_floor()), "drains", *PAPER)) == {
        "flange 4x3": 1,
        "bolts": 1,
        "screws": 1,
        "seal": 1,
        "1/4 bend 3": 2,  # under the closet, and where the drain turns down
        "wye 3x3x1-1/2": 1,
        "1/8 bend 1-1/2": 1,
        "coupling 1-1/2": 1,  # 27 1/4 - 2 1/4 - 1 1/8 = 23 7/8 in of pipe, through bores 14 1/2 in apart
        "long sweep 1-1/2": 1,
        "san tee 1-1/2": 1,
        "trap adapter 1-1/2x1-1/4": 1,
        "tubular trap 1-1/4": 1,
        "flashing 1-1/2": 1,
        "test cap 3": 2,  # on the closet's stub and on the building drain
        "test plug 1-1/2": 1,
    }


def test_what_is_taken_out_of_the_joinery_is_gone_from_the_drawing(hand_floor: Callable[..., Plan]) -> None:
    answer = study(hand_floor())
    joinery = answer.model.joinery
    plug = next(part for part in joinery.parts if part.kind == "test_plug")
    answer.model.joinery = msgspec.structs.replace(
        joinery, parts=tuple(part for part in joinery.parts if part is not plug), pieces=joinery.pieces[1:]
    )
    sheets = isometrics(answer, "drains", *PAPER)
    assert not any("test plug" in name for name in named_parts(sheets))
    assert joinery.pieces[0].mark not in marks(sheets)


def test_every_kind_has_a_symbol_of_its_own() -> None:
    """Water fittings of other makes are stand-ins in the catalogue and never come out of the joinery."""
    catalogue_only = {kind for kind in KINDS if kind.startswith("pex_")}
    assert KINDS.keys() - SYMBOLS.keys() - catalogue_only == set()


def test_short_names_are_not_shared() -> None:
    names = Counter(short(kind) for kind in SYMBOLS if kind != "flush_bushing_addon")
    assert [name for name, times in names.items() if times > 1] == []


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(plans())
def test_any_plan_is_hung_up_whole(plan: Plan) -> None:
    _whole(study(plan))


@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
@given(bathrooms())
def test_any_bathrooms_are_drawn_whole(plan: Plan) -> None:
    answer = study(plan)
    _whole(answer)
    sheets = isometrics(answer, "drains", *PAPER)
    assert named_parts(sheets) == listed(answer.model.joinery.parts)
    assert marks(sheets) == Counter(piece.mark for piece in answer.model.joinery.pieces)


def _whole(answer: Study) -> None:
    for cover in COVERS:
        bones = skeleton(answer, cover)
        parts = [part for part in answer.model.joinery.parts if part.system in SYSTEMS[cover]]
        assert Counter(part.id for part in bones.parts()) == Counter(part.id for part in parts)
    pieces = {length.name for length in skeleton(answer, "drains").lengths if length.what == "piece"}
    assert pieces == {piece.mark for piece in answer.model.joinery.pieces}
