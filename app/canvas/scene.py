"""The scene follows the document: it holds the one map from ids to items and changes only what the plan changed.

Items are pictures of one record and never change the plan. Nothing outside this module keeps an item.
"""

from __future__ import annotations

import logging
from functools import reduce

from PySide6.QtCore import QObject, QRect, QRectF, QTimer, Slot
from PySide6.QtGui import QBrush, QPainter, QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem, QGraphicsScene

from app import palette
from app.canvas.airways import Airways
from app.canvas.answers import Answers
from app.canvas.ground import paint_ground
from app.canvas.heights import height_tags
from app.canvas.lettering import Lettering
from app.canvas.picture import HEIGHT_OF, LAYERS, Picture, shape
from app.canvas.pictures import draw
from app.canvas.places import box, outline
from app.canvas.posts import fitting_name
from app.canvas.rooms import Rooms
from app.canvas.sketches import Sketches
from app.document import Document
from engine.framing.layout import lay_out
from engine.framing.records import Joist
from engine.plan.records import KINDS, Drain, Element, Floor, PinnedFitting, Plan, Point, Vent
from engine.study import Study

log = logging.getLogger(__name__)

ID = 0
"""Where an item keeps the id of the element it pictures."""

AROUND = 240.0
"""How far the sheet reaches past the floor, inches."""

LINE = 12.0
"""Things whose tops lie within one such strip of the sheet are read from left to right, inches."""

MANY = 400
"""So many texts are set within a frame; with more of them they are set when things rest."""

REST = 120
"""How long nothing may change before many texts are set anew, milliseconds."""

HALO_HEIGHT = HEIGHT_OF["points"] + 0.5
FLOOR_HEIGHT = 0.5


class PlanScene(QGraphicsScene):
    """The plan on show, the selection and the latest answers, as items."""

    def __init__(self, document: Document, parent: QObject) -> None:
        super().__init__(parent)
        self.setItemIndexMethod(QGraphicsScene.ItemIndexMethod.NoIndex)
        self._document = document
        self._items: dict[str, QGraphicsPathItem] = {}
        self._pictures: dict[str, Picture] = {}
        self._halos: dict[str, QGraphicsPathItem] = {}
        self._joists: dict[str, list[Joist]] = {}
        self.sizes: dict[str, float] = {}
        self._hidden: frozenset[str] = frozenset()
        self._scale = 1.0
        self._floor: QGraphicsPathItem | None = None
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(REST)
        self._rest.timeout.connect(self._on_rest)
        self.ground = QPainterPath()
        self.lettering = Lettering(self)
        self.answers = Answers(self)
        self.airways = Airways(self)
        self.rooms = Rooms(self)
        self.sketches = Sketches(self)
        self._show_floor(document.plan.floor)
        self._show_plan(None, document.plan)
        document.plan_changed.connect(self._on_plan)
        document.study_changed.connect(self._on_study)
        document.selection_changed.connect(self._on_selection)
        self._on_selection(document.selection)
        self._on_study(document.study)

    # what is there ---------------------------------------------------------------------------------------------

    def pictured(self) -> frozenset[str]:
        """Ids of the elements that have a picture."""
        return frozenset(self._items)

    def element_of(self, item: QGraphicsItem) -> str | None:
        """The id of the element that an item is the hit area of, or None for any other item."""
        found = item.data(ID)
        return found if isinstance(found, str) else None

    def area_of(self, element_id: str) -> QPainterPath:
        """The area of an element's picture, in scene units."""
        return self._pictures[element_id].area

    def tip_of(self, element_id: str) -> str:
        """What the pointer is told when it rests over an element."""
        return self._pictures[element_id].tip

    def layer_of(self, element_id: str) -> str:
        """The layer of an element's picture."""
        return self._pictures[element_id].layer

    def outlined(self) -> frozenset[str]:
        """Ids of the elements that are outlined as selected."""
        return frozenset(self._halos)

    def drawn(self) -> QRectF:
        """The part of the sheet that has anything drawn on it: the floor and all elements."""
        areas = (picture.area.boundingRect() for picture in self._pictures.values())
        return reduce(QRectF.united, areas, self.ground.boundingRect())

    def reading_order(self) -> tuple[str, ...]:
        """Ids of the elements on show, from the sheet's top to its bottom and from left to right."""
        places = {
            element_id: self.area_of(element_id).boundingRect().topLeft()
            for element_id in self._items
            if self.layer_of(element_id) not in self._hidden
        }
        return tuple(sorted(places, key=lambda name: (places[name].y() // LINE, places[name].x(), name)))

    @property
    def hidden(self) -> frozenset[str]:
        """Names of the layers that are hidden."""
        return self._hidden

    def paint_ground(self, painter: QPainter, exposed: QRectF | QRect, scale: float) -> None:
        """Paint what lies under the drawing; a fault in it is logged and leaves plain paper, never half a picture."""
        try:
            paint_ground(painter, QRectF(exposed), self.ground, scale, "grid" not in self._hidden)
        except Exception:  # an error that leaves a paint event would stop all further painting
            log.exception("the ground could not be painted")
            painter.fillRect(exposed, palette.shade(palette.BROKEN, 40))

    # how it shows ----------------------------------------------------------------------------------------------

    def fit(self, scale: float) -> None:
        """Set texts and marks for a zoom of `scale` pixels an inch."""
        self._scale = scale
        self.lettering.arrange(scale)
        self.answers.fit(scale)

    def set_layer_visible(self, name: str, visible: bool) -> None:
        """Show or hide a layer; KeyError when there is none of that name."""
        if name not in LAYERS:
            raise KeyError(f"no layer is called {name!r}; layers are {', '.join(LAYERS)}")
        self._hidden = self._hidden - {name} if visible else self._hidden | {name}
        for element_id, item in self._items.items():
            item.setVisible(self._pictures[element_id].layer not in self._hidden)
        self.lettering.hide_layers(self._hidden)
        self.answers.hide_layers(self._hidden)
        self.rooms.hide("room" in self._hidden)
        self._show_heights()
        self.fit(self._scale)
        self.update()

    def redraw(self) -> None:
        """Draw everything anew, since the pens changed."""
        plan = self._document.plan
        self._show_floor(plan.floor)
        for element in self._document.elements.values():
            self._put(element, plan)
        self.answers.clear()
        self.airways.clear()
        self.rooms.clear()
        self._on_study(self._document.study)
        self._show_halos()
        self.sketches.show(self.sketches.marks)

    def teardown(self) -> None:
        """Let go of the document and take every item out, in an order that leaves no live name to a dead item."""
        self._document.plan_changed.disconnect(self._on_plan)
        self._document.study_changed.disconnect(self._on_study)
        self._document.selection_changed.disconnect(self._on_selection)
        self._rest.stop()
        self.clearFocus()
        self.blockSignals(True)
        self.sketches.clear()
        self.answers.clear()
        self.airways.clear()
        self.rooms.clear()
        for element_id in list(self._items):
            self._remove(element_id)
        self._halos.clear()
        self._floor = None
        self.clear()

    # following the document ------------------------------------------------------------------------------------

    @Slot(object, object)
    def _on_plan(self, old: Plan, new: Plan) -> None:
        if old.floor is not new.floor:
            self._show_floor(new.floor)
        self._show_plan(old, new)
        self._show_halos()
        self._refit()

    @Slot(object)
    def _on_study(self, study: Study | None) -> None:
        self.answers.show(study)
        self.lettering.mark("answers", self.answers.marked)
        sizes = _sizes(study)
        if sizes != self.sizes:
            before, self.sizes = self.sizes, sizes
            for element_id, element in self._document.elements.items():
                is_open = isinstance(element, Drain | Vent) and element.size is None
                if is_open and before.get(element_id) != sizes.get(element_id):
                    self._put(element, self._document.plan)
        self._show_heights()
        self._refit()

    @Slot(object)
    def _on_selection(self, chosen: frozenset[str]) -> None:
        self._show_halos()
        self._show_heights()
        self._refit()

    @Slot()
    def _on_rest(self) -> None:
        self.fit(self._scale)

    def _refit(self) -> None:
        """Set texts and marks anew; with many of them not before things rest, so that a drag stays smooth."""
        self.answers.fit(self._scale)
        if self.lettering.count() <= MANY:
            self.lettering.arrange(self._scale)
        else:
            self._rest.start()

    def _show_floor(self, floor: Floor) -> None:
        if self._floor is not None:
            self.removeItem(self._floor)
        self.ground = outline(floor.outline)
        self._floor = shape(self.ground, palette.pen(palette.WALL_EDGE, 1.2))
        self._floor.setZValue(FLOOR_HEIGHT)
        self.addItem(self._floor)
        self.setSceneRect(box(floor.outline).adjusted(-AROUND, -AROUND, AROUND, AROUND))
        self.update()

    def _show_plan(self, old: Plan | None, new: Plan) -> None:
        refit: set[str] = set()
        if old is None or _wood_of(old) != _wood_of(new):
            before_wood, self._joists = self._joists, {}
            for joist in lay_out(new).members:
                self._joists.setdefault(joist.field, []).append(joist)
            cut_anew = old is None or old.floor.outline != new.floor.outline
            refit.update(
                field.id
                for field in new.fields
                if (cut_anew and field.to_outline) or before_wood.get(field.id) != self._joists.get(field.id)
            )
            refit.update(beam.id for beam in new.beams if before_wood.get(beam.id) != self._joists.get(beam.id))
        if old is None or old.walls is not new.walls:
            refit.update(fixture.id for fixture in new.fixtures)
            refit.update(opening.id for opening in new.air_openings)
        if old is None or old.drains is not new.drains:
            refit.update(cleanout.id for cleanout in new.cleanouts)
        if old is None or old.floor is not new.floor:
            refit.update(wall.id for wall in new.walls)
            refit.update(opening.id for opening in new.air_openings)
        before = _by_id(old) if old is not None else {}
        after = self._document.elements
        if old is not None and old.fixtures is not new.fixtures:
            guests = (fixture for fixture in new.fixtures if fixture.through is not None)
            refit.update(one.id for one in guests if before.get(one.through or "") is not after.get(one.through or ""))
        for element_id in before.keys() - after.keys():
            self._remove(element_id)
        for element_id, element in after.items():
            if before.get(element_id) is not element or element_id in refit:
                self._put(element, new)

    def _put(self, element: Element, plan: Plan) -> None:
        """Draw an element anew in place of its last picture."""
        self._remove(element.id)
        picture = draw(element, plan, self._joists, self.sizes)
        root = shape(picture.area)
        root.setData(ID, element.id)
        root.setToolTip(picture.tip)
        root.setZValue(HEIGHT_OF[picture.layer])
        root.setVisible(picture.layer not in self._hidden)
        for item in picture.items:
            item.setParentItem(root)
        self.addItem(root)
        self._items[element.id] = root
        self._pictures[element.id] = picture
        self.lettering.keep(element.id, picture.tags, picture.blocks)

    def _remove(self, element_id: str) -> None:
        item = self._items.pop(element_id, None)
        if item is not None:
            self.removeItem(item)
            del self._pictures[element_id]
            self.lettering.drop(element_id)

    def _show_halos(self) -> None:
        for halo in self._halos.values():
            self.removeItem(halo)
        self._halos = {}
        for element_id in self._document.selection & self._items.keys():
            fill = QBrush(palette.shade(palette.SELECTED, 30))
            halo = shape(self.area_of(element_id), palette.pen(palette.SELECTED, 2.0), fill)
            halo.setZValue(HALO_HEIGHT)
            self.addItem(halo)
            self._halos[element_id] = halo

    def _show_heights(self) -> None:
        study = self._document.study
        self.lettering.drop_all("heights ")
        self.airways.show(study, self._document.selection)
        self.rooms.show(self._document.plan, study, self._document.selection)
        self.lettering.keep("heights of the air", self.airways.tags)
        told: set[Point] = set()
        for element_id in sorted(self._document.selection):
            element = self._document.element(element_id)
            if isinstance(element, PinnedFitting):
                self.lettering.keep(f"heights {element_id}", (fitting_name(element),))
            elif element is not None and study is not None:
                self.lettering.keep(f"heights {element_id}", height_tags(element, study, told))


def _wood_of(plan: Plan) -> tuple[object, ...]:
    """What the floor's wood is laid out from."""
    return plan.fields, plan.floor.outline, plan.floor_openings, plan.beams


def _by_id(plan: Plan) -> dict[str, Element]:
    return {element.id: element for kind in KINDS for element in getattr(plan, kind)}


def _sizes(study: Study | None) -> dict[str, float]:
    """The largest size that the study gave each drawn thing."""
    found: dict[str, float] = {}
    if study is not None:
        for pipe in study.model.network.pipes:
            found[pipe.element] = max(pipe.size, found.get(pipe.element, 0.0))
    return found
