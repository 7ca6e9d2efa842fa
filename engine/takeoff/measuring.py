"""How to measure the legs of a fitting with a rule, and how to read what was written down."""

from __future__ import annotations

import re
from typing import NamedTuple

from engine.lengths import parse
from engine.trade import pipe
from engine.trade.fittings import KINDS, LegName, Size

FROM_FACE = "to the hub's face, less the socket's depth"
"""What is taken off every hub: its stop lies a socket's depth inside the face (US Army plumbing lesson)."""

ITS_OWN_STOP = frozenset({"cleanout_adapter_hub_fpt", "aav_adapter", "trap_adapter_hub"})
"""Kinds that are counted from the stop of their own hub: their take-off is nothing, whoever made them."""

_SIGNED = re.compile(r"\s([-–−+])\s")
_NAMES: dict[str, tuple[str, ...]] = {
    "sanitary_tee": ("upper hub", "lower hub", "branch"),
    "test_tee": ("upper hub", "lower hub", "side"),
    "wye": ("upstream hub", "downstream hub", "branch"),
    "combo_wye_eighth_bend": ("upstream hub", "downstream hub", "branch"),
    "closet_bend": ("4 in end, up", "3 in end"),
    "p_trap": ("inlet", "outlet"),
    "closet_flange_4x3": ("ring", "hub"),
    "closet_flange_hub": ("ring", "hub"),
}


class Measuring(NamedTuple):
    """How one leg is measured.

    `name` is what it is called, `how` the words. `socket` tells whether a socket's depth comes off what the rule
    shows at the hub's face (-1), is added to it (1), or does not come into it (0). `sign` is -1 where what is
    measured counts down and the take-off up; `share` what of it is the take-off.
    """

    name: str
    how: str
    socket: int
    sign: float = 1.0
    share: float = 1.0

    def takeoff(self, measured: float) -> float:
        """The take-off that a measured length stands for."""
        return measured * self.sign * self.share + 0.0

    def measured(self, takeoff: float) -> float:
        """What the rule shows for a take-off, the socket's depth taken off already."""
        return takeoff * self.sign / self.share + 0.0


def alike(kind: str) -> bool:
    """Whether both legs of a kind are one measure: a bend of two hubs, and what is straight between two stops."""
    shape = KINDS[kind]
    plain = shape.kind != "closet_bend" and shape.street_of is None
    return shape.ends == ("hub", "hub") and plain and kind != "p_trap"


def measuring(kind: str, leg: LegName) -> Measuring:
    """How a leg of a kind of fitting is measured."""
    shape = KINDS[kind]
    plain = shape.double_of or kind
    name = _NAMES.get(plain, ("hub", "spigot") if shape.street_of else ("either hub", "either hub"))[
        shape.legs.index(leg)
    ]
    if shape.street_of and leg == "run_out":
        return Measuring(name, "from where the two centrelines cross, along the leg, to the tip of the spigot", 0)
    if kind == "p_trap":
        if leg == "run_in":
            how = "from the outlet's centreline down to the inlet hub's face, and the socket's depth added"
            return Measuring(name, how, 1, -1.0)
        return Measuring(name, f"from the inlet's centreline across {FROM_FACE}", -1)
    if kind == "flush_bushing_addon":
        return Measuring("bushing", "its spigot's length, less the depth of the socket inside it", 0)
    if plain.startswith("closet_flange"):
        return Measuring(name, "from the underside of the ring down to the stop inside the hub", 0)
    if alike(kind) and shape.turn == 0.0:
        how = "push a scrap of pipe in at each end; the space left between the two, by a mark on each"
        return Measuring("both hubs", f"{how}. Half of it counts for each", 0, 1.0, 0.5)
    if plain in ("wye", "combo_wye_eighth_bend", "sanitary_tee", "test_tee"):
        return Measuring(name, f"from where the branch's centreline meets the run's, {FROM_FACE}", -1)
    return Measuring(name, f"from the other leg's centreline {FROM_FACE}", -1)


def socket_of(kind: str, size: Size, leg: LegName) -> float:
    """Depth of the socket that a leg's pipe goes into, inches."""
    return pipe.drain(size[KINDS[kind].legs.index(leg)]).socket


def read_measure(text: str) -> float:
    """A measure as it was written down: a length, or a face's distance with a socket's depth taken off or added.

    LengthError says what is no length.

    >>> read_measure("3 1/16"), read_measure("4 9/16 - 1 1/2"), read_measure("1 9/16 + 3/4")
    (3.0625, 3.0625, 2.3125)
    """
    first, *rest = _SIGNED.split(text.strip())
    total = parse(first)
    for sign, part in zip(rest[::2], rest[1::2], strict=True):
        total += parse(part) if sign == "+" else -parse(part)
    return total
