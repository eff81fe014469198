"""One change between two revisions, with what to do about it on the bench."""

from __future__ import annotations

from typing import NamedTuple

ADDED, REMOVED, MOVED, CHANGED = "added", "removed", "moved", "changed"
SUBJECTS = ("board", "termination", "lead", "cable", "part", "fact", "setting", "acceptance", "finding")
_NOT_STATED = "not stated"


class Change(NamedTuple):
    kind: str  # "added", "removed", "moved", "changed"
    subject: str  # one of SUBJECTS
    name: str
    before: str | None
    after: str | None
    bench: str
    board: str = ""  # the changed board that it follows from, "" when it follows from none
    place: str = ""  # of a termination the board that it is on
    is_work: bool = True  # False where there is nothing to do


def changed_fact(name: str, before: str, after: str, bench: str) -> Change:
    return Change(CHANGED, "fact", name, before or _NOT_STATED, after or _NOT_STATED, bench)
