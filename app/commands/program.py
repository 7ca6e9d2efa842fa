"""The program: picks the verb, lets it run, and turns whatever goes wrong into one sentence and an exit code."""

from __future__ import annotations

import argparse
import difflib
import os
import sys
import traceback
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn

from app.commands import check, demo, edit, new, parts, planset, rules, schema
from app.commands.terminal import clean
from app.commands.verb import Refusal, Verb

VERBS: dict[str, Verb] = {
    verb.name: verb for verb in (check.VERB, parts.VERB, planset.VERB, rules.VERB, schema.VERB, new.VERB, demo.VERB)
}
WHOLE_TRACE = "JOISTWAY_TRACE"
_HOUSE = Path(__file__).resolve().parents[2]
_PACKAGES = tuple(f"{_HOUSE / package}{os.sep}" for package in ("app", "engine"))


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command. 0: done, nothing to stop for; 1: something to stop for; 2: the input can't be used."""
    words = list(sys.argv[1:] if argv is None else argv)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    try:
        code = _run(words)
        sys.stdout.flush()
    except Refusal as refusal:
        return _say(str(refusal))
    except KeyboardInterrupt:
        return _say("stopped before it was done")
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 2
    except Exception as fault:
        return _own_fault(fault)
    return code


def _run(words: list[str]) -> int:
    if words and words[0] in VERBS:
        verb, rest = VERBS[words[0]], words[1:]
    else:
        verb, rest = edit.VERB, words
        _doubt(words)
    parser = _Parser(verb)
    return verb.run(parser.parse_args(rest))


def _doubt(words: list[str]) -> None:
    """Refuse a mistyped verb, which else would be taken for a plan's name."""
    if not words or words[0].startswith("-") or os.path.exists(words[0]):
        return
    close = difflib.get_close_matches(words[0], VERBS, n=1, cutoff=0.6)
    if close or len(words) > 1:
        meant = f"; did you mean '{close[0]}'?" if close else f"; the commands are {', '.join(VERBS)}"
        raise Refusal(f"'{words[0]}' is neither a command nor a plan that is here{meant}")


class _Parser(argparse.ArgumentParser):
    """An argument parser that speaks in this program's words and refuses in one sentence."""

    def __init__(self, verb: Verb) -> None:
        whole = verb is edit.VERB
        super().__init__(
            prog="joistway" if whole else f"joistway {verb.name}",
            description=verb.answers,
            epilog=_contents() if whole else f"example: {verb.example}",
            formatter_class=argparse.RawDescriptionHelpFormatter,
            add_help=False,
            allow_abbrev=False,
        )
        verb.arguments(self)
        self.add_argument_group("help").add_argument("-h", "--help", action="help", help="print this page")

    def error(self, message: str) -> NoReturn:
        raise Refusal(f"{message} ('{self.prog} --help' shows how)")


def _contents() -> str:
    rows = [f"  {verb.name:<9} {verb.answers}" for verb in VERBS.values()]
    ends = "exit codes: 0 nothing to stop for, 1 something to stop for, 2 the input can't be used"
    return "\n".join(
        ["commands ('joistway COMMAND --help' tells more):", *rows, "", ends, f"example: {edit.VERB.example}"]
    )


def _say(sentence: str) -> int:
    print(clean(f"joistway: {sentence}"), file=sys.stderr)
    return 2


def _own_fault(fault: Exception) -> int:
    """A fault of the program's own: named as such, in a sentence; whole when the environment asks for it."""
    if os.environ.get(WHOLE_TRACE):
        traceback.print_exception(fault)
        return 2
    ours = [frame for frame in traceback.extract_tb(fault.__traceback__) if frame.filename.startswith(_PACKAGES)]
    place = f"{Path(ours[-1].filename).relative_to(_HOUSE)}, line {ours[-1].lineno}" if ours else "place unknown"
    told = str(fault).splitlines()[0][:200] if str(fault) else ""
    return _say(
        f"a fault of the program's own, not of the plan: {type(fault).__name__} {told} ({place}); "
        f"{WHOLE_TRACE}=1 prints all of it for a report"
    )
