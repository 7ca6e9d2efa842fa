"""In one sentence, what vents a trap."""

from __future__ import annotations

from engine.piping.records import VentWay
from engine.piping.venting.ways import named


def tell(fixture: str, way: VentWay) -> str:
    """What brings air to a fixture's drain, and by which method, in one sentence that names the drawn things."""
    others = [name for name in way.members if name != fixture]
    match way.method:
        case "individual vent":
            return f"{way.source} meets its own drain and serves no other: an individual vent."
        case "island vent":
            return f"{way.source} rises beside it, turns over and comes down again to the floor: an island vent."
        case "common vent at one level":
            return f"Its drain meets that of {named(others)} at one level, and {way.source} serves both: a common vent."
        case "common vent at two levels":
            if fixture == way.starter:
                return f"{way.source} goes on above its drain and serves {named(others)} below too: a common vent."
            return f"Air comes down from {way.source} past the drain of {way.starter} above it: a common vent at two levels."
        case "horizontal wet vent":
            start = f" below {way.starter}" if way.starter else ""
            return f"It joins the pipe{start} that {way.source} keeps open to the air: a horizontal wet vent."
        case "vertical wet vent":
            if fixture == way.starter:
                return f"{way.source} goes on above its drain; {named(others)} join below: a vertical wet vent."
            return f"It joins an upright drain that {way.source} keeps open to the air above: a vertical wet vent."
        case "waste stack vent":
            return (
                f"It joins an upright drain by itself, and {way.source} goes on as wide above it: a waste stack vent."
            )
        case "circuit vent":
            return f"{way.source} stands on the level branch between the two drains furthest upstream: a circuit vent."
        case "combination waste and vent":
            by = f", and {way.source} stands on it" if way.source else " to a vented drain"
            return f"Its drain comes down to a wide level pipe that carries air over the water{by}: combination waste and vent."
