"""Saving: whole or not at all, with the old file's mode, through links, never over a newer program's work."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest
from msgspec.structs import replace

from engine.plan import file, storing
from engine.plan.file import PlanFileError, dumps, read, save
from engine.plan.records import Amendment, Drain, Plan
from engine.plan.start import new_floor

POSIX = pytest.mark.skipif(os.name != "posix", reason="modes and links of POSIX systems")


@pytest.fixture
def plan() -> Plan:
    return new_floor(120, 240)


@POSIX
def test_the_mode_is_kept(tmp_path: Path, plan: Plan) -> None:
    path = tmp_path / "floor.jway"
    path.write_text("old")
    path.chmod(0o640)
    save(plan, path)
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert read(path) == plan


@POSIX
def test_a_new_file_has_the_usual_mode(tmp_path: Path, plan: Plan) -> None:
    (tmp_path / "usual").touch()
    save(plan, tmp_path / "floor.jway")
    assert (tmp_path / "floor.jway").stat().st_mode == (tmp_path / "usual").stat().st_mode


@POSIX
def test_a_link_is_followed(tmp_path: Path, plan: Plan) -> None:
    (tmp_path / "far").mkdir()
    real, link = tmp_path / "far" / "floor.jway", tmp_path / "link.jway"
    real.write_text("old")
    link.symlink_to(real)
    save(plan, link)
    assert link.is_symlink()
    assert read(real) == plan
    assert sorted(os.listdir(tmp_path / "far")) == ["floor.jway"]


def test_when_the_disk_refuses_the_old_file_stays(tmp_path: Path, plan: Plan, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "floor.jway"
    save(plan, path)
    raw = path.read_bytes()

    def full(_: int) -> None:
        raise OSError(28, "no space left on device")

    monkeypatch.setattr(storing.os, "fsync", full)
    with pytest.raises(OSError, match="no space left"):
        save(replace(plan, name="other"), path)
    assert path.read_bytes() == raw
    assert os.listdir(tmp_path) == ["floor.jway"]


def test_the_bytes_and_the_folder_reach_the_disk_in_order(
    tmp_path: Path, plan: Plan, monkeypatch: pytest.MonkeyPatch
) -> None:
    done: list[str] = []
    fsync, put = os.fsync, os.replace

    def noted(handle: int) -> None:
        done.append("folder" if stat.S_ISDIR(os.fstat(handle).st_mode) else "file")
        fsync(handle)

    def replaced(a: object, b: object) -> None:
        done.append("replace")
        put(a, b)  # type: ignore[type-var]

    monkeypatch.setattr(storing.os, "fsync", noted)
    monkeypatch.setattr(storing.os, "replace", replaced)
    save(plan, tmp_path / "floor.jway")
    assert done == ["file", "replace", "folder"]


def test_a_folder_is_no_place_for_a_plan(tmp_path: Path, plan: Plan) -> None:
    with pytest.raises(OSError, match="folder"):
        save(plan, tmp_path)
    with pytest.raises(FileNotFoundError):
        save(plan, tmp_path / "none" / "floor.jway")


def test_a_protected_file_is_not_replaced(tmp_path: Path, plan: Plan, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "floor.jway"
    path.write_text("old")
    monkeypatch.setattr(storing.os, "access", lambda *_: False)
    with pytest.raises(PermissionError, match="write-protected"):
        save(plan, path)
    assert path.read_text() == "old"


def test_a_newer_programs_file_is_never_replaced(tmp_path: Path, plan: Plan) -> None:
    path = tmp_path / "floor.jway"
    path.write_text('{"format": "joistway-plan", "version": 2, "plan": {"sheets": []}}')
    raw = path.read_bytes()
    with pytest.raises(PlanFileError, match="newer program"):
        save(plan, path)
    assert path.read_bytes() == raw


def test_an_older_file_is_kept_beside(tmp_path: Path, plan: Plan, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "floor.jway"
    save(plan, path)
    raw = path.read_bytes()
    monkeypatch.setattr(file, "VERSION", 2)
    save(replace(plan, name="other"), path)
    assert (tmp_path / "floor.v1.jway").read_bytes() == raw


@pytest.mark.parametrize(
    ("wrong", "where"),
    [
        ({"slope": float("nan")}, "slope"),
        ({"slope": float("inf")}, "slope"),
        ({"name": "x" * 3000}, "name"),
        ({"name": "\ud800"}, ""),
        ({"drains": (Drain("d1", ((0.0, 0.0), (0.0, 0.0))),)}, "drains[0].points[1]"),
        ({"drains": (Drain("w1", ((0.0, 0.0), (1.0, 0.0))),)}, "drains[0].id"),
        ({"amendments": (Amendment("a", float("nan")),)}, ""),
    ],
)
def test_what_could_not_be_read_again_is_not_written(
    tmp_path: Path, plan: Plan, wrong: dict[str, object], where: str
) -> None:
    bad = replace(plan, **wrong)
    with pytest.raises(PlanFileError) as caught:
        dumps(bad)
    assert caught.value.where == where
    with pytest.raises(PlanFileError):
        save(bad, tmp_path / "floor.jway")
    assert not os.listdir(tmp_path)
