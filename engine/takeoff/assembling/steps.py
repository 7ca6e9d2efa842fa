"""The steps: the order of placing made into sentences, with what each one turns, slides and checks."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from engine.checks.model import Model
from engine.joinery.records import Part
from engine.lengths import inches
from engine.takeoff.assembling import words
from engine.takeoff.assembling.finishing import Later, long_stubs
from engine.takeoff.assembling.joints import SAME, Joint, Joints, is_plumb
from engine.takeoff.assembling.levelling import level_check
from engine.takeoff.assembling.phases import FLANGES, waiting
from engine.takeoff.assembling.records import Step, StepKind
from engine.takeoff.assembling.rows import rows
from engine.takeoff.assembling.sliding import slides
from engine.takeoff.assembling.tree import Placing, joints_of, order, room_to_close, showing
from engine.takeoff.assembling.turning import rotations
from engine.takeoff.cutlist import named
from engine.trade.habits import SAW
from engine.trade.pipe import drain, label

_UPRIGHT = 0.5


def steps(model: Model) -> tuple[Step, ...]:
    """Every step of a plan's drains and vents, numbered from 1; none where nothing is joined."""
    if not model.joinery.parts and not model.joinery.pieces:
        return ()
    made = _Maker(model).all()
    return tuple(msgspec.structs.replace(step, number=number) for number, step in enumerate(made, 1))


class _Maker:
    def __init__(self, model: Model) -> None:
        self.model = model
        self.joints = Joints(model.joinery)
        self.waiting = waiting(self.joints)
        self.order = order(model, self.joints, self.waiting)
        self.slides = slides(rows(model, self.joints, self.order.placings))
        self.stubs = {piece.mark for _, piece in long_stubs(model, self.joints)}
        self.loose = [part for part in self.joints.loose() if part.id not in self.waiting]

    def all(self) -> Iterator[Step]:
        """Threading, then every line from its hub on, then rings, then what comes later."""
        yield from self._threads()
        groups = list(self._groups())
        for group in groups:
            if group[0].onto is None:
                yield self._start(group)
                continue
            if self._tries(group[0]):
                yield self._dry_fit(group[0])
            yield self._set(group)
        yield from (self._close(closers) for closers in self.order.closers)
        if self.loose:
            said = ", ".join(f"{named(part)}{f' ({part.note})' if part.note else ''}" for part in self.loose)
            yield Step(0, "loose", f"No joint of the drawing holds these: {said}.", parts=tuple(p.id for p in self.loose))
        yield from Later(self.model, self.joints, self.waiting).steps()

    def _threads(self) -> Iterator[Step]:
        for mark, slide in self.slides.early.items():
            piece = self.joints.pieces[mark]
            through = ", ".join(words.members(self.model, slide.through))
            text = (
                f"Before anything is glued, thread {words.piece_words(piece)}: lay it {words.bay_words(self.model, slide)}, "
                f"push it {slide.way} through {through} as far as it goes, {inches(slide.past)} in past its place, and leave "
                "it loose. Once the hub that it enters is set, no bay has room for it."
            )
            yield Step(0, "thread", text, dry=(mark,), slides=(slide,))

    def _groups(self) -> Iterator[list[Placing]]:
        """What one step puts in place: a piece and the fitting on its far end, each with its small parts."""
        group: list[Placing] = []
        for placing in self.order.placings:
            if group and self._goes_with(placing, group):
                group.append(placing)
                continue
            if group:
                yield group
            group = [placing]
        if group:
            yield group

    def _goes_with(self, placing: Placing, group: list[Placing]) -> bool:
        if placing.begins or placing.onto not in {other.item for other in group}:
            return False
        if self._small(placing):
            return True
        main = [other for other in group if not self._small(other)]
        if len(main) != 1 or self._tries(placing) or placing.item in self._held_up():
            return False
        return main[0].onto is None or (placing.item in self.joints.parts and main[0].item in self.joints.pieces)

    def _held_up(self) -> set[str]:
        return {*self.slides.stuck, *self.slides.unjudged, *self.slides.later, *self.slides.early}

    def _small(self, placing: Placing) -> bool:
        return placing.onto is not None and placing.item in self.joints.parts and len(self.joints.of[placing.item]) == 1

    def _upright(self, placing: Placing) -> str | None:
        """The plumb piece (or flange) over the floor that a fitting on a level pipe carries; None where it has none."""
        part = self.joints.parts.get(placing.item)
        if part is None or placing.joint is None:
            return None
        own = self.joints.port(placing.joint, part.id)
        if own is None or abs(own.toward[2]) > _UPRIGHT:
            return None
        for joint in self.joints.across(part.id, placing.joint):
            port = self.joints.port(joint, part.id)
            if port is None or port.toward[2] < _UPRIGHT or part.centre[2] >= 0.0:
                continue
            other = joint.other(part.id)
            if other in self.joints.pieces and is_plumb(self.joints.pieces[other]):
                piece = self.joints.pieces[other]
                if max(piece.start[2], piece.end[2]) > 0.0:
                    return other
            elif other in self.joints.parts and self.joints.parts[other].kind in FLANGES:
                return other
        return None

    def _tries(self, placing: Placing) -> bool:
        return self._upright(placing) is not None

    def _dry_fit(self, placing: Placing) -> Step:
        part, upright = self.joints.parts[placing.item], self._upright(placing)
        assert placing.joint is not None and placing.onto is not None and upright is not None
        seat = words.seat_words(self.joints, placing.joint, placing.onto)
        if upright in self.joints.pieces:
            stands = f"stand {upright} in it through its hole"
        else:
            stands = "its upper end in the middle of its hole"
        text = (
            f"Dry-fit the {named(part)} on {seat}, and {stands}: plumb both ways. Mark across the joint and leave it dry "
            f"until it is so. For the angle only: a dry joint stops short, so take no length from it."
        )
        return Step(0, "dry fit", text, onto=(placing.onto,), dry=(part.id, upright))

    def _start(self, group: list[Placing]) -> Step:
        first = group[0].item
        model = self.model
        exit_ = next((e for e in model.plan.exits if self._at_exit(e.id, first)), None)
        if exit_ is not None:
            node = model.network.exits[exit_.id]
            z = model.heights.get(node)
            held = "" if z is None else f", its axis there {inches(-z)} in below the joists' top"
            said = [f"Start at the exit {exit_.id}{held}."]
        else:
            said = ["Start apart: no joint of the drawing ties this to what stands already."]
        item = self.joints.item(first)
        if isinstance(item, Part):
            said.append(f"Hold the {named(item)}, its centre at {words.place(item.centre)}.")
        else:
            slide = self.slides.later.get(first)
            way = ""
            if slide is not None and slide.through:
                through = ", ".join(words.members(model, slide.through))
                way = f", laid {words.bay_words(model, slide)} and slid {slide.way} through {through}"
            said.append(f"Take {words.piece_words(item)}{way}.")
        return self._made("start", group, said)

    def _at_exit(self, exit_id: str, item: str) -> bool:
        piece = self.joints.pieces.get(item)
        if piece is None:
            return exit_id in self.joints.parts[item].elements
        last = self.model.network.by_id.get(piece.pipes[-1])
        node = self.model.network.exits.get(exit_id)
        return f"{exit_id}.tail" in piece.pipes or (last is not None and last.end == node and piece.to_part is None)

    def _set(self, group: list[Placing]) -> Step:
        head = group[0]
        assert head.joint is not None and head.onto is not None
        said: list[str] = []
        piece = self.joints.pieces.get(head.item)
        kind: StepKind = "set"
        if piece is not None:
            mark = piece.mark
            slide = self.slides.later.get(mark) or self.slides.early.get(mark)
            why = self.slides.stuck.get(mark) or (piece.note if piece.cut < piece.least - SAW else "")
            if why:
                kind = "stuck"
                said.append(f"{words.piece_words(piece)} cannot be put in as it is cut: {why}. See the findings.")
            said.append(
                words.going_in(self.model, self.joints, piece, head.joint, head.onto, slide, mark in self.slides.early)
            )
            if mark in self.slides.unjudged:
                said.append(f"Not judged, whether it can be slid in: {self.slides.unjudged[mark]}.")
        return self._made(kind, group, said)

    def _made(self, kind: StepKind, group: list[Placing], said: list[str]) -> Step:
        placed = [placing.item for placing in group]
        turns = []
        checks = []
        for place, placing in enumerate(group):
            part = self.joints.parts.get(placing.item)
            if part is None:
                piece = self.joints.pieces[placing.item]
                if place and placing.joint is not None and placing.onto is not None:
                    said.append(
                        words.going_in(self.model, self.joints, piece, placing.joint, placing.onto, None, False)
                    )
                if piece.mark in self.stubs:
                    said.append(words.long_stub(self.model, piece))
                if self._meets_roof(piece.mark):
                    said.append(words.long_vent(piece))
                check = level_check(self.model, piece)
                if check is not None:
                    checks.append(check)
                continue
            if placing.joint is None or placing.onto is None:
                continue
            if self._small(placing):
                said.append(words.small_goes_on(part))
                continue
            looks = rotations(self.model, self.joints, part, placing.joint)
            turns += looks
            said.append(words.part_goes_on(self.joints, part, placing.joint, placing.onto, looks))
        with_it = self._take_loose(placed)
        said += [words.small_goes_on(part) for part in with_it]
        said += [words.check_words(self.model, check) for check in checks]
        glued = [placing.joint for placing in group if placing.joint is not None]
        glued += [joint for item in placed for joint in self.joints.of.get(item, ()) if not joint.guest]
        return Step(
            number=0,
            kind=kind,
            text=" ".join(said),
            parts=(*(item for item in placed if item in self.joints.parts), *(part.id for part in with_it)),
            pieces=tuple(item for item in placed if item in self.joints.pieces),
            onto=tuple(p.onto for p in group if p.onto is not None and p.onto not in placed),
            bonds=tuple(joint.bond for joint in glued),
            rotations=tuple(turns),
            checks=tuple(checks),
            slides=tuple(self.slides.later[item] for item in placed if item in self.slides.later),
        )

    def _meets_roof(self, mark: str) -> bool:
        piece = self.joints.pieces[mark]
        floor = self.model.plan.floor
        top = max(piece.start[2], piece.end[2])
        return any(
            riser.top == "roof" and abs(piece.start[0] - riser.at[0]) + abs(piece.start[1] - riser.at[1]) < SAME
            for riser in self.model.plan.risers
        ) and top > floor.finished_z + floor.roof_above_floor

    def _take_loose(self, placed: list[str]) -> list[Part]:
        """The parts without a joint that stand at the same fitting as one of those placed."""
        hosts = [self.joints.parts[item] for item in placed if item in self.joints.parts]
        taken = [
            part
            for part in self.loose
            if any(part.node == host.node and set(part.elements) & set(host.elements) for host in hosts)
        ]
        self.loose = [part for part in self.loose if part not in taken]
        return taken

    def _close(self, closers: tuple[str, ...]) -> Step:
        glued = joints_of(self.joints, closers)
        names = set(closers)
        onto = tuple(
            dict.fromkeys(n for joint in glued for n in (joint.host, joint.guest) if n and n not in names)
        )
        parts = tuple(item for item in closers if item in self.joints.parts)
        pieces = tuple(item for item in closers if item in self.joints.pieces)
        checks = tuple(
            check for item in pieces if (check := level_check(self.model, self.joints.pieces[item])) is not None
        )
        kind, text, needs = self._closing(closers, glued)
        text = " ".join([text, *(words.check_words(self.model, check) for check in checks)])
        return Step(
            0, kind, text, parts, pieces, onto, bonds=tuple(j.bond for j in glued), checks=checks, needs=needs
        )

    def _closing(
        self, closers: tuple[str, ...], glued: tuple[Joint, ...]
    ) -> tuple[StepKind, str, tuple[tuple[str, float, int], ...]]:
        couplings = [self.joints.parts[item] for item in closers if item in self.joints.parts]
        if any(part.kind == "repair_coupling" for part in couplings):
            names = ", ".join(named(part) for part in couplings)
            return "close", f"Close the loop last: slide the {names} wholly onto the pipe beside, bring the ends together, and slide it back over the joint.", ()
        if couplings:
            return "stuck", f"The loop at {words.place(couplings[0].centre)} closes between fittings without pipe: nothing there can be slid.", ()
        piece = self.joints.pieces[closers[0]]
        seats = " and ".join(
            words.seat_words(self.joints, joint, joint.other(piece.mark)) for joint in glued
        )
        if not room_to_close(piece):
            return (
                "stuck",
                f"{words.piece_words(piece)} closes a loop between {seats}, both glued by now, and shows only "
                f"{inches(showing(piece))} in: too little for two repair couplings. Draw the loop longer.",
                (),
            )
        gap = 2.0 * drain(piece.size).socket
        half = (piece.cut - gap) / 2.0
        text = (
            f"Close the loop last, with {words.piece_words(piece)}, since both {seats} are glued by now: saw it into two of "
            f"{inches(half)} in and a make-up length of {inches(gap)} in (less the saw's own cuts). Slide a repair coupling "
            f"{label(piece.size)} wholly onto each half, glue the halves into their hubs, hold the make-up length between "
            f"them, and slide the couplings back over both joints, each to its middle."
        )
        return "close", text, (("repair_coupling", piece.size, 2),)
