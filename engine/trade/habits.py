"""What stores stock and hands do as a rule."""

from engine.trade.facts import table

_HABITS = table("habits")

CLOSET_EXTRAS: tuple[str, ...] = tuple(_HABITS.text("closet flange", "goes with").split())
"""The sundries that go with every closet flange."""

CLOSET_HORN: float = _HABITS.number("closet bend", "upright end")
"""The upright end of a 4x3 closet bend, nominal inches."""

LARGEST_TUBULAR: float = _HABITS.number("tubular trap", "largest")
"""The largest tubular trap of sinks and lavatories, nominal inches."""

LEAST_STOCKED_DRAIN: float = _HABITS.number("drain pipe", "least stocked")
"""The smallest drain pipe that stores stock, nominal inches."""

RISER_CLEANOUT: float = _HABITS.number("riser cleanout", "above floor")
"""Height above the finished floor at which a riser's cleanout is set where nothing else is said, inches."""

RISER_CLEANOUT_CLEAR: float = _HABITS.number("riser cleanout", "clear below a tee")
"""How far below the lowest pipe that enters the riser it then stays, inches."""

ISLAND_LOOP: float = _HABITS.number("island loop", "below rim")
"""How far under a sink's rim the axis of an island vent's loop lies where nothing else is said, inches."""

CLOSET_OUTLETS: tuple[float, ...] = tuple(map(float, _HABITS.text("closet outlet", "from finished wall").split()))
"""How far from the finished wall the outlets of closets that are sold stand, inches."""

CLOSET_GIVE: float = _HABITS.number("closet outlet", "give")
"""How far a closet's outlet may be off that, inches."""

WIDEST_BAY: float = _HABITS.number("joist bay", "widest")
"""How far apart the joists at a bay's two sides may stand under usual floor panels, inches."""

LAID_IN: float = _HABITS.number("joist bay", "play for a piece laid in")
"""How much shorter than its clear bay a rigid pipe must be to be laid in it, inches."""

SHOWING: float = _HABITS.number("two hubs", "pipe showing")
"""Pipe showing between two hubs, for the hand to turn it by, inches."""

SAW: float = _HABITS.number("saw", "trueness")
"""How true a hand cut comes, inches."""
