"""Why a plan file can't be used: one sentence and the place of the fault."""

from __future__ import annotations

Step = str | int
"""One step into the file's data: a field's name or an index."""


class PlanFileError(ValueError):
    """A plan that can't be read or written.

    `where` is the place (``drains[3].points[1]``, ``version``, ``line 12, column 4``), empty when it is the whole
    file; `what` says in one plain sentence what was expected there.
    """

    def __init__(self, where: str, what: str) -> None:
        super().__init__(f"{where}: {what}" if where else what)
        self.where = where
        self.what = what


class NewerPlanError(PlanFileError):
    """A plan file of a version that a newer program wrote."""


def place(steps: tuple[Step, ...]) -> str:
    """Steps into the data as a place: ``("drains", 3, "points", 1)`` is ``drains[3].points[1]``.

    Places are told from the plan on, so a first step into the file's ``plan`` is left out.
    """
    words = ""
    if len(steps) > 1 and steps[0] == "plan":
        steps = steps[1:]
    for step in steps:
        if isinstance(step, int):
            words += f"[{step}]"
        elif step.isidentifier() and len(step) <= 40:
            words += f".{step}" if words else step
        else:
            words += f"[{shown(step)}]"
    return words


def shown(value: object) -> str:
    """A value found in a file, in a few words: texts are shortened, lists and objects only counted."""
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        short = value if len(value) <= 40 else f"{value[:37]}..."
        return '"' + "".join(c if c.isprintable() and c != '"' else "?" for c in short) + '"'
    if isinstance(value, (int, float)):
        return f"{value:.12g}"
    if isinstance(value, (list, tuple)):
        return "an empty list" if not value else f"a list of {len(value)}"
    if isinstance(value, dict):
        return "an object"
    return str(value)[:40]
