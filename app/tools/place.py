"""Placing a fixture, by clicking or by dropping it from the shelf."""

from app.tools.tool import Tool

MIME = "application/x-joistway-fixture"
"""What a fixture dragged from the shelf carries: its kind, as plain bytes."""


class PlaceFixture(Tool):
    """Places one fixture of a kind; `[` and `]` turn it."""

    title = "Place"
    hint = "Click where it goes; [ and ] turn it by a quarter."
