from __future__ import annotations

import os
from pathlib import Path

import pytest

from layout.files.errors import InputError
from layout.files.source import LARGEST_BYTES, read_text


def refused(path: Path) -> InputError:
    with pytest.raises(InputError, match="would be right") as caught:
        read_text(path, "a build file")
    return caught.value


def test_text_with_and_without_a_byte_order_mark(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    for content in (b"a: \xc2\xb1 1", b"\xef\xbb\xbfa: \xc2\xb1 1"):
        path.write_bytes(content)
        assert read_text(path, "a build file") == "a: ± 1"


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    assert refused(tmp_path / "none.yaml").found == "no file"
    (tmp_path / "a.yaml").touch()
    assert refused(tmp_path / "a.yaml" / "b.yaml").found == "no file"
    assert "cannot be read" in refused(tmp_path / ("x" * 4000)).found
    assert "cannot be read" in refused(Path("a\0b")).found


def test_a_folder(tmp_path: Path) -> None:
    error = refused(tmp_path)
    assert error.found == "a folder"
    assert error.right == "the name of a build file"


@pytest.mark.parametrize("name", ["a.yaml", "link.yaml"])
def test_a_pipe_is_not_waited_for(tmp_path: Path, name: str) -> None:
    os.mkfifo(tmp_path / "a.yaml")
    (tmp_path / "link.yaml").symlink_to(tmp_path / "a.yaml")
    error = refused(tmp_path / name)
    assert error.found == "a pipe or a device"
    assert error.right == "the name of a build file"


def test_a_device() -> None:
    assert refused(Path(os.devnull)).found == "a pipe or a device"


def test_a_link_that_leads_to_itself(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").symlink_to(tmp_path / "b.yaml")
    (tmp_path / "b.yaml").symlink_to(tmp_path / "a.yaml")
    assert "cannot be read" in refused(tmp_path / "a.yaml").found


def test_the_largest_file(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(b"#" * LARGEST_BYTES)
    assert len(read_text(path, "a build file")) == LARGEST_BYTES
    path.write_bytes(b"#" * (LARGEST_BYTES + 1))
    assert refused(path).found == "more than 1 MB"


def test_what_is_not_utf_8_is_told_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(b"a: 1\nb: \xe9t\xe9\n")
    error = refused(path)
    assert (error.line, error.found) == (2, "the byte 0xe9, which is not UTF-8")
    path.write_bytes("a: 1".encode("utf-16"))
    assert refused(path).line == 1
