"""What a finding says is words for an owner-builder: no key of a rule book stands in it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from engine.plan.file import read
from engine.study import study

BROKEN = sorted((Path(__file__).parent / "mending" / "broken").glob("*.jway"))
KEY = re.compile(r"\b[a-z]+_[a-z_]+\b")


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_no_key_of_a_book_is_said(path: Path) -> None:
    findings = study(read(path)).findings
    assert findings
    for finding in findings:
        assert not KEY.findall(f"{finding.text} {finding.mend}"), finding.text
