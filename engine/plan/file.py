"""The plan file (``.jway``): JSON text in an envelope, read with suspicion and written whole.

What is opened is never changed on disk. Every refusal is a :class:`PlanFileError` that names the place.
"""

from __future__ import annotations

import os
import stat
from pathlib import Path
from typing import Any

import msgspec

from engine.plan.canonical import gridded_plan
from engine.plan.envelope import contents, text_of, version_in
from engine.plan.explain import refusal
from engine.plan.faults import NewerPlanError, PlanFileError
from engine.plan.limits import MOST_BYTES
from engine.plan.migrations import VERSION, carried_forward
from engine.plan.records import Plan
from engine.plan.schema import plan_schema, schema
from engine.plan.sound import unsound
from engine.plan.storing import store
from engine.plan.strict import strict
from engine.plan.writing import written

__all__ = ["NewerPlanError", "PlanFileError", "dumps", "loads", "read", "save", "schema"]


def read(path: str | Path) -> Plan:
    """The plan in a file. Raises :class:`PlanFileError` for whatever can't be used, a missing file included."""
    return loads(_bytes_of(Path(path)))


def loads(raw: bytes) -> Plan:
    """The plan in a file's bytes, its points on the grid. Raises :class:`PlanFileError`."""
    text = text_of(raw)
    version = version_in(text)
    whole = strict(text)
    if version is None:
        raise PlanFileError("", "expected the JSON text of a plan")
    return _sound(gridded_plan(_typed(carried_forward(contents(whole), version))))


def dumps(plan: Plan) -> bytes:
    """A plan as a file's bytes. Raises :class:`PlanFileError` for a plan that could not be read again."""
    try:
        _sound(_typed(msgspec.to_builtins(plan)))
        return written(plan).encode("utf-8")
    except UnicodeEncodeError as fault:
        raise PlanFileError("", f"expected text, found half of a letter in {fault.object[:20]!a}") from None
    except ValueError as fault:
        if isinstance(fault, PlanFileError):
            raise
        raise PlanFileError("", str(fault)) from None


def save(plan: Plan, path: str | Path) -> None:
    """Write a plan to a file, whole or not at all.

    A plan file of an older version that is there is kept beside it as ``name.v1.jway``. Raises
    :class:`PlanFileError` when the plan can't be written or the file there is of a newer version, and OSError when
    the system refuses; the file is then as it was.
    """
    raw = dumps(plan)
    target = Path(path)
    _keep_older(target)
    store(raw, target)


def _bytes_of(path: Path) -> bytes:
    try:
        if not stat.S_ISREG(os.stat(path).st_mode):
            raise PlanFileError("", "expected an ordinary file")
        with path.open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except OSError as fault:
        said = (fault.strerror or str(fault)).lower()
        raise PlanFileError("", f"the file can't be read: {said}") from fault
    except ValueError as fault:
        if isinstance(fault, PlanFileError):
            raise
        raise PlanFileError("", "expected the path of a file") from fault


def _typed(data: Any) -> Plan:
    try:
        return msgspec.convert(data, Plan)
    except msgspec.ValidationError as fault:
        raise refusal(data, plan_schema(), str(fault)) from None


def _sound(plan: Plan) -> Plan:
    for found in unsound(plan):
        raise PlanFileError(found.where, found.what)
    return plan


def _keep_older(target: Path) -> None:
    """Copy a plan file of an older version aside before it is replaced; refuse to replace one of a newer version."""
    try:
        old = _bytes_of(target)
        version = version_in(text_of(old))
    except NewerPlanError:
        what = "the file there was written by a newer program and is left as it is: save under another name"
        raise NewerPlanError("version", what) from None
    except PlanFileError:
        return
    if version is not None and version < VERSION:
        store(old, target.with_name(f"{target.stem}.v{version}{target.suffix}"))
