"""What vents each trap, and by which of the codes' methods, read off the graph."""

from engine.piping.venting.air import air_through, dry_at
from engine.piping.venting.telling import tell
from engine.piping.venting.traps import find_traps

__all__ = ["air_through", "dry_at", "find_traps", "tell"]
