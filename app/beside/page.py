"""A comparison as a page to read: a table for each kind of difference; what is on the plan can be followed to its place."""

from __future__ import annotations

from html import escape

from app.theme import INK, PINE, PLASTER, QUIET, STOP
from engine.comparing import Comparison
from engine.comparing.telling import CAUTION, Section, labels, told

FINDING, TRAP = "finding", "trap"
"""What a link leads to, before the colon; after it the number in its list."""

_LINKED = {"Findings that differ": (FINDING, 2), "How each trap is vented": (TRAP, 0)}
"""Sections whose rows lead somewhere, and the column that is the link."""

_BAND = "#f5f3ec"
"""The ground of every other row."""

_STYLE = f"""
h3 {{ margin: 16px 0 2px 0; color: {INK}; }}
p {{ margin: 2px 0 6px 0; }}
p.note {{ color: {QUIET}; }}
th {{ text-align: left; color: {QUIET}; font-weight: 600; }}
td {{ vertical-align: top; }}
a {{ color: {PINE}; text-decoration: none; }}
.stop {{ color: {STOP}; font-weight: 600; }}
"""


def page(comparison: Comparison, all_values: bool) -> str:
    """The page as HTML; everything that a user typed is escaped."""
    body = [_section(section) for section in told(comparison, all_values)]
    return f"<style>{_STYLE}</style>{''.join(body)}<p class='note'>{escape(CAUTION)}</p>"


def summary(comparison: Comparison) -> str:
    """The comparison in one sentence."""
    here, there = labels(comparison)
    only = sum(one.where == "there" for one in comparison.findings)
    gone = sum(one.where == "here" for one in comparison.findings)
    other = sum(one.where == "both" for one in comparison.findings)
    if not comparison.findings:
        return f"{there} finds what {here} finds."
    parts = [f"{only} found by {there} alone", f"{gone} by {here} alone"]
    if other:
        parts.append(f"{other} by both in another measure")
    return f"{', '.join(parts)}; {comparison.alike} alike."


def _section(section: Section) -> str:
    head = f"<h3>{escape(section.title)}</h3><p class='note'>{escape(section.note)}</p>"
    if not section.rows:
        return head
    whole = sum(share for _, share in section.columns)
    widths = [round(100 * share / whole) for _, share in section.columns]
    titles = "".join(
        f"<th width='{width}%'>{escape(title)}</th>" for (title, _), width in zip(section.columns, widths, strict=True)
    )
    rows = "".join(_row(section, number, row) for number, row in enumerate(section.rows))
    return (
        f"{head}<table width='99%' cellspacing='0' cellpadding='5'><tr bgcolor='{PLASTER}'>{titles}</tr>{rows}</table>"
    )


def _row(section: Section, number: int, row: tuple[str, ...]) -> str:
    kind, column = _LINKED.get(section.title, ("", -1))
    cells = []
    for place, cell in enumerate(row):
        words = escape(cell).replace("\n", "<br>")
        if place == column:
            words = f"<a href='{kind}:{number}'>{words}</a>"
        elif cell == "stop":
            words = f"<span class='stop'>{words}</span>"
        cells.append(f"<td>{words}</td>")
    ground = f" bgcolor='{_BAND}'" if number % 2 else ""
    return f"<tr{ground}>{''.join(cells)}</tr>"
