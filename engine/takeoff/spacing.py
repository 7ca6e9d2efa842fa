"""How far apart the rule book lets supports of a material and size stand."""

from __future__ import annotations

from typing import Literal


def spacing_key(material: str, size: float, way: Literal["horizontal", "vertical"]) -> str:
    """The rule book's key for the greatest spacing of a material's supports."""
    wide = material == "PEX" and size > 1.0
    return f"support.{way}.{material}{'_over_1' if wide else ''}"
