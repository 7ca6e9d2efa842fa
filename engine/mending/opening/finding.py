"""Mends of an exit's height: pinned outside its window, or no height that fits at all."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.records import Finding
from engine.mending.heights import exit_of, inside, is_open, window_of
from engine.mending.ideas import Idea, Maker
from engine.mending.opening.ways import openings_of
from engine.study import Study


def fitting_height(study: Study, finding: Finding) -> Iterator[Idea]:
    """A height inside the window where there is one; what opens the window where it is empty."""
    name = finding.elements[0]
    window = window_of(study, name)
    if window is None:
        return
    if is_open(window):
        yield from inside(study, name)
    else:
        yield from openings_of(study, name)


def by_its_window(study: Study, finding: Finding) -> Iterator[Idea]:
    """What opens the exit's window, for a fault that comes of no height being right."""
    name = exit_of(study, finding.elements)
    if name is not None:
        yield from openings_of(study, name)


MAKERS: dict[str, Maker] = {"no-height-fits": fitting_height}

BY_HEIGHT = (
    "bore-near-edge",
    "little-pipe-showing",
    "no-room",
    "pipe-not-clear-below",
    "pipes-in-one-place",
    "weir-too-low",
)
"""Rules whose faults an empty window brings with it."""
