"""The sentences of the assembly order."""

from __future__ import annotations

from engine.checks.model import Model
from engine.joinery.records import Part, Piece, Space
from engine.lengths import feet_inches, inches
from engine.piping.flow import is_under
from engine.plan.walls import wall_at
from engine.takeoff.assembling.joints import Joint, Joints, is_plumb, low_end
from engine.takeoff.assembling.records import LevelCheck, Rotation, Slide
from engine.takeoff.assembling.tree import Placing
from engine.takeoff.assembling.turning import leg_words
from engine.takeoff.cutlist import named
from engine.takeoff.naming import whole_words
from engine.trade.pipe import label

STUDS = "Studs are not drawn: whether it can be slid through them is not judged."

_SLIGHT = 0.25
"""Rolls under this many degrees are not worth a word."""


def place(at: Space) -> str:
    """A place in plan, as the cut list tells it."""
    return f"{feet_inches(at[0])} E, {feet_inches(at[1])} N"


def piece_words(piece: Piece) -> str:
    """A piece with its size and length."""
    return f"{piece.mark} ({label(piece.size)} in pipe, {inches(piece.cut)} in)"


def seat_words(joints: Joints, joint: Joint, onto: str) -> str:
    """The hub (or pipe end, or spigot) that something is put into or onto."""
    if onto in joints.pieces:
        return f"the end of {onto}"
    part, port = joints.parts[onto], joints.port(joint, onto)
    return f"the {leg_words(part, port)} of the {named(part)}" if port is not None else f"the {named(part)}"


def members(model: Model, names: tuple[str | None, ...]) -> list[str]:
    """Joists by the names that the drawings give them."""
    return [whole_words(model, model.joists[name]) for name in names if name is not None]


def bay_words(model: Model, slide: Slide) -> str:
    """The clear space that a piece is first laid in."""
    if slide.bay == (None, None):
        return "clear of the wood"
    if None in slide.bay:
        (beyond,) = members(model, slide.bay)
        return f"clear of the floor, beyond {beyond}"
    low, high = members(model, slide.bay)
    return f"in the bay between {low} and {high}"


def going_in(
    model: Model, joints: Joints, piece: Piece, placing: Placing, seat: str, slide: Slide | None, early: bool
) -> str:
    """How a piece gets into the hub that waits for it, `seat` in words."""
    assert placing.joint is not None and placing.onto is not None
    into = f"{'onto' if _is_spigot(joints, placing.joint, placing.onto) else 'into'} {seat}"
    named_piece = piece_words(piece)
    if slide is not None and early:
        return f"Pull {named_piece} back in its bores {into} and glue it."
    if slide is not None:
        wood = through(members(model, slide.through))
        return f"Lay {named_piece} {bay_words(model, slide)}, slide it {slide.way}{wood}, and glue it {into}."
    if not is_plumb(piece):
        return f"Glue {named_piece} {into}."
    down = joints.end(placing.joint, piece.mark) == low_end(piece)
    way = "Let" if down else "Push"
    return f"{way} {named_piece} {'down' if down else 'up'}{through(holes_passed(model, piece))} {into} and glue it."


def lies_in_studs(model: Model, piece: Piece) -> bool:
    """Whether a piece is a level run over the floor, where studs stand in its way."""
    pipe = model.network.by_id.get(piece.pipes[0])
    if pipe is None or pipe.island or pipe.shape != "level":
        return False
    return not is_under(pipe.start) and not pipe.id.endswith(".arm")


def holes_passed(model: Model, piece: Piece) -> list[str]:
    """What a plumb piece passes between its ends: the floor, a sole plate, the plates and roof above."""
    low, high = sorted((piece.start[2], piece.end[2]))
    risers = {riser.id: riser for riser in model.plan.risers}
    riser = next((risers[e] for pipe in piece.pipes if (e := pipe.rsplit(".", 1)[0]) in risers), None)
    top = model.plan.floor.finished_z + model.plan.floor.roof_above_floor
    passed = []
    if riser is not None and high >= top > low:
        passed.append("the roof and the top plates")
    if low < 0.0 < high:
        walled = riser is not None and wall_at(model.plan, riser.at, riser.wall) is not None
        passed.append("the sole plate and the subfloor" if walled else "the subfloor")
    return passed


def through(wood: list[str]) -> str:
    """What a piece passes on its way, as the middle of a sentence."""
    return f" through {', '.join(wood)}" if wood else ""


def _is_spigot(joints: Joints, joint: Joint, item: str) -> bool:
    port = joints.port(joint, item)
    return port is not None and port.end == "spigot"


def part_goes_on(joints: Joints, part: Part, placing: Placing, seat: str, looks: tuple[Rotation, ...]) -> str:
    """How a fitting is put on: on what, where its centre lies, which way it looks."""
    assert placing.joint is not None and placing.onto is not None
    inside = placing.onto in joints.parts and (not part.ports or _is_spigot(joints, placing.joint, part.id))
    return f"{'Into' if inside else 'On'} {seat} the {named(part)}, {standing(joints, part)}{turned(looks)}."


def turned(rotations: tuple[Rotation, ...]) -> str:
    """Which way a fitting looks: each leg's hour, degrees and mark round the pipe."""
    said = []
    for turn in rotations:
        roll = ""
        if turn.looking != "seen from above" and abs(turn.roll) >= _SLIGHT:
            roll = f", {abs(turn.roll):.1f} of it rolled {'clockwise' if turn.roll > 0 else 'counter-clockwise'} for its fall"
        side = "north side" if turn.looking == "seen from above" else "top"
        way = "clockwise" if turn.mark >= 0.0 else "counter-clockwise"
        mark = "in line with" if abs(turn.mark) < 1.0 / 32.0 else f"{inches(abs(turn.mark))} in {way} from"
        said.append(
            f"{turn.leg} {'' if turn.words.startswith('to ') else 'at '}{turn.words}, {turn.looking} "
            f"({turn.degrees:.1f} degrees{roll}; its line {mark} the pipe's {side})"
        )
    return f": {'; '.join(said)}" if said else ""


def standing(joints: Joints, part: Part) -> str:
    """Where a fitting's centre lies; a trap has none that can be seen, and its inlet is told."""
    into = next((piece.end for piece in joints.pieces.values() if piece.to_part == part.id), None)
    if part.kind != "p_trap" or into is None:
        return f"its centre at {place(part.centre)}"
    return f"its inlet at {place(into)}"


def small_goes_on(part: Part) -> str:
    """A part that goes with its host: a bushing, an adapter."""
    return f"With it the {named(part)}{f', {part.note}' if part.note else ''}."


def check_words(model: Model, check: LevelCheck) -> str:
    """What the level must show."""
    if check.slope is None:
        return f"Check: {check.piece} stands plumb both ways."
    high = "higher" if check.rise >= 0.0 else "lower"
    text = (
        f"Check {check.piece}: the level shows {_slope(check.slope)} in per ft, its upper end {inches(abs(check.rise))} in "
        f"{high} over its {inches(check.over)} in"
    )
    if check.down is None:
        return f"{text}."
    subfloor = model.plan.floor.subfloor
    if check.down > 0.0:
        return f"{text}, its axis there {inches(check.down)} in below the joists' top."
    return f"{text}, its axis there {inches(-check.down - subfloor)} in above the subfloor."


def _slope(slope: float) -> str:
    return inches(slope, 32) if abs(slope * 32.0 - round(slope * 32.0)) < 1e-9 else f"{slope:.3f}"


def long_stub(piece: Piece, extra: float) -> str:
    """That a stub is left long for the test, and how far."""
    return (
        f"Leave it long: cut it {inches(piece.cut + extra)} in now, {inches(extra)} in more than its final {inches(piece.cut)} in, "
        "and cap it for the test."
    )


def long_vent(piece: Piece, extra: float) -> str:
    """That a vent is left long until the roof is on."""
    return f"Leave it {inches(extra)} in long ({inches(piece.cut + extra)} in): it is cut off once the roof is covered."
