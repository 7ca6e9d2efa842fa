"""The house rules: what stands where, what may know what, and what every list must have."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

import app
import engine
from engine.checks import ALL_RULES
from engine.checks.records import Rule
from engine.rulebooks import load, names

HOUSE = Path(__file__).resolve().parents[1]
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "app", "engine", "tests", "assets", "samples"}
MADE_BY_RUNS = {"joistway-demo", "dist", "build", "__pycache__", "joistway.egg-info"}
LONGEST = 400
DRAWERS = {"utils", "util", "helpers", "helper", "common", "misc", "stuff"}


def modules(*folders: str) -> list[Path]:
    return sorted(path for folder in folders for path in (HOUSE / folder).rglob("*.py"))


def written() -> list[Path]:
    """Every text file of the project that somebody wrote or that is kept in the repository."""
    endings = {".py", ".md", ".toml", ".txt", ".csv", ".json", ".jway", ".svg", ""}
    kept = [path for folder in (*TOP, ".setup", ".ci") for path in [HOUSE / folder] if path.is_file()]
    for folder in ("app", "engine", "tests", "assets", "samples", ".setup", ".ci"):
        kept += [path for path in (HOUSE / folder).rglob("*") if path.is_file() and "__pycache__" not in path.parts]
    return sorted(path for path in kept if path.suffix in endings)


def test_nothing_else_stands_at_the_top() -> None:
    found = {path.name for path in HOUSE.iterdir() if not path.name.startswith(".")}
    assert found - MADE_BY_RUNS == TOP


def test_both_packages_come_from_this_clone() -> None:
    assert Path(app.__file__).parent == HOUSE / "app"
    assert Path(engine.__file__).parent == HOUSE / "engine"


def test_each_layer_knows_only_what_comes_before_it() -> None:
    contracts = subprocess.run(
        [sys.executable, "-c", "from importlinter.cli import lint_imports_command as c; c()"],
        cwd=HOUSE,
        capture_output=True,
        text=True,
    )
    assert contracts.returncode == 0, contracts.stdout + contracts.stderr


def test_the_command_line_knows_no_qt_before_the_editor_is_asked_for() -> None:
    look = (
        "import sys, app.commands, engine.study, engine.planset, engine.takeoff.answers, engine.plan.file;"
        "sys.exit(any(name.split('.')[0] in {'PySide6', 'shiboken6'} for name in sys.modules))"
    )
    assert subprocess.run([sys.executable, "-c", look], cwd=HOUSE).returncode == 0


@pytest.mark.parametrize("path", modules("app", "engine", "tests", ".setup"), ids=lambda path: str(path.name))
def test_a_module_can_be_read_in_one_sitting(path: Path) -> None:
    lines = path.read_text(encoding="utf-8").count("\n")
    assert lines <= LONGEST, f"{path.relative_to(HOUSE)} has {lines} lines; split it by subject"


def test_no_module_is_a_drawer_of_leftovers() -> None:
    names = {path.relative_to(HOUSE): path.stem for path in modules("app", "engine", "tests")}
    assert [str(path) for path, stem in names.items() if stem in DRAWERS or path.parent.name in DRAWERS] == []


def test_the_texts_speak_of_the_project_alone() -> None:
    """No path of a machine, no registry's address, no document that the repository does not hold."""
    forbidden = re.compile(
        "|".join(
            [
                r"/wor" + r"k/",
                r"/roo" + r"t/",
                r"\bdesign\." + "md",
                r"\bcraft\." + "md",
                r"\bgolden\." + "md",
                r"\bcases\." + "md",
                r"shared/hand" + "book",
                r"hand" + r"book/",
                r"pypi\." + "org",
                r"pythonhosted\." + "org",
                r"debian\." + "org",
                r"npmjs\." + "(?:org|com)",
            ]
        )
    )
    found = [
        f"{path.relative_to(HOUSE)}:{number}: {match.group()}"
        for path in written()
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if (match := forbidden.search(line))
    ]
    assert found == []


def test_nothing_is_left_for_later_in_the_code() -> None:
    later = re.compile(r"\b(?:TO" + r"DO|FIX" + r"ME|XX" + r"X|NotImplemented" + r"Error)\b")
    found = [path.name for path in modules("app", "engine") if later.search(path.read_text(encoding="utf-8"))]
    assert found == []


class TestRules:
    """Every rule is declared whole, explained, sourced and tested."""

    def test_ids_are_trade_words_joined_by_hyphens_and_never_shared(self) -> None:
        ids = [rule.id for rule in ALL_RULES]
        assert len(ids) == len(set(ids))
        assert [name for name in ids if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", name)] == []

    @pytest.mark.parametrize("rule", ALL_RULES, ids=lambda rule: rule.id)
    def test_a_rule_says_what_it_asks(self, rule: Rule) -> None:
        assert rule.title.strip()
        assert rule.subject.strip()
        assert len((rule.judge.__doc__ or "").split()) >= 8, f"{rule.id}: its function says too little of what it asks"

    @pytest.mark.parametrize("rule", ALL_RULES, ids=lambda rule: rule.id)
    def test_a_rule_reads_values_that_the_book_holds_and_cites(self, rule: Rule) -> None:
        books = [load(book) for book in names()]
        keys = (*rule.reads, *rule.may_read)
        assert [key for key in keys if not any(book.speaks_of(key) for book in books)] == []

    @pytest.mark.parametrize("rule", ALL_RULES, ids=lambda rule: rule.id)
    def test_a_rule_is_named_in_a_test(self, rule: Rule) -> None:
        texts = (path.read_text(encoding="utf-8") for path in modules("tests/engine"))
        assert any(f'"{rule.id}"' in text for text in texts), f"no test under tests/engine names {rule.id!r}"

    def test_no_limit_is_a_bare_number_in_a_check(self) -> None:
        """Limits come from the rule book by key; what may stand in a check is arithmetic."""
        arithmetic = {0, 1, 2, 3, 12, 90, 180, 360, 0.5, -1}
        found = [
            f"{path.name}:{node.lineno}: {node.value}"
            for path in modules("engine/checks")
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            if isinstance(node, ast.Constant)
            and isinstance(node.value, int | float)
            and not isinstance(node.value, bool)
            and node.value not in arithmetic
            and abs(node.value) > 1e-3
        ]
        assert found == []


class TestEnvironment:
    """The lock, the two commands and the pages that name them."""

    lock = (HOUSE / ".setup" / "lock.txt").read_text(encoding="utf-8")
    project = tomllib.loads((HOUSE / "pyproject.toml").read_text(encoding="utf-8"))

    def test_the_lock_names_no_address(self) -> None:
        assert re.search(r"://|--index|--extra-index|--find-links", self.lock) is None

    def test_every_locked_package_is_pinned_once_and_hashed(self) -> None:
        names = re.findall(r"^([a-z0-9.-]+)==\S+(?: ;[^\n\\]*)? \\$", self.lock, re.MULTILINE)
        assert len(names) == len(set(names)) == len(re.findall(r"^\S", self.lock, re.MULTILINE))
        blocks = re.split(r"^(?=\S)", self.lock, flags=re.MULTILINE)[1:]
        assert all("--hash=sha256:" in block for block in blocks)

    def test_everything_that_pyproject_asks_for_is_locked(self) -> None:
        asked = [
            *self.project["project"]["dependencies"],
            *self.project["project"]["optional-dependencies"]["window"],
            *self.project["dependency-groups"]["dev"],
        ]
        names = [re.match(r"[A-Za-z0-9_.-]+", ask) for ask in asked]
        wanted = [match.group().lower().replace("_", "-") for match in names if match]
        assert [name for name in wanted if not re.search(rf"^{re.escape(name)}==", self.lock, re.MULTILINE)] == []

    def test_the_window_toolkit_is_pinned_to_the_release_that_was_tried(self) -> None:
        """The release after it aborts under Python 3.11 after some thousands of ordinary calls."""
        assert "pyside6-essentials==6.11.3" in self.lock

    def test_ci_runs_the_command_that_the_readme_gives(self) -> None:
        readme = (HOUSE / "README.md").read_text(encoding="utf-8")
        commands = re.findall(r"^\s*(python3 \.setup/\w+\.py)$", readme, re.MULTILINE)
        assert commands == ["python3 .setup/demo.py", "python3 .setup/test.py"]
        assert all((HOUSE / command.split()[1]).is_file() for command in commands)
        last = (HOUSE / ".ci" / "run").read_text(encoding="utf-8").strip().splitlines()[-1]
        assert last == f"exec {commands[1]}"

    def test_the_pages_show_what_is_there(self) -> None:
        for page in ("README.md", "DEVELOPERS.md"):
            text = (HOUSE / page).read_text(encoding="utf-8")
            named = re.findall(r"\]\(((?!https?:|#)[^)#]+)", text)
            assert [name for name in named if not (HOUSE / name).exists()] == [], page

    def test_the_map_names_every_room(self) -> None:
        text = (HOUSE / "DEVELOPERS.md").read_text(encoding="utf-8")
        rooms = [path.name for path in (HOUSE / "engine").iterdir() if path.is_dir() and path.name != "__pycache__"]
        assert [room for room in rooms if f"`{room}`" not in text] == []
