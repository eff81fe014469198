"""Ports of the published open connector guideline, that a board file may name instead of listing signals."""

from __future__ import annotations

from functools import cache

from msgspec import Struct

from tabside.facts import tables
from tabside.facts.tables import Row
from tabside.model.names import as_one_word

_POWERS = {"power_out": "Gives", "power_in": "Takes"}


class Port(Struct, frozen=True):
    """One port as the guideline has it, seen from the board that follows it."""

    id: str  # "telemetry"
    title: str  # as the guideline calls it
    family: str  # id
    signals: tuple[str, ...]  # from contact 1 up
    gives: str  # in the words of the field: "1:5V", "" for none
    takes: str
    level: str  # of its signals, "" where the guideline states none
    source: str


def port_ids() -> tuple[str, ...]:
    return tuple(_ports())


def port(text: str) -> Port | None:
    """The port of this name, whatever its case, blanks, hyphens and underscores; None when there is none."""
    return {as_one_word(known): port for known, port in _ports().items()}.get(as_one_word(text))


@cache
def _ports() -> dict[str, Port]:
    rows: dict[str, list[Row]] = {}
    for row in tables.table_rows("ports"):
        rows.setdefault(row["port"], []).append(row)
    return {name: _port(name, contacts) for name, contacts in rows.items()}


def _port(name: str, contacts: list[Row]) -> Port:
    levels = {row["volts"] for row in contacts if row["role"] not in _POWERS and _is_logic(row)}
    return Port(
        id=name,
        title=contacts[0]["title"],
        family=contacts[0]["family_id"],
        signals=tuple(row["signal"] for row in contacts),
        gives=_rails(contacts, "power_out"),
        takes=_rails(contacts, "power_in"),
        level=levels.pop() if len(levels) == 1 else "",
        source=contacts[0]["source"],
    )


def _is_logic(row: Row) -> bool:
    """A digital signal whose volts the guideline states; the ranges of analog ones and of driven loads are no level."""
    return bool(row["volts"]) and not row["role"].endswith(("_sense", "_drive"))


def _rails(contacts: list[Row], role: str) -> str:
    return "; ".join(f"{row['contact']}:{row['volts']}V" for row in contacts if row["role"] == role and row["volts"])
