"""Placing a fixture, by clicking or by dropping it from the shelf."""

from __future__ import annotations

from functools import partial
from typing import get_args

from PySide6.QtCore import QMimeData, Qt
from PySide6.QtGui import QKeyEvent

from app.tools.aim import Aim
from app.tools.desk import Desk
from app.tools.sketch import Words
from app.tools.tool import Pointer, Tool
from engine.drafting.placing import place_fixture
from engine.mending.landing import landing_of
from engine.plan.records import FixtureKind, Plan
from engine.trade.fixtures import fixture as spec_of

MIME = "application/x-joistway-fixture"
"""What a fixture dragged from the shelf carries: its kind, as plain bytes."""

PREFIX = "place:"
"""What the name of a placing tool begins with; the fixture's kind follows."""

FACING = 270.0
"""The heading of a fixture that nothing has turned yet: its front looks south, toward the reader."""


class PlaceFixture(Tool):
    """Places a fixture, then gives way to choosing; Shift keeps it in hand. `[` and `]` turn it by a quarter."""

    title = "Place"
    hint = (
        "Click where it goes: it settles at walls, in corners and in bays. [ and ] turn it, Alt leaves snaps out, "
        "Shift+click keeps it in hand for the next."
    )

    def __init__(self, desk: Desk, kind: FixtureKind) -> None:
        super().__init__(desk)
        self.kind = kind
        self._aim = Aim(desk)
        self._turn, self._own_turn = FACING, False
        self._last: Pointer | None = None

    @classmethod
    def carried(cls, data: QMimeData, desk: Desk) -> PlaceFixture | None:
        """The tool for a fixture that is dragged in; None when something else is."""
        if not data.hasFormat(MIME):
            return None
        kind = kind_called(bytes(data.data(MIME).data()).decode("ascii", "replace"))
        return cls(desk, kind) if kind is not None else None

    def hover(self, pointer: Pointer) -> None:
        """Show it where a click would place it."""
        self._last = pointer
        plan = self._with(pointer)
        if plan is not None:
            self.desk.document.propose(plan)
            fixture = plan.fixtures[-1]
            landing = landing_of(plan, fixture.id)
            self.desk.sketch([Words(fixture.at, landing.words)] if landing is not None else [])

    def press(self, pointer: Pointer) -> None:
        """Place it there, as one step, select it, and put the tool down unless Shift is held."""
        if self.put(pointer) and not pointer.shift:
            self.desk.leave()

    def put(self, pointer: Pointer) -> bool:
        """Place the fixture under the pointer; whether it could be placed."""
        plan = self._with(pointer)
        if plan is None:
            return False
        fixture = plan.fixtures[-1]
        self._last = None
        through = f", which drains through {fixture.through}" if fixture.through is not None else ""
        self.desk.document.commit(plan, f"place {spec_of(self.kind).words} {fixture.id}{through}")
        self.desk.clear_sketch()
        self.desk.pick(frozenset({fixture.id}))
        landing = landing_of(plan, fixture.id)
        if landing is not None:
            self.desk.say(f"{landing.finding.text} {landing.finding.mend}")
        return True

    def typed(self, event: QKeyEvent) -> bool:
        """`[` turns it clockwise, `]` the other way, by a quarter."""
        quarters = {Qt.Key.Key_BracketLeft: -1.0, Qt.Key.Key_BracketRight: 1.0}.get(Qt.Key(event.key()))
        if quarters is None:
            return False
        self._turn, self._own_turn = (self._turn + 90.0 * quarters) % 360.0, True
        if self._last is not None:
            self.hover(self._last)
        return True

    def _with(self, pointer: Pointer) -> Plan | None:
        plan = self.desk.document.settled
        settled = self._aim.settle(self.kind, pointer.at, self._turn, self._own_turn, free=pointer.alt)
        if not self._own_turn:
            self._turn = settled.turn
        return self.attempt(partial(place_fixture, plan, self.kind, settled.at, settled.turn))


def kind_called(text: str) -> FixtureKind | None:
    """The kind of fixture of that name, None when there is none."""
    kinds: tuple[FixtureKind, ...] = get_args(FixtureKind)
    return next((kind for kind in kinds if kind == text), None)
