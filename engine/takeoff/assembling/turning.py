"""Which way a fitting looks when it is pushed on: its other legs on the dial of the joint, with the roll of their fall."""

from __future__ import annotations

import math

from engine.checks.model import Model
from engine.joinery.records import Part, Port, Space
from engine.takeoff.assembling.joints import Joint, Joints, dot
from engine.takeoff.assembling.records import Rotation
from engine.takeoff.assembling.sliding import compass
from engine.trade.pipe import drain

_IN_LINE = math.cos(math.radians(5.0))
"""Legs within so much of the joint's own line need no turning: grade alone stays far below it."""
_PLUMB = 0.5
"""From this vertical share on a joint counts as plumb."""

LEGS = {
    "run_in": "upper hub",
    "run_out": "lower hub",
    "branch": "branch",
    "branch_2": "second branch",
    "inlet": "inlet",
    "outlet": "outlet",
}
"""What the trade calls each leg."""


def rotations(model: Model, joints: Joints, part: Part, joint: Joint) -> tuple[Rotation, ...]:
    """How to turn a part that is put on by a joint: one row for each leg that does not lie in the joint's line."""
    port = joints.port(joint, part.id)
    if port is None or not dot(port.toward, port.toward):
        return ()
    drawn, view = _back(port.toward), _back(toward(model, port))
    found = []
    for leg in part.ports:
        if leg is port or not dot(leg.toward, leg.toward) or abs(dot(leg.toward, drawn)) > _IN_LINE:
            continue
        degrees = dial(toward(model, leg), view)
        roll = (degrees - dial(leg.toward, drawn) + 180.0) % 360.0 - 180.0
        round_it = degrees if degrees <= 180.0 else degrees - 360.0
        plumb = abs(drawn[2]) > _PLUMB
        found.append(
            Rotation(
                part=part.id,
                leg=leg_words(part, leg),
                degrees=degrees,
                roll=roll,
                words=f"to the {compass(leg.toward[:2])}" if plumb else hour(degrees),
                looking="seen from above" if plumb else _looking(port),
                mark=math.pi * drain(port.size).od * round_it / 360.0,
            )
        )
    return tuple(found)


def toward(model: Model, port: Port) -> Space:
    """A port's true direction, the grade of a level pipe counted in."""
    pipe = model.network.by_id.get((port.pipe or "").split("~")[0])
    if pipe is None or pipe.shape != "level" or not pipe.run:
        return port.toward
    climbs = pipe.slope / 12.0 if pipe.system == "vent" else -pipe.slope / 12.0
    rise = climbs if dot(port.toward, (*pipe.heading, 0.0)) > 0.0 else -climbs
    length = math.hypot(1.0, rise)
    return (port.toward[0] / length, port.toward[1] / length, rise / length)


def dial(leg: Space, view: Space) -> float:
    """A direction's place on the dial round a joint's line, degrees 0 to 360.

    Clockwise from the top, looking along `view`; where that is plumb, clockwise from north as seen from above.
    """
    size = math.hypot(view[0], view[1])
    if abs(view[2]) > _PLUMB or not size:
        return math.degrees(math.atan2(leg[0], leg[1])) % 360.0
    right = (view[1] / size, -view[0] / size, 0.0)
    up = (
        right[1] * view[2] - right[2] * view[1],
        right[2] * view[0] - right[0] * view[2],
        right[0] * view[1] - right[1] * view[0],
    )
    return math.degrees(math.atan2(dot(leg, right), dot(leg, up))) % 360.0


def hour(degrees: float) -> str:
    """A place on the dial as a clock tells it, to the half hour.

    >>> hour(300.0), hour(0.4), hour(45.0), hour(359.6)
    ("10 o'clock", "12 o'clock", 'half past 1', "12 o'clock")
    """
    halves = round(degrees / 15.0) % 24
    whole = halves // 2 or 12
    return f"half past {whole}" if halves % 2 else f"{whole} o'clock"


def leg_words(part: Part, port: Port) -> str:
    """What one leg of a part is called: hubs by their place in the flow, spigots as such."""
    if part.kind in ("coupling", "repair_coupling"):
        return "hub"
    words = LEGS[port.role]
    return words.replace("hub", "spigot") if port.end == "spigot" else words


def _looking(port: Port) -> str:
    if port.role in ("run_out", "outlet"):
        return "looking upstream"
    return "looking downstream" if port.role in ("run_in", "inlet") else "looking into the branch"


def _back(way: Space) -> Space:
    return (-way[0], -way[1], -way[2])
