"""Why one book finds what the other does not: the value that differs, else what follows from another size or fitting."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks import ALL_RULES
from engine.checks.records import Finding, Rule
from engine.comparing.following import followed
from engine.comparing.sides import Sides
from engine.rulebooks.meaning import means
from engine.rulebooks.saying import plain
from engine.takeoff.vent_rows import vent_row

_RULES: dict[str, Rule] = {rule.id: rule for rule in ALL_RULES}
_MOST_VALUES = 3
"""So many values at most explain one finding: more would be a list and no reason."""

_IN_SPACE = frozenset({"no-height-fits", "no-room", "pipes-in-one-place", "little-pipe-showing"})
"""Rules on bodies in space, for which a size or fitting tells more than the number that they are held to."""

UNEXPLAINED = "Nothing that this rule reads differs: it follows from other changes in the pipes."


def reasons(sides: Sides, here: Finding | None, there: Finding | None) -> tuple[str, ...]:
    """Sentences that say why a finding is made by one book alone, or by both in another measure."""
    found = here if here is not None else there
    assert found is not None
    rule = _RULES[found.rule]
    lacking = _lacking(sides, rule, found, here is not None) if here is None or there is None else None
    if lacking is not None:
        return (lacking,)
    if found.rule == "trap-without-vent":
        return tuple(dict.fromkeys(_other_air(sides, found, here is not None)))
    told = tuple(sides.told(key) for key in _values(sides, rule, here, there))
    if told and found.rule not in _IN_SPACE:
        return told
    return tuple(dict.fromkeys((*told, *followed(sides, found)))) or (UNEXPLAINED,)


def _lacking(sides: Sides, rule: Rule, found: Finding, mine: bool) -> str | None:
    """What keeps the other book from judging by the rule, or from judging this; None where it does judge."""
    book, study, who = (sides.theirs, sides.there, sides.there_is) if mine else (sides.mine, sides.here, sides.here_is)
    for key in rule.reads:
        if not book.speaks_of(key):
            why = book.silence(key)
            return (
                f"{who} has no such rule: {plain(why)}."
                if why
                else f"Not judged by {who}, which gives no {means(key)}."
            )
    for name, case in study.not_judged:
        if name == rule.id and (not case.elements or set(case.elements) & set(found.elements)):
            return f"Not judged by {who}: {case.missing}."
    return None


def _values(sides: Sides, rule: Rule, here: Finding | None, there: Finding | None) -> Iterator[str]:
    """The values that part the books on this: those that a finding cites and is held to, else the few that its rule reads."""
    parted = sides.read_by(rule)
    held = [key for key in parted if _held_to(sides, key, here, there)]
    if held:
        yield from held[:_MOST_VALUES]
        return
    cited = [key for key in parted if _cited(sides, key, here, there)]
    yield from cited if len(cited) <= _MOST_VALUES else ()
    if not cited and len(parted) <= _MOST_VALUES:
        yield from parted


def _cited(sides: Sides, key: str, here: Finding | None, there: Finding | None) -> bool:
    return any(
        found is not None and book.has(key) and book.cite(key) == found.cites
        for book, found in ((sides.mine, here), (sides.theirs, there))
    )


def _held_to(sides: Sides, key: str, here: Finding | None, there: Finding | None) -> bool:
    return any(
        found is not None
        and found.limit is not None
        and book.has(key)
        and book.cite(key) == found.cites
        and book.value(key).value == found.limit
        for book, found in ((sides.mine, here), (sides.theirs, there))
    )


def _other_air(sides: Sides, found: Finding, mine: bool) -> Iterator[str]:
    """The value that refuses a trap its air under the one book, and how it has it under the other."""
    fixture = found.elements[0]
    at_home, abroad = (sides.here, sides.there) if mine else (sides.there, sides.here)
    own = next((trap for trap in at_home.model.network.traps if trap.fixture == fixture), None)
    if own is not None and own.breaks in sides.parted:
        yield sides.told(own.breaks)
    row = vent_row(abroad.model, fixture)
    if row is not None and row.method:
        who = sides.there_is if mine else sides.here_is
        yield f"By {who} it is vented: {row.how[:1].lower()}{row.how[1:]}"
