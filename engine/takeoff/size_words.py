"""Why a pipe is as large as it is, in words: each demand on its size, and which of them set it."""

from __future__ import annotations

from engine.checks.drain_sizes import units
from engine.checks.model import Model
from engine.checks.outcomes import name
from engine.lengths import inches
from engine.piping.drain_kinds import DrainKind
from engine.piping.sizes import Ask, DrainSize, VentSize, set_by
from engine.trade.pipe import label

KINDS: dict[DrainKind, str] = {
    "trap arm": "trap arm",
    "fixture drain": "drain of one fixture",
    "branch": "branch into upright pipe",
    "building drain branch": "branch of the building drain",
    "building drain": "building drain",
    "vertical drain": "upright drain",
    "stub": "stub, carries nothing",
}
"""What each kind of drain is called."""


def why_drain(model: Model, sizing: DrainSize) -> str:
    """What sets a drain's least size, as a sentence's end: ``2 in, the trap of the shower``."""
    return _why(model, sizing.asks, sizing.least)


def why_vent(model: Model, sizing: VentSize) -> str:
    """What sets a vent's least size."""
    return _why(model, sizing.asks, sizing.least)


def _why(model: Model, asks: tuple[Ask, ...], least: float) -> str:
    found = set_by(asks, least)
    own = [ask for ask in found if ask.by != "upstream"]
    telling = [ask for ask in own if ask.by != "stocked"] or own or list(found)
    sure = {ask.by for ask in telling if not ask.doubtful}
    loaded = {ask.by for ask in telling if ask.load is not None}
    told = [
        ask for ask in telling if not (ask.doubtful and ask.by in sure) and not (ask.load is None and ask.by in loaded)
    ]
    return "; ".join(dict.fromkeys(_words(model, ask) for ask in told))


def _words(model: Model, ask: Ask) -> str:
    words = _demand(model, ask)
    if ask.listed is not None:
        words += f" ({label(ask.listed)} in would do by the book, and is hard to buy)"
    return words


def _demand(model: Model, ask: Ask) -> str:
    size, load, most = f"{label(ask.size)} in", ask.load or 0.0, ask.most or 0.0
    who = name(model, ask.element) if ask.element else ""
    match ask.by:
        case "load":
            held = " where officials count it as a branch" if ask.doubtful else ""
            return f"{units(load)} ask for {size}{held}" if load else "it carries no units"
        case "fixtures":
            return f"{load:g} fixtures, where {most:g} may share a size less"
        case "trap":
            return f"the trap of {who} is {size}"
        case "trap alone":
            return f"as large as the trap of {who}"
        case "closet":
            return f"a closet drains through it, which asks for {size}"
        case "closets":
            return f"{load:g} closets, where {most:g} may share a size less"
        case "large fixture":
            return f"{who} gives {units(load)}, and so large a fixture asks for {size}"
        case "sink":
            return f"{who} comes down it, and a sink of {units(load)} asks for {size}"
        case "past the arm":
            return f"past its trap arm {who} asks for {size}"
        case "upstream":
            return f"no smaller than {model.network.by_id[ask.element].element}, which flows into it"
        case "shared vent":
            part = f": {units(load)}" if ask.load is not None else ""
            return f"it brings air to other traps, and as such is {size} at least{part}"
        case "closet's bend":
            return "the wide upright end of the closet bend"
        case "drain served":
            return f"{model.book.text(ask.key)} of the drain that it serves, {label(load)} in by the book"
        case "stack served":
            return "as wide as the stack that it vents"
        case "least vent":
            return f"no vent is smaller than {size}"
        case "vented load":
            return f"it serves {units(load)}, which ask for {size}"
        case "vent of a closet":
            return f"it vents a closet, which asks for {size}"
        case "length":
            return f"it is {inches(load)} in long, which asks for {size}"
        case "level length":
            return f"it lies level for {inches(load)} in, which asks for {size}"
        case "stocked":
            return f"stores stock none smaller than {size}"
