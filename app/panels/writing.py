"""How a value of the plan is written in a field and read back: lengths in feet and inches, depths counted down.

Each way of writing says a value and reads a text; reading raises ValueError with what would be right.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Any, NamedTuple

from engine.lengths import feet_inches, fraction, nearest, parse
from engine.plan.records import DoubledJoist, FloorLayer, JoistShift, MeasuredJoist

FINEST = 64
_DOUBLED = re.compile(r"^\s*(\d{1,4})(?:\s*(east|west|north|south))?(?:\s*x\s*([2-4]))?\s*$", re.IGNORECASE)
_MEASURED = re.compile(r"^\s*(\d{1,4})\s*(?:is|:)\s*(.+)$", re.IGNORECASE)
_LAYER = re.compile(r"^((?:\d[\d\s./-]*)(?:\"|in\b)?)\s*(.*)$", re.IGNORECASE)
_SHIFT = re.compile(r"^\s*(\d{1,4})\s*(?:by|:)\s*(.+)$", re.IGNORECASE)


class Writing(NamedTuple):
    """One way of writing: `say` a value, `read` it back, and the unit that stands behind the field.

    One that is `numbered` names joists or studs by number, which may stand behind the element's id: ``j1.3``.
    """

    say: Callable[[Any], str]
    read: Callable[[str], Any]
    unit: str = ""
    numbered: bool = False

    def read_of(self, text: str, element: str) -> Any:
        """The value of a text in a field of this element. ValueError says what would be right."""
        return self.read(re.sub(rf"\b{re.escape(element)}\.(?=\d)", "", text) if self.numbered and element else text)


def say_length(value: float) -> str:
    """A length to the mark where it lies on one, else with decimals, so that reading it back loses nothing."""
    mark = nearest(value, FINEST)
    return feet_inches(mark, FINEST) if math.isclose(mark, value, abs_tol=1e-9) else f"{value:.10g} in"


def say_place(value: float) -> str:
    """A length as a tape reads it, to the nearest 64th: for places, which are kept exactly while they are not typed."""
    return feet_inches(nearest(value, FINEST), FINEST)


def _say_down(z: float) -> str:
    return say_length(-z)


def _read_down(text: str) -> float:
    return -parse(text) + 0.0


def _read_number(text: str) -> float:
    try:
        value = float(text.strip().replace("−", "-"))
    except ValueError:
        raise ValueError(f"{text.strip()!r} is not a number such as 0.25 or 45") from None
    if not math.isfinite(value):
        raise ValueError(f"{text.strip()!r} is not a finite number")
    return value


def _read_slope(text: str) -> float:
    """A slope as a number or as a rule shows it: 0.25, 1/4, -1/8, 1/4 in."""
    plain = text.strip().replace("−", "-").removesuffix("in per ft").removesuffix("in").strip()
    sign, rest = (-1.0, plain[1:]) if plain.startswith("-") else (1.0, plain)
    try:
        return sign * fraction(rest)
    except ValueError:
        return _read_number(text)


def _say_lengths(values: tuple[float, ...]) -> str:
    return "; ".join(map(say_length, values))


def _read_lengths(text: str) -> tuple[float, ...]:
    return tuple(parse(part) for part in _parts(text))


def _say_shifts(shifts: tuple[JoistShift, ...]) -> str:
    return "; ".join(f"{shift.number} by {say_length(shift.by)}" for shift in shifts)


def _read_shifts(text: str) -> tuple[JoistShift, ...]:
    shifts = []
    for part in _parts(text):
        found = _SHIFT.match(part)
        if found is None:
            raise ValueError(f'{part!r} moves nothing; write its number and the way, like 3 by 1 1/2"')
        shifts.append(JoistShift(int(found[1]), parse(found[2])))
    return tuple(shifts)


def _say_doubled(doubled: tuple[DoubledJoist, ...]) -> str:
    """Number, side where it is the west or south one, and plies where they are more than two: ``3; 5 west; 7 x3``."""
    return "; ".join(
        f"{one.number}{' west' if one.side == 'west or south' else ''}{f' x{one.plies}' if one.plies > 2 else ''}"
        for one in doubled
    )


def _read_doubled(text: str) -> tuple[DoubledJoist, ...]:
    found = []
    for part in _parts(text):
        told = _DOUBLED.match(part)
        if told is None:
            raise ValueError(
                f"{part!r} doubles no joist; write its number, then its side or plies, like 3 or 5 west or 7 x3"
            )
        west = (told[2] or "east").lower() in ("west", "south")
        found.append(DoubledJoist(int(told[1]), int(told[3] or 2), side="west or south" if west else "east or north"))
    return tuple(found)


def _say_measured(measured: tuple[MeasuredJoist, ...]) -> str:
    return "; ".join(f"{one.number} is {say_length(one.depth)}" for one in measured)


def _read_measured(text: str) -> tuple[MeasuredJoist, ...]:
    found = []
    for part in _parts(text):
        told = _MEASURED.match(part)
        if told is None:
            raise ValueError(f'{part!r} measures no joist; write its number and its depth, like 3 is 9 3/4"')
        found.append(MeasuredJoist(int(told[1]), parse(told[2])))
    return tuple(found)


def _say_layers(layers: tuple[FloorLayer, ...]) -> str:
    return " + ".join(f"{say_length(layer.thickness)} {layer.name}".strip() for layer in layers) or say_length(0.0)


def _read_layers(text: str) -> tuple[FloorLayer, ...]:
    """Layers from the lowest up, as one says them: ``23/32" plywood + 1/4" backer board``."""
    layers = []
    for part in (one.strip() for one in text.split("+")):
        told = _LAYER.match(part)
        if told is None:
            raise ValueError(f'{part!r} is no layer; write its thickness and what it is, like 23/32" plywood')
        layers.append(FloorLayer(parse(told[1]), told[2].strip()))
    return tuple(layer for layer in layers if layer.thickness or layer.name)


def _read_count(text: str) -> int:
    try:
        return int(text)
    except ValueError:
        raise ValueError(f"{text!r} is not a whole number such as 1 or 2") from None


def _say_numbers(numbers: tuple[int, ...]) -> str:
    return "; ".join(map(str, numbers))


def _read_numbers(text: str) -> tuple[int, ...]:
    return tuple(_read_count(part) for part in _parts(text))


def _parts(text: str) -> list[str]:
    return [part.strip() for part in re.split(r"[;,]", text) if part.strip()]


LENGTH = Writing(say_length, parse)
DOWN = Writing(_say_down, _read_down, "down")
ANGLE = Writing("{:.6g}".format, _read_number, "degrees")
SLOPE = Writing("{:.6g}".format, _read_slope, "in per ft")
FLOW = Writing("{:.6g}".format, _read_number, "gpm")
GALLONS = Writing("{:.6g}".format, _read_number, "gal")
COUNT = Writing(str, _read_count)
PRESSURE = Writing("{:.6g}".format, _read_number, "psi")
TEMPERATURE = Writing("{:.6g}".format, _read_number, "°F")
WORDS = Writing(str, str.strip)
LENGTHS = Writing(_say_lengths, _read_lengths)
DOUBLED = Writing(_say_doubled, _read_doubled, numbered=True)
MEASURED = Writing(_say_measured, _read_measured, numbered=True)
LAYERS = Writing(_say_layers, _read_layers)
NUMBERS = Writing(_say_numbers, _read_numbers, numbered=True)
SHIFTS = Writing(_say_shifts, _read_shifts, numbered=True)
