"""What the program can't know and does not promise, in the words that the window shows."""

from __future__ import annotations

from typing import NamedTuple

IN_ONE_LINE = "A planning aid, not legal advice and not a permit: your local code and its official have the last word."


class Caution(NamedTuple):
    """One caution: its heading and what it says."""

    title: str
    text: str


CAUTIONS: tuple[Caution, ...] = (
    Caution(
        "No advice, no permit, no approval",
        "Nothing here is legal advice or an approval. Codes are adopted place by place, with changes, and the local "
        "official has the last word. Where the law asks for a licensed plumber, electrician or engineer, the program "
        "does not replace one.",
    ),
    Caution(
        "“Nothing to stop for” means: among what was judged",
        "A rule that lacks a datum is counted as not judged and passes nothing. The findings pane says how many "
        "things were looked at. An arrangement of vents that the program does not recognise yet is not judged.",
    ),
    Caution(
        "Values have a standing",
        "Each value of a rule book and of the trade data says whether it was read in its source, is from memory, or is "
        "an estimate. Check those from memory against the book that your official uses, and write local changes into "
        "the plan's settings: they are printed.",
    ),
    Caution(
        "Fittings differ from maker to maker",
        "A cut length rests on take-offs from a catalogue unless you measured the fittings in your hand. Measure "
        "them, write them into the plan's settings, and dry-fit before you glue.",
    ),
    Caution(
        "The floor's strength is not judged",
        "Only the cuts in joists are. Joists, beams and footings are not sized here; an engineered joist has its "
        "maker's own chart; a repair or reinforcement is an engineer's work.",
    ),
    Caution(
        "Look before you bore",
        "The drawing knows no wire, duct, nail or crooked joist. Measure the real depths and centres, write them "
        "into the plan, and look on both sides of the wood before the bit goes in.",
    ),
)
