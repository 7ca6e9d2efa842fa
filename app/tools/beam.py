"""Drawing beams by their centre lines."""

from __future__ import annotations

from typing import ClassVar

from app.tools.aim import Purpose
from app.tools.between import DrawBetween
from engine.plan.records import Beam


class DrawBeam(DrawBetween):
    """Draws one girder, dropped beam or steel member; its measures are set in its properties."""

    name, title, key = "beam", "Beam", "B"
    purpose: ClassVar[Purpose] = "framing"
    hint = "Girder or steel member: click where its centre line begins and where it ends, or drag; type a length to set it."
    kind, does = Beam, "draw beam"
