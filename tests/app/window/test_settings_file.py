"""Settings: typed, written at once, read back as they were; a bad file is put aside and never stops the program."""

from __future__ import annotations

import json
from pathlib import Path

import msgspec
import pytest
from PySide6.QtCore import QStandardPaths

from app.settings import RECENT_AT_MOST, Settings, SettingsFile, settings_file, state_folder


def test_every_setting_comes_back_as_it_was(tmp_path: Path) -> None:
    file = SettingsFile(tmp_path / "new folder" / "settings.json")
    values = {
        "recent": ("a.jway", "b.jway"),
        "plan_folder": str(tmp_path),
        "print_folder": "prints",
        "paper": "a3",
        "printed_on": {"prints": "a3"},
        "cautions_read": True,
        "autosave_seconds": 7.5,
        "hidden_layers": ("grid",),
        "fall_strip": False,
        "geometry": "AAAA",
        "splits": {"whole": "BBBB"},
    }
    assert set(values) == {field.name for field in msgspec.structs.fields(Settings)}
    file.change(**values)
    assert SettingsFile(file.path).now == Settings(**values)


def test_every_setting_says_what_it_is() -> None:
    described = msgspec.json.schema(Settings)["$defs"]["Settings"]["properties"]
    assert [name for name, told in described.items() if not told.get("description")] == []


@pytest.mark.parametrize(
    "text", ["", "{", "[1, 2]", '{"autosave_seconds": 0}', '{"paper": "napkin"}', '{"recent": "a.jway"}', "\udcff"]
)
@pytest.mark.logs_warnings
def test_a_file_that_can_not_be_read_is_put_aside(tmp_path: Path, text: str) -> None:
    path = tmp_path / "settings.json"
    path.write_bytes(text.encode("utf-8", "surrogateescape"))
    assert SettingsFile(path).now == Settings()
    assert not path.exists()
    assert (tmp_path / "settings.unreadable.json").exists()


def test_a_setting_of_a_later_version_is_passed_over(tmp_path: Path) -> None:
    path = tmp_path / "settings.json"
    path.write_text(json.dumps({"paper": "a4", "holograms": True}))
    assert SettingsFile(path).now == Settings(paper="a4")


def test_a_value_of_the_wrong_kind_is_refused_at_once(tmp_path: Path) -> None:
    file = SettingsFile(tmp_path / "settings.json")
    with pytest.raises(msgspec.ValidationError):
        file.change(paper="napkin")
    assert file.now == Settings()


@pytest.mark.logs_warnings
def test_a_disk_that_refuses_is_not_fatal(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    file = SettingsFile(tmp_path / "file" / "settings.json")
    file.change(paper="a4")
    assert file.now.paper == "a4"


def test_recent_plans_are_few_newest_first_and_once(tmp_path: Path) -> None:
    file = SettingsFile(tmp_path / "settings.json")
    for number in range(RECENT_AT_MOST + 2):
        file.remember_plan(tmp_path / f"{number}.jway")
    file.remember_plan(tmp_path / "5.jway")
    names = [Path(name).name for name in file.now.recent]
    assert len(names) == RECENT_AT_MOST
    assert names[:2] == ["5.jway", "9.jway"]
    assert len(set(names)) == len(names)
    assert file.now.plan_folder == str(tmp_path)


def test_one_folder_for_all_when_the_environment_names_it(home: Path) -> None:
    assert settings_file().path == home / "config" / "settings.json"
    assert state_folder() == home / "state"


def test_dialogs_start_where_the_last_plan_was_or_among_the_documents(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    papers, plans = tmp_path / "Documents", tmp_path / "plans"
    papers.mkdir()
    plans.mkdir()
    monkeypatch.setattr(QStandardPaths, "writableLocation", lambda where: str(papers))
    file = SettingsFile(tmp_path / "settings.json")
    assert file.folder_to_start_in == str(papers)
    file.remember_plan(plans / "a.jway")
    assert file.folder_to_start_in == str(plans)
    plans.rmdir()
    assert file.folder_to_start_in == str(papers)
    papers.rmdir()
    assert file.folder_to_start_in == str(Path.home())


def test_the_paper_of_each_folder_is_remembered(tmp_path: Path) -> None:
    file = SettingsFile(tmp_path / "settings.json")
    for number in range(RECENT_AT_MOST + 2):
        file.remember_print(tmp_path / str(number), "a3" if number % 2 else "letter")
    again = SettingsFile(file.path)
    assert again.printed_paper(tmp_path / str(RECENT_AT_MOST + 1)) == "a3"
    assert again.printed_paper(tmp_path / "0") is None
    assert len(again.now.printed_on) == RECENT_AT_MOST
