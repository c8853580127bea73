"""What is kept is given back as it was, or not at all."""

from __future__ import annotations

import os
import time
from typing import TYPE_CHECKING

import pytest

from cookbook_build.kept import FORGOTTEN_S, Kept

if TYPE_CHECKING:
    from pathlib import Path

BODY = bytes(range(256)) * 20


def test_what_is_kept_is_given_back(tmp_path: Path) -> None:
    kept = Kept(tmp_path / "within" / "it")
    assert kept.read("a") is None
    kept.keep("a", BODY)
    assert Kept(tmp_path / "within" / "it").read("a") == BODY
    assert kept.read("b") is None


def test_without_a_folder_nothing_is_kept() -> None:
    kept = Kept(None)
    kept.keep("a", BODY)
    assert kept.read("a") is None
    kept.only(())


@pytest.mark.parametrize("at", [0, 31, 32, 33, 1000, -1])
def test_one_changed_byte_anywhere_and_it_counts_as_not_there(tmp_path: Path, at: int) -> None:
    kept = Kept(tmp_path)
    kept.keep("a", BODY)
    data = bytearray((tmp_path / "a").read_bytes())
    data[at] ^= 1
    (tmp_path / "a").write_bytes(data)
    assert kept.read("a") is None


@pytest.mark.parametrize("length", [0, 5, 32, 400])
def test_a_torn_file_counts_as_not_there(tmp_path: Path, length: int) -> None:
    kept = Kept(tmp_path)
    kept.keep("a", BODY)
    data = (tmp_path / "a").read_bytes()
    (tmp_path / "a").write_bytes(data[:length])
    assert kept.read("a") is None
    (tmp_path / "a").write_bytes(data + b"x")
    assert kept.read("a") is None


def test_a_file_under_another_name_counts_as_not_there(tmp_path: Path) -> None:
    kept = Kept(tmp_path)
    kept.keep("a", BODY)
    (tmp_path / "a").rename(tmp_path / "b")
    assert kept.read("b") is None
    (tmp_path / "c").mkdir()
    assert kept.read("c") is None


def test_a_disk_that_says_no_only_means_that_nothing_is_kept(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder", encoding="utf-8")
    kept = Kept(tmp_path / "file" / "below")
    kept.keep("a", BODY)
    assert kept.read("a") is None
    kept.only(())


def test_a_book_that_nobody_binds_is_forgotten_in_time(tmp_path: Path) -> None:
    long_ago = time.time() - FORGOTTEN_S - 60
    for name in ("mine", "bound lately", "given up"):
        Kept(tmp_path / name).keep("a", BODY)
    os.utime(tmp_path / "given up", (long_ago, long_ago))
    os.utime(tmp_path / "mine", (long_ago, long_ago))
    Kept(tmp_path / "mine").forget_others()
    assert sorted(path.name for path in tmp_path.iterdir()) == ["bound lately", "mine"]
    Kept(None).forget_others()


def test_what_is_wanted_no_more_goes_and_what_is_being_written_stays(tmp_path: Path) -> None:
    kept = Kept(tmp_path)
    for key in ("a", "b", "c"):
        kept.keep(key, BODY)
    (tmp_path / ".being-written").write_bytes(b"")
    kept.only({"b"})
    assert sorted(path.name for path in tmp_path.iterdir()) == [".being-written", "b"]
