"""Bend direction: every turn against the book's fittings table, and every corner against what is sold."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import faults_as_findings
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.hookups import short_bend_allowed
from engine.crossings.limits import short
from engine.joinery.choose import allowed
from engine.joinery.pieces import midway
from engine.joinery.records import Part
from engine.trade.fittings import KINDS
from engine.trade.habits import SHOWING
from engine.trade.pipe import label

WORDS = {
    "horizontal_to_vertical": "from level to plumb",
    "vertical_to_horizontal": "from plumb to level",
    "horizontal_to_horizontal": "from level to level",
}
BARREL = "fitting.double_sanitary_tee.barrel"
"""The table of a double tee's least barrel by its largest inlet, in the books that have one."""


def _table_row(kind: str) -> str:
    """The row that the fittings table judges a pattern by: street and double forms go by the plain one's."""
    if kind == "closet_bend":
        return "long_sweep_quarter_bend"
    return KINDS[kind].street_of or KINDS[kind].double_of or kind


def _words(kind: str) -> str:
    return kind.replace("_", " ").replace("combo wye eighth bend", "combination wye and eighth bend")


def turn_in_wrong_fitting(model: Model) -> Iterator[Outcome]:
    """Which pattern may make which change of direction: the whole fittings table, footnotes included.

    Holds: a long sweep from plumb to level. Broken: a sanitary tee on its back; a 3 in quarter bend from level
    to level. A short bend under a closet flange goes by the closet's own exception, a double tee's barrel by its
    table where the book has one. Dry vents do not apply. Source: IRC Table P3005.1, P3005.1.4; UPC 706.
    """
    closets = {(f.at[0], f.at[1]) for f in model.plan.fixtures if f.kind == "water_closet"}
    for part in model.joinery.parts:
        if part.change == "none" or part.system != "waste" or not part.ports:
            yield DoesNotApply(part.elements[0] if part.elements else "")
            continue
        kind = _table_row(part.kind)
        key = f"fitting.{kind}.{part.change}"
        if not model.book.has(key):
            yield NotJudged(
                part.centre, part.elements, f"the book's fittings table has no row for a {_words(part.kind)}"
            )
            continue
        size, single = _judged_as(model, part)
        if (
            kind == "quarter_bend"
            and part.change == "vertical_to_horizontal"
            and (part.node[0], part.node[1]) in closets
        ):
            yield from _under_closet(model, part, key)
            continue
        barrel = _least_barrel(model, part)
        if barrel is not None and short(part.size[0], barrel):
            yield _narrow_double(model, part, barrel)
            continue
        if allowed(model.book, kind, part.change, size, single):
            yield Holds(part.elements[0] if part.elements else "")
            continue
        text = (
            f"A {label(size)} in {_words(part.kind)} may not turn waste {WORDS[part.change]}{_why(kind, part.change)}."
        )
        yield _wrong(part, text, model.book.cite(key), _instead(model, part, size, single))


def _judged_as(model: Model, part: Part) -> tuple[float, bool]:
    """The size that turns, and whether it is one fixture's drain."""
    turning = next((p for p in part.ports if p.role == "branch"), None) or part.ports[0]
    pipe = model.network.by_id.get(turning.pipe or "")
    return turning.size, pipe is not None and pipe.fixture is not None


def _inlet(part: Part) -> float:
    """A branch fitting's largest inlet."""
    return part.size[-1] if any(port.role.startswith("branch") for port in part.ports) else 0.0


def _least_barrel(model: Model, part: Part) -> float | None:
    """How wide a double tee's barrel must be for its inlets; None for other patterns, and where no table asks it."""
    key = f"{BARREL}.{label(_inlet(part))}" if part.kind == "double_sanitary_tee" else ""
    return model.book.number(key) if key and model.book.has(key) else None


def _narrow_double(model: Model, part: Part, barrel: float) -> Finding:
    inlet = label(_inlet(part))
    return Finding(
        "turn-in-wrong-fitting",
        "stop",
        part.centre,
        part.elements,
        part.size[0],
        barrel,
        "in",
        f"A double sanitary tee with {inlet} in inlets has a {label(part.size[0])} in barrel; it must be at least "
        f"{label(barrel)} in.",
        model.book.cite(f"{BARREL}.{inlet}"),
        "Use a double fixture fitting, a wider double tee, or two tees one above the other.",
    )


def _under_closet(model: Model, part: Part, key: str) -> Iterator[Outcome]:
    size = max(part.size)
    if short_bend_allowed(model.book, size):
        yield Holds(part.elements[0] if part.elements else "")
        return
    text = f"A {label(size)} in quarter bend may not stand under a closet."
    yield _wrong(part, text, model.book.cite(key), "Use a closet bend or a long sweep.")


def _wrong(part: Part, text: str, cites: str, mend: str) -> Finding:
    return Finding(
        "turn-in-wrong-fitting", "stop", part.centre, part.elements, part.turn, None, "degrees", text, cites, mend
    )


def _why(kind: str, change: str) -> str:
    lies = "on its side" if change == "horizontal_to_horizontal" else "on its back"
    return f": a tee {lies} throws the water both ways" if kind == "sanitary_tee" else ""


def _instead(model: Model, part: Part, size: float, single: bool) -> str:
    kinds = (
        ("combo_wye_eighth_bend", "wye")
        if "branch" in {p.role for p in part.ports}
        else ("long_sweep_quarter_bend", "eighth_bend")
    )
    articles = {"eighth_bend": "an"}
    fit = [f"{articles.get(k, 'a')} {_words(k)}" for k in kinds if allowed(model.book, k, part.change, size, single)]
    return f"Use {' or '.join(fit)} instead." if fit else "Turn it in two steps."


def no_fitting_turns_so(model: Model) -> Iterator[Outcome]:
    """Corners and branches at angles that no fitting makes: 90, 60, 45 and 22-1/2 degrees are sold, within one degree.

    Holds: a 45 degree corner. Broken: one of 30. Also broken: a branch that runs against the main's flow.
    Common practice, no source: what stores carry.
    """
    yield from faults_as_findings(model, "no-fitting-turns-so", "stop", _elements(model))


def no_fitting_joins(model: Model) -> Iterator[Outcome]:
    """Places where more pipes meet than one fitting joins, or where a branch joins in a corner.

    Common practice, no source: what stores carry.
    """
    yield from faults_as_findings(model, "no-fitting-joins-these", "stop", _elements(model))


def chosen_fitting(model: Model) -> Iterator[Outcome]:
    """A fitting that the user chose, at a place or angle that it does not fit. Common practice, no source."""
    yield from faults_as_findings(model, "fitting-does-not-fit", "stop", tuple(f.id for f in model.plan.fittings))


def no_room(model: Model) -> Iterator[Outcome]:
    """Two fittings closer than their hubs allow: less than two socket depths of pipe between them.

    Holds: hubs touching. Broken: 1/16 in less. Common practice: take-offs of the fittings (see the cut list for
    how firm they are).
    """
    yield from faults_as_findings(model, "no-room", "stop", _elements(model))


def cannot_be_threaded(model: Model) -> Iterator[Outcome]:
    """A bored run of which no piece can be slid into its bores. Common practice, no source."""
    yield from faults_as_findings(model, "cannot-be-threaded", "stop", _elements(model))


def little_pipe_showing(model: Model) -> Iterator[Outcome]:
    """Less than 3/4 in of pipe between two hubs: it can be glued, but there is nothing to hold and turn it by.

    Holds: 3/4 in or more. Common practice, no source.
    """
    for piece in model.joinery.pieces:
        elements = tuple(dict.fromkeys(model.network.by_id[p].element for p in piece.pipes if p in model.network.by_id))
        if not piece.note.startswith("only"):
            yield Holds(elements[0] if elements else piece.mark)
            continue
        middle = midway(piece.start, piece.end)
        yield Finding(
            "little-pipe-showing",
            "look",
            middle,
            elements,
            piece.cut - piece.least,
            SHOWING,
            "in",
            f"Piece {piece.mark}: {piece.note}.",
            "common practice",
            "Move the two fittings a little apart, or use a street fitting.",
        )


def _elements(model: Model) -> tuple[str, ...]:
    plan = model.plan
    return (*(d.id for d in plan.drains), *(v.id for v in plan.vents), *(r.id for r in plan.risers))


RULES = (
    Rule(
        "turn-in-wrong-fitting",
        "A turn in the wrong fitting",
        "turns",
        "stop",
        ("fitting",),
        turn_in_wrong_fitting,
        ("closet.quarter_bend_under_flange",),
    ),
    Rule("no-fitting-turns-so", "An angle that nothing makes", "turns", "stop", (), no_fitting_turns_so),
    Rule("no-fitting-joins-these", "A joint that nothing makes", "turns", "stop", (), no_fitting_joins),
    Rule("fitting-does-not-fit", "A chosen fitting that does not fit", "turns", "stop", (), chosen_fitting),
    Rule("no-room", "No room between fittings", "turns", "stop", (), no_room),
    Rule("cannot-be-threaded", "A pipe that cannot be threaded", "turns", "stop", (), cannot_be_threaded),
    Rule("little-pipe-showing", "Little pipe between hubs", "turns", "look", (), little_pipe_showing),
)
