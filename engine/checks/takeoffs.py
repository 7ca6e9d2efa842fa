"""Take-offs that the builder measured: whether a fitting with such pipes can be that short, and whether it is used."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.records import Finding, Holds, NotJudged, Outcome, Rule
from engine.joinery.records import Part
from engine.plan.records import MeasuredTakeOff
from engine.trade.fittings import KINDS, doubts, floor_of, measured_leg

GEOMETRY = "geometry of the fitting's own pipes, no section"
"""What a finding on a measured take-off rests on."""


def take_off_too_short(model: Model) -> Iterator[Outcome]:
    """A measured take-off under the least that the fitting's own pipes leave room for.

    A bend's leg reaches at least to the corner of its outside, a branch past the bore of its run. Holds: a 3 in
    quarter bend measured at 3 in. To look at: the same at 1 in, since half of 3-1/2 is more; or a row that names no
    fitting, which no cut uses. Not judged: a leg for which geometry sets no least length. Source: geometry.
    """
    doubted = {doubt.measured: doubt.why for doubt in doubts(model.plan.takeoffs)}
    for row in model.plan.takeoffs:
        leg = measured_leg(row)
        parts = [part for part in model.joinery.parts if leg is not None and (part.kind, part.size) == leg[:2]]
        if row in doubted:
            yield _finding(row, parts, None if leg is None else floor_of(*leg), doubted[row])
        elif leg is not None and floor_of(*leg) is None:
            missing = f"geometry sets no least length for the {leg[2].replace('_', ' ')} of a {KINDS[row.kind].words}"
            yield NotJudged(_place(parts), _elements(parts), missing)
        else:
            yield Holds(f"{row.kind} {row.size}")


def _finding(row: MeasuredTakeOff, parts: list[Part], floor: float | None, why: str) -> Finding:
    name = KINDS[row.kind].words if row.kind in KINDS else row.kind
    leg = row.leg.replace("_", " ")
    used = floor is not None
    return Finding(
        rule="take-off-too-short",
        weight="look",
        at=_place(parts),
        elements=_elements(parts),
        measured=row.length,
        limit=floor,
        unit="in",
        text=f"The take-off measured on the {leg} of {name} {row.size} {'is doubtful' if used else 'is used for no cut'}: {why}.",
        cites=GEOMETRY,
        mend=(
            "Measure it again, from the centreline to the hub's face, and take the socket's depth off once."
            if used
            else "Choose the fitting, its size and its leg again."
        ),
    )


def _place(parts: list[Part]) -> tuple[float, float, float]:
    return parts[0].centre if parts else (0.0, 0.0, 0.0)


def _elements(parts: list[Part]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(element for part in parts for element in part.elements))


RULES = (
    Rule(
        "take-off-too-short", "A measured fitting that cannot be so short", "fittings", "look", (), take_off_too_short
    ),
)
