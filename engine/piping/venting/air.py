"""Where open air comes from, and through which waste pipes it goes on."""

from __future__ import annotations

from engine.piping.records import Node
from engine.piping.sticks import Stick
from engine.piping.web import Web


def dry_stick_at(web: Web, node: Node) -> Stick | None:
    """The dry pipe at this node through which open air is reached, None where there is none."""
    if node not in web.aired:
        return None
    return next((stick for stick in web.dry.get(node, ()) if stick.end in web.aired), None)


def dry_at(web: Web, node: Node) -> str | None:
    """The element of a dry pipe at this node through which open air is reached, None where there is none."""
    stick = dry_stick_at(web, node)
    return None if stick is None else stick.element


def air_through(web: Web) -> dict[str, str]:
    """The waste sticks that carry air to their lower end, each with the dry element it comes from."""
    air: dict[str, str] = {}
    for stick in web.order:
        source = dry_at(web, stick.start)
        if source is None:
            source = next((air[s.id] for s in web.inflow.get(stick.start, ()) if s.id in air), None)
        if source is not None:
            air[stick.id] = source
    return air
