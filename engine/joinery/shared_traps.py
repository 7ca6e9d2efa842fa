"""What brings further bowls, and what drains through another fixture, to the one trap that they share."""

from __future__ import annotations

from engine.joinery.shop import Shop
from engine.piping.records import Trap
from engine.plan.records import Fixture
from engine.trade import fixtures as trade
from engine.trade.habits import LARGEST_TUBULAR


def share_traps(shop: Shop, traps: dict[str, Trap]) -> None:
    """Add a continuous waste for each further bowl, and what a hose or a tub's drain enters by; `traps` by fixture."""
    fixtures = {fixture.id: fixture for fixture in shop.plan.fixtures}
    for fixture in shop.plan.fixtures:
        own, host = traps.get(fixture.id), traps.get(fixture.through or "")
        spec = trade.fixture(fixture.kind)
        if own is not None and spec.comes_by == "tailpiece":
            for bowl in range(1, fixture.bowls):
                _continuous_waste(shop, own, fixture.id, fixture.id, f"brings bowl {bowl + 1} to the trap")
        elif own is not None and fixture.kind == "dishwasher":
            _hose(shop, own, fixture, fixture, "over its standpipe")
        elif host is not None:
            _guest(shop, host, fixtures[host.fixture], fixture)


def _guest(shop: Shop, trap: Trap, host: Fixture, guest: Fixture) -> None:
    name = guest.name or guest.id
    if guest.kind == "dishwasher":
        if not host.disposer:
            note = "over the sink's trap, for the dishwasher's hose"
            tube = (min(trap.size, LARGEST_TUBULAR),)
            shop.add("branch_tailpiece", tube, "waste", trap.node, (), elements=(host.id, guest.id), note=note)
        _hose(shop, trap, host, guest, "over the sink's rim, between dishwasher and drain")
    elif trade.fixture(host.kind).comes_by == "standpipe":
        note = f"cut into the standpipe, for the drain of {name}"
        size = (trap.size, LARGEST_TUBULAR)
        shop.add("standpipe_tee", size, "waste", trap.node, (), elements=(host.id, guest.id), note=note)
    elif trade.fixture(guest.kind).comes_by == "tailpiece":
        for _ in range(guest.bowls):
            _continuous_waste(shop, trap, host.id, guest.id, f"brings {name} to the trap of {host.name or host.id}")


def _hose(shop: Shop, trap: Trap, host: Fixture, guest: Fixture, gap: str) -> None:
    """A dishwasher's hose: what holds it, and the air gap where the book has one."""
    own = tuple(dict.fromkeys((host.id, guest.id)))
    shop.add("hose_clamp", (), "waste", trap.node, (), elements=own, note="on the dishwasher's hose")
    if shop.book.says("dishwasher.air_gap"):
        shop.add("air_gap_fitting", (), "waste", trap.node, (), elements=own, note=gap)


def _continuous_waste(shop: Shop, trap: Trap, host: str, guest: str, note: str) -> None:
    own = tuple(dict.fromkeys((host, guest)))
    shop.add("continuous_waste", (min(trap.size, LARGEST_TUBULAR),), "waste", trap.node, (), elements=own, note=note)
