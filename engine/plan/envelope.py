"""The first look at a plan file: is it ours, is it of a version we know, before anything else is read."""

from __future__ import annotations

from typing import Any

import msgspec

from engine.plan.faults import NewerPlanError, PlanFileError, shown
from engine.plan.limits import MOST_BYTES
from engine.plan.migrations import VERSION
from engine.plan.schema import FORMAT

FIELDS = ("format", "version", "written_by", "plan")


def text_of(raw: bytes) -> str:
    """A file's bytes as text. PlanFileError when there are too many, or they are no UTF-8."""
    if len(raw) > MOST_BYTES:
        raise PlanFileError("", f"expected at most {MOST_BYTES // 1_000_000} MB: a file this big is no plan of a floor")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise PlanFileError("", f"expected UTF-8 text; the byte at {fault.start} isn't") from None


def version_in(text: str) -> int | None:
    """The version that a plan file's text gives itself, read without reading the plan.

    None when the text is broken JSON, which only reading it all can place. PlanFileError when it is no plan file, or
    one of a version that this program doesn't know.
    """
    try:
        fields = msgspec.json.decode(text, type=dict[str, msgspec.Raw])
    except msgspec.ValidationError:
        raise PlanFileError("", "this is no Joistway plan: expected an object with format, version and plan") from None
    except (msgspec.DecodeError, RecursionError):
        return None
    found: dict[str, Any]
    try:
        found = {name: msgspec.json.decode(fields[name]) for name in ("format", "version") if name in fields}
    except (msgspec.DecodeError, RecursionError):
        return None
    if found.get("format") != FORMAT:
        raise PlanFileError("format", f"this is no Joistway plan: expected {shown(FORMAT)}, {_said(found, 'format')}")
    version = found.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise PlanFileError("version", f"expected a whole number from 1 to {VERSION}, {_said(found, 'version')}")
    if version > VERSION:
        what = f"this plan has file version {shown(version)}, and this program reads up to {VERSION}"
        raise NewerPlanError("version", f"{what}: a newer program wrote it, open it with that one")
    return version


def contents(whole: dict[str, Any]) -> dict[str, Any]:
    """The ``plan`` object of a file that was read whole. PlanFileError for an envelope that isn't right."""
    for name in whole:
        if name not in FIELDS:
            raise PlanFileError("", f"expected no field {shown(name)} beside {', '.join(FIELDS)}")
    by = whole.get("written_by", "")
    if not isinstance(by, str) or len(by) > 100:
        raise PlanFileError("written_by", f"expected a text of at most 100 letters, found {shown(by)}")
    plan = whole.get("plan")
    if not isinstance(plan, dict):
        raise PlanFileError("plan", f"expected an object with fields, {_said(whole, 'plan')}")
    return plan


def _said(found: dict[str, Any], name: str) -> str:
    return f"found {shown(found[name])}" if name in found else "which is missing"
