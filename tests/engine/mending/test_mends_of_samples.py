"""Every mend on every sample, under both books, holds its promise."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from engine.plan.file import read
from tests.engine.mending.promises import offered

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))


@pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_mend_of_a_sample_holds_its_promise(path: Path, book: str) -> None:
    found = offered(replace(read(path), rulebook=book))
    assert found


def test_most_of_the_sample_with_mistakes_is_mended_by_an_edit() -> None:
    """Its mistakes were made to be found; by the kinds of repair that one edit makes, each must have a mend."""
    plan = read(next(path for path in SAMPLES if path.stem == "cottage-with-mistakes"))
    mended = {rule for (rule, _), mends in offered(plan).items() if mends}
    assert mended >= {
        "bore-too-large",
        "bores-close-together",
        "end-not-joined",
        "fixture-not-drained",
        "lands-on-wood",
        "no-fitting-turns-so",
        "notch-in-middle-third",
        "notch-too-deep",
        "pipe-side-in-wood",
        "runs-uphill",
        "s-trap",
        "slope-too-small",
        "trap-too-far-from-vent",
        "turn-in-wrong-fitting",
    }


@pytest.mark.parametrize(
    ("rule", "element", "first"),
    [
        ("end-not-joined", "r3", "Join r3 to d4"),
        ("slope-too-small", "d2", "Leave the slope of d2 to the plan's 1/4 in per foot"),
        ("runs-uphill", "d3", "Leave the slope of d3 to the plan's 1/4 in per foot"),
        ("s-trap", "lav1", "Take r1 up through the roof"),
        ("turn-in-wrong-fitting", "d1", "Leave the fitting at fit1 to the program"),
        ("bore-too-large", "d7", "Leave the size of d7 to the program"),
        ("notch-too-deep", "c1", "Take c1 through the joists"),
        ("lands-on-wood", "wc1", "Move wc1 1 1/4 in west"),
        ("pipe-side-in-wood", "d1", "Slide d1 with what stands on it 1/2 in west"),
        ("no-fitting-turns-so", "d1", "Move the end of d3 1 in north"),
    ],
)
def test_the_smallest_change_is_offered_first(rule: str, element: str, first: str) -> None:
    """The sample's mistakes and the repair that a builder would make first (worked by hand from its drawing)."""
    plan = read(next(path for path in SAMPLES if path.stem == "cottage-with-mistakes"))
    found = next(mends for (name, elements), mends in offered(plan).items() if name == rule and elements[0] == element)
    assert found[0].words == first
