"""By which numbers a field's joists and a wall's studs are called."""

from __future__ import annotations

from engine.framing.studs import stand
from engine.plan.fields import centres
from engine.plan.records import JoistField, Wall


def last_joist(field: JoistField) -> int:
    """The number of a field's last end joist; the first is 0."""
    return len(centres(field)) + 1


def last_stud(wall: Wall, subfloor: float) -> int:
    """The number of the stud at a wall's end; the one at its start is 0. ValueError for a wall without length."""
    if wall.start == wall.end:
        raise ValueError(f"{wall.id} has no length, so no studs")
    return max(stud.number for stud in stand(wall, subfloor).studs)
