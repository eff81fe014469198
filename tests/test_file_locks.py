"""Who holds a file, told of what is open."""

import os

import pytest

from tabside import file_locks
from tabside.file_locks import Lock, lock


def test_the_second_who_asks_is_told_and_gets_it_when_the_first_is_gone(tmp_path):
    pytest.importorskip("fcntl")
    path = tmp_path / "held"
    path.touch()
    first, second = (os.open(path, os.O_RDONLY) for _ in range(2))
    assert lock(first) is Lock.OURS and lock(second) is Lock.THEIRS
    os.close(first)
    assert lock(second) is Lock.OURS
    os.close(second)


def test_where_there_are_no_locks_nobody_is_kept_out(tmp_path, monkeypatch):
    monkeypatch.setattr(file_locks, "fcntl", None)
    handle = os.open(tmp_path, os.O_RDONLY)
    assert lock(handle) is Lock.NONE
    os.close(handle)
