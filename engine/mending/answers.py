"""The mends of findings as they are told outside the window: in words, by the finding."""

from __future__ import annotations

from engine.mending.offer import mends_for
from engine.study import Study

WINDOW = frozenset({"no-height-fits"})
"""Rules whose mends are always told: without them nothing is known of an empty exit window but that it is empty."""


def told_mends(study: Study, everything: bool = False) -> dict[int, tuple[str, ...]]:
    """What mends the findings, in words, by each finding's place in the study: of all, or of those on exits' heights.

    A finding that was asked about and has no mend has an empty tuple; one that was not asked about is left out.
    """
    return {
        number: tuple(mend.words for mend in mends_for(study, finding))
        for number, finding in enumerate(study.findings)
        if everything or finding.rule in WINDOW
    }
