from __future__ import annotations

import os
from pathlib import Path

import pytest

from layout.files.errors import OutputError
from layout.files.whole import is_folder, write_whole


def everything(folder: Path) -> dict[str, bytes | None]:
    return {
        str(path.relative_to(folder)): path.read_bytes() if path.is_file() else None
        for path in sorted(folder.rglob("*"))
    }


def test_all_files_appear_and_nothing_beside_them(tmp_path: Path) -> None:
    (tmp_path / "a.svg").write_bytes(b"old")
    write_whole({tmp_path / "a.svg": b"new", tmp_path / "a.png": b"png"})
    assert everything(tmp_path) == {"a.svg": b"new", "a.png": b"png"}


def test_one_missing_folder_is_made_but_not_two(tmp_path: Path) -> None:
    write_whole({tmp_path / "out" / "a.svg": b"new"})
    assert (tmp_path / "out" / "a.svg").read_bytes() == b"new"
    with pytest.raises(OutputError, match="nothing was touched; a file in a folder"):
        write_whole({tmp_path / "no" / "no" / "a.svg": b"new"})
    assert not (tmp_path / "no").exists()


def test_where_the_last_fails_the_first_is_as_it_was(tmp_path: Path) -> None:
    (tmp_path / "a.svg").write_bytes(b"old")
    (tmp_path / "c.png").mkdir()
    before = everything(tmp_path)
    with pytest.raises(OutputError, match=r"c\.png cannot be written"):
        write_whole(
            {
                tmp_path / "a.svg": b"new",
                tmp_path / "b.svg": b"new",
                tmp_path / "c.png": b"new",
                tmp_path / "new" / "d.png": b"new",
            }
        )
    assert everything(tmp_path) == before


def test_where_replacing_fails_half_way_the_old_files_come_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a.svg").write_bytes(b"old")
    real = Path.replace

    def failing(self: Path, target: Path) -> Path:
        if target.name == "c.svg":
            raise OSError(28, os.strerror(28), str(target))
        return real(self, target)

    monkeypatch.setattr(Path, "replace", failing)
    with pytest.raises(OutputError, match=r"c\.svg cannot be written \(No space left"):
        write_whole({tmp_path / f"{name}.svg": b"new" for name in "abc"})
    assert everything(tmp_path) == {"a.svg": b"old"}


def test_a_file_where_a_folder_should_be(tmp_path: Path) -> None:
    (tmp_path / "out").write_bytes(b"file")
    with pytest.raises(OutputError, match="cannot be written"):
        write_whole({tmp_path / "out" / "a.svg": b"new"})
    assert everything(tmp_path) == {"out": b"file"}


def test_a_pipe_is_neither_waited_for_nor_replaced(tmp_path: Path) -> None:
    pipe = tmp_path / "b.svg"
    os.mkfifo(pipe)
    with pytest.raises(
        OutputError, match=r"b\.svg cannot be written \(a pipe or a dev"
    ):
        write_whole({tmp_path / "a.svg": b"new", pipe: b"new"})
    assert pipe.is_fifo()
    assert everything(tmp_path) == {"b.svg": None}


def test_a_name_that_is_too_long_is_told_and_is_no_folder(tmp_path: Path) -> None:
    long = tmp_path / f"{'x' * 300}.svg"
    assert not is_folder(long)
    with pytest.raises(
        OutputError, match=r"/x+\.svg cannot be written \(File name too"
    ):
        write_whole({long: b"new"})


def test_the_file_that_is_meant_is_named(tmp_path: Path) -> None:
    (tmp_path / "out").write_bytes(b"file")
    with pytest.raises(OutputError, match=r"/out/a\.svg cannot be written \(Not a dir"):
        write_whole({tmp_path / "out" / "a.svg": b"new"})
