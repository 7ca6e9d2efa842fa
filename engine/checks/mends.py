"""What to do instead of a cut that a joist can't bear, in words. The program never sinks a pipe unasked."""

from __future__ import annotations

from engine.checks.model import Model
from engine.checks.sites import Site
from engine.crossings.limits import allowance, judged_by_book, over
from engine.framing.records import Kind
from engine.lengths import down, inches, up
from engine.trade import lumber
from engine.trade.bits import bit_for
from engine.trade.pipe import SUPPLY_SIZES, nominal, tube


def another_way(model: Model, site: Site, by_size: bool = True) -> str:
    """The ways past a joist that takes no bore for this pipe: in the bay, below, headed off, deeper lumber.

    Where it is refused for its place and not `by_size`, neither deeper lumber nor a smaller tube helps. A joist at the
    floor's edge, or beside an opening, is not headed off: at the edge pipe turns down before it.
    """
    kind = site.joist.kind
    ways = ["turn it down before it" if kind == "end" else "run it in the bay along the joists", "run it below them"]
    if kind in HEADED_OFF:
        ways.append("head the joist off round it")
    if by_size:
        deeper = (lumber.actual(one) for one in lumber.listed() if lumber.actual(one).depth > site.joist.depth)
        takes = (stick for stick in deeper if _takes(model, stick.depth, site.crossing.width))
        ways += [f"frame with {stick.name}, which takes its bore" for stick in list(takes)[:1]]
        ways += _of_water(model, site) if site.crossing.system in ("cold", "hot") else []
    text = ", ".join(ways[:-1]) + f", or {ways[-1]}."
    return text[0].upper() + text[1:]


HEADED_OFF: tuple[Kind, ...] = ("common", "tail")
"""What a pair of headers can take the load of: no rim or end joist on its bearing, and nothing that frames an opening."""


def _takes(model: Model, depth: float, width: float) -> bool:
    """Whether a joist so deep takes the bore of something so wide outside."""
    bit = bit_for(width)
    return bit is not None and not over(bit.diameter, allowance(depth, model.book).bore)


def _of_water(model: Model, site: Site) -> list[str]:
    """What less of a tube or of its insulation goes through, if anything does."""
    supply = next(supply for supply in model.plan.supplies if supply.id == site.crossing.element)
    depth, own = site.joist.depth, tube(nominal(supply.size)).od
    if supply.insulation and _takes(model, depth, own):
        return ["take thinner insulation or end it at the joist's faces"]
    if _takes(model, depth, tube(min(SUPPLY_SIZES)).od):
        return ["take a smaller tube"]
    return []


def bore_instead(model: Model, site: Site) -> str:
    """A bore in place of a notch, with its heights, where the joist takes one that wide; else another way."""
    bit, most = bit_for(site.crossing.width), allowance(site.joist.depth, model.book)
    if bit is None or over(bit.diameter, most.bore) or site.z is None or not judged_by_book(site.joist):
        return another_way(model, site)
    low, high = most.edge - site.joist.depth + bit.diameter / 2.0, -most.edge - bit.diameter / 2.0
    return f"Bore it instead with a {bit.label} in bit. {to_range(site.z, low, high)}"


def to_range(z: float, low: float, high: float) -> str:
    """Which way and how far to move an axis, and between which heights a bore holds, printed on the safe side."""
    holds = f"the bore holds with its axis {inches(up(-high))} to {inches(down(-low))} in down from the joist's top."
    if low <= z <= high:
        return f"Leave it at this height: {holds}"
    way = f"Raise it {inches(up(low - z))} in" if z < low else f"Lower it {inches(up(z - high))} in"
    return f"{way} here: {holds}"
