"""Which rule's findings have a mend, and where it is thought up: the one place to which a new mend is added.

A maker is a generator of :class:`~engine.mending.ideas.Idea` for one finding, in the module of its subject, which names
the rules that it serves in its `MAKERS`. It need not know whether its ideas work: each is tried before it is offered.
"""

from __future__ import annotations

from engine.mending import (
    cleanouts,
    fittings,
    fixtures,
    joints,
    joist_cuts,
    moves,
    sizes,
    slopes,
    tops,
    vents,
)
from engine.mending.ideas import Maker
from engine.mending.opening import finding as opening

MAKERS: dict[str, Maker] = {
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
}
"""What thinks up mends, by the rule's id."""
