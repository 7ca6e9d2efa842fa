"""Faces of walls in few letters, for figures in narrow columns."""

from __future__ import annotations

from collections.abc import Iterator


def face_letters(faces: str) -> Iterator[str]:
    """The letters of faces named in a row: ``west and east`` gives W, E; ``north-east`` NE."""
    for word in faces.replace(" and ", ", ").split(", "):
        if word:
            yield "".join(part[0].upper() for part in word.split("-"))
