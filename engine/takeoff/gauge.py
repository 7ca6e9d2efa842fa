"""The gauge sheet: the fittings of this job, which of their legs to measure, and what each measure changes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from msgspec.structs import replace

from engine.checks.model import Model
from engine.joinery.records import Standing
from engine.lengths import inches
from engine.plan.records import MeasuredTakeOff, Plan, Record
from engine.takeoff.measuring import ITS_OWN_STOP, alike, measuring, socket_of
from engine.takeoff.partnames import named, size_words
from engine.takeoff.resting import BUSHING, LegOf, Resting
from engine.trade.fittings import KINDS, Leg, LegName, Size, doubts, floor_of, measured_leg, size_label, takeoff

LETTERS = ("A", "B", "C")
"""The letter of each leg on its sketch: upper or upstream, lower or downstream, branch."""

_HAIR = 1.0 / 128.0


class GaugeLeg(Record, frozen=True, gc=False):
    """One leg to measure, lengths in inches.

    `legs` are the catalogue's legs that one measure stands for. `stands` is what the rule would show now, `tolerance`
    how far off that may be, `standing` how it is known. `pieces` are the marks that it changes, `holds` what else.
    `socket` is the depth that comes off the hub's face, negative where it is added to it; None where no hub is
    measured. `question` asks about what was measured; empty where nothing is odd.
    """

    letter: str
    legs: tuple[LegName, ...]
    name: str
    how: str
    stands: float
    tolerance: float
    standing: Standing
    source: str
    pieces: tuple[str, ...]
    holds: tuple[str, ...]
    socket: float | None
    question: str


class Gauge(Record, frozen=True, gc=False):
    """One fitting of the job: how many of it there are, and its legs to measure."""

    kind: str
    size: Size
    size_words: str
    count: int
    legs: tuple[GaugeLeg, ...]

    @property
    def name(self) -> str:
        """The fitting's name with its size."""
        return named(self.kind, self.size_words)

    @property
    def measured(self) -> bool:
        """Whether every leg listed has been measured."""
        return all(leg.standing == "measured" for leg in self.legs)


def gauge(model: Model) -> tuple[Gauge, ...]:
    """Exactly the fittings of this job whose legs a cut or a height rests on, large ones first.

    A leg that is counted from its own stop is nothing whoever made it, so it is not asked for.
    """
    resting = Resting(model)
    by_fitting: dict[tuple[str, Size], set[LegName]] = {}
    for leg in resting.legs():
        if leg.kind not in ITS_OWN_STOP:
            by_fitting.setdefault((leg.kind, leg.size), set()).add(leg.leg)
    count = _counts(model)
    order = list(KINDS)
    found = sorted(by_fitting, key=lambda one: (-max(one[1]), order.index(one[0]), one[1]))
    return tuple(
        Gauge(
            kind,
            size,
            _size_words(kind, size),
            count[kind, size],
            tuple(_legs(model.plan, resting, kind, size, by_fitting[kind, size])),
        )
        for kind, size in found
    )


def question_of(measured: MeasuredTakeOff, stands: Leg, socket: float | None) -> str:
    """What to ask about a measured take-off: geometry's floor, or a socket's depth that was not taken off.

    `stands` is what the catalogue or geometry gives for the leg.
    """
    found = doubts((measured,))
    if found:
        return f"{found[0].why}. Measure again."
    over = measured.length - stands.length
    if (
        socket is not None
        and socket > 0.0
        and abs(over - socket) < min(abs(over), socket / 2.0)
        and over > stands.tolerance
    ):
        return (
            f"{inches(over)} in more than was thought, about the socket's depth of {inches(socket)} in. "
            "Was it taken off the hub's face?"
        )
    return ""


def _counts(model: Model) -> Counter[tuple[str, Size]]:
    count = Counter((part.kind, part.size) for part in model.joinery.parts)
    for (kind, size), number in list(count.items()):
        if kind == "flush_bushing":
            count[BUSHING, (size[1], size[0])] += number
    return count


def _size_words(kind: str, size: Size) -> str:
    return size_label(size[::-1]) if kind == BUSHING else size_words(size)


def _legs(plan: Plan, resting: Resting, kind: str, size: Size, wanted: set[LegName]) -> list[GaugeLeg]:
    """The wanted legs by their letters; two that are one measure stand together while nobody measured them apart."""
    names = KINDS[kind].legs
    stands = {leg: takeoff(kind, size, leg, plan.takeoffs) for leg in names}
    if alike(kind) and abs(stands["run_in"].length - stands["run_out"].length) < _HAIR:
        return [_leg(plan, resting, LegOf(kind, size, "run_in"), ("run_in", "run_out"), stands)]
    return [_leg(plan, resting, LegOf(kind, size, leg), (leg,), stands) for leg in names if leg in wanted]


def _leg(plan: Plan, resting: Resting, of: LegOf, legs: tuple[LegName, ...], stands: dict[LegName, Leg]) -> GaugeLeg:
    now, way = stands[of.leg], measuring(of.kind, of.leg)
    firm = now.standing if all(stands[leg].standing == now.standing for leg in legs) else "assumed"
    rows = [LegOf(of.kind, of.size, leg) for leg in legs]
    marks = {mark for row in rows for mark in resting.pieces.get(row, ())}
    holds = dict.fromkeys(said for row in rows for said in resting.holds(row))
    socket = None if way.socket == 0 else -way.socket * socket_of(of.kind, of.size, of.leg)
    return GaugeLeg(
        letter=LETTERS[_measurable(of.kind).index(of.leg)],
        legs=legs,
        name=way.name,
        how=way.how,
        stands=way.measured(now.length),
        tolerance=now.tolerance / way.share,
        standing=firm,
        source=now.source,
        pieces=tuple(mark for mark in resting.order if mark in marks),
        holds=tuple(holds),
        socket=socket,
        question=_question(plan, of, socket),
    )


def _measurable(kind: str) -> tuple[LegName, ...]:
    """A kind's legs that a rule can be held to: not the ring that a flange is counted from."""
    return tuple(leg for leg in KINDS[kind].legs if KINDS[kind].end(leg) != "ring")


def _question(plan: Plan, of: LegOf, socket: float | None) -> str:
    """What to ask about the measure that the plan has of a leg, if it has one."""
    for row in plan.takeoffs:
        if measured_leg(row) == of:
            return question_of(row, takeoff(of.kind, of.size, of.leg), socket)
    return ""


def least(kind: str, size: Size, leg: LegName) -> float | None:
    """The least that the rule can show for a leg by geometry, inches; None where nothing sets one."""
    floor, way = floor_of(kind, size, leg), measuring(kind, leg)
    return None if floor is None or way.sign < 0.0 else way.measured(floor)


def measures(gauged: Gauge, leg: GaugeLeg, shown: float) -> tuple[MeasuredTakeOff, ...]:
    """The plan's rows for what a rule showed on one leg, inches, with the socket's depth taken off already."""
    way = measuring(gauged.kind, leg.legs[0])
    size = size_label(gauged.size)
    return tuple(MeasuredTakeOff(gauged.kind, size, name, way.takeoff(shown)) for name in leg.legs)


def written_down(plan: Plan, gauged: Gauge, leg: GaugeLeg, shown: float | None) -> Plan:
    """The plan with what a rule showed on one leg of a fitting; None takes the measure back."""
    of = {(gauged.kind, gauged.size, name) for name in leg.legs}
    kept = tuple(row for row in plan.takeoffs if measured_leg(row) not in of)
    return replace(plan, takeoffs=(*kept, *(measures(gauged, leg, shown) if shown is not None else ())))


def taken_over(plan: Plan, known: Iterable[MeasuredTakeOff]) -> Plan:
    """The plan with the take-offs of others, such as a personal file's, for the legs that it has no measure of."""
    here = {measured_leg(row) for row in plan.takeoffs}
    more = tuple(row for row in known if (leg := measured_leg(row)) is not None and leg not in here)
    return replace(plan, takeoffs=(*plan.takeoffs, *more)) if more else plan
