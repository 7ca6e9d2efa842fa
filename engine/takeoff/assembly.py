"""The assembly order: how a plan's drains and vents are glued together, step by step from the exit upstream."""

from __future__ import annotations

from engine.checks.model import Model
from engine.takeoff.assembling.records import LevelCheck, Rotation, Slide, Step
from engine.takeoff.assembling.steps import steps

__all__ = ["LevelCheck", "Rotation", "Slide", "Step", "assembly"]


def assembly(model: Model) -> tuple[Step, ...]:
    """Every step, numbered from 1: pieces threaded beforehand, then joint by joint, rings, test, roof and finish.

    Each bond of the drains and vents is glued in exactly one step, each part and piece of them put in place in
    exactly one. Water tube is no part of it: it is bent and pulled through, and no order forbids another.
    """
    return steps(model)
