"""The samples' findings: the two sound cottages have nothing to stop for, and each deliberate mistake is found by its
own rule. All findings of all samples are kept in a list beside this file; read a difference like code, then renew it with
``python -m tests.engine.test_samples``."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from msgspec.structs import replace

from engine.checks import ALL_RULES
from engine.plan.file import read
from engine.plan.records import Fixture, JoistField, Supply
from engine.study import Study, study
from tests.engine.checks.judged_plans import armed, bare
from tests.engine.checks.test_double_fittings import dropping

ROOT = Path(__file__).resolve().parents[2]
SAMPLES = {path.stem: path for path in sorted((ROOT / "samples").glob("*.jway"))}
STORED = Path(__file__).parent / "data" / "sample_findings.json"

Said = list[list[object]]

BROKEN = sorted((ROOT / "tests" / "engine" / "mending" / "broken").glob("*.jway"))
"""Small plans that break one rule each."""

BOWLS = armed("kitchen_sink", 12.0, bowls=2, bowls_apart=16.0)
THREE = replace(
    armed("lavatory", 12.0),
    fixtures=tuple(
        Fixture(f"f{number}", "lavatory", (240.0, y), turn=0.0, arm=12.0, through=None if number == 1 else "f1")
        for number, y in enumerate((240.0, 225.0, 255.0), 1)
    ),
)
RIM = bare(
    fields=(JoistField(id="f", corner=(0.0, 0.0), size=(96.0, 96.0), blocking=(48.0,)),),
    supplies=(Supply("c", "cold", ((40.0, 40.0), (40.0, 120.0))),),
)
CLOSETS = dropping("water_closet", 17.9375, 40.0, "sanitary_tee")
"""Rules that have no mend, each with a plan that it judges: bowls on one trap, three fixtures on one, a bored rim and block, closets back to back."""

MISTAKES = [
    # what is wrong, the rule that says so, an element that it names
    ("the closet's flange on a joist", "lands-on-wood", "wc1"),
    ("3/16 in per ft on 1-1/2 in pipe", "slope-too-small", "d2"),
    ("the shower's drain rises", "runs-uphill", "d3"),
    ("no vent for the closet", "trap-without-vent", "wc1"),
    ("no vent for the shower", "trap-without-vent", "sh1"),
    ("the tub too far from its vent", "trap-too-far-from-vent", "bt1"),
    ("a sanitary tee on its side where the kitchen joins", "turn-in-wrong-fitting", "fit1"),
    ("the shower's corner at an odd angle", "no-fitting-turns-so", "d3"),
    ("the washer's riser on the drain but not joined", "end-not-joined", "r3"),
    ("3 in pipe through 2x10 joists", "bore-too-large", "d7"),
    ("notches in the middle third", "notch-in-middle-third", "c1"),
    ("notches too deep", "notch-too-deep", "c1"),
    ("water too close to the drain's bores", "bores-close-together", "c9"),
    ("a riser in the outside wall over the rim", "lands-on-wood", "r6"),
    ("the lavatory's drain turns down before any air", "s-trap", "lav1"),
    ("a lavatory in the corner", "too-little-room-beside", "lav2"),
    ("a square turn that no cleanout reaches", "sharp-turn-without-cleanout", "d7"),
]


def said(path: Path) -> Said:
    """Each finding as rule, weight and elements, in a fixed order."""
    return sorted([one.rule, one.weight, list(one.elements)] for one in study(read(path)).findings)


@pytest.fixture(scope="module")
def studies() -> dict[str, Study]:
    return {name: study(read(path)) for name, path in SAMPLES.items()}


def test_there_are_four() -> None:
    assert set(SAMPLES) == {"one-bath-cottage", "cottage-with-kitchen", "cottage-with-mistakes", "ell-cottage"}


@pytest.mark.parametrize("name", SAMPLES)
def test_the_stored_list(name: str) -> None:
    assert said(SAMPLES[name]) == json.loads(STORED.read_text(encoding="utf-8"))[name]


@pytest.mark.parametrize("name", ["one-bath-cottage", "cottage-with-kitchen"])
def test_a_sound_cottage_has_nothing_to_stop_for(studies: dict[str, Study], name: str) -> None:
    found = studies[name]
    assert [one.text for one in found.findings if one.weight == "stop"] == []
    assert [rule for rule, _ in found.not_judged if rule != "water-not-drawn"] == []
    assert {trap.method for trap in found.model.network.traps} <= {"individual vent", "horizontal wet vent"}
    assert all(cut.legal for cut in found.model.cuts)


@pytest.mark.parametrize(("what", "rule", "element"), MISTAKES, ids=[what for what, _, _ in MISTAKES])
def test_each_mistake_is_found_by_its_own_rule(studies: dict[str, Study], what: str, rule: str, element: str) -> None:
    found = [one for one in studies["cottage-with-mistakes"].findings if one.rule == rule and element in one.elements]
    assert found, what
    assert {one.weight for one in found} == {"stop"}


def test_nothing_else_is_wrong_with_the_mistaken_cottage(studies: dict[str, Study]) -> None:
    """Every stop there belongs to a mistake that was made on purpose, or follows from one."""
    follows = {
        # the washer drains nowhere, its riser not being joined
        ("fixture-not-drained", "wm1"),
        # the shower's wye has the odd angle at its other end too
        ("no-fitting-turns-so", "d1"),
        # the main that swings out to the closet grazes the joist under it
        ("pipe-side-in-wood", "d1"),
        # the lavatory in the corner has the wall before it too, and the closet that swung over has the other lavatory
        ("too-little-room-before", "lav2"),
        ("too-little-room-before", "wc1"),
        # the closet's vent was the lavatory's
        ("trap-without-vent", "lav1"),
    }
    meant = {(rule, element) for _, rule, element in MISTAKES} | follows
    for one in studies["cottage-with-mistakes"].findings:
        if one.weight == "stop":
            assert any((one.rule, element) in meant for element in one.elements), one.text


def test_every_rule_judges_something(studies: dict[str, Study]) -> None:
    """In a sample, or in one of the small plans that each break a rule, by either book."""
    judged = ("holds", "broken")
    waiting = {rule.id for rule in ALL_RULES}
    answers = [found.looked_at for found in studies.values()]
    for path in BROKEN:
        plan = read(path)
        answers += [study(replace(plan, rulebook=book, amendments=())).looked_at for book in ("irc-2021", "upc-2021")]
        answers.append(study(plan).looked_at)
    answers += [study(plan).looked_at for plan in (BOWLS, THREE, RIM, CLOSETS)]
    for looked_at in answers:
        waiting -= {rule for rule, counts in looked_at.items() if any(counts[one] for one in judged)}
    assert waiting == set()


def renew() -> None:
    """Write the stored list anew."""
    lines = []
    for name, path in SAMPLES.items():
        rows = ",\n".join(f"  {json.dumps(row)}" for row in said(path))
        lines.append(f"{json.dumps(name)}: [\n{rows}\n]")
    STORED.write_text("{\n" + ",\n".join(lines) + "\n}\n", encoding="utf-8")


if __name__ == "__main__":
    renew()
