"""What is said beside a fixture that is held over the floor while its pipe would come down on wood."""

from __future__ import annotations

from app.tools.sketch import Words
from engine.mending.landing import landing_of
from engine.plan.edits import find
from engine.plan.records import Fixture, Plan


def over_wood(plan: Plan, name: str) -> list[Words]:
    """The words beside the fixture of that id; none where it is clear, or where the id is no fixture's."""
    held = find(plan, name)
    landing = landing_of(plan, name) if isinstance(held, Fixture) else None
    return [Words(held.at, landing.words)] if isinstance(held, Fixture) and landing is not None else []
