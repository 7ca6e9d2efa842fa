"""Shortening a line so that what tells it apart from its neighbours stays: pure, the widths are asked of the caller."""

from __future__ import annotations

from collections.abc import Callable, Sequence

CUT = "…"

HEAD, TAIL = 10, 6
"""Letters at both ends that are given up last."""

Apart = tuple[int, int]
"""Where a text differs from those like it: from one letter up to another; (0, 0) when it stands alone."""


def apart(texts: Sequence[str]) -> list[Apart]:
    """For each text, the stretch in which it differs from any other that begins alike, in whole words."""
    alike: dict[str, list[str]] = {}
    for text in texts:
        alike.setdefault(text[:HEAD], []).append(text)
    ends = {head: (_extremes(group), _extremes([text[::-1] for text in group])) for head, group in alike.items()}
    return [_apart(text, *ends[text[:HEAD]]) for text in texts]


def elided(text: str, keep: Apart, width: float, advance: Callable[[str], float]) -> str:
    """The text within a width, cut as near to its middle as it can be and not where it differs from others.

    `advance` gives a text's width. Only when nothing else is left the stretch to keep is cut at its end.
    """
    if advance(text) <= width:
        return text
    start, end = keep if keep != (0, 0) else (len(text) // 2, len(text) // 2)
    before, after = max(0, start - HEAD), max(0, len(text) - TAIL - end)
    for removed in range(1, before + after + 1):
        first = min(before, max(removed - after, round(removed * before / (before + after))))
        shown = _without(text, start, end, first, removed - first)
        if advance(shown) <= width:
            return shown
    whole = start <= HEAD or advance(text[:start]) <= width / 2.0
    head = text[:start] if whole else text[:HEAD] + CUT
    shown = head + text[start:end]
    while advance(shown + CUT) > width and len(shown) > 1:
        shown = shown[:-1]
    return shown + CUT


def _extremes(texts: Sequence[str]) -> tuple[str, str]:
    """The first and the last in order: no other has less in common with any of the texts than one of these has."""
    return min(texts), max(texts)


def _apart(text: str, ahead: tuple[str, str], behind: tuple[str, str]) -> Apart:
    others = [other for other in ahead if other != text]
    if not others:
        return (0, 0)
    start = min(_shared(text, other) for other in others)
    shared = min((_shared(text[::-1], other) for other in behind if other != text[::-1]), default=0)
    end = len(text) - min(shared, len(text) - start)
    return _whole_words(text, start, end)


def _shared(text: str, other: str) -> int:
    """How many letters two texts begin with in common."""
    pairs = zip(text, other, strict=False)
    return next((k for k, (a, b) in enumerate(pairs) if a != b), min(len(text), len(other)))


def _without(text: str, start: int, end: int, first: int, last: int) -> str:
    """The text without so many letters just before the stretch to keep and so many just after it."""
    if start == end:
        return text[: start - first] + CUT + text[end + last :]
    head = text[: start - first] + CUT + text[start:end] if first else text[:end]
    return head + CUT + text[end + last :] if last else head + text[end:]


def _whole_words(text: str, start: int, end: int) -> Apart:
    while start > 0 and text[start - 1] != " ":
        start -= 1
    while end < len(text) and text[end] != " ":
        end += 1
    return start, end
