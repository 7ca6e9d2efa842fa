"""An edit that can't be made."""

from __future__ import annotations


class EditError(ValueError):
    """An edit that would leave the plan invalid.

    `element` is the id of the thing that stands in the way (empty when it is the plan or floor itself) and `what`
    the reason in one sentence.
    """

    def __init__(self, element: str, what: str) -> None:
        super().__init__(f"{element}: {what}" if element else what)
        self.element = element
        self.what = what
