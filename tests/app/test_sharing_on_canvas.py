"""What drains through another fixture: a dotted line on the canvas that follows both, and no outlet of its own."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QGraphicsPathItem

from app.canvas.pictures import draw
from app.canvas.view import PlanView
from app.document import Document
from engine.plan import edits
from engine.plan.records import Fixture, Floor, Plan

WEST, EAST = (60.0, 118.0), (100.0, 118.0)


def kitchen() -> Plan:
    floor = Floor(outline=((0.0, 0.0), (160.0, 0.0), (160.0, 120.0), (0.0, 120.0)))
    fixtures = (Fixture("f1", "kitchen_sink", WEST), Fixture("f2", "dishwasher", EAST, through="f1"))
    return Plan(floor=floor, fixtures=fixtures)


@pytest.fixture
def view(qtbot):
    made = PlanView(Document(kitchen()))
    qtbot.addWidget(made)
    yield made
    made.let_go()


def dotted(view: PlanView, name: str) -> list[QGraphicsPathItem]:
    (root,) = (item for item in view.scene().items() if view.scene().element_of(item) == name)
    return [item for item in root.childItems() if item.pen().dashPattern()[:1] == [1.5]]


def test_it_runs_from_one_back_to_the_other(view) -> None:
    (line,) = dotted(view, "f2")
    box = line.path().boundingRect()
    assert (box.left(), box.right(), box.height()) == (60.0, 100.0, 0.0)
    assert dotted(view, "f1") == []


def test_it_follows_the_fixture_that_takes_its_waste(view) -> None:
    document = view.tool.desk.document
    document.commit(edits.move(document.plan, ("f1",), -20.0, 0.0), "move")
    (line,) = dotted(view, "f2")
    assert line.path().boundingRect().left() == 40.0
    document.commit(edits.delete(document.plan, "f1"), "delete")
    assert dotted(view, "f2") == []


@pytest.mark.usefixtures("qapp")
def test_only_what_has_a_drain_has_an_outlet() -> None:
    plan = kitchen()
    through, alone = (
        draw(edits.find(p, "f2"), p, {}, {}) for p in (plan, edits.set_field(plan, "f2", "through", None))
    )
    rings = [[item.path().boundingRect().width() for item in picture.items] for picture in (through, alone)]
    assert 3.0 in rings[1]
    assert 3.0 not in rings[0]


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("kind", ["kitchen_sink", "bar_sink", "laundry_tub", "lavatory"])
def test_a_picture_has_as_many_bowls_as_the_fixture(kind: str) -> None:
    counted = []
    for bowls in (1, 2, 3):
        plan = edits.add(edits.delete(kitchen(), "f1", "f2"), Fixture("f3", kind, WEST, bowls=bowls))
        inner = draw(edits.find(plan, "f3"), plan, {}, {}).items[1].path()
        counted.append(len(inner.toSubpathPolygons()))
    assert counted[0] < counted[1] < counted[2]
    assert counted[2] - counted[1] == counted[1] - counted[0]
