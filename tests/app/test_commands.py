"""The command line: every verb, its exit codes, and one sentence for whatever cannot be used."""

from __future__ import annotations

import csv
import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.commands import demo, main
from engine.plan.file import read

HOUSE = Path(__file__).resolve().parents[2]
FULLER = demo.samples() / demo.SAMPLE
SOUND = demo.samples() / "one-bath-cottage.jway"
FAULTY = demo.samples() / "cottage-with-mistakes.jway"


@pytest.fixture
def floor(tmp_path: Path) -> Path:
    """A new, empty floor as the command line writes it."""
    path = tmp_path / "cabin.jway"
    assert main(["new", "--width", "10ft", "--length", "20ft", str(path)]) == 0
    return path


def refused(words: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    """The one sentence with which the words are refused; checks that it is one, and exit code 2."""
    capsys.readouterr()
    assert main(words) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("joistway: ")
    assert said.err.count("\n") == 1
    assert "Traceback" not in said.err
    return said.err


class TestCheck:
    def test_a_sound_plan_ends_with_0_and_says_so(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["check", str(SOUND)]) == 0
        said = capsys.readouterr().out
        assert "Nothing to stop for" in said
        assert "WHAT WAS LOOKED AT" in said
        assert "HEIGHT OF THE EXIT" in said

    def test_a_faulty_plan_ends_with_1_and_groups_by_weight(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["check", str(FAULTY)]) == 1
        said = capsys.readouterr().out
        assert "STOP FOR THESE (" in said
        assert "Mend: " in said
        assert " east, " in said
        assert said.index("STOP FOR THESE") < said.index("HEIGHT OF THE EXIT") < said.index("WHAT WAS LOOKED AT")

    def test_the_words_and_the_json_tell_the_same_findings(self, capsys: pytest.CaptureFixture[str]) -> None:
        code = main(["check", str(FAULTY), "--json"])
        answer = json.loads(capsys.readouterr().out)
        stops = [finding for finding in answer["findings"] if finding["weight"] == "stop"]
        assert code == 1
        assert main(["check", str(FAULTY)]) == 1
        said = capsys.readouterr().out
        assert f"STOP FOR THESE ({len(stops)})" in said
        assert [finding["rule"] for finding in answer["findings"] if finding["rule"] not in said] == []

    def test_the_json_has_every_key_that_is_promised(self, capsys: pytest.CaptureFixture[str]) -> None:
        main(["check", str(FULLER), "--json"])
        answer = json.loads(capsys.readouterr().out)
        promised = {
            "": "plan rulebook exit_window exit_windows findings looked_at traps joist_cuts",
            "exit_window": "low high chosen low_set_by high_set_by",
            "findings": "rule weight at elements measured limit unit text cites mend",
            "traps": "fixture vented_by method distance limit cites",
            "joist_cuts": "joist kind pipe diameter bit from_end down_from_top up_from_bottom limit legal",
        }
        for where, keys in promised.items():
            held = answer if not where else answer[where]
            for each in held if isinstance(held, list) else [held]:
                assert set(keys.split()) <= set(each), where
        for counts in answer["looked_at"].values():
            assert set(counts) == {"holds", "broken", "not_judged", "does_not_apply"}
        assert answer["traps"]
        assert answer["joist_cuts"]

    def test_an_empty_floor_is_judged_without_complaint(self, floor: Path, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["check", str(floor)]) == 0
        assert "No exit is drawn" in capsys.readouterr().out

    def test_text_that_the_user_typed_cannot_command_the_terminal(
        self, floor: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        plan = json.loads(floor.read_text(encoding="utf-8"))
        assert _named(plan, "Cabin \u001b[31m<b>red</b>\u0007")
        floor.write_text(json.dumps(plan), encoding="utf-8")
        main(["check", str(floor)])
        said = capsys.readouterr().out
        assert "\u001b" not in said
        assert "\u0007" not in said
        assert "<b>red</b>" in said


def _named(envelope: dict[str, object], name: str) -> bool:
    """Put a name into the plan inside the file's envelope."""
    for value in (envelope, *envelope.values()):
        if isinstance(value, dict) and "floor" in value:
            value["name"] = name
            return True
    return False


class TestParts:
    def test_the_json_has_every_key_that_is_promised(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["parts", str(FULLER), "--json"]) == 0
        answer = json.loads(capsys.readouterr().out)
        promised = {
            "parts": "part size count system",
            "pieces": "mark system size material length tolerance rests_on from to",
            "sticks": "size material stick_length count waste",
        }
        for name, keys in promised.items():
            assert answer[name], name
            assert all(set(keys.split()) <= set(row) for row in answer[name]), name
        assert isinstance(answer["cheapest_proven"], bool)
        assert isinstance(answer["supports"], list)

    def test_the_csv_holds_each_row_of_each_list_once(self, capsys: pytest.CaptureFixture[str]) -> None:
        main(["parts", str(FULLER), "--json"])
        answer = json.loads(capsys.readouterr().out)
        assert main(["parts", str(FULLER), "--csv"]) == 0
        rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out, newline="")))
        assert len(rows) == sum(len(answer[name]) for name in ("parts", "pieces", "sticks", "supports"))
        pieces = [row for row in rows if row["list"] == "piece"]
        assert [float(row["length"]) for row in pieces] == [piece["length"] for piece in answer["pieces"]]

    def test_the_words_say_each_list(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["parts", str(FULLER)]) == 0
        said = capsys.readouterr().out
        assert [title for title in ("TO BUY", "TO CUT", "STICKS OF PIPE", "TO HOLD IT UP") if title not in said] == []
        assert "proven" in said

    def test_the_words_walk_the_store_with_a_box_for_each_line(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["parts", str(FULLER)]) == 0
        said = capsys.readouterr().out
        stops = ("Drain pipe", "Drain fittings, 3 in", "Vents and roof", "Cement and primer", "What people forget")
        places = [said.index(f"\n{stop}\n") for stop in stops]
        assert places == sorted(places)
        assert said.count("[ ] ") > 50
        assert "Made under International Residential Code" in said

    def test_json_and_csv_at_once_is_refused(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert "not allowed with" in refused(["parts", str(FULLER), "--json", "--csv"], capsys)


class TestPlanset:
    def test_it_prints_what_it_wrote(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["planset", str(SOUND), "--to", str(tmp_path / "sheets"), "--paper", "A4"]) == 0
        paths = [Path(line) for line in capsys.readouterr().out.splitlines()]
        assert {path.suffix for path in paths} >= {".pdf", ".csv"}
        assert all(path.is_file() and path.stat().st_size > 0 for path in paths)

    def test_a_folder_that_cannot_be_is_named(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        (tmp_path / "file").write_text("in the way")
        assert "file" in refused(["planset", str(SOUND), "--to", str(tmp_path / "file" / "sheets")], capsys)

    def test_an_unknown_paper_is_refused(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        assert "papyrus" in refused(["planset", str(SOUND), "--to", str(tmp_path), "--paper", "papyrus"], capsys)


class TestRules:
    def test_every_rule_is_listed_with_a_section(self, capsys: pytest.CaptureFixture[str]) -> None:
        from engine.checks import ALL_RULES

        assert main(["rules"]) == 0
        said = capsys.readouterr().out
        assert [rule.id for rule in ALL_RULES if f"  {rule.id}  (" not in said] == []
        assert "IRC 2021 R502.8" in said

    def test_an_unknown_book_is_refused_and_the_known_are_named(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert "irc-2021" in refused(["rules", "--book", "atlantis"], capsys)


class TestNew:
    def test_it_writes_the_floor_that_was_asked_for(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        out = tmp_path / "shed.jway"
        words = ["new", "--width", "8' 6\"", "--length", "3.048m", "--joists", "2x8", "--spacing", "12"]
        assert main([*words, "--direction", "east-west", "--finish", "1/2", str(out)]) == 0
        assert capsys.readouterr().out == f"{out}\n"
        plan = read(out)
        xs, ys = zip(*plan.floor.outline, strict=True)
        field = plan.fields[0]
        assert (max(xs) - min(xs), max(ys) - min(ys)) == (102.0, 120.0)
        assert (field.lumber, field.spacing, field.direction, plan.floor.finish) == ("2x8", 12.0, "east-west", 0.5)

    def test_a_file_that_is_there_is_not_written_over_unasked(
        self, floor: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        before = floor.read_bytes()
        words = ["new", "--width", "12ft", "--length", "20ft", str(floor)]
        assert "already there" in refused(words, capsys)
        assert floor.read_bytes() == before
        assert main([*words, "--replace"]) == 0
        assert floor.read_bytes() != before

    @pytest.mark.parametrize("width", ["ten", "-10ft", "0", "1e9", "nan", "10 furlongs", ""])
    def test_a_width_that_is_none_is_refused(
        self, width: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        out = tmp_path / "out.jway"
        refused(["new", f"--width={width}", "--length", "20ft", str(out)], capsys)
        assert not out.exists()


class TestSchema:
    def test_it_is_a_json_schema_that_names_the_plan(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["schema"]) == 0
        schema = json.loads(capsys.readouterr().out)
        assert schema["$schema"].startswith("https://json-schema.org/")
        assert "Plan" in schema["$defs"]


class TestDemo:
    def test_it_writes_the_plan_set_and_the_answers(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
    ) -> None:
        monkeypatch.chdir(tmp_path)
        monkeypatch.setenv("QT_QPA_PLATFORM", "offscreen")
        assert main(["demo"]) == 0
        written = {path.name for path in (tmp_path / "joistway-demo").iterdir()}
        assert {demo.SAMPLE, "check.txt", "check.json", "parts.json", "parts.csv"} <= written
        assert any(name.endswith(".pdf") for name in written)
        assert "No display here" in capsys.readouterr().out

    def test_what_was_drawn_in_an_earlier_demo_is_kept(self, tmp_path: Path) -> None:
        folder = tmp_path / "demo"
        folder.mkdir()
        (folder / demo.SAMPLE).write_bytes(SOUND.read_bytes())
        assert main(["demo", "--no-window", "--to", str(folder)]) == 0
        kept = folder / demo.SAMPLE.replace(".jway", "-before.jway")
        assert kept.read_bytes() == SOUND.read_bytes()
        assert (folder / demo.SAMPLE).read_bytes() == FULLER.read_bytes()


class TestRefusals:
    """Bad input: one sentence with the place, exit 2, the file as it was."""

    @pytest.mark.parametrize(
        "content",
        [
            b"",
            b"{",
            b"\xff\xfe\x00\x00",
            b"%PDF-1.7 not a plan",
            b"[]",
            b'{"format": "joistway"}',
            b"[" * 200_000,
            b'{"a":' * 50_000,
            b'{"x": 1e999}',
            b"null",
            FULLER.read_bytes()[: len(FULLER.read_bytes()) // 2],
            FULLER.read_bytes().replace(b"0", b"NaN", 40),
        ],
        ids=lambda content: repr(content[:18]),
    )
    @pytest.mark.parametrize(
        "verb", [["check"], ["parts"], ["planset", "--to", "sheets"], []], ids=lambda verb: str(verb)
    )
    def test_a_file_that_is_no_plan(
        self,
        verb: list[str],
        content: bytes,
        tmp_path: Path,
        monkeypatch: pytest.MonkeyPatch,
        capsys: pytest.CaptureFixture[str],
    ) -> None:
        folder = tmp_path / "work"
        folder.mkdir()
        monkeypatch.chdir(folder)
        path = folder / "odd.jway"
        path.write_bytes(content)
        assert "odd.jway" in refused([*verb[:1], str(path), *verb[1:]], capsys)
        assert path.read_bytes() == content
        assert [found.name for found in folder.iterdir()] == ["odd.jway"]

    def test_a_missing_file_is_named(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        assert "no such file" in refused(["check", str(tmp_path / "gone.jway")], capsys)

    def test_a_folder_is_no_plan(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        assert str(tmp_path) in refused(["check", str(tmp_path)], capsys)

    @pytest.mark.parametrize(
        ("words", "hint"),
        [
            (["chekc", "a.jway"], "did you mean 'check'"),
            (["banana", "a.jway"], "the commands are"),
            (["check"], "PLAN"),
            (["check", "a", "b"], "b"),
            (["check", "--jsn", "a"], "--jsn"),
            (["planset", "a.jway"], "--to"),
            (["gone.jway"], "no such file"),
        ],
    )
    def test_words_that_make_no_command(
        self,
        words: list[str],
        hint: str,
        tmp_path: Path,
        monkeypatch: pytest.MonkeyPatch,
        capsys: pytest.CaptureFixture[str],
    ) -> None:
        monkeypatch.chdir(tmp_path)
        assert hint in refused(words, capsys)

    def test_an_unknown_rule_book_in_the_plan_is_refused_by_name(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        path = tmp_path / "odd.jway"
        path.write_bytes(SOUND.read_bytes().replace(b'"irc-2021"', b'"atlantis-1"'))
        text = path.read_text(encoding="utf-8")
        if "atlantis-1" not in text:
            envelope = json.loads(text)
            plan = next(
                value for value in (envelope, *envelope.values()) if isinstance(value, dict) and "floor" in value
            )
            plan["rulebook"] = "atlantis-1"
            path.write_text(json.dumps(envelope), encoding="utf-8")
        assert "atlantis-1" in refused(["check", str(path)], capsys)

    def test_a_fault_of_the_program_is_not_blamed_on_the_plan(
        self, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
    ) -> None:
        def broken(plan: object) -> None:
            raise KeyError("a joist that is not there")

        monkeypatch.setattr("engine.study.study", broken)
        assert "the program's own" in refused(["check", str(SOUND)], capsys)


class TestHelp:
    @pytest.mark.parametrize("verb", ["", "check", "parts", "planset", "rules", "schema", "new", "demo"])
    def test_every_verb_has_a_page_with_an_example(self, verb: str, capsys: pytest.CaptureFixture[str]) -> None:
        with pytest.raises(SystemExit) as end:
            main([*([verb] if verb else []), "--help"])
        page = capsys.readouterr().out
        assert end.value.code == 0
        assert f"example: joistway {verb}".strip() in page


class TestAsAProcess:
    """`python -m app` as it is really started."""

    def run(self, *words: str, **environment: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-m", "app", *words],
            cwd=HOUSE,
            env={key: value for key, value in os.environ.items() if key not in {"DISPLAY", "WAYLAND_DISPLAY"}}
            | environment,
            capture_output=True,
            text=True,
            stdin=subprocess.DEVNULL,
            timeout=60,
        )

    def test_check_answers_with_its_exit_code(self) -> None:
        assert self.run("check", str(SOUND)).returncode == 0
        assert self.run("check", str(FAULTY)).returncode == 1

    @pytest.mark.skipif(not sys.platform.startswith("linux"), reason="elsewhere there always is a display")
    def test_without_a_display_the_editor_says_so(self) -> None:
        done = self.run(QT_QPA_PLATFORM="")
        assert done.returncode == 2
        assert "no display" in done.stderr
        assert "Traceback" not in done.stderr

    @pytest.mark.skipif(not sys.platform.startswith("linux"), reason="elsewhere there always is a display")
    def test_a_display_that_does_not_answer_is_named(self) -> None:
        done = self.run(QT_QPA_PLATFORM="", DISPLAY=":9876")
        assert done.returncode == 2
        assert ":9876" in done.stderr

    def test_a_reader_that_goes_away_leaves_no_trace(self) -> None:
        done = subprocess.run(
            ["sh", "-c", f"'{sys.executable}' -m app schema | head -n 1"], cwd=HOUSE, capture_output=True, text=True
        )
        assert done.stdout == "{\n"
        assert done.stderr == ""


def test_missing_libraries_are_named_with_the_line_that_installs_them() -> None:
    from app.desktop import Library, lacking_words, missing

    lost = missing((Library("libnothing-of-the-kind.so.7", "libnothing7"), Library("libc.so.6", "libc6")))
    assert [library.package for library in lost] == ["libnothing7"]
    assert lacking_words(lost).endswith("sudo apt install libnothing7")
