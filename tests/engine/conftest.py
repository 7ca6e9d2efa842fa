"""Plans that several tests share: the small floor whose sums are worked by hand beside the tests that use it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from engine.plan.records import Drain, Exit, Fixture, Floor, JoistField, Plan, Riser, Wall


@pytest.fixture
def hand_floor() -> Callable[..., Plan]:
    """A floor 108 in north to south, joists north-south at x 16, 32, ..., with a closet and, if asked, a lavatory.

    Closet flange at (36, 92); main in the bay to an exit at (36, 20) that turns down; lavatory riser at
    (70.25, 69) in a partition, its branch west on y 69, an eighth bend at (43, 69), a wye at (36, 62).
    """

    def build(
        lumber: str = "2x10", lavatory: bool = True, pinned: float | None = -7.1875, width: float = 120.0
    ) -> Plan:
        main = ((36.0, 92.0), (36.0, 62.0), (36.0, 20.0)) if lavatory else ((36.0, 92.0), (36.0, 20.0))
        drains = [Drain(id="d1", points=main, size="3")]
        fixtures = [Fixture(id="wc1", kind="water_closet", at=(36.0, 92.0))]
        risers: list[Riser] = []
        if lavatory:
            drains.append(Drain(id="d2", points=((70.25, 69.0), (43.0, 69.0), (36.0, 62.0)), size="1-1/2"))
            fixtures.append(Fixture(id="lav1", kind="lavatory", at=(70.25, 69.0), turn=180.0))
            risers.append(Riser(id="r1", at=(70.25, 69.0)))
        return Plan(
            floor=Floor(outline=((0.0, 0.0), (width, 0.0), (width, 108.0), (0.0, 108.0))),
            fields=(JoistField(id="f1", corner=(0.0, 0.0), size=(width, 108.0), lumber=lumber, first=16.0),),  # type: ignore[arg-type]
            walls=(
                Wall(id="w1", start=(0.0, 106.25), end=(width, 106.25), exterior=True),
                Wall(id="p1", start=(70.25, 0.0), end=(70.25, 108.0)),
            ),
            fixtures=tuple(fixtures),
            drains=tuple(drains),
            risers=tuple(risers),
            exits=(Exit(id="x1", at=(36.0, 20.0), pinned_z=pinned, cleanout_outside=True),),
        )

    return build
