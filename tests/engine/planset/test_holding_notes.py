"""When supports go in: every mark stands once beside the assembly order, wood before the pipe, straps and hooks after it."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from msgspec.structs import replace

from engine.plan.file import read
from engine.plan.records import Beam, Plan, Supply
from engine.planset.holding_notes import beside_groups, of_tubes
from engine.planset.subassemblies import subassemblies
from engine.study import work_out
from engine.takeoff.assembly import assembly
from engine.takeoff.supports import supports

Floor = Callable[..., Plan]
SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))


def notes(plan: Plan) -> list[list[tuple[str, str]]]:
    model = work_out(plan)
    return beside_groups(model, subassemblies(model, assembly(model)), supports(model))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_mark_of_the_supports_is_named(path: Path) -> None:
    model = work_out(read(path))
    held = supports(model)
    said = [words for group in notes(read(path)) for _, words in group] + [words for _, words in of_tubes(model, held)]
    assert set(re.findall(r"S\d+", " ".join(said))) == {one.mark for one in held if one.mark}


def test_a_mains_wood_comes_first_and_the_vents_straps_once_they_stand(hand_floor: Floor) -> None:
    # by the order of the supports: the main's two blocks S1 and S2, the branch's S3, the riser's base, guide and strap S4 to
    # S6, the closet's base S7
    main, branch = notes(hand_floor())[:2]
    assert main == [("Set first:", "blocks S1, S2; base S7.")]
    assert branch == [
        ("Set first:", "block S3; base S4."),
        ("Once the pipe is in place:", "guide S5; strap S6."),
    ]


def test_a_packer_and_the_block_that_a_strap_hangs_from_are_told_as_such(hand_floor: Floor) -> None:
    plan = replace(hand_floor(lavatory=False), beams=(Beam("b1", (0.0, 59.0), (120.0, 59.0)),))
    assert notes(plan)[0] == [("Set first:", "packer S1; block S2; base S3.")]
    low = hand_floor(lavatory=False, pinned=-14.0)
    low = replace(low, drains=(replace(low.drains[0], passing="under"),))
    first, later = notes(low)[0]
    assert first == ("Set first:", "blocks that straps hang from S1, S2; base S3.")
    assert later == ("Once the pipe is in place:", "straps S1, S2.")


def test_a_tubes_strips_are_fixed_before_it_is_pulled_through(hand_floor: Floor) -> None:
    tube = Supply("c1", "cold", ((56.0, 20.0), (56.0, 40.0)), down=5.0)
    model = work_out(replace(hand_floor(lavatory=False), supplies=(tube,)))
    assert of_tubes(model, supports(model)) == [
        ("c1:", "screw strips S3, S4 on first; once the tube is pulled through, hooks S3, S4.")
    ]


def test_elbows_in_tube_are_told_with_their_places(hand_floor: Floor) -> None:
    # 5 in between two turns is no room for two bends, nor for a bend and an elbow (6 1/8): both are elbows
    tube = Supply("c1", "cold", ((56.0, 10.0), (56.0, 30.0), (61.0, 30.0), (61.0, 50.0)), down=5.0)
    model = work_out(replace(hand_floor(lavatory=False), supplies=(tube,)))
    ((_, words),) = of_tubes(model, supports(model))
    assert words.startswith(
        "an elbow, where no bend has room, at 4'-8\" E, 2'-6\" N and at 5'-1\" E, 2'-6\" N; screw strip"
    )
