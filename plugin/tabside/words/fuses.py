"""What is done with fuses and breakers: a fuse is taken out of its holder, a breaker is switched off."""

from __future__ import annotations

from collections.abc import Iterable

from tabside.words.contacts import listed

_ALL = 40  # that many names are told, with no "and more"


def _apart(names: Iterable[str]) -> tuple[list[str], list[str]]:
    """Fuses, and breakers, by KiCad's reference letters."""
    told = list(dict.fromkeys(names))
    breakers = [name for name in told if name.startswith("CB")]
    return [name for name in told if name not in breakers], breakers


def _both(names: Iterable[str], fuses: str, breakers: str, between: str = " and ") -> str:
    """Each in its own words; `fuses`, `breakers`: with {} where the names stand."""
    apart = _apart(names)
    said = [words.format(listed(some, _ALL)) for words, some in zip((fuses, breakers), apart, strict=True) if some]
    return between.join(said)


def take_out(names: Iterable[str]) -> str:
    """ "take the fuse out of F1 and switch CB1 off"."""
    return _both(names, "take the fuse out of {}", "switch {} off")


def take_out_again(names: Iterable[str]) -> str:
    return _both(names, "take the fuse out of {} again", "switch {} off again")


def put_in(names: Iterable[str]) -> str:
    """ "put the fuse into F1, switch CB1 on"."""
    return _both(names, "put the fuse into {}", "switch {} on", ", ")


def put_back(names: Iterable[str]) -> str:
    return _both(names, "put the fuse back into {}", "switch {} on again", ", ")


def leave_out(names: Iterable[str]) -> str:
    """ "leave the fuse out of F1 and leave CB1 off"."""
    return _both(names, "leave the fuse out of {}", "leave {} off")


def out_now(name: str) -> str:
    """As a caution: "Fuse out of F1."."""
    return _both((name,), "Fuse out of {}.", "{} off.")


def are_breakers(names: Iterable[str]) -> bool:
    """Whether there is no fuse among them, in whose place a smoke stopper could go."""
    return not _apart(names)[0]
