"""The steps: the order of placing made into sentences, with what each one turns, slides and checks."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.joinery.records import Part, Piece
from engine.lengths import inches
from engine.plan.records import Exit
from engine.takeoff.assembling import words
from engine.takeoff.assembling.finishing import Later, long_stubs
from engine.takeoff.assembling.grouping import groups, is_small, tried_with
from engine.takeoff.assembling.joints import Joints
from engine.takeoff.assembling.levelling import level_check
from engine.takeoff.assembling.phases import waiting
from engine.takeoff.assembling.records import LevelCheck, Rotation, Step, StepKind
from engine.takeoff.assembling.rings import close
from engine.takeoff.assembling.rows import bend_in, rows
from engine.takeoff.assembling.sliding import slides
from engine.takeoff.assembling.tree import Placing, leaves_at, order
from engine.takeoff.assembling.turning import rotations
from engine.takeoff.cutlist import named
from engine.takeoff.trimming import trims

_HAIR = 1.0 / 128.0


def steps(model: Model) -> tuple[Step, ...]:
    """Every step of a plan's drains and vents, numbered from 1; none where there is nothing to put together."""
    site = _Site(model)
    return tuple(site.steps()) if site.joints.parts or site.joints.pieces else ()


class _Site:
    """What stands so far: which step put each item there."""

    def __init__(self, model: Model) -> None:
        self.model = model
        self.joints = joints = Joints(model.joinery)
        self.waiting = waiting(joints)
        self.order = order(model, joints, self.waiting)
        self.slides = slides(rows(model, joints, self.order.placings))
        self.trims = trims(model)
        self.stubs = {piece.mark for _, piece in long_stubs(model, joints)}
        self.loose = [part for part in joints.loose() if part.id not in self.waiting]
        self.stands: dict[str, int] = {}
        self.number = 0

    def steps(self) -> Iterator[Step]:
        """Pieces threaded beforehand, every line from its hub on, rings, then what comes later."""
        for mark in self.slides.early:
            yield self._thread(mark)
        for group in groups(self.joints, self.order.placings, self.slides):
            upright = tried_with(self.joints, group[0])
            if upright is not None:
                yield self._dry_fit(group[0], upright)
            yield self._put(group)
        for closers in self.order.closers:
            yield close(self.model, self.joints, closers, self._next())
        if self.loose:
            said = "; ".join(named(part) + (f", {part.note}" if part.note else "") for part in self.loose)
            parts = tuple(part.id for part in self.loose)
            yield Step(self._next(), "loose", f"No joint of the drawing holds these: {said}.", parts)
        yield from Later(self.model, self.joints, self.waiting).steps(self.number + 1)

    def _next(self) -> int:
        self.number += 1
        return self.number

    def _thread(self, mark: str) -> Step:
        slide, piece = self.slides.early[mark], self.joints.pieces[mark]
        through = ", ".join(words.members(self.model, slide.through))
        text = (
            f"Before anything is glued, thread {words.piece_words(piece)}: lay it {words.bay_words(self.model, slide)}, push "
            f"it {slide.way} through {through} as far as it goes, {inches(slide.past)} in past its place, and leave it "
            "loose. Once the hub that it enters is set, no bay has room for it."
        )
        return Step(self._next(), "thread", text, dry=(mark,), slides=(slide,))

    def _dry_fit(self, placing: Placing, upright: str) -> Step:
        part = self.joints.parts[placing.item]
        stands = (
            f"stand {upright} in it through its hole"
            if upright in self.joints.pieces
            else "bring its spigot into its hole"
        )
        text = (
            f"Dry-fit the {named(part)} on {self._seat(placing)} and {stands}, plumb both ways. Leave that joint dry until "
            "it is so, and mark across it. For the angle only: a dry joint stops short, so take no length from it."
        )
        onto = (placing.onto,) if placing.onto is not None else ()
        return Step(self._next(), "dry fit", text, onto=onto, dry=(part.id, upright))

    def _put(self, group: list[Placing]) -> Step:
        number = self._next()
        placed = [placing.item for placing in group]
        kind: StepKind = "start" if group[0].onto is None else "set"
        said = self._starting(group[0]) if kind == "start" else []
        turns: list[Rotation] = []
        checks: list[LevelCheck] = []
        for placing in group:
            part = self.joints.parts.get(placing.item)
            if part is not None:
                turns += self._part(part, placing, said)
                continue
            piece = self.joints.pieces[placing.item]
            if self._piece(piece, placing, said):
                kind = "stuck"
                continue
            check = level_check(self.model, piece)
            checks += [check] if check is not None else []
        with_it = self._loose_with(placed)
        said += [words.small_goes_on(part) for part in with_it]
        said += [words.check_words(self.model, check) for check in checks]
        joints = [placing.joint for placing in group if placing.joint is not None]
        joints += [joint for item in placed for joint in self.joints.of.get(item, ()) if not joint.guest]
        self.stands.update(dict.fromkeys(placed, number))
        return Step(
            number=number,
            kind=kind,
            text=" ".join(said),
            parts=(*(item for item in placed if item in self.joints.parts), *(part.id for part in with_it)),
            pieces=tuple(item for item in placed if item in self.joints.pieces),
            onto=tuple(p.onto for p in group if p.onto is not None and p.onto not in placed),
            bonds=tuple(joint.bond for joint in joints),
            rotations=tuple(turns),
            checks=tuple(checks),
            slides=tuple(slide for item in placed if (slide := self.slides.later.get(item)) is not None),
        )

    def _starting(self, root: Placing) -> list[str]:
        exit_ = next((e for e in self.model.plan.exits if leaves_at(self.model, self.joints, e, root.item)), None)
        said = [self._start_words(exit_)]
        part = self.joints.parts.get(root.item)
        if part is not None:
            return [*said, f"Hold the {named(part)}, {words.standing(self.joints, part)}."]
        piece = self.joints.pieces[root.item]
        slide = self.slides.later.get(piece.mark)
        if slide is None:
            return [*said, f"Take {words.piece_words(piece)}."]
        through = words.through(words.members(self.model, slide.through))
        return [
            *said,
            f"Lay {words.piece_words(piece)} {words.bay_words(self.model, slide)} and slide it {slide.way}{through}.",
        ]

    def _start_words(self, exit_: Exit | None) -> str:
        if exit_ is None:
            return "Start apart: no joint of the drawing ties this to what stands already."
        node = self.model.network.exits.get(exit_.id)
        z = self.model.heights.get(node) if node is not None else None
        held = "" if z is None else f", its axis there {inches(-z)} in below the joists' top"
        return f"Start at the exit {exit_.id}{held}."

    def _piece(self, piece: Piece, placing: Placing, said: list[str]) -> bool:
        """Say how a piece goes in and what is left long. Returns whether it cannot go in as it is cut."""
        why = self.slides.stuck.get(piece.mark, "")
        bend = bend_in(self.model, piece)
        if bend is not None:
            why = f"it turns at {words.place((*bend, 0.0))}, and no fitting makes that turn"
        elif not why and piece.cut < piece.least - _HAIR:
            why = f"its two hubs reach {inches(piece.least)} in over a pipe of {inches(piece.cut)} in"
        if why:
            seat = f" It belongs in {self._seat(placing)}." if placing.onto is not None else ""
            said.append(f"{words.piece_words(piece)} cannot be put in as it is cut: {why}.{seat}")
            return True
        if placing.onto is not None:
            slide = self.slides.later.get(piece.mark) or self.slides.early.get(piece.mark)
            early = piece.mark in self.slides.early
            said.append(words.going_in(self.model, self.joints, piece, placing, self._seat(placing), slide, early))
        if piece.mark in self.slides.unjudged:
            said.append(f"Not judged, whether it can be slid in: {self.slides.unjudged[piece.mark]}.")
        if words.lies_in_studs(self.model, piece):
            said.append(words.STUDS)
        trim = self.trims.get(piece.mark)
        if trim is not None and trim.extra > 0.0:
            long = words.long_stub if piece.mark in self.stubs else words.long_vent
            said.append(long(piece, trim.extra))
        return False

    def _part(self, part: Part, placing: Placing, said: list[str]) -> tuple[Rotation, ...]:
        """Say how a part goes on. Returns how it is turned."""
        if placing.joint is None or placing.onto is None:
            return ()
        if is_small(self.joints, placing):
            said.append(words.small_goes_on(part))
            return ()
        looks = rotations(self.model, self.joints, part, placing.joint)
        said.append(words.part_goes_on(self.joints, part, placing, self._seat(placing), looks))
        return looks

    def _seat(self, placing: Placing) -> str:
        """The hub or end that waits; where a new line begins, with the step that set it."""
        assert placing.joint is not None and placing.onto is not None
        seat = words.seat_words(self.joints, placing.joint, placing.onto)
        return f"{seat} (step {self.stands[placing.onto]})" if placing.begins and placing.onto in self.stands else seat

    def _loose_with(self, placed: list[str]) -> list[Part]:
        """The parts without a joint that stand at the same fitting as one of those placed."""
        hosts = [self.joints.parts[item] for item in placed if item in self.joints.parts]
        taken = [
            part
            for part in self.loose
            if any(part.node == host.node and set(part.elements) & set(host.elements) for host in hosts)
        ]
        self.loose = [part for part in self.loose if part not in taken]
        return taken
