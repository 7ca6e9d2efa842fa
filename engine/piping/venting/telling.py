"""In one sentence, what vents a trap."""

from __future__ import annotations

from collections.abc import Callable

from engine.piping.records import VentWay
from engine.plan.outline import listed


def tell(fixture: str, way: VentWay, called: Callable[[str], str] = str) -> str:
    """What brings air to a fixture's drain, and by which method, in one sentence.

    `called` gives each drawn thing's name as the sentence shall have it.
    """
    words = _words(fixture, way, called)
    return words[:1].upper() + words[1:]


def _words(fixture: str, way: VentWay, called: Callable[[str], str]) -> str:
    others = listed([called(name) for name in way.members if name != fixture] or [""])
    source = called(way.source) if way.source else ""
    starter = called(way.starter) if way.starter else ""
    match way.method:
        case "individual vent":
            return f"{source} meets its own drain and serves no other: an individual vent."
        case "island vent":
            return f"{source} rises beside it, turns over and comes down again to the floor: an island vent."
        case "common vent at one level":
            return f"Its drain meets that of {others} at one level, and {source} serves both: a common vent."
        case "common vent at two levels":
            if fixture == way.starter:
                return f"{source} goes on above its drain and serves {others} below too: a common vent."
            return f"Air comes down from {source} past the drain of {starter} above it: a common vent at two levels."
        case "horizontal wet vent":
            start = f" below {starter}" if starter else ""
            return f"It joins the drain{start} that {source} keeps open to the air: a horizontal wet vent."
        case "vertical wet vent":
            if fixture == way.starter:
                return f"{source} goes on above its drain; {others} join below: a vertical wet vent."
            return f"It joins an upright drain that {source} keeps open to the air above: a vertical wet vent."
        case "waste stack vent":
            return f"It joins an upright drain by itself, and {source} goes on as wide above it: a waste stack vent."
        case "circuit vent":
            return f"{source} stands on the level branch between the two drains furthest upstream: a circuit vent."
        case "combination waste and vent":
            by = f", and {source} stands on it" if source else " to a vented drain"
            return f"Its drain comes down to a wide level pipe that carries air over the water{by}: combination waste and vent."
