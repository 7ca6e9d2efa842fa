"""What is wrong with data that is no plan, in one plain sentence, worked out from the file's own schema."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator
from typing import Any

from engine.plan.faults import PlanFileError, Step, place, shown

Schema = dict[str, Any]

_PIECE = re.compile(r"\.([A-Za-z_]\w*)|\[(\d+)\]")
_PATH = re.compile(r" - at `\$([^`]*)`$")


def refusal(data: Any, schema: Schema, said: str) -> PlanFileError:
    """The refusal of `data`, which the records' own check refused by saying `said`.

    The check's words only point at the place to look at first; the sentence comes from the schema.
    """
    found = next(_near(data, schema, said), None) or next(faults(data, schema), None)
    if found is None:
        return PlanFileError("", f"expected a plan: {said.split(' - at ')[0].replace('`', '')}")
    return PlanFileError(place(found[0]), found[1])


def faults(data: Any, schema: Schema) -> Iterator[tuple[tuple[Step, ...], str]]:
    """Everything in `data` that the schema does not allow: the steps to it, and what was expected there."""
    yield from _value(data, schema, (), schema.get("$defs", {}))


def _near(data: Any, schema: Schema, said: str) -> Iterator[tuple[tuple[Step, ...], str]]:
    """The faults at the place that the check named, so that a large file needs no walk from its beginning."""
    match = _PATH.search(said)
    steps: tuple[Step, ...] = ()
    definitions = schema.get("$defs", {})
    for name, index in _PIECE.findall(match[1] if match else ""):
        step: Step = name or int(index)
        told = _told(data, schema, definitions)
        if "prefixItems" in told:
            break
        inner = _inner(told, step)
        try:
            data = data[step]
        except (LookupError, TypeError):
            return
        if inner is None:
            return
        schema, steps = inner, (*steps, step)
    yield from _value(data, schema, steps, definitions)


def _told(data: Any, schema: Schema, definitions: dict[str, Schema]) -> Schema:
    """The schema that a value should be told against: references followed, null left out of a choice."""
    while True:
        if "$ref" in schema:
            schema = definitions[schema["$ref"].rsplit("/", 1)[1]]
        elif "anyOf" in schema and (data is None or len(_choices(schema)) != 1):
            return schema
        elif "anyOf" in schema:
            schema = _choices(schema)[0]
        else:
            return schema


def _choices(schema: Schema) -> list[Schema]:
    return [choice for choice in schema["anyOf"] if choice.get("type") != "null"]


def _inner(schema: Schema, step: Step) -> Schema | None:
    if isinstance(step, str):
        found: Schema | None = schema.get("properties", {}).get(step)
        return found
    items = schema.get("items")
    return items if isinstance(items, dict) else None


def _value(
    data: Any, schema: Schema, at: tuple[Step, ...], definitions: dict[str, Schema]
) -> Iterator[tuple[tuple[Step, ...], str]]:
    told = _told(data, schema, definitions)
    if "anyOf" in told:
        if all(any(_value(data, choice, at, definitions)) for choice in told["anyOf"]):
            yield at, f"expected {_kinds(told, definitions)}, found {shown(data)}"
    elif "const" in told or "enum" in told:
        allowed = [told["const"]] if "const" in told else told["enum"]
        if data not in allowed or isinstance(data, bool):
            listed = ", ".join(shown(one) for one in allowed)
            yield at, f"expected {'one of ' if len(allowed) > 1 else ''}{listed}, found {shown(data)}"
    elif told.get("type") == "null":
        if data is not None:
            yield at, f"expected null, found {shown(data)}"
    elif told.get("type") == "object":
        yield from _object(data, told, at, definitions)
    elif told.get("type") == "array":
        yield from _array(data, told, at, definitions)
    else:
        what = _plain(data, told)
        if what:
            yield at, what


def _object(
    data: Any, schema: Schema, at: tuple[Step, ...], definitions: dict[str, Schema]
) -> Iterator[tuple[tuple[Step, ...], str]]:
    if not isinstance(data, dict):
        yield at, f"expected an object with fields, found {shown(data)}"
        return
    fields = schema["properties"]
    for name in schema.get("required", ()):
        if name not in data:
            yield at, f"expected a field {shown(name)}, which is missing"
    for name, value in data.items():
        if name in fields:
            yield from _value(value, fields[name], (*at, name), definitions)
        else:
            alike = difflib.get_close_matches(name[:40], fields, 1)
            hint = f"did you mean {shown(alike[0])}?" if alike else f"it has {', '.join(fields)}"
            yield at, f"expected no field {shown(name)}; {hint}"


def _array(
    data: Any, schema: Schema, at: tuple[Step, ...], definitions: dict[str, Schema]
) -> Iterator[tuple[tuple[Step, ...], str]]:
    parts = schema.get("prefixItems")
    if parts is not None:
        if not isinstance(data, (list, tuple)) or len(data) != len(parts):
            yield at, f"expected two numbers [{', '.join(part['title'] for part in parts)}], found {shown(data)}"
            return
        for value, part in zip(data, parts, strict=True):
            what = _plain(value, part)
            if what:
                yield at, what.replace("expected ", f"expected {part['title']} to be ", 1)
        return
    if not isinstance(data, (list, tuple)):
        yield at, f"expected a list, found {shown(data)}"
        return
    least, most = schema.get("minItems", 0), schema.get("maxItems")
    if len(data) < least or (most is not None and len(data) > most):
        bounds = f"at least {least}" if most is None else f"{least} to {most}"
        yield at, f"expected {bounds} entries, found {len(data)}"
        return
    for index, value in enumerate(data):
        yield from _value(value, schema["items"], (*at, index), definitions)


def _plain(data: Any, schema: Schema) -> str:
    """What is wrong with a number, text or truth value; empty when nothing is."""
    kind = schema["type"]
    fits = {
        "number": isinstance(data, (int, float)) and not isinstance(data, bool),
        "integer": isinstance(data, (int, float)) and not isinstance(data, bool) and data == data // 1,
        "boolean": isinstance(data, bool),
        "string": isinstance(data, str),
    }[kind]
    if fits and kind in ("number", "integer"):
        fits = _within(data, schema)
    elif fits and kind == "string":
        fits = _spelt(data, schema)
    return "" if fits else f"expected {_wanted(schema)}, found {shown(data)}"


def _within(number: float, schema: Schema) -> bool:
    return (
        schema.get("minimum", number) <= number <= schema.get("maximum", number)
        and not ("exclusiveMinimum" in schema and number <= schema["exclusiveMinimum"])
        and number == number
    )


def _spelt(text: str, schema: Schema) -> bool:
    pattern = schema.get("pattern")
    return schema.get("minLength", 0) <= len(text) <= schema.get("maxLength", len(text)) and (
        pattern is None or re.search(pattern, text) is not None
    )


def _kinds(schema: Schema, definitions: dict[str, Schema]) -> str:
    names = [_wanted(_told(0, choice, definitions)) for choice in schema["anyOf"]]
    return " or ".join(names)


def _wanted(schema: Schema) -> str:
    """What a schema asks for, in words: "a number from 0 to 24"."""
    kind = schema.get("type")
    if kind in ("number", "integer"):
        words = "a number" if kind == "number" else "a whole number"
        low, high = schema.get("minimum"), schema.get("maximum")
        if "exclusiveMinimum" in schema:
            words += f" above {schema['exclusiveMinimum']:.12g}"
            return words if high is None else f"{words} and no more than {high:.12g}"
        if low is not None and high is not None:
            return f"{words} from {low:.12g} to {high:.12g}"
        if low is not None:
            return f"{words} of {low:.12g} or more"
        return words if high is None else f"{words} of no more than {high:.12g}"
    if kind == "string":
        if "pattern" in schema:
            return f"an id of 1 to {schema['maxLength']} letters, digits, dots, dashes and underlines"
        least, most = schema.get("minLength", 0), schema.get("maxLength")
        words = "text" if not least else "a text that isn't empty"
        return words if most is None else f"{words} of at most {most} letters"
    if "enum" in schema:
        return "one of " + ", ".join(shown(one) for one in schema["enum"])
    return {"boolean": "true or false", "null": "null", "array": "a list", "object": "an object"}[str(kind)]
