"""Rules whose findings have no mend that is an edit of the plan, each with the reason.

A rule stands here or has a maker in :mod:`engine.mending.makers`; a test holds that.
"""

from __future__ import annotations

WITHOUT: dict[str, str] = {
    "beam-wants-hangers": "hangers and ledgers are bought, not drawn",
    "blocking-cut": "a block is bored at the bench, or left out there, before it is nailed in",
    "bore-long-at-an-angle": "whether a slanting bore is taken is for the official; another way is for the owner to draw",
    "bore-tight-on-pipe": "it is mended at the bench: shorter pieces, or a reamed bore",
    "cannot-be-threaded": "another way of the whole run is for the owner to draw",
    "double-tee-takes-closets": "a double fixture fitting is not among those that can be chosen; two tees need another way",
    "floor-drain-dries": "a primer, a deep seal or a listed device is bought, not drawn",
    "gaps-round-pipes": "the sealant is on the shopping list already",
    "in-an-open-floor": "which way it takes round the opening is for the owner to draw",
    "island-drain-shared": "which way the other fixtures drain is for the owner to draw",
    "island-vent-near-a-wall": "whether cabinets or an aisle lie between is not drawn",
    "island-vent-wrong-fixture": "which wall takes the vent is for the owner to choose",
    "nails-reach-pipe": "the shields are on the shopping list already",
    "opening-wants-hangers": "hangers, anchors and ledgers are bought, not drawn",
    "pipe-leaves-bay": "it is noted only: how long the run is and where it starts is for the owner to draw",
    "pipe-below-joists": "it is noted only: hangers and insulation are bought, not drawn",
    "pipe-freezes-in-wall": "insulation is built, and which inside wall takes the pipe is for the owner to choose",
    "rim-cut": "no rule covers a bored rim; the turn-down inside it is another way of leaving the house",
    "shield-plate-needed": "the plate is on the shopping list already",
    "slip-joint-closed-in": "a panel in the wall is built, and where a way in fits is for the owner to draw",
    "support-has-nothing-to-hold-to": "what stands there to hang it from is not drawn",
    "take-off-too-short": "what was measured is the owner's to measure again",
    "top-plate-wants-tie": "the tie and its nails are on the shopping list already",
    "trap-below-joists": "it is boxed and insulated; the arm is never dropped for it",
    "trap-not-in-the-middle": "which of the fixtures keeps its drain is for the owner to draw",
    "trap-shared-by-too-many": "a second trap for one bowl is not drawn on its own",
    "vertical-wet-vent-takes-too-many": "which of the fixtures gets a vent of its own is for the owner to choose",
    "water-not-drawn": "which way a water line takes is for the owner to draw",
}
"""Why a rule has no mend, by its id."""
