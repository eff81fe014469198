"""What stands in place of a file is refused with a line, and nothing waits for it."""

from __future__ import annotations

import os
import socket

import pytest

from tabside.errors import TabsideError
from tabside.ordinary_file import read_ordinary


def pipe(path):
    os.mkfifo(path)


def device(path):
    path.symlink_to("/dev/zero")


def endless(path):
    path.symlink_to("/dev/stdin")


def link_to_pipe(path):
    os.mkfifo(path.with_name("pipe"))
    path.symlink_to("pipe")


def plug(path):
    socket.socket(socket.AF_UNIX).bind(str(path))


def folder(path):
    path.mkdir()


def link_to_nothing(path):
    path.symlink_to("nothing")


def link_to_itself(path):
    path.symlink_to(path.name)


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (pipe, "is not an ordinary file"),
        (device, "is not an ordinary file"),
        (link_to_pipe, "is not an ordinary file"),
        (plug, "is not an ordinary file"),
        (folder, "is a folder"),
        (link_to_nothing, "no such file"),
        (link_to_itself, "cannot be read"),
    ],
)
def test_what_is_no_ordinary_file_is_one_line(make, said, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)  # the name of a socket is short
    make(tmp_path / "x")
    with pytest.raises(TabsideError, match=rf"x: .*{said}"):
        read_ordinary(tmp_path / "x", "x")


def test_a_file_above_the_bound_is_not_read(tmp_path):
    (tmp_path / "x").write_bytes(b"12345")
    assert read_ordinary(tmp_path / "x", most_bytes=5) == b"12345"
    with pytest.raises(TabsideError, match="larger than 4 bytes"):
        read_ordinary(tmp_path / "x", most_bytes=4)


def test_a_name_that_no_file_can_have_is_said(tmp_path):
    with pytest.raises(TabsideError, match="no file can have this name"):
        read_ordinary("a\0b")
