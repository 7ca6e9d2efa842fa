"""A plan set that several tests read: the floor worked by hand, printed once."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest

from engine.plan.records import Plan, Supply
from engine.planset import write
from engine.study import study


@pytest.fixture
def hand_plan(hand_floor: Callable[..., Plan]) -> Plan:
    """The floor worked by hand, with a name, a date and two runs of water."""
    water = (
        Supply(id="c1", water="cold", points=((8.0, 6.0), (8.0, 98.0), (24.0, 98.0)), down=3.0),
        Supply(id="h1", water="hot", points=((90.0, 6.0), (90.0, 76.0), (70.25, 76.0)), down=3.0),
    )
    return msgspec.structs.replace(
        hand_floor(), name="Alder Bank", place="Lot 7", drawn_by="the owner", drawn_on="2026-03-01", supplies=water
    )


@pytest.fixture
def printed(hand_plan: Plan, tmp_path: Path) -> Path:
    """The folder with its plan set."""
    write(study(hand_plan), tmp_path)
    return tmp_path
