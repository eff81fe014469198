"""What is done with fuses: one is taken out of its holder; a breaker is a switch to the hand."""

from __future__ import annotations

from collections.abc import Iterable

from tabside.words.contacts import listed

_ALL = 40  # that many names are told, with no "and more"


def take_out(names: Iterable[str]) -> str:
    """ "take the fuse out of F1"."""
    return f"take the fuse out of {_all(names)}"


def take_out_again(names: Iterable[str]) -> str:
    return f"{take_out(names)} again"


def put_in(names: Iterable[str]) -> str:
    """ "put the fuse into F1"."""
    return f"put the fuse into {_all(names)}"


def see_in(names: Iterable[str]) -> str:
    """ "See that the fuse is in F1": the tests before may have left it there."""
    told = list(dict.fromkeys(names))
    return f"See that the {'fuses are' if told[1:] else 'fuse is'} in {_all(told)}"


def put_back(names: Iterable[str]) -> str:
    return f"put the fuse back into {_all(names)}"


def leave_out(names: Iterable[str]) -> str:
    """ "leave the fuse out of F1"."""
    return f"leave the fuse out of {_all(names)}"


def out_now(name: str) -> str:
    """As a caution: "Fuse out of F1."."""
    return f"Fuse out of {name}."


def _all(names: Iterable[str]) -> str:
    return listed(list(dict.fromkeys(names)), _ALL)
