"""One wall as it is drawn: lengths in inches from the hooked end, from the face that is seen, and over the subfloor's top."""

from __future__ import annotations

from typing import Literal

from engine.plan.records import Record
from engine.takeoff.wall_hooks import WallHook


class StudSeen(Record, frozen=True, gc=False):
    """A stud: its two sides, its number from the wall's drawn start, and whether its place is only assumed."""

    number: int
    low: float
    high: float
    assumed: bool


class Shown(Record, frozen=True, gc=False):
    """One place that is bored or notched, with its figures as they are printed.

    `kind` tells whether pipe passes plates, or is bored or notched through a stud. `sole`, `top` are holes in the plates,
    None where there is none; `height` is a stud's cut's middle, `wide` how tall it is; `behind` that a notch is in the face
    that is not seen. `fittings` are the heights of what stands in the riser, as printed, from below.
    """

    numbers: tuple[int, ...]
    kind: Literal["plates", "hole", "notch"]
    verdict: str
    at: float
    across: float
    sole: float | None
    top: float | None
    height: float | None
    wide: float
    behind: bool
    along: str
    other: str
    near: str
    far: str
    over: str
    sole_bit: str
    stud_bit: str
    top_bit: str
    pipe: str
    run: str
    fittings: tuple[str, ...]
    shields: str
    tie: str
    notes: tuple[str, ...]


class Standing(Record, frozen=True, gc=False):
    """A plumb pipe: its axis, its outside, from where to where, and what it carries. `cut_off` is drawn no higher than here."""

    at: float
    outside: float
    low: float
    high: float
    system: str
    words: str
    cut_off: bool


class Level(Record, frozen=True, gc=False):
    """A level pipe in the wall: (along, height) of its two ends' axis. A `crossing` one passes from face to face."""

    ends: tuple[tuple[float, float], tuple[float, float]]
    outside: float
    system: str
    words: str
    crossing: bool


class Fitting(Record, frozen=True, gc=False):
    """A tee or cleanout in a riser, by its middle, with its words."""

    at: float
    height: float
    outside: float
    words: str
    cleanout: bool


class Steel(Record, frozen=True, gc=False):
    """Steel over wood: a shield against nails, or a tie over a cut top plate; its sides along the wall and its heights."""

    kind: Literal["shield", "tie"]
    low: float
    high: float
    foot: float
    top: float


class WallView(Record, frozen=True, gc=False):
    """One drawing: the wall's wood, what stands and lies in it, and its cuts from the hooked end on.

    `sole` is the sole plate's top, `plates` the top plates' underside and top, over the subfloor. `part` counts the drawings
    of one wall that has too many cuts for one, `of` how many there are.
    """

    wall: str
    name: str
    hook: WallHook
    facts: tuple[str, ...]
    remarks: tuple[str, ...]
    subfloor: float
    sole: float
    plates: tuple[float, float]
    double: bool
    studs: tuple[StudSeen, ...]
    cuts: tuple[Shown, ...]
    standing: tuple[Standing, ...]
    lying: tuple[Level, ...]
    fittings: tuple[Fitting, ...]
    steel: tuple[Steel, ...]
    part: int = 1
    of: int = 1

    @property
    def title(self) -> str:
        """What the wall is called."""
        return self.name.upper()
