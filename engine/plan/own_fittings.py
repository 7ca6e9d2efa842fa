"""What a person measured on their own fittings, kept from job to job: a small file, read with suspicion.

It holds the measured take-offs and, in the person's own words, whose fittings they are. A new plan is offered them.
"""

from __future__ import annotations

import unicodedata
from typing import Annotated, Any

import msgspec

from engine.plan.faults import PlanFileError
from engine.plan.records import MeasuredTakeOff, Record
from engine.plan.strict import strict

FORMAT = "joistway-fittings"
VERSION = 1

MOST_BYTES = 200_000
"""Size of the file; the whole catalogue measured takes about 30 kB."""

_FIELDS = ("format", "version", "maker", "takeoffs")


class OwnFittingsError(ValueError):
    """A file of measured fittings that can't be used: the place of the fault, and what was expected there."""

    def __init__(self, where: str, what: str) -> None:
        super().__init__(f"{where}: {what}" if where else what)
        self.where = where
        self.what = what


class OwnFittings(Record, frozen=True, gc=False):
    """Measured take-offs, and whose fittings they were measured on, in the person's own words."""

    maker: Annotated[str, msgspec.Meta(max_length=120)] = ""
    takeoffs: Annotated[tuple[MeasuredTakeOff, ...], msgspec.Meta(max_length=400)] = ()


def loads(raw: bytes) -> OwnFittings:
    """The measured fittings in a file's bytes. OwnFittingsError for whatever they can't be."""
    data = _data(raw)
    if data.get("format") != FORMAT:
        raise OwnFittingsError("format", f"expected {FORMAT!r}: this file holds no measured fittings")
    version = data.get("version")
    if isinstance(version, bool) or version != VERSION:
        raise OwnFittingsError("version", f"expected {VERSION}: another program wrote this file")
    for name in data:
        if name not in _FIELDS:
            raise OwnFittingsError("", f"expected no field {name[:40]!a} beside {', '.join(_FIELDS)}")
    return _sound({name: data[name] for name in ("maker", "takeoffs") if name in data})


def dumps(own: OwnFittings) -> bytes:
    """Measured fittings as a file's bytes, one take-off a line. OwnFittingsError where they could not be read again."""
    kept = _sound(msgspec.to_builtins(own))
    whole = {"format": FORMAT, "version": VERSION, **msgspec.to_builtins(kept)}
    return msgspec.json.format(msgspec.json.encode(whole, order="deterministic"), indent=1) + b"\n"


def with_measured(own: OwnFittings, measured: tuple[MeasuredTakeOff, ...], maker: str) -> OwnFittings:
    """These fittings with more measured: a leg that was known takes its new length."""
    legs = {(row.kind, row.size, row.leg): row for row in (*own.takeoffs, *measured)}
    return OwnFittings(_plain(maker), tuple(legs.values()))


def _data(raw: bytes) -> dict[str, Any]:
    if len(raw) > MOST_BYTES:
        raise OwnFittingsError("", f"expected at most {MOST_BYTES // 1000} kB of measured fittings")
    try:
        data = strict(raw.decode("utf-8-sig"))
    except UnicodeDecodeError as fault:
        raise OwnFittingsError("", f"expected UTF-8 text; the byte at {fault.start} isn't") from None
    except PlanFileError as fault:
        raise OwnFittingsError(fault.where, "expected the JSON text of measured fittings, whole and sound") from None
    if not isinstance(data, dict):
        raise OwnFittingsError("", "expected an object with format, version, maker and takeoffs")
    return data


def _sound(fields: Any) -> OwnFittings:
    """The record of some fields, its text without control characters, each leg once."""
    try:
        made = msgspec.convert(fields, OwnFittings)
    except msgspec.ValidationError as fault:
        said, _, where = str(fault).partition(" - at `$")
        raise OwnFittingsError(where.strip("`.") or "takeoffs", said.replace("`", "")) from None
    seen = set()
    for number, row in enumerate(made.takeoffs):
        leg = (row.kind, row.size, row.leg)
        if leg in seen:
            raise OwnFittingsError(f"takeoffs[{number}]", "expected each leg of a fitting once")
        seen.add(leg)
    return OwnFittings(_plain(made.maker), made.takeoffs)


def _plain(text: str) -> str:
    """A text on one line, without marks that control a terminal or turn the direction of writing."""
    kept = "".join(letter if unicodedata.category(letter)[0] != "C" else " " for letter in text)
    return " ".join(kept.split())
