"""Openings framed in the floor: how heavy their headers and trimmers must be, and what carries them."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.floor_framing import SUBJECT
from engine.checks.model import Model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over
from engine.drafting.heading_off import from_bearing, stands_along
from engine.framing.records import Joist
from engine.lengths import feet_inches, inches, up

DOUBLE = 2


def header_too_light(model: Model) -> Iterator[Outcome]:
    """A header longer than the book lets a single one be is doubled.

    The length is clear between trimmers. Holds: single at the limit. Broken: single and 1/16 in longer. Engineered
    members do not apply: their maker tells. Source: IRC R502.10.
    """
    most = model.book.number("header.single_most")
    for header in _headers(model):
        if header.member == "engineered":
            yield DoesNotApply(header.opening)
        elif header.plies >= DOUBLE or not over(header.length, most):
            yield Holds(header.opening)
        else:
            yield _finding(
                "header-too-light",
                header,
                header.length,
                most,
                f"Header {header.id} is single and {feet_inches(up(header.length))} long; a single one may be "
                f"{feet_inches(most)} long.",
                model.book.cite("header.single_most"),
                f"Double the headers of {header.opening}.",
            )


def trimmer_too_light(model: Model) -> Iterator[Outcome]:
    """A trimmer beside a long header, or one whose header sits far from its bearing, is doubled.

    Measured is the header's length, else the way from the trimmer's nearest bearing to the header's middle. Holds: a single
    trimmer beside a short header near its bearing. Broken: 1/16 in past either limit. Not judged where the trimmer's
    bearing is not drawn. Engineered members do not apply, nor do pieces of a trimmer past a beam. Source: IRC R502.10.
    """
    longest = model.book.number("header.single_most")
    within = model.book.number("header.single_trimmer_within")
    openings = {opening.id: opening for opening in model.plan.floor_openings}
    for trimmer in (joist for joist in model.framing.joists if joist.kind == "trimmer"):
        beside = stands_along(trimmer, openings[trimmer.opening])
        headers = [header for header in _headers(model) if beside and header.opening == trimmer.opening]
        if trimmer.member == "engineered" or not headers:
            yield DoesNotApply(trimmer.opening)
            continue
        if trimmer.plies >= DOUBLE:
            yield Holds(trimmer.opening)
            continue
        header = max(headers, key=lambda one: one.length)
        if over(header.length, longest):
            yield _finding(
                "trimmer-too-light",
                trimmer,
                header.length,
                longest,
                f"Trimmer {trimmer.id} is single beside a header {feet_inches(up(header.length))} long; past "
                f"{feet_inches(longest)} it is doubled.",
                model.book.cite("header.single_most"),
                f"Double the trimmers of {trimmer.opening}.",
            )
        elif not trimmer.supports:
            yield NotJudged(_middle(trimmer), (trimmer.opening,), f"the bearing of trimmer {trimmer.id}")
        else:
            far = max(from_bearing(trimmer, header) for header in headers)
            yield (
                Holds(trimmer.opening)
                if not over(far, within)
                else _finding(
                    "trimmer-too-light",
                    trimmer,
                    far,
                    within,
                    f"Trimmer {trimmer.id} is single and carries a header {inches(up(far))} in from its bearing; past "
                    f"{inches(within)} in it is doubled.",
                    model.book.cite("header.single_trimmer_within"),
                    f"Double the trimmers of {trimmer.opening}.",
                )
            )


def hangers(model: Model) -> Iterator[Outcome]:
    """A long header hangs on its trimmers by approved hangers, and long tail joists by anchors or a ledger: to be noted.

    Holds: a header and tails at their limits. Noted: 1/16 in longer. Engineered members do not apply. Source: IRC R502.10.
    """
    header_most, tail_most = model.book.number("header.hangers_over"), model.book.number("header.tail_joist_most")
    for one in model.framing.joists:
        if one.kind not in ("header", "tail") or one.member == "engineered":
            continue
        most, key = (
            (header_most, "header.hangers_over") if one.kind == "header" else (tail_most, "header.tail_joist_most")
        )
        if not over(one.length, most):
            yield Holds(one.opening or one.field)
            continue
        what = "hangers, header to trimmer" if one.kind == "header" else "framing anchors or a ledger at the header"
        yield Finding(
            "opening-wants-hangers",
            "note",
            _middle(one),
            (one.opening or one.field,),
            one.length,
            most,
            "in",
            f"{'Header' if one.kind == 'header' else 'Tail joist'} {one.id} is {feet_inches(up(one.length))} long: past "
            f"{feet_inches(most)} it wants {what}.",
            model.book.cite(key),
            f"Put {what}.",
        )


def in_no_field(model: Model) -> Iterator[Outcome]:
    """A floor opening that frames nothing: it lies off every field of joists, or cuts no joist.

    Holds: one that has a header or a trimmer. To look at: one that has none. Common practice, no source.
    """
    framed = {joist.opening for joist in model.framing.joists}
    for opening in model.plan.floor_openings:
        if opening.id in framed:
            yield Holds(opening.id)
            continue
        yield Finding(
            "opening-frames-nothing",
            "look",
            ((opening.start[0] + opening.end[0]) / 2.0, (opening.start[1] + opening.end[1]) / 2.0, 0.0),
            (opening.id,),
            None,
            None,
            "",
            f"Floor opening {opening.id} lies where no joist has to be headed off.",
            COMMON,
            "Move it over the joists that it is to cut, or delete it.",
        )


def _middle(wood: Joist) -> tuple[float, float, float]:
    (x0, y0), (x1, y1) = wood.start, wood.end
    return (x0 + x1) / 2.0, (y0 + y1) / 2.0, 0.0


def _headers(model: Model) -> Iterator[Joist]:
    return (joist for joist in model.framing.joists if joist.kind == "header")


def _finding(rule: str, wood: Joist, measured: float, limit: float, text: str, cites: str, mend: str) -> Finding:
    return Finding(rule, "stop", _middle(wood), (wood.opening,), measured, limit, "in", text, cites, mend)


RULES = (
    Rule(
        "header-too-light", "A header that must be double", SUBJECT, "stop", ("header.single_most",), header_too_light
    ),
    Rule(
        "trimmer-too-light",
        "A trimmer that must be double",
        SUBJECT,
        "stop",
        ("header.single_most", "header.single_trimmer_within"),
        trimmer_too_light,
    ),
    Rule(
        "opening-wants-hangers",
        "Hangers at an opening",
        SUBJECT,
        "note",
        ("header.hangers_over", "header.tail_joist_most"),
        hangers,
    ),
    Rule("opening-frames-nothing", "An opening that frames nothing", SUBJECT, "look", (), in_no_field),
)
