"""What belongs together because it is joined piece by piece: nets on a run, boards on a ground, leads of a cable."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from typing import Generic, Self, TypeVar

_T = TypeVar("_T", bound=Hashable)


class Groups(Generic[_T]):
    """Disjoint sets.  What was never joined is a group of its own."""

    def __init__(self, members: Iterable[_T] = ()) -> None:
        self._parent = {member: member for member in members}

    def root(self, member: _T) -> _T:
        """The member that stands for the whole group."""
        parent = self._parent
        above = parent.setdefault(member, member)
        while above != member:
            higher = parent[above]
            parent[member] = higher  # the next question has a shorter way
            member, above = above, higher
        return above

    def join(self, member: _T, to: _T) -> None:
        """Put the group of one into that of another, whose root stands for both."""
        self._parent[self.root(member)] = self.root(to)

    def together(self, one: _T, other: _T) -> bool:
        return self.root(one) == self.root(other)

    def copy(self) -> Self:
        twin = type(self)()
        twin._parent = dict(self._parent)
        return twin

    @property
    def members(self) -> tuple[_T, ...]:
        """All that were named, in the order in which they were."""
        return tuple(self._parent)


class Numbered(Groups[int]):
    """Groups of things that are numbered as they come up, from 0."""

    def add(self) -> int:
        """The next number, a group of its own."""
        number = len(self._parent)
        self._parent[number] = number
        return number
