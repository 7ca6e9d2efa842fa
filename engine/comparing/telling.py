"""A comparison as sections of rows in words: what window, terminal and sheet all show."""

from __future__ import annotations

from typing import NamedTuple

from engine.checks.records import Finding, Weight
from engine.comparing.exits import exit_words
from engine.comparing.grouped import TableBeside, by_table
from engine.comparing.records import Comparison, ExitSide, FindingBeside, TrapSide
from engine.lengths import feet_inches, inches
from engine.takeoff.local import source_of

_WEIGHTS: dict[Weight, str] = {"stop": "stop", "look": "look", "note": "know"}

CAUTION = (
    "The other book is taken as printed, without your place's changes; which book holds, and what your place has changed "
    "in it, only your building department can say."
)


class Section(NamedTuple):
    """A titled table: `note` says what it is, `columns` are titles with their share of the width.

    Where nothing is to be told there are no rows, and `note` says so.
    """

    title: str
    note: str
    columns: tuple[tuple[str, int], ...]
    rows: tuple[tuple[str, ...], ...]


def labels(comparison: Comparison) -> tuple[str, str]:
    """What to call the two books: by their short names, and as amended and printed where both are the same book."""
    here, there = comparison.here, comparison.there
    if here.name == there.name:
        return f"{here.short} as amended", f"{there.short} as printed"
    return here.short, there.short


def told(comparison: Comparison, all_values: bool = True) -> tuple[Section, ...]:
    """The whole comparison; `all_values` adds the values that explain nothing on this plan."""
    sections = [
        _counts(comparison),
        _left_out(comparison),
        _findings(comparison),
        _traps(comparison),
        _exits(comparison),
        _sizes(comparison),
        _parts(comparison),
        _telling_values(comparison),
        _silent(comparison),
        _other_values(comparison) if all_values else None,
    ]
    return tuple(section for section in sections if section is not None)


def _counts(comparison: Comparison) -> Section:
    here, there = labels(comparison)
    rows = tuple((words, str(mine), str(theirs)) for words, mine, theirs in comparison.counts)
    alike = f"{comparison.alike} {'finding is' if comparison.alike == 1 else 'findings are'} the same under both."
    return Section("What each book finds", alike, (("", 30), (here, 20), (there, 20)), rows)


def _left_out(comparison: Comparison) -> Section | None:
    if not comparison.left_out:
        return None
    here, there = labels(comparison)
    rows = tuple(
        (one.means, f"{one.becomes} ({source_of(one.said_by, one.on)})", one.there) for one in comparison.left_out
    )
    note = f"They belong to {here}: they name its sections and were written against its numbers. {there} stands without them."
    return Section("Local amendments that are left out", note, (("Value", 30), ("Amended to", 24), (there, 40)), rows)


def _findings(comparison: Comparison) -> Section:
    title, columns = "Findings that differ", (("Found by", 12), ("Weight", 7), ("What", 44), ("Why", 50))
    if not comparison.findings:
        return Section(title, "None: both books find the same.", columns, ())
    note = "What only one book finds, or both in another measure, and the value or the change in the pipes that parts them."
    return Section(title, note, columns, tuple(_finding(comparison, one) for one in comparison.findings))


def _finding(comparison: Comparison, one: FindingBeside) -> tuple[str, ...]:
    here, there = labels(comparison)
    if one.where != "both":
        by, what = (here if one.where == "here" else there), f"{one.finding.text} ({one.finding.cites})"
    else:
        assert one.here is not None and one.there is not None
        by = "both"
        what = f"{here}: {one.here.text} ({one.here.cites})\n{there}: {_changed(one.here, one.there)}"
    return by, _WEIGHTS[one.weight], what, "\n".join(one.why)


def _changed(here: Finding, there: Finding) -> str:
    text = "in another measure." if there.text == here.text else there.text
    return f"{text} ({there.cites})"


def _traps(comparison: Comparison) -> Section:
    here, there = labels(comparison)
    rows = tuple(
        (trap.words, _trap(trap.here), _trap(trap.there), "\n".join(trap.why) or "The same.")
        for trap in comparison.traps
    )
    note = "What vents each trap, how far away that is, and how far it may be." if rows else "No trap is drawn yet."
    return Section("How each trap is vented", note, (("Fixture", 15), (here, 26), (there, 26), ("Why", 44)), rows)


def _trap(side: TrapSide | None) -> str:
    if side is None:
        return "no drain"
    if not side.method:
        return f"{side.state}: {side.how} ({side.section})"
    away = "" if side.distance is None else f", {feet_inches(side.distance)} away"
    limit = "no limit" if side.limit is None else f"limit {feet_inches(side.limit)}"
    section = f", {side.limit_section}" if side.limit_section else ""
    late = "too far: " if side.state == "too far" else ""
    return f"{late}{side.method}{away} ({side.section}); {limit}{section}"


def _exits(comparison: Comparison) -> Section | None:
    if not comparison.exits:
        return None
    here, there = labels(comparison)
    rows = tuple((one.exit, _exit(one.here), _exit(one.there)) for one in comparison.exits)
    note = "Heights of the drain's axis where it leaves the floor, down from the joists' top."
    return Section("Height of the exit", note, (("Exit", 8), (here, 40), (there, 40)), rows)


def _exit(side: ExitSide) -> str:
    words = exit_words(side)
    return f"{words[:1].upper()}{words[1:]}; taken: {inches(-side.chosen)} in."


def _sizes(comparison: Comparison) -> Section | None:
    if not comparison.sizes:
        return None
    here, there = labels(comparison)
    rows = tuple(
        (
            f"{one.words}, {'vent' if one.system == 'vent' else 'drain'}",
            f"{one.here} in: {one.here_why}",
            f"{one.there} in: {one.there_why}",
        )
        for one in comparison.sizes
    )
    note = "Pipes that are left open, so that each book takes its least, with what sets it."
    return Section("Sizes that change", note, (("Pipe", 20), (here, 36), (there, 36)), rows)


def _parts(comparison: Comparison) -> Section | None:
    if not comparison.parts:
        return None
    here, there = labels(comparison)
    rows = tuple(
        (f"{one.part}{f', {one.size}' if one.size else ''}", one.system, str(one.here), str(one.there), one.unit)
        for one in comparison.parts
    )
    columns = (("Part", 46), ("For", 10), (here, 14), (there, 14), ("Counted in", 10))
    return Section(
        "What to buy otherwise", "Lines of the shopping list that change; pipe itself is left out.", columns, rows
    )


def _telling_values(comparison: Comparison) -> Section:
    here, there = labels(comparison)
    rows = tuple(row for table in by_table(value for value in comparison.values if value.tells) for row in _rows(table))
    note = (
        "The values that bring about what is told above."
        if rows
        else "No value brings about a difference on this plan."
    )
    return Section("Values that make the difference", note, (("Value", 34), (here, 34), (there, 34)), rows)


def _other_values(comparison: Comparison) -> Section | None:
    rest = (value for value in comparison.values if not value.tells)
    rows = tuple(row for table in by_table(rest) for row in _rows(table))
    if not rows:
        return None
    here, there = labels(comparison)
    note = "Values that this plan was held to, and that would tell on another: they differ, and change nothing here."
    return Section("Other values that differ", note, (("Value", 34), (here, 34), (there, 34)), rows)


def _rows(table: TableBeside) -> list[tuple[str, ...]]:
    """A table's rows; rows with the same words on one side and none on the other are told once."""
    seen: dict[tuple[str, str], list[str]] = {}
    for row, here, there in table.rows:
        seen.setdefault((here, there), []).append(row)
    return [
        (f"{table.means}{f' ({_listed(names)})' if any(names) else ''}", here, there)
        for (here, there), names in seen.items()
    ]


def _listed(names: list[str]) -> str:
    return ", ".join(name for name in names if name)


def _silent(comparison: Comparison) -> Section | None:
    if not comparison.silent:
        return None
    here, there = labels(comparison)
    rows = tuple((one.title, there if one.silent == "here" else here, f"{one.why}.") for one in comparison.silent)
    note = "Rules that judged something here under one book, and that the other does not have."
    columns = (("Rule", 34), ("Only in", 14), ("Why not in the other", 50))
    return Section("Rules that only one book has", note, columns, rows)
