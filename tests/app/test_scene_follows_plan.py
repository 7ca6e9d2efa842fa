"""Whatever is done, the scene's map equals the plan, and every picture is that of its element now."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule
from PySide6.QtWidgets import QApplication

from app.canvas.pictures import draw
from app.canvas.view import PlanView
from app.document import Document
from engine.framing.layout import lay_out
from engine.plan import edits
from engine.plan.records import (
    Beam,
    Cleanout,
    Drain,
    Fixture,
    Floor,
    FloorOpening,
    JoistField,
    PinnedFitting,
    Plan,
    Riser,
    Supply,
    Vent,
    Wall,
)

coordinate = st.integers(0, 240).map(float)
point = st.tuples(coordinate, coordinate)
FIXTURES = ("water_closet", "lavatory", "shower", "bathtub", "kitchen_sink", "refrigerator", "hose_bibb")


class Editor(RuleBasedStateMachine):
    """Edits, proposes, undoes and redoes at random, with a real scene listening."""

    @initialize()
    def open(self) -> None:
        floor = Floor(outline=((0.0, 0.0), (240.0, 0.0), (240.0, 240.0), (0.0, 240.0)))
        plan = Plan(floor=floor, fields=(JoistField(id="j1", corner=(0.0, 0.0), size=(240.0, 240.0)),))
        self.document = Document(plan)
        self.view = PlanView(self.document)
        self.scene = self.view.scene()
        self.committed = plan

    def commit(self, plan: Plan, label: str) -> None:
        self.document.commit(plan, label)
        self.committed = self.document.settled

    @rule(kind=st.sampled_from(FIXTURES), at=point, turn=st.sampled_from([0.0, 90.0, 180.0, 270.0]))
    def add_fixture(self, kind: str, at: tuple[float, float], turn: float) -> None:
        self.commit(edits.add_new(self.document.settled, Fixture, kind=kind, at=at, turn=turn), "fixture")

    @rule(kind=st.sampled_from(["drain", "vent", "cold", "wall", "riser"]), a=point, b=point)
    def add_line(self, kind: str, a: tuple[float, float], b: tuple[float, float]) -> None:
        if a == b:
            return
        plan = self.document.settled
        made = {
            "drain": lambda: edits.add_new(plan, Drain, points=(a, b)),
            "vent": lambda: edits.add_new(plan, Vent, points=(a, b)),
            "cold": lambda: edits.add_new(plan, Supply, water="cold", points=(a, b)),
            "wall": lambda: edits.add_new(plan, Wall, start=a, end=b),
            "riser": lambda: edits.add_new(plan, Riser, at=a),
        }[kind]()
        self.commit(made, kind)

    @precondition(lambda self: self.document.settled.walls)
    @rule(pick=st.integers(0, 1000), lumber=st.sampled_from(["2x4", "2x6"]))
    def lavatory_in_a_wall(self, pick: int, lumber: str) -> None:
        """Its body lies as far from its point as the wall is thick, so it must follow the wall's lumber too."""
        plan = self.document.settled
        wall = plan.walls[pick % len(plan.walls)]
        self.commit(edits.add_new(plan, Fixture, kind="lavatory", at=wall.start), "lavatory")
        self.commit(edits.set_fields(self.document.settled, wall.id, lumber=lumber), "thicken")

    @precondition(lambda self: self.document.settled.drains)
    @rule(pick=st.integers(0, 1000), above=st.sampled_from([None, 12.0]), to=point)
    def open_and_pull(self, pick: int, above: float | None, to: tuple[float, float]) -> None:
        """A cleanout's ring lies past the end of its run, so it must follow the run's other end too."""
        plan = self.document.settled
        drain = plan.drains[pick % len(plan.drains)]
        self.commit(edits.add_new(plan, Cleanout, at=drain.points[0], above_floor=above, turn=200.0), "cleanout")
        self.commit(edits.add_new(self.document.settled, PinnedFitting, at=drain.points[-1], pattern="wye"), "pin")
        try:
            self.commit(edits.move_point(self.document.settled, drain.id, -1, to), "pull")
        except edits.EditError:
            return

    @rule(a=point, b=point, side=st.integers(100, 240).map(float), to_outline=st.booleans())
    def frame(self, a: tuple[float, float], b: tuple[float, float], side: float, to_outline: bool) -> None:
        """Wood is redrawn where it changed: by another field, an opening or beam in it, a floor that cuts it off."""
        plan = self.document.settled
        plan = edits.add_new(plan, JoistField, corner=a, size=(side, side), to_outline=to_outline)
        if min(abs(a[0] - b[0]), abs(a[1] - b[1])) > 12.0:
            low, high = (min(a[0], b[0]), min(a[1], b[1])), (max(a[0], b[0]), max(a[1], b[1]))
            plan = edits.add_new(plan, FloorOpening, start=low, end=high)
        if a != b:
            plan = edits.add_new(plan, Beam, start=a, end=b)
        self.commit(plan, "frame")
        outline = ((0.0, 0.0), (240.0, 0.0), (240.0, side), (0.0, 240.0))
        self.commit(edits.set_floor(self.document.settled, outline=outline), "outline")

    @rule(pick=st.integers(0, 1000), dx=coordinate, dy=coordinate, keep=st.booleans())
    def move_one(self, pick: int, dx: float, dy: float, keep: bool) -> None:
        plan = self.document.settled
        ids = [element.id for element in self.document.elements.values()]
        try:
            moved = edits.move(plan, [ids[pick % len(ids)]], dx - 120.0, dy - 120.0)
        except edits.EditError:
            return
        if keep:
            self.commit(moved, "move")
        else:
            self.document.propose(moved)

    @rule(pick=st.integers(0, 1000))
    def select_one(self, pick: int) -> None:
        ids = list(self.document.elements)
        if ids:
            self.document.select([ids[pick % len(ids)]])

    @precondition(lambda self: self.document.settled.fixtures or self.document.settled.drains)
    @rule(pick=st.integers(0, 1000))
    def delete_one(self, pick: int) -> None:
        plan = self.document.settled
        ids = [thing.id for thing in (*plan.fixtures, *plan.drains)]
        self.commit(edits.delete(plan, ids[pick % len(ids)]), "delete")

    @rule()
    def drop(self) -> None:
        self.document.drop_proposal()
        assert self.document.plan is self.committed

    @rule(steps=st.integers(1, 3))
    def undo_then_redo(self, steps: int) -> None:
        done = 0
        while done < steps and self.document.can_undo:
            self.document.undo()
            done += 1
        for _ in range(done):
            self.document.redo()
        self.document.drop_proposal()
        assert self.document.plan is self.committed

    @rule()
    def undo(self) -> None:
        self.document.undo()
        self.committed = self.document.settled

    @invariant()
    def scene_equals_plan(self) -> None:
        plan = self.document.plan
        assert self.scene.pictured() == {e.id for kind in edits.elements.KINDS for e in getattr(plan, kind)}
        joists: dict[str, list[object]] = {}
        for joist in lay_out(plan).joists:
            joists.setdefault(joist.field, []).append(joist)
        for element in self.document.elements.values():
            wanted = draw(element, plan, joists, self.scene.sizes)
            assert self.scene.area_of(element.id) == wanted.area, element
            assert self.scene.tip_of(element.id) == wanted.tip
            if isinstance(element, JoistField):
                shown = self.scene._pictures[element.id].items
                assert [one.path() for one in shown] == [one.path() for one in wanted.items], element
        assert self.document.selection <= self.scene.pictured()

    def teardown(self) -> None:
        self.view.let_go()
        self.document.close()
        self.view.deleteLater()
        QApplication.sendPostedEvents()


@pytest.mark.usefixtures("qapp")
class TestEditor(Editor.TestCase):
    settings = settings(
        max_examples=40,
        stateful_step_count=20,
        deadline=None,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
    )
