"""The table of labels as patterns: which roles a name can have, with or without an index."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from tabside.facts import tables
from tabside.facts.labels.role_kinds import is_field_only, kind_of, role_names
from tabside.facts.labels.text import clean_label, split_index, takes_index, words_of
from tabside.model.roles import RoleClass

RS232 = "RS232"


@cache
def roles_of_words(words: tuple[str, ...]) -> tuple[tuple[str, ...], int | None]:
    """Names of the roles that these words can have by the table, and the index in them.

    `TX3`, `UART1 TX` and `FMU CH5 EXT` are found under TX1, UART1_TX and FMU_CH1_EXT.  No roles: the words are unknown.
    """
    bases, index = _without_index(words)
    found = _plain().get("".join(words))
    if found is None and index is not None:
        found = _indexed().get(bases)
        if found is None and takes_index(bases):
            found = _plain().get(bases)
    if found is None and index is None:
        found = _index_inside().get(bases)
    return found or (), index


def explicit_role(words: Sequence[str]) -> str | None:
    """A role that no label yields, named outright: `ESC_SIGNAL`, `RS232 TX`, `TXD RS-232`, `POWER_IN`."""
    found = _explicit().get("_".join(words).lower())
    if found is not None:
        return found
    joined = "_".join(words).replace("RS_232", RS232)
    line = tuple(word for word in joined.split("_") if word != RS232)
    if not line or RS232 not in joined.split("_"):
        return None
    names, _ = roles_of_words(line)
    return next((level for name in names if (level := name.replace("uart_", "rs232_")) in _explicit()), None)


def _without_index(words: Sequence[str]) -> tuple[str, int | None]:
    """The words joined without their indices, and the first index.  A word that is all digits is an index."""
    bases: list[str] = []
    indices: list[int] = []
    for word in words:
        if word.isdecimal() and len(word) <= 2 and bases:
            indices.append(int(word))
            continue
        base, index = split_index(word)
        bases.append(base)
        if index is not None:
            indices.append(index)
    return "".join(bases), indices[0] if indices else None


@cache
def _labels() -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Each row's role, and the words of its label."""
    return tuple((row["role"], words_of(clean_label(row["label"]).plain)) for row in tables.table_rows("synonyms"))


@cache
def _plain() -> dict[str, tuple[str, ...]]:
    """Labels as they stand in the table."""
    found: dict[str, tuple[str, ...]] = {}
    for role, words in _labels():
        key = "".join(words)
        if role not in found.get(key, ()):
            found[key] = (*found.get(key, ()), role)
    return found


@cache
def _indexed() -> dict[str, tuple[str, ...]]:
    """Labels that stand with an index in the table, without it: they need one."""
    return _stripped(inside_only=False)


@cache
def _index_inside() -> dict[str, tuple[str, ...]]:
    """Labels whose index belongs to a word before the last (UART1_TX): they may go without."""
    return _stripped(inside_only=True)


def _stripped(*, inside_only: bool) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for role, words in _labels():
        bases, index = _without_index(words)
        if index is None or (kind := kind_of(role)) is None or kind.cls in (RoleClass.SUPPLY, RoleClass.GROUND):
            continue
        last_has_index = words[-1].isdecimal() or split_index(words[-1])[1] is not None
        if inside_only and last_has_index:
            continue
        if role not in found.get(bases, ()):
            found[bases] = (*found.get(bases, ()), role)
    return found


@cache
def _explicit() -> dict[str, str]:
    return {name: name for name in role_names() if is_field_only(name)}
