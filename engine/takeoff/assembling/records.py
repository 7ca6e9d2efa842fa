"""The records of the assembly order: steps, and what a step asks to be turned, slid and checked."""

from __future__ import annotations

from typing import Literal

from engine.joinery.records import Bond
from engine.plan.records import Record

StepKind = Literal["thread", "start", "set", "dry fit", "close", "stuck", "test", "untest", "roof", "finish", "loose"]
"""What a step does.

`thread`: pieces pushed into their bores before anything is glued. `start`: the first pieces of an assembly.
`set`: glued onto what stands already. `dry fit`: tried for its angle only. `close`: the last joint of a loop.
`stuck`: a piece that cannot be got to its place as it is cut. `test`: caps on. `untest`: caps off, valves on.
`roof` and `finish`: once the roof is covered, once floor and wall finish stand. `loose`: parts that no joint of
the drawing holds.
"""


class Rotation(Record, frozen=True, gc=False):
    """Which way one leg of a fitting looks when the fitting is pushed on.

    `degrees` run clockwise: on a level joint from the top, as seen `looking`; on a plumb one from north, as seen
    from above. They count the small roll in that a leg's own fall takes; `roll` is that roll alone. `mark` is how
    far the leg's line lies round the pipe from its top (north) side, inches, negative counter-clockwise.
    """

    part: str
    leg: str
    degrees: float
    roll: float
    words: str
    looking: str
    mark: float


class LevelCheck(Record, frozen=True, gc=False):
    """What a level held on one piece must show.

    `slope` is inches per foot of plan, falling to the drain (None for a plumb piece), `rise` what the piece climbs
    away from it over its own cut length `over`; `down` is the axis at its own upper end, where the pipe stops in its hub, below the joists' top
    (negative above it), None where that is not known.
    """

    piece: str
    slope: float | None
    rise: float
    over: float
    down: float | None


class Slide(Record, frozen=True, gc=False):
    """How one piece gets into its bores.

    `through` are the joists it passes, in the order of the move; `bay` the two members between which it first
    lies (None where the line is open); `way` the compass word of the move; `past` how far beyond its place it is
    pushed when it is threaded early, 0 when it is glued at once.
    """

    piece: str
    through: tuple[str, ...]
    bay: tuple[str | None, str | None]
    way: str
    past: float = 0.0


class Step(Record, frozen=True, gc=False):
    """One numbered step.

    `parts` and `pieces` are put in place by it; `onto` were in place before; `dry` are only tried or threaded, and
    put in place by a later step. `bonds` are the joints glued (or for test caps, pushed on) in it. `needs` are
    things to buy that the parts do not hold: kind, size, count.
    """

    number: int
    kind: StepKind
    text: str
    parts: tuple[str, ...] = ()
    pieces: tuple[str, ...] = ()
    onto: tuple[str, ...] = ()
    dry: tuple[str, ...] = ()
    bonds: tuple[Bond, ...] = ()
    rotations: tuple[Rotation, ...] = ()
    checks: tuple[LevelCheck, ...] = ()
    slides: tuple[Slide, ...] = ()
    needs: tuple[tuple[str, float, int], ...] = ()

    @property
    def sizes(self) -> tuple[float, ...]:
        """The nominal sizes of its joints, inches, in the order in which they are made."""
        return tuple(bond.size for bond in self.bonds)

    @property
    def clock(self) -> float | None:
        """Degrees of the first fitting that has to be turned; None where none has."""
        return self.rotations[0].degrees if self.rotations else None
