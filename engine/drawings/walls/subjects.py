"""What is drawn: each wall that pipe passes or lies in, with its studs, its pipes and their fittings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from engine.checks.model import Model
from engine.checks.plate_cuts import TIES, tied
from engine.checks.plates import guards
from engine.checks.stud_cuts import axis_at
from engine.checks.wall_sites import Rise, end_names, kind_words, pipes_in_walls, wall_words, water_rises
from engine.crossings.in_walls import Lying, Upright
from engine.drafting.finished import at_riser, under_fixture
from engine.drawings.linetypes import LINE_TYPES
from engine.drawings.walls.figures import shown
from engine.drawings.walls.records import Fitting, Level, Shown, Standing, Steel, StudSeen, WallView
from engine.framing.studs import WallWood, stand
from engine.lengths import inches, nearest
from engine.piping.records import Node, Pipe
from engine.plan.records import Plan, Wall
from engine.study import Study
from engine.takeoff.wall_holes import Bored, bored_walls
from engine.takeoff.wall_hooks import WallHook, wall_hook
from engine.trade.fixtures import fixture as fixture_spec
from engine.trade.pipe import drain, label, tube

STUB = 12.0
"""How high water tube is drawn over the subfloor where it is not known how high it goes, inches."""

_LEVEL = 1.0 / 64.0


def wall_views(study: Study) -> tuple[WallView, ...]:
    """Every wall that pipe is bored through or lies in, in the plan's order."""
    model = study.model
    found = pipes_in_walls(model)
    used = {one.wood.wall.id for one in found.upright}
    used |= {lying.wood.wall.id for lying in found.lying if lying.along_it or not lying.ends_here}
    used |= {bored.wood.wall.id for bored in bored_walls(model)}
    return tuple(wall_view(study, wall) for wall in study.plan.walls if wall.id in used)


def wall_view(study: Study, wall: Wall) -> WallView:
    """One wall; without pipes it is drawn as bare wood."""
    model, subfloor = study.model, study.plan.floor.subfloor
    wood = stand(wall, subfloor)
    hook = wall_hook(model, wood)
    upright = [one for one in pipes_in_walls(model).upright if one.wood.wall.id == wall.id]
    lying = [one for one in pipes_in_walls(model).lying if one.wood.wall.id == wall.id]
    fittings = [made for one in upright for made in _fittings(study.plan, model, hook, one)]
    bored = [one for one in bored_walls(model) if one.wood.wall.id == wall.id]
    tubes = any(rise.wood.wall.id == wall.id and _stub(model, rise) is None for rise in water_rises(model))
    return WallView(
        wall=wall.id,
        name=wall_words(wall),
        hook=hook,
        facts=tuple(_facts(wood)),
        remarks=tuple(dict.fromkeys(_remarks(model, hook, wood, lying, tubes))),
        subfloor=subfloor,
        sole=wood.sole[1] - subfloor,
        plates=(wood.plates[0] - subfloor, wood.plates[1] - subfloor),
        double=wall.top_plate == "double",
        studs=tuple(_studs(hook, wood)),
        cuts=tuple(_cuts(model, hook, bored, [*fittings, *_stubs(model, hook, wood)])),
        standing=tuple(_standing(model, hook, upright, wood)),
        lying=tuple(_levels(model, hook, lying, subfloor)),
        fittings=tuple(fittings),
        steel=tuple(_steel(model, hook, wood)),
    )


def _facts(wood: WallWood) -> Iterator[str]:
    wall = wood.wall
    yield f'{wall.lumber}, {inches(wood.depth)}" DEEP'
    yield f'{inches(wood.length)}" LONG'
    yield kind_words(wall).removeprefix("a ").removeprefix("an ").upper()
    yield f'STUDS {inches(wall.stud_spacing)}" APART'


def _remarks(model: Model, hook: WallHook, wood: WallWood, lying: Iterable[Lying], tubes: bool) -> Iterator[str]:
    """What is to be known of the wall before it is marked."""
    where = f", {hook.stands}" if hook.stands else ""
    yield f"Hook the tape on the sole plate's {hook.end} end{where}. Across the plate, hook its {hook.near} face; up the wall, the subfloor's top."
    if any(_assumed(wood, number) for number in range(len(wood.studs))):
        yield (
            f'Studs drawn broken stand at assumed places: {inches(wood.wall.stud_spacing)}" apart from the '
            f"{end_names(wood)[0]} end, since the plan gives no first stud. Where yours stand otherwise, the pipe's place holds "
            "and the stud moves."
        )
    for one in lying:
        slope = abs(one.pipe.slope)
        if one.along_it and slope and not one.in_plates:
            toward = _falls_to(hook, one)
            yield f'{one.pipe.element} falls {inches(slope)}" in a foot toward the {toward} end; the height at each stud follows it.'
            yield from _longer(model, one.pipe)
        if one.in_plates and not one.over_all:
            yield f"{one.pipe.element} lies in a plate, which is NOT LEGAL: no hole along a plate leaves wood that carries."
    if tubes:
        yield "Water tube of which no height is told is drawn a foot high: where it comes out of the wall is not known."


def _longer(model: Model, pipe: Pipe) -> Iterator[str]:
    """That a dry run's upper joint stands higher by its rise than the pieces under it are cut for."""
    node, rise = pipe.end, axis_at(model, pipe, 1.0) - pipe.end.level
    under = next((one for one in model.network.pipes if not one.run and _stands_under(one, node)), None)
    if pipe.system == "vent" and under is not None and nearest(rise):
        yield f'Cut the piece of {under.element} under {pipe.element} {inches(rise)}" longer than listed: so much the run rises to it.'


def _stands_under(pipe: Pipe, node: Node) -> bool:
    """Whether a plumb pipe ends at a joint from below."""
    low, high = sorted((pipe.start, pipe.end), key=lambda one: one.level)
    return high == node and low.level < node.level


def _falls_to(hook: WallHook, lying: Lying) -> str:
    """The end of the wall toward which a level pipe falls: a dry one to where it begins, a waste one to where it goes."""
    pipe, wood = lying.pipe, lying.wood
    start, end = (hook.along(wood.where((node.x, node.y))[0]) for node in (pipe.start, pipe.end))
    to_start = (pipe.system == "vent") == (pipe.slope > 0.0)
    return hook.end if (start < end) == to_start else hook.other


def _assumed(wood: WallWood, place: int) -> bool:
    """Whether nobody said where a stud stands."""
    stud, wall = wood.studs[place], wood.wall
    moved = any(shift.number == stud.number for shift in wall.stud_shifts)
    return stud.kind == "common" and wall.first_stud is None and not moved


def _studs(hook: WallHook, wood: WallWood) -> list[StudSeen]:
    found = []
    for place, stud in enumerate(wood.studs):
        low, high = sorted((hook.along(stud.low), hook.along(stud.high)))
        found.append(StudSeen(stud.number, low, high, _assumed(wood, place)))
    return sorted(found, key=lambda stud: stud.low)


def _cuts(model: Model, hook: WallHook, bored: Iterable[Bored], fittings: Iterable[Fitting]) -> Iterator[Shown]:
    """The cuts by their numbers: a pipe's holes in sole plate and top plates are one place."""
    places: dict[int, list[Bored]] = {}
    for one in bored:
        places.setdefault(one.row.number, []).append(one)
    found = list(fittings)
    for _, group in sorted(places.items()):
        at = hook.along(group[0].along)
        mine = [made for made in found if abs(made.at - at) < _LEVEL] if group[0].row.part != "stud" else []
        yield shown(model, hook, group, mine)


def _standing(model: Model, hook: WallHook, upright: Iterable[Upright], wood: WallWood) -> Iterator[Standing]:
    subfloor, top = wood.sole[0], wood.plates[1] - wood.sole[0]
    for one in upright:
        runs: list[tuple[float, float, float, str]] = []
        for low, high, size in one.parts:
            runs.append((low, high, size, "waste" if one.waste and low <= _LEVEL else "vent"))
        for n, (low, high, size, system) in enumerate(runs):
            foot, head = (-wood.sole[0] if low <= _LEVEL else low - subfloor), high - subfloor
            if foot < top:
                words = f'{label(size)}" {LINE_TYPES[system].letters} {one.elements[min(n, len(one.elements) - 1)]}'
                cut_off = head > top
                yield Standing(hook.along(one.along), drain(size).od, foot, min(head, top), system, words, cut_off)
    for rise in water_rises(model):
        if rise.wood.wall.id == wood.wall.id:
            words = f'{label(rise.size)}" {LINE_TYPES[rise.water].letters} {rise.element}'
            comes_out = _stub(model, rise)
            if comes_out is not None:
                words += f' {inches(comes_out)}" UP'
            along, outside = hook.along(rise.along), tube(rise.size).od
            yield Standing(
                along,
                outside,
                -wood.sole[0],
                STUB if comes_out is None else comes_out,
                rise.water,
                words,
                comes_out is None,
            )


def _stubs(model: Model, hook: WallHook, wood: WallWood) -> Iterator[Fitting]:
    """Where water tubes come out of the wall, as far as that is known, for their columns."""
    for rise in water_rises(model):
        comes_out = _stub(model, rise) if rise.wood.wall.id == wood.wall.id else None
        if comes_out is not None:
            yield Fitting(hook.along(rise.along), comes_out, tube(rise.size).od, "comes out", False)


def _stub(model: Model, rise: Rise) -> float | None:
    """How high over the subfloor's top a tube comes out of the wall for its fixture; None where that is not known."""
    fixture = model.water.nearest_taker(rise.water, rise.at)
    above = None if fixture is None else fixture_spec(fixture.kind).supply_above_floor
    if fixture is None or above is None:
        return None
    return nearest(under_fixture(model.plan, fixture) + above - model.plan.floor.subfloor)


def _fittings(plan: Plan, model: Model, hook: WallHook, one: Upright) -> Iterator[Fitting]:
    """The tees at which level pipe comes to a riser in the wall, and the cleanouts in it, from below."""
    names = {fixture.id: fixture.name or fixture.id for fixture in plan.fixtures}
    subfloor, low, high = plan.floor.subfloor, one.wood.sole[1], one.wood.plates[0]
    found: dict[float, list[str]] = {}
    for pipe in model.network.pipes:
        for node in (pipe.start, pipe.end):
            if pipe.run and (node.x, node.y) == one.at and low < node.level < high:
                height = nearest(axis_at(model, pipe, 0.0 if node == pipe.start else 1.0) - subfloor)
                found.setdefault(height, []).append(names.get(pipe.element, pipe.element))
    outside = drain(one.size).od
    cleanouts = [
        (at_riser(plan, made.at) + made.above_floor - subfloor, "cleanout")
        for made in plan.cleanouts
        if made.at == one.at and made.above_floor is not None
    ]
    told = [(height, " and ".join(dict.fromkeys(words)), False) for height, words in found.items()]
    told += [(height, words, True) for height, words in cleanouts]
    for height, words, cleanout in sorted(told):
        yield Fitting(hook.along(one.along), height, outside, words, cleanout)


def _levels(model: Model, hook: WallHook, lying: Iterable[Lying], subfloor: float) -> Iterator[Level]:
    """Level pipes that run along the wall, and those that cross it without ending at plumb pipe there."""
    for one in lying:
        if not one.along_it and one.ends_here:
            continue
        pipe = one.pipe
        words = f'{label(pipe.size)}" {LINE_TYPES[pipe.system].letters} {pipe.element}'
        start, end = (one.wood.where((node.x, node.y))[0] for node in (pipe.start, pipe.end))
        ends = tuple(
            (hook.along(at), axis_at(model, pipe, (at - start) / (end - start) if end != start else 0.5) - subfloor)
            for at in (one.low, one.high)
        )
        yield Level(tuple(sorted(ends)), 2.0 * one.half, pipe.system, words, not one.along_it)  # type: ignore[arg-type]


def _steel(model: Model, hook: WallHook, wood: WallWood) -> Iterator[Steel]:
    """Shields over the faces, each place once, and ties over top plates."""
    subfloor, seen = wood.sole[0], set()
    for guard in guards(model) if model.book.has("shield.edge") else ():
        if guard.wood.wall.id != wood.wall.id:
            continue
        middle = hook.along(wood.where(guard.at)[0])
        place = (middle - guard.along / 2.0, middle + guard.along / 2.0, guard.low - subfloor, guard.high - subfloor)
        if place not in seen:
            seen.add(place)
            yield Steel("shield", *place)
    past = model.book.number(TIES[3]) if model.book.has(TIES[3]) else 0.0
    for cut in tied(model):
        if cut.wood.wall.id == wood.wall.id:
            ends = sorted(
                (hook.along(min(hole.low for hole in cut.holes)), hook.along(max(hole.high for hole in cut.holes)))
            )
            top = wood.plates[1] - subfloor
            yield Steel("tie", ends[0] - past, ends[1] + past, top, top)
