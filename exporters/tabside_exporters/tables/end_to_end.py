"""End to end: for each net inside an own board, where it comes out on the other boards."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.documents.build import CraftBuild
from tabside.documents.chains import Chain, chains
from tabside.documents.document import Document
from tabside.documents.rows import Column, Row
from tabside.model.craft import Contact, Craft

COLUMNS = (
    Column("board", "board of your own design; its KiCad project names its nets"),
    Column("net", "net in that project"),
    Column("termination", "its connector"),
    Column("contact", "contact there"),
    Column("signal", "what the contact is called"),
    Column("through", "wires on the way, and parts between them"),
    Column("to_board", "where it comes out"),
    Column("to_termination", "connector there"),
    Column("to_contact", "contact there"),
    Column("to_signal", "what it is called there"),
    Column("to_net", "net in that board's project, where it is one of your own, too"),
    Column("note", "remarks"),
)


def end_to_end(build: CraftBuild) -> Iterator[Row]:
    """One row for each contact of an own board and each contact that it reaches."""
    return (_row(build.craft, chain) for chain in chains(build.craft))


def _row(craft: Craft, chain: Chain) -> Row:
    far = chain.far
    return {
        "board": chain.board,
        "net": chain.net,
        "termination": _place(craft, chain.own),
        "contact": chain.own.number,
        "signal": chain.own.label,
        "through": ", ".join(chain.through),
        "to_board": chain.far_board,
        "to_termination": _place(craft, far) if far else "",
        "to_contact": far.number if far else "",
        "to_signal": far.label if far else "",
        "to_net": chain.far_net,
        "note": "" if far else "no wire here",
    }


def _place(craft: Craft, contact: Contact) -> str:
    """A connector by its reference, and the name printed beside it."""
    value = craft.terminations[contact.termination].value
    return f"{contact.termination} ({value})" if value else contact.termination


def _notes(build: CraftBuild) -> tuple[str, ...]:
    if any(held.board.drawn_in for held in build.craft.held_boards.values()):
        return ("The nets are those of the boards' own KiCad projects, as saved.",)
    return ("No board of this craft has a board file with drawn_in, so there is no chain to show.",)


DOCUMENT = Document(
    id="end-to-end",
    title="End to end",
    purpose="Where each signal of a board of your own design comes out on the other boards",
    row="chain",
    columns=COLUMNS,
    rows=end_to_end,
    notes=_notes,
    group="board",
)
