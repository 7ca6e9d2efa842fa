"""What comes after the pipes stand: the test, what goes on after it, the roof, the finish."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import msgspec

from engine.checks.model import Model
from engine.drafting.finished import flooring_under
from engine.joinery.records import Part, Piece
from engine.lengths import inches
from engine.plan.outline import flooring_words
from engine.plan.records import Fixture, Riser
from engine.takeoff.assembling.joints import SAME, Joint, Joints, is_plumb
from engine.takeoff.assembling.phases import CAPS, FLANGES, FLASHINGS, VALVE_SEATS, VALVES
from engine.takeoff.assembling.records import Step, StepKind
from engine.takeoff.assembling.words import place
from engine.takeoff.cutlist import named
from engine.trade import fixtures as trade


@dataclass(slots=True)
class Later:
    """The waiting parts of one plan, and the stubs that stay long until the finish."""

    model: Model
    joints: Joints
    waiting: frozenset[str]

    def steps(self, first: int) -> Iterator[Step]:
        """The steps after the last pipe, numbered from `first` on."""
        for number, step in enumerate(self._unnumbered(), first):
            yield msgspec.structs.replace(step, number=number)

    def _unnumbered(self) -> Iterator[Step]:
        parts = [part for part in self.joints.parts.values() if part.id in self.waiting]
        caps = [part for part in parts if part.kind in CAPS]
        if self.joints.pieces or caps:
            yield self._test(caps)
        yield from self._untest(parts)
        yield from (self._roof(part) for part in parts if part.kind in FLASHINGS)
        left = [part for part in parts if part.kind not in CAPS | VALVES | FLASHINGS]
        yield from self._finish(left)

    def _step(self, kind: StepKind, text: str, parts: list[Part], onto: tuple[str, ...] = ()) -> Step:
        glued = [joint for part in parts for joint in self.joints.of.get(part.id, ())]
        on = tuple(dict.fromkeys((*(joint.other(_in(joint, parts)) for joint in glued), *onto)))
        return Step(
            number=0,
            kind=kind,
            text=text,
            parts=tuple(part.id for part in parts),
            onto=tuple(name for name in on if name),
            bonds=tuple(dict.fromkeys(joint.bond for joint in glued)),
        )

    def _test(self, caps: list[Part]) -> Step:
        book = self.model.book
        said = [f"the {named(cap)} {self._at(cap)}" for cap in caps]
        text = (
            f"Test before anything is covered. Close {', '.join(said)}." if said else "Test before anything is covered."
        )
        open_ends = self._open_ends(caps)
        if open_ends:
            text += f" No cap is on the list for {', '.join(open_ends)}: close it for the test, or the water runs out of it."
        if book.has("test.head") and book.has("test.hold"):
            head, hold = book.value("test.head"), book.number("test.hold")
            text += (
                f" Fill with water to {inches(book.number('test.head') / 12.0)} ft above the highest fitting and hold it "
                f"{hold:g} minutes ({book.cite('test.head')})"
            )
            text += f"; sources differ: {head.note}." if head.standing == "conflict" else "."
        else:
            text += " How high the water must stand, and how long, this rule book does not say: ask the inspector."
        if book.has("test.air_on_plastic") and book.value("test.air_on_plastic").value is False:
            text += f" No air on plastic pipe ({book.cite('test.air_on_plastic')})."
        return self._step("test", text, caps)

    def _at(self, cap: Part) -> str:
        fixture = next((f for f in self.model.plan.fixtures if f.id in cap.elements), None)
        if fixture is not None:
            return f"at {_called(fixture)}"
        return f"at {', '.join(cap.elements)}" if cap.elements else f"at {place(cap.centre)}"

    def _open_ends(self, caps: list[Part]) -> list[str]:
        """Free ends of waste pipe, and open threads of valve adapters, that no cap on the list closes."""
        closed = {element for cap in caps for element in cap.elements}
        found = []
        for piece in self.joints.pieces.values():
            held = {self.joints.end(joint, piece.mark) for joint in self.joints.of.get(piece.mark, ())}
            element = piece.pipes[0].split(".")[0]
            if piece.system == "waste" and len(held) < 2 and element not in closed:
                found.append(f"the open end of {piece.mark}")
        adapters = (part for part in self.joints.parts.values() if part.kind in VALVE_SEATS)
        return [*found, *(f"the {named(part)} {self._at(part)}" for part in adapters)]

    def _untest(self, parts: list[Part]) -> Iterator[Step]:
        caps = [part for part in parts if part.kind in CAPS]
        valves = [part for part in parts if part.kind in VALVES]
        if not caps and not valves:
            return
        text = (
            "After the test let the water out and take the plugs off; caps on long stubs stay until these are cut."
            if caps
            else "After the test let the water out."
        )
        if valves:
            text += f" Screw on the {', '.join(f'{named(v)} {self._at(v)}' for v in valves)}."
        yield self._step("untest", text, valves, tuple(cap.id for cap in caps))

    def _roof(self, flashing: Part) -> Step:
        piece = next(
            (p for p in self.joints.pieces.values() if any(_near(end, flashing) for end in (p.start, p.end))), None
        )
        riser = next((r for r in self.model.plan.risers if r.id in flashing.elements), None)
        if piece is None or riser is None:
            return self._step(
                "roof", f"Once the roof is covered: the {named(flashing)} {self._at(flashing)}.", [flashing]
            )
        above = max(piece.start[2], piece.end[2]) - self._covering(riser)
        text = (
            f"Once the roof is covered: the {named(flashing)} over {piece.mark}, then cut {piece.mark} off "
            f"{inches(above)} in above the covering on its high side ({self.model.book.cite('vent.roof_above')})."
        )
        return self._step("roof", text, [flashing], (piece.mark,))

    def _covering(self, riser: Riser) -> float:
        floor = self.model.plan.floor
        return floor.finished_z + (floor.roof_above_floor if riser.above_floor is None else riser.above_floor)

    def _finish(self, left: list[Part]) -> Iterator[Step]:
        stubs = {fixture.id: piece for fixture, piece in long_stubs(self.model, self.joints)}
        known = {fixture.id for fixture in self.model.plan.fixtures}
        owner = {part.id: next((one for one in part.elements if one in known), "") for part in left}
        for fixture in self.model.plan.fixtures:
            own = [part for part in left if owner[part.id] == fixture.id]
            stub = stubs.get(fixture.id)
            if own or stub is not None:
                yield self._fixture(fixture, own, stub)
        rest = [part for part in left if not owner[part.id]]
        if rest:
            yield self._step(
                "finish", f"With the fixtures: {', '.join(f'{named(p)} {self._at(p)}' for p in rest)}.", rest
            )

    def _fixture(self, fixture: Fixture, own: list[Part], stub: Piece | None) -> Step:
        flanges = [part for part in own if part.kind in FLANGES]
        others = [named(part) for part in own if part.kind not in FLANGES]
        called = _called(fixture)
        plan = self.model.plan
        said = [f"Once the finish at {called} stands:"]
        if stub is not None:
            top = max(stub.start[2], stub.end[2])
            held = next((j for part in flanges for j in self.joints.of.get(part.id, ())), None)
            port = self.joints.port(held, held.other(stub.mark)) if held is not None else None
            top -= port.takeoff.length if port is not None else 0.0
            said.append(
                f"cut {stub.mark} to its final {inches(stub.cut)} in, so that it ends {_from_subfloor(top - plan.floor.subfloor)} "
                f"the subfloor's top: a finish of {flooring_words(flooring_under(plan, fixture))} is allowed for."
            )
        elif flanges:
            said.append("take the cap off; the fitting below needs no cutting.")
        said += [
            f"Glue on the {named(flange)}, its ring on the finished floor, bolt slots to both sides."
            for flange in flanges
        ]
        if others:
            said.append(f"{'Then fit' if len(said) > 1 else 'fit'} the {', the '.join(others)}.")
        return self._step("finish", " ".join(said), own, (stub.mark,) if stub is not None else ())


def long_stubs(model: Model, joints: Joints) -> Iterator[tuple[Fixture, Piece]]:
    """The plumb pieces under closets and floor drains that stay long until the finish: fixture and piece."""
    for fixture in model.plan.fixtures:
        if trade.fixture(fixture.kind).outlet not in ("closet", "floor"):
            continue
        name = f"{fixture.id}.drop"
        piece = next((p for p in joints.pieces.values() if p.pipes[0] == name and is_plumb(p)), None)
        if piece is not None:
            yield fixture, piece


def _from_subfloor(height: float) -> str:
    if abs(height) < 1.0 / 32.0:
        return "level with"
    return f"{inches(abs(height))} in {'above' if height > 0.0 else 'below'}"


def _called(fixture: Fixture) -> str:
    return f"the {fixture.name or trade.fixture(fixture.kind).words} ({fixture.id})"


def _near(end: tuple[float, float, float], part: Part) -> bool:
    return max(abs(a - b) for a, b in zip(end, part.centre, strict=True)) < SAME


def _in(joint: Joint, parts: list[Part]) -> str:
    return next(part.id for part in parts if part.id in (joint.host, joint.guest))
