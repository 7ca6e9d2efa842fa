"""Reading an isometric as a person does: which texts name parts, which pieces, and what else is written."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable

from engine.drawings import Text
from engine.drawings.isometric import Isometric
from engine.drawings.isometric.names import part_name, short
from engine.joinery.records import Part
from engine.trade.habits import CLOSET_EXTRAS

MARK = re.compile(r'^(?P<mark>[A-Za-z][\w.-]*) (?P<size>[\d/-]+)"$')
ELSE = (
    re.compile(r"^(SAN|V|CW|HW)$"),
    re.compile(r"^(N|E|UP)$"),
    re.compile(r"^-?[\d /]+ in/ft$"),
    re.compile(r"^(top )?[\d '/\"-]+ above floor$"),
    re.compile(r"^SEEN FROM THE "),
    re.compile(r"^(WC|LAV|SH|BT|KS|BS|LT|DW|WM|FD|BD|WH|REF|HB) \S+(, [\d.]+ DFU)?$"),
    re.compile(r"^takes [A-Z]+ \S+$"),
    re.compile(r"^(own trap|trap [\d/-]+\")(, (arm .*|no vent))?$"),
    re.compile(r"^EXIT \S+$"),
    re.compile(r"^IE .* below floor$"),
    re.compile(r"^.* below joists' top$"),
    re.compile(r"^(VTR|AAV|CAPPED|LOOP|CO) [a-z]\S*$"),
    re.compile(r"^WATER IN "),
    re.compile(r"^MATCH [A-Z]$"),
    re.compile(r"^NO FITTING: see findings$"),
)
"""Everything that is written besides parts and marks."""


def texts(sheets: Iterable[Isometric]) -> list[str]:
    return [stroke.text for sheet in sheets for stroke in sheet.drawing.strokes if isinstance(stroke, Text)]


def marks(sheets: Iterable[Isometric]) -> Counter[str]:
    """Every framed mark that is written, with how often."""
    return Counter(found["mark"] for text in texts(sheets) if (found := MARK.match(text)) is not None)


def named_parts(sheets: Iterable[Isometric]) -> Counter[str]:
    """Every part that is written, by name and size, with how often; what goes with a flange one by one."""
    extras = ", ".join(short(kind) for kind in CLOSET_EXTRAS)
    counted: Counter[str] = Counter()
    for text in texts(sheets):
        if MARK.match(text) or any(pattern.match(text) for pattern in ELSE):
            continue
        if text == extras:
            counted.update(short(kind) for kind in CLOSET_EXTRAS)
        else:
            counted[text] += 1
    return counted


def listed(parts: Iterable[Part]) -> Counter[str]:
    """The same, off the joinery."""
    return Counter(part_name(part) for part in parts)
