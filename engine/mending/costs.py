"""How much of a change each kind of mend is, so that the smallest is offered first.

The unit is about a word on the plan; moving a thing an inch costs half of one. Common practice, no source: what a
builder would sooner change on paper before a pipe is cut.
"""

from __future__ import annotations

UNPIN = 0.5
"""Leaving a choice to the program."""
SAY = 1.0
"""A fact about the house that nobody had told."""
FITTING = 1.0
"""Another fitting in one place."""
SLOPE = 2.0
"""Another slope of one run."""
SIZE = 2.0
"""One size up or down for one run."""
HEIGHT = 1.5
"""Another height for one thing."""
JOINT = 1.0
"""An end brought to the pipe that it nearly meets."""
PASSING = 2.0
"""Another way past the joists, where they bear it."""
STUD = 1.5
"""One stud set aside, or doubled."""
WALL = 10.0
"""A wall framed of deeper studs."""
DROP = 4.0
"""A drop or a rolled fitting where a run joins its main."""
CLEANOUT = 3.0
"""One more cleanout."""
TOP = 3.0
"""Another end for a vent."""
DELETE = 4.0
"""A thing taken away."""
MOVE = 3.0
"""A thing moved, beside what its way costs."""
INCH = 0.5
"""An inch of way."""
VENT = 12.0
"""One more vent in a wall and through the roof."""
BELOW = 14.0
"""A run hung under the joists, in the open."""
JOIST = 5.0
"""A joist that stands off its place, beside what its way costs."""
HEAD_OFF = 16.0
"""A joist cut, with headers and trimmers round the place."""
LUMBER = 20.0
"""A floor framed with deeper lumber."""


BESIDE = 3.0
"""Inches past a thing at which a run is beside it."""

FARTHEST = 36.0
"""Inches past which moving a thing is another plan and no mend."""


def moved(inches: float) -> float:
    """What moving a thing so far costs."""
    return MOVE + INCH * abs(inches)
