"""The plan file's JSON Schema, made from the records themselves and the words in `descriptions`."""

from __future__ import annotations

from copy import deepcopy
from functools import cache
from typing import Any

import msgspec

from engine.plan.descriptions import ABOUT, ENVELOPE, FIELDS, RECORDS
from engine.plan.migrations import VERSION
from engine.plan.records import Plan

FORMAT = "joistway-plan"
"""What every plan file names itself."""

Schema = dict[str, Any]


def schema() -> Schema:
    """JSON Schema (draft 2020-12) of a whole plan file: enough to write one by hand."""
    definitions = deepcopy(plan_schema()["$defs"])
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Joistway plan file",
        "description": ABOUT,
        "type": "object",
        "properties": {
            "format": {"const": FORMAT, "description": ENVELOPE["format"]},
            "version": {"const": VERSION, "description": ENVELOPE["version"]},
            "written_by": {"type": "string", "maxLength": 100, "description": ENVELOPE["written_by"]},
            "plan": {"$ref": "#/$defs/Plan", "description": ENVELOPE["plan"]},
        },
        "required": ["format", "version", "plan"],
        "additionalProperties": False,
        "examples": [_EXAMPLE],
        "$defs": definitions,
    }


@cache
def plan_schema() -> Schema:
    """JSON Schema of the ``plan`` object alone. Not to be changed by who asks."""
    made = msgspec.json.schema(Plan)
    for name, definition in made["$defs"].items():
        definition["description"] = RECORDS[name]
        for field, told in definition["properties"].items():
            told["description"] = FIELDS[name][field]
            if isinstance(told.get("default"), tuple):
                told["default"] = list(told["default"])
            pair = _PAIRS.get(field, ("x", "y"))
            for part in _parts(told):
                for title, number in zip(pair, part, strict=True):
                    number["title"] = title
    return made


_PAIRS = {"size": ("width", "length"), "overhangs": ("south or west", "north or east")}
"""What the two numbers of a pair are called that is no point."""


def record_schema(name: str) -> Schema:
    """JSON Schema of one record by its class's name, with the definitions that it refers to."""
    return {"$ref": f"#/$defs/{name}", "$defs": plan_schema()["$defs"]}


def _parts(told: Schema) -> list[list[Schema]]:
    """The pairs of numbers inside a field's schema."""
    found = [told["prefixItems"]] if "prefixItems" in told else []
    inner = [told["items"]] if isinstance(told.get("items"), dict) else told.get("anyOf", [])
    for one in inner:
        found.extend(_parts(one))
    return found


_EXAMPLE: Schema = {
    "format": FORMAT,
    "version": VERSION,
    "plan": {
        "name": "A closet in an empty room",
        "floor": {"outline": [[0, 0], [96, 0], [96, 108], [0, 108]]},
        "fields": [{"id": "j1", "corner": [0, 0], "size": [96, 108], "lumber": "2x10", "spacing": 16}],
        "walls": [{"id": "w1", "start": [0, 106.25], "end": [96, 106.25], "exterior": True, "name": "north wall"}],
        "fixtures": [{"id": "f1", "kind": "water_closet", "at": [40, 92], "turn": 270}],
        "drains": [{"id": "d1", "points": [[40, 92], [40, 20]], "size": "3"}],
        "exits": [{"id": "x1", "at": [40, 20]}],
    },
}
