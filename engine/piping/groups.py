"""Fixture groups: what fixtures give together once their pipes have joined, where the book counts them as one.

A code that knows groups gives a bathroom, two bathrooms, a sink with its dishwasher or a standpipe with its laundry tub
fewer units than their members have, since they do not all run at once. The load is the least that any such counting of
the fixtures gives, each fixture counted once, and never less than the largest fixture's own. Which lavatory belongs to
which closet is not asked: members of a kind count alike.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from engine.piping.fixture_units import Units
from engine.plan.records import Record
from engine.rulebooks import RuleBook

PAIRS = (
    ("kitchen", "kitchen group", "kitchen_sink", "dishwasher"),
    ("laundry", "laundry group", "washer_standpipe", "laundry_tub"),
)
"""Groups of two: the value's row under ``dfu.group``, what it is called, and the kinds of its members."""
BATHING = ("bathtub", "shower")
"""What makes a bathroom a full one; it counts one of them."""
MANY = 3
"""Up to so many full baths a table of several baths has a row; further ones are added."""


class Group(Record, frozen=True, gc=False):
    """Fixtures that the book counts as one: what it calls them, its units and key, and what the members give singly."""

    words: str
    units: float
    key: str
    parts: tuple[float, ...]


class Load(Record, frozen=True, gc=False):
    """What a pipe carries, in fixture units.

    `units` is the load, `alone` the sum of the single fixtures. `groups` are counted as one each, `single` the units of
    the fixtures beside them (a shower's further heads are beside its group). `unknown` are fixtures for which the book
    gives no units: they are left out.
    """

    units: float
    alone: float
    groups: tuple[Group, ...]
    single: tuple[float, ...]
    unknown: tuple[str, ...] = ()

    @property
    def told(self) -> str:
        """The count in words: ``full-bath group 5, in place of 3 + 1 + 2 = 6; with 2: 7``."""
        said = [f"{one.words} {one.units:g}, in place of {_sum(one.parts)}" for one in self.groups]
        if self.groups and self.single:
            said.append(f"with {_sum(self.single)}: {self.units:g} in all")
        elif len(self.groups) > 1:
            said.append(f"{self.units:g} in all")
        elif not self.groups:
            said.append(_sum(self.single) if self.single else "nothing")
        if self.unknown:
            said.append(f"without {', '.join(self.unknown)}, for which the book gives no units")
        return "; ".join(said)


def _sum(parts: Sequence[float]) -> str:
    if len(parts) == 1:
        return f"{parts[0]:g}"
    return f"{' + '.join(f'{part:g}' for part in parts)} = {sum(parts):g}"


class Grouping:
    """The groups that one book knows, with their values."""

    def __init__(self, book: RuleBook) -> None:
        self._value = {key.removeprefix("dfu.group."): book.number(key) for key in book.keys("dfu.group")}

    def load(self, members: Iterable[Units], unknown: Iterable[str] = ()) -> Load:
        """The least load that the members give together, and how it comes about."""
        by_kind: dict[str, list[Units]] = {}
        alone = largest = 0.0
        beside: list[float] = []
        for one in members:
            by_kind.setdefault(one.kind, []).append(one)
            alone += one.units
            largest = max(largest, one.units)
            if one.units > one.usual:
                beside.append(one.units - one.usual)
        for same in by_kind.values():
            same.sort(key=lambda one: (-one.usual, one.fixture))
        groups: list[Group] = []
        if self._value:
            groups += self._pairs(by_kind)
            groups += self._baths(by_kind)
        single = [one.usual for same in by_kind.values() for one in same] + beside
        units = sum(group.units for group in groups) + sum(single)
        return Load(max(units, largest), alone, tuple(groups), tuple(single), tuple(unknown))

    def _pairs(self, by_kind: dict[str, list[Units]]) -> Iterator[Group]:
        """The groups of two, taken out of what is left."""
        for row, words, *kinds in PAIRS:
            value = self._value.get(row)
            while value is not None and all(by_kind.get(kind) for kind in kinds):
                parts = tuple(by_kind[kind][0].usual for kind in kinds)
                if value > sum(parts):
                    break
                for kind in kinds:
                    by_kind[kind].pop(0)
                yield Group(words, max(value, *parts), f"dfu.group.{row}", parts)

    def _baths(self, by_kind: dict[str, list[Units]]) -> list[Group]:
        """The counting of closets, lavatories and tubs or showers as baths that gives least, taken out of what is left."""
        closets, lavatories = by_kind.get("water_closet", []), by_kind.get("lavatory", [])
        if not closets or not lavatories:
            return []
        bathing = sorted(
            (one for kind in BATHING for one in by_kind.get(kind, ())), key=lambda one: (-one.usual, one.fixture)
        )
        usual = [one for one in closets if not one.large_flush]
        large = [one for one in closets if one.large_flush]
        best: tuple[float, list[Group], set[str]] | None = None
        rest = [*closets, *lavatories, *bathing]
        for full, half in _ways_to_count(len(usual), len(lavatories), len(bathing)):
            groups, taken = self._counted(full, half, usual, lavatories, bathing, "")
            more, also = self._large(large, lavatories[full + half :], bathing[full:])
            groups, taken = [*groups, *more], taken | also
            total = sum(group.units for group in groups) + sum(one.usual for one in rest if one.fixture not in taken)
            if best is None or total < best[0]:
                best = (total, groups, taken)
        if best is None:
            return []
        for kind in ("water_closet", "lavatory", *BATHING):
            by_kind[kind] = [one for one in by_kind.get(kind, ()) if one.fixture not in best[2]]
        return best[1]

    def _large(
        self, closets: list[Units], lavatories: list[Units], bathing: list[Units]
    ) -> tuple[list[Group], set[str]]:
        """Closets of a large flush, each in a bath of its own: the table of several baths says nothing of such."""
        full = min(len(closets), len(lavatories), len(bathing))
        half = min(len(closets), len(lavatories)) - full
        return self._counted(full, half, closets, lavatories, bathing, "_over_1_6")

    def _counted(
        self, full: int, half: int, closets: list[Units], lavatories: list[Units], bathing: list[Units], flush: str
    ) -> tuple[list[Group], set[str]]:
        """So many full and half baths as groups, with the fixtures that they take; none where the book has no value."""
        groups: list[Group] = []
        taken: set[str] = set()
        several = self._several(full, half) if not flush else None
        start = 0
        if several is not None:
            row, value, words, halves = several
            count = full + halves
            members = [*closets[:count], *lavatories[:count], *bathing[:full]]
            _join(groups, taken, words, value, row, members)
            start = count
        for number in range(start, full + half):
            row, words = ("full_bath", "full-bath group") if number < full else ("half_bath", "half-bath group")
            single = self._value.get(f"{row}{flush}")
            members = [closets[number], lavatories[number], *([bathing[number]] if number < full else [])]
            if single is not None:
                _join(groups, taken, words, single, f"{row}{flush}", members)
        return groups, taken

    def _several(self, full: int, half: int) -> tuple[str, float, str, int] | None:
        """The row of several baths: its name, its value, what it is called, and how many half baths (0 or 1) it takes."""
        halves = min(half, 1)
        if full + halves < 2 or not full:
            return None
        row = f"baths_{min(full, MANY)}" + ("_half" if halves else "")
        value, further = self._value.get(row), self._value.get("each_further_bath")
        if value is None or (full > MANY and further is None):
            return None
        value += max(0, full - MANY) * (further or 0.0)
        return row, value, f"group of {full}{'-1/2' if halves else ''} baths", halves


def _join(groups: list[Group], taken: set[str], words: str, value: float, row: str, members: list[Units]) -> None:
    parts = tuple(one.usual for one in members)
    groups.append(Group(words, max(value, *parts), f"dfu.group.{row}", parts))
    taken.update(one.fixture for one in members)


def _ways_to_count(closets: int, lavatories: int, bathing: int) -> Iterator[tuple[int, int]]:
    """Numbers of full and half baths to try, the most first.

    Past the rows of several baths each further bath adds the same, so that only the ends of that stretch can be least.
    """
    pairs = min(closets, lavatories)
    most = min(pairs, bathing)
    fulls = sorted({0, 1, 2, MANY, most - 1, most}, reverse=True)
    for full in fulls:
        if 0 <= full <= most:
            for half in sorted({0, 1, pairs - full}, reverse=True):
                if 0 <= half <= pairs - full:
                    yield full, half
