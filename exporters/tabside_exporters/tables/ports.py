"""The port list: what to set in each board's firmware."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.documents.build import CraftBuild
from tabside.documents.document import Document
from tabside.documents.ports import Port, ports
from tabside.documents.rows import Column, Row

COLUMNS = (
    Column("board", "board that is set up"),
    Column("termination", "reference of its symbol"),
    Column("port", "the port, what is connected to it, and how"),
    Column("signals", "names of the board's own contacts, with their numbers"),
    Column("other_board", "what is connected"),
    Column("there", "contacts at that end, and what lies between"),
    Column("note", "remarks"),
)


def port_list(build: CraftBuild) -> Iterator[Row]:
    """One row for each port that carries more than ground and supply."""
    return (_row(port) for port in ports(build.craft))


def _row(port: Port) -> Row:
    return {
        "board": port.board,
        "termination": port.termination,
        "port": port.words,
        "signals": ", ".join(port.signals),
        "other_board": ", ".join(port.others),
        "there": ", ".join(port.there),
        "note": "; ".join(port.notes),
    }


def _notes(build: CraftBuild) -> tuple[str, ...]:
    notes = ["Propellers off (rover: wheels off the ground) before you test motor outputs."]
    if any(port.lacks_number for port in ports(build.craft)):
        notes.append(
            "Ports without a number (serial of J18): look the number up on the board, or enter it in Signals (TX2, "
            "RX2, SDA1, M3)."
        )
    return tuple(notes)


DOCUMENT = Document(
    id="port-list",
    title="Port list",
    purpose="Which port of a board does what, and how to set it",
    row="port",
    columns=COLUMNS,
    rows=port_list,
    notes=_notes,
    group="board",
)
