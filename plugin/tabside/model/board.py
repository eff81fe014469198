"""A board typed once: what its board file says, before its plugs are resolved to contacts."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct


class BoardPlug(Struct, frozen=True):
    """One plug, or one set of pads, of a board file, in the words of the schematic's fields."""

    name: str  # as printed beside it on the board
    key: str  # its path in the file: "plugs[2]"
    fields: Mapping[str, str]  # field of a symbol, as "Seen from" -> text; what the file does not say is left out
    ways: int  # contacts that it has
    reference: str | None = None  # of an own board: the connector in its KiCad project
    like: str | None = None  # id of the open connector guideline's port that it copies
    unknown: tuple[int, ...] = ()  # contacts of an own board whose signal its project does not say
    nets: tuple[str, ...] = ()  # of an own board: the net of its project at each contact, from 1 up; "" for none
    footprint: str = ""  # of an own board's connector


class BoardFile(Struct, frozen=True):
    """One `<name>.board.toml`."""

    name: str
    plugs: tuple[BoardPlug, ...]
    file: str  # as named in messages
    title: str = ""
    source: str = ""
    held: bool = False
    ground_point: str | None = None
    picture: str | None = None
    drawn_in: str | None = None
    file_hash: str = ""
    folder: str = ""  # where it lies: `picture` and `drawn_in` count from here
