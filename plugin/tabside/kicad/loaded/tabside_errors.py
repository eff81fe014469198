"""What keeps a button or the script door from doing its job, in words for a person."""

from __future__ import annotations


class DoorError(Exception):
    """What is wrong, and what to do about it."""

    def __init__(self, what: str, todo: str) -> None:
        super().__init__(f"{what} {todo}")
        self.what = what
        self.todo = todo
