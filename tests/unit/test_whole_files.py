"""A file put in its place whole."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from cookbook_build.whole_files import put


def test_it_takes_the_place_of_the_old_one_and_keeps_who_may_read_it(tmp_path: Path) -> None:
    path = tmp_path / "larder.yaml"
    path.write_text("old", encoding="utf-8")
    path.chmod(0o640)
    put(path, b"new")
    assert path.read_bytes() == b"new"
    assert os.name == "nt" or path.stat().st_mode & 0o777 == 0o640
    assert [one.name for one in tmp_path.iterdir()] == ["larder.yaml"]


def test_it_is_on_the_disk_before_it_has_its_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, done = tmp_path / "larder.yaml", []
    path.write_text("old", encoding="utf-8")
    down, named = os.fsync, Path.replace

    def flushed(handle: int) -> None:
        (beside,) = set(tmp_path.iterdir()) - {path}
        assert beside.read_bytes() == b"new"
        done.append("down")
        down(handle)

    def moved(beside: Path, target: Path) -> Path:
        done.append("named")
        return named(beside, target)

    monkeypatch.setattr(os, "fsync", flushed)
    monkeypatch.setattr(Path, "replace", moved)
    put(path, b"new")
    assert done == ["down", "named"]


def test_a_full_disk_leaves_the_old_one_and_nothing_beside(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    path = tmp_path / "larder.yaml"
    path.write_text("old", encoding="utf-8")
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match=os.strerror(errno.ENOSPC)):
        put(path, b"new")
    assert path.read_text(encoding="utf-8") == "old"
    assert [one.name for one in tmp_path.iterdir()] == ["larder.yaml"]


def test_only_a_new_one_writes_over_nothing(tmp_path: Path) -> None:
    path = tmp_path / "supper.md"
    put(path, b"new", only_new=True)
    with pytest.raises(FileExistsError, match="it is there already"):
        put(path, b"newer", only_new=True)
    assert path.read_bytes() == b"new"
    assert [one.name for one in tmp_path.iterdir()] == ["supper.md"]


def test_a_long_name_has_room_beside(tmp_path: Path) -> None:
    path = tmp_path / f"{'m' * 249}.yaml"
    put(path, b"new")
    assert path.read_bytes() == b"new"
