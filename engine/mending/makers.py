"""Which rule's findings have a mend, and where it is thought up: the one place to which a new mend is added.

A maker is a generator of :class:`~engine.mending.ideas.Idea` for one finding, in the module of its subject, which names
the rules that it serves in its `MAKERS`. It need not know whether its ideas work: each is tried before it is offered.
"""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.records import Finding
from engine.mending import (
    cleanouts,
    clearances,
    drawn,
    fittings,
    fixtures,
    floors,
    framing,
    joints,
    joist_cuts,
    moves,
    sizes,
    slopes,
    tops,
    vents,
    walls,
    way_down,
)
from engine.mending.ideas import Idea, Maker
from engine.mending.opening import finding as opening
from engine.study import Study

_OF_SUBJECTS: dict[str, Maker] = {
    **joints.MAKERS,
    **sizes.MAKERS,
    **slopes.MAKERS,
    **fittings.MAKERS,
    **moves.MAKERS,
    **joist_cuts.MAKERS,
    **opening.MAKERS,
    **vents.MAKERS,
    **tops.MAKERS,
    **cleanouts.MAKERS,
    **fixtures.MAKERS,
    **floors.MAKERS,
    **drawn.MAKERS,
    **framing.MAKERS,
    **clearances.MAKERS,
    **walls.MAKERS,
    **way_down.MAKERS,
}


def _either(first: Maker, then: Maker) -> Maker:
    """All that two makers think up."""

    def make(study: Study, finding: Finding) -> Iterator[Idea]:
        yield from first(study, finding)
        yield from then(study, finding)

    return make


MAKERS: dict[str, Maker] = (
    _OF_SUBJECTS
    | {
        "lands-on-wood": _either(moves.off_the_wood, walls.off_the_rim),
    }
    | {rule: _either(_OF_SUBJECTS[rule], opening.by_its_window) for rule in opening.BY_HEIGHT}
)
"""What thinks up mends, by the rule's id."""
