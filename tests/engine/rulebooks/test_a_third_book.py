"""A third rule book is one more data file: dropped onto the shelf it is found, judges, is compared, listed and printed."""

from __future__ import annotations

import ast
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from msgspec.structs import replace
from pypdf import PdfReader

from engine.checks import ALL_RULES
from engine.checks.listing import listed
from engine.comparing import compare
from engine.plan import file
from engine.plan.records import Amendment, Plan
from engine.planset import write
from engine.rulebooks import load, names
from engine.study import Study, study
from engine.takeoff.answers import check_answer, parts_answer
from tests.engine.coarse_plans import bathrooms
from tests.engine.rulebooks.three_books import TOWN, third_book

HandFloor = Callable[..., Plan]
HOUSE = Path(__file__).resolve().parents[3]
SAMPLES = sorted((HOUSE / "samples").glob("*.jway"))


@pytest.fixture(scope="module", autouse=True)
def on_the_shelf(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    with third_book(tmp_path_factory.mktemp("shelf")) as name:
        yield name


def by_town(plan: Plan, *amendments: Amendment) -> Study:
    return study(replace(plan, rulebook=TOWN, amendments=amendments))


def broken(found: Study, rule: str) -> list[tuple[float | None, float | None, str]]:
    return [(one.measured, one.limit, one.cites) for one in found.findings if one.rule == rule]


def test_it_is_found_by_its_file_alone() -> None:
    assert TOWN in names() and len(names()) == 3
    assert load(TOWN).short == "Town 2040"


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_rule_says_something_of_every_sample(path: Path) -> None:
    found = by_town(file.read(path))
    book = load(TOWN)
    assert set(found.looked_at) == {rule.id for rule in ALL_RULES}
    for rule in ALL_RULES:
        counts = found.looked_at[rule.id]
        lacking = next((key for key in rule.reads if not book.speaks_of(key)), None)
        if lacking is None:
            continue
        silent = book.silence(lacking) is not None
        assert counts == {"holds": 0, "broken": 0, "not_judged": int(not silent), "does_not_apply": int(silent)}, (
            rule.id
        )
        told = (rule.id, f"the book gives no {lacking}") in [(name, case.missing) for name, case in found.not_judged]
        assert told != silent
    assert {one.cites.split(" article")[0] for one in found.findings} <= {"Town 2040", "common practice"}
    assert {cut["legal"] for cut in check_answer(found)["joist_cuts"]} <= {None, False}, "it has no word on joists"
    assert parts_answer(found)["pieces"]


class TestItsOwnNumbers:
    """Each at its limit and a sixteenth past: the town's one metre, its two per cent, its larger vents."""

    @pytest.mark.parametrize(("arm", "past"), [(39.375, []), (39.4375, [(39.4375, 39.375, "Town 2040 article 6")])])
    def test_a_metre_from_trap_to_vent(self, hand_floor: HandFloor, arm: float, past: list[object]) -> None:
        plan = hand_floor()
        sink = replace(plan.fixtures[1], kind="kitchen_sink", arm=arm)
        assert broken(by_town(replace(plan, fixtures=(plan.fixtures[0], sink))), "trap-too-far-from-vent") == past

    @pytest.mark.parametrize(("slope", "past"), [(0.24, False), (0.2375, True)])
    def test_two_per_cent(self, hand_floor: HandFloor, slope: float, past: bool) -> None:
        found = broken(by_town(replace(hand_floor(lavatory=False), slope=slope)), "slope-too-small")
        assert bool(found) == past
        assert all(cites == "Town 2040 article 3" for *_, cites in found)

    def test_its_vents_are_two_inches(self, hand_floor: HandFloor) -> None:
        vents = [pipe.size for pipe in by_town(hand_floor()).model.network.pipes if pipe.system == "vent"]
        assert vents and set(vents) == {2.0}

    def test_what_it_leaves_open_does_not_apply_and_what_it_lacks_is_not_judged(self, hand_floor: HandFloor) -> None:
        found = by_town(hand_floor())
        assert found.looked_at["upper-end-without-cleanout"]["does_not_apply"] == 1
        assert found.looked_at["dead-end"]["not_judged"] == 1

    def test_a_shower_is_no_member_of_its_group(self) -> None:
        found = by_town(file.read(HOUSE / "samples" / "one-bath-cottage.jway"))
        (shower,) = [trap for trap in found.model.network.traps if trap.fixture == "sh1"]
        assert shower.method is None and shower.breaks.startswith("wet_vent.")

    def test_it_is_amended_like_the_others(self, hand_floor: HandFloor) -> None:
        plan = hand_floor()
        sink = replace(plan.fixtures[1], kind="kitchen_sink", arm=45.0)
        plan = replace(plan, fixtures=(plan.fixtures[0], sink))
        longer = Amendment("trap_arm.length.2", "4 ft", "the mayor", "2040-01-01")
        assert [limit for _, limit, _ in broken(by_town(plan), "trap-too-far-from-vent")] == [39.375]
        assert broken(by_town(plan, longer), "trap-too-far-from-vent") == []


def test_it_stands_beside_the_others_with_reasons() -> None:
    plan = file.read(HOUSE / "samples" / "cottage-with-kitchen.jway")
    comparison = compare(plan, TOWN)
    why = {trap.fixture: " ".join(trap.why) for trap in comparison.traps}
    assert "72 in by IRC 2021 Table P3105.1" in why["ks1"]
    assert "39.375 in by Town 2040 article 6" in why["ks1"]
    assert all(one.why for one in comparison.findings)
    back = compare(replace(plan, rulebook=TOWN), "upc-2021")
    assert (back.here.short, back.there.short) == ("Town 2040", "UPC 2021")


def test_every_rule_is_listed_with_it() -> None:
    for rule in listed(load(name) for name in names()):
        inside = next(one for one in rule.books if one.book == TOWN)
        assert inside.judges or inside.silent or inside.lacking
    far = next(rule for rule in listed([load(TOWN)]) if rule.id == "trap-too-far-from-vent")
    assert far.books[0].sections == ("Town 2040 article 6",)


def test_its_sheets_are_printed(tmp_path: Path, hand_floor: HandFloor) -> None:
    pdf = write(by_town(hand_floor()), tmp_path, beside="upc-2021")[0]
    texts = [" ".join(page.extract_text().split()) for page in PdfReader(pdf).pages]
    assert "Drainage rules of a town that does not exist, 2040 (Town 2040)" in texts[0]
    assert any("SHEET Under UPC 2021" in text for text in texts)


@settings(max_examples=40, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(bathrooms())
def test_any_bath_is_judged_by_it(plan: Plan) -> None:
    found = by_town(plan)
    assert {one.cites.split(" article")[0] for one in found.findings} <= {"Town 2040", "common practice"}


def test_no_code_names_a_book() -> None:
    """But for the book that a new plan starts with: the explanations of rules cite sections, the rules themselves do not."""
    named = re.compile(r"\b(?:irc|upc)-\d|\b(?:IRC|UPC)\b|Residential Code|Uniform Plumbing")
    found = [
        f"{path.relative_to(HOUSE)}:{line}: {text}"
        for folder in ("engine", "app")
        for path in sorted((HOUSE / folder).rglob("*.py"))
        for line, text in said_in(path)
        if named.search(text)
    ]
    assert [one.split(":")[0] for one in found] == ["engine/plan/records.py"], found


def said_in(path: Path) -> Iterator[tuple[int, str]]:
    """The texts in a module's code, explanations left out."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    bodies = [body for node in ast.walk(tree) if isinstance(body := getattr(node, "body", None), list)]
    explained = {id(line.value) for body in bodies for line in body if isinstance(line, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in explained:
            yield node.lineno, node.value
