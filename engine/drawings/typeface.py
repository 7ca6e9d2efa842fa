"""How wide a text is in the sheets' typeface, without loading it: advance widths of Source Sans Pro."""

from __future__ import annotations

CAP_HEIGHT = 0.66
"""Height of its capitals as a share of the type size."""

_FIRST = 32
_THOUSAND = 1000.0
_REGULAR = (
    "200 289 425 497 497 824 609 249 303 303 418 497 249 311 249 350 497 497 497 497 497 497 497 497 497 497 249 249 "
    "497 497 497 425 847 544 588 571 615 527 494 617 652 263 480 579 486 727 647 664 566 664 569 534 536 645 515 786 "
    "513 476 539 303 350 303 497 500 542 504 553 456 555 496 292 504 544 246 247 495 255 829 547 542 555 555 347 419 "
    "338 544 467 718 446 467 425 303 241 303 497"
)
_SEMIBOLD = (
    "200 315 482 513 513 841 639 275 324 324 438 513 275 322 275 344 513 513 513 513 513 513 513 513 513 513 275 275 "
    "513 513 513 444 875 558 597 576 625 538 510 628 663 282 494 597 502 745 656 674 582 674 592 545 546 655 536 800 "
    "541 501 540 324 344 324 513 500 549 516 563 462 564 507 317 520 558 262 263 522 271 843 560 549 564 564 373 431 "
    "361 556 495 748 481 495 443 324 255 324 513"
)
_WIDTHS = {bold: tuple(int(w) for w in row.split()) for bold, row in ((False, _REGULAR), (True, _SEMIBOLD))}
_WIDEST = 900
"""What a letter outside plain Latin is taken to need: enough for the widest."""


def type_size(height: float) -> float:
    """The type size in points whose capitals are `height` inches high."""
    return height / CAP_HEIGHT * 72.0


def text_width(text: str, height: float, bold: bool = False) -> float:
    """Width in inches of a text whose capitals are `height` inches high."""
    widths = _WIDTHS[bold]
    total = 0
    for letter in text:
        place = ord(letter) - _FIRST
        total += widths[place] if 0 <= place < len(widths) else _WIDEST
    return total / _THOUSAND * height / CAP_HEIGHT
