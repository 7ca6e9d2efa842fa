"""What is drawn: one elevation for each cut joist, or for several whose every printed figure is the same."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from engine.checks.model import Model
from engine.crossings.limits import allowance, judged_by_book, spans
from engine.crossings.records import JoistCut
from engine.drawings.elevations.figures import Shown, facts, shown
from engine.framing.records import Joist
from engine.lengths import down, inches, up
from engine.plan.records import Record
from engine.study import Study
from engine.takeoff.boring import Hook, hook, walk
from engine.takeoff.naming import joist_words, together

MOST_ALIKE = 6
"""No more joists than this share a drawing: their numbers must stand over one column."""


class Third(Record, frozen=True, gc=False):
    """A clear span from support to support and the part of it that is kept whole, inches from the hooked end.

    `words` say what is kept out of it, `ends` are that part's ends as printed, outward to a sixteenth.
    """

    start: float
    end: float
    low: float
    high: float
    words: str
    ends: tuple[str, str]


class Elevation(Record, frozen=True, gc=False):
    """One drawing: the joists that it holds for, their common measures, and their cuts from the hooked end on.

    `edge` is the wood that no hole may reach into along the top and the bottom, None where no book rules the member.
    `supports` are (from, to) inches from the hooked end. `part` counts the drawings of one joist that has too many cuts
    for one, `of` how many there are.
    """

    joists: tuple[str, ...]
    names: tuple[str, ...]
    length: float
    depth: float
    hook: Hook
    facts: tuple[str, ...]
    edge: float | None
    supports: tuple[tuple[float, float], ...]
    thirds: tuple[Third, ...]
    cuts: tuple[Shown, ...]
    part: int = 1
    of: int = 1

    @property
    def title(self) -> str:
        """What the joists are called: JOIST 2, or JOISTS 9, 10 AND 11."""
        return together(self.names, " and ").upper()


_ALIKE = ("length", "depth", "hook", "facts", "edge", "supports", "thirds")
"""What joists must have in common besides their cuts' figures to share a drawing."""


def elevations(study: Study) -> tuple[Elevation, ...]:
    """Every cut joist once, in the order in which one walks them; joists with the same figures share a drawing."""
    shared: dict[tuple[object, ...], list[Elevation]] = {}
    for joist, cuts in walk(study.model):
        made = _elevation(study.model, joist, cuts)
        alike = (*(getattr(made, name) for name in _ALIKE), *(_printed(cut) for cut in made.cuts))
        turn = 0
        while len(shared.setdefault((turn, *alike), [])) == MOST_ALIKE:
            turn += 1
        shared[turn, *alike].append(made)
    return tuple(map(_together, shared.values()))


def _together(alike: list[Elevation]) -> Elevation:
    """Joists with the same figures as one drawing; each cut has their numbers, joist by joist."""
    first = alike[0]
    if len(alike) == 1:
        return first
    cuts = tuple(
        msgspec.structs.replace(same[0], numbers=tuple(number for cut in same for number in cut.numbers))
        for same in zip(*(one.cuts for one in alike), strict=True)
    )
    joists, names = (tuple(getattr(one, name)[0] for one in alike) for name in ("joists", "names"))
    return msgspec.structs.replace(first, joists=joists, names=names, cuts=cuts)


def _printed(cut: Shown) -> tuple[object, ...]:
    """All of a cut that is drawn or printed, save its number."""
    return tuple(getattr(cut, name) for name in cut.__struct_fields__ if name != "numbers")


def _elevation(model: Model, joist: Joist, cuts: Iterable[tuple[int, JoistCut]]) -> Elevation:
    held = hook(model, joist)
    ruled = judged_by_book(joist) and model.book.has("joist.bore.edge")
    drawn = [shown(model, joist, held, number, made) for number, made in cuts]
    return Elevation(
        joists=(joist.id,),
        names=(joist_words(model, joist),),
        length=joist.length,
        depth=joist.depth,
        hook=held,
        facts=tuple(facts(model, joist)),
        edge=allowance(joist.depth, model.book).edge if ruled else None,
        supports=joist.supports,
        thirds=_thirds(model, joist),
        cuts=tuple(sorted(drawn, key=lambda cut: (cut.at, cut.height, cut.numbers))),
    )


def _thirds(model: Model, joist: Joist) -> tuple[Third, ...]:
    """The part of each clear span into which no notch may reach, and by some books no hole either."""
    book = model.book
    if not (judged_by_book(joist) and book.has("joist.notch.middle_from") and book.has("joist.notch.middle_to")):
        return ()
    words = "NO NOTCH" if book.flag("joist.bore.middle_allowed") else "NO HOLE, NO NOTCH"
    shares = book.number("joist.notch.middle_from"), book.number("joist.notch.middle_to")
    found = []
    for span in spans(joist):
        low, high = (span.start + share * span.length for share in shares)
        ends = (f'{inches(down(low))}"', f'{inches(up(high))}"')
        found.append(Third(span.start, span.end, low, high, words, ends))
    return tuple(found)
