"""The plugs of a board file as terminations: resolved by the code that resolves the symbols of a drawing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec.structs import replace

from tabside.errors import TabsideError
from tabside.model.board import BoardFile, BoardPlug
from tabside.model.craft import HeldBoard, Termination
from tabside.model.drawing import Drawing, DrawnNet, DrawnPin, DrawnSymbol, Place
from tabside.model.names import as_name, without_blanks
from tabside.wiring.terminations.fields import BOARD_FILE, text_of
from tabside.wiring.terminations.symbols import Gathered
from tabside.wiring.terminations.terminations import termination_of


def held_board(board: BoardFile) -> HeldBoard:
    """A board file with its plugs resolved to contacts.

    Raises: TabsideError with file and key when a field of it cannot be read.
    """
    return HeldBoard(board, tuple(_resolved(board, plug) for plug in board.plugs))


def held_boards(terminations: Iterable[Termination], boards: Iterable[HeldBoard]) -> Mapping[str, HeldBoard]:
    """The board file of each drawn board: the one that its field `Board file` names, else the one of its own name."""
    by_name = {as_name(held.board.name): held for held in boards}
    found: dict[str, HeldBoard] = {}
    for termination in terminations:
        named = file_named(termination) or (termination.board if termination.board_stated else "")
        held = by_name.get(as_name(named))
        if held is not None:
            found.setdefault(termination.board, held)
    return found


def with_facts_of_files(
    terminations: Mapping[str, Termination], held: Mapping[str, HeldBoard]
) -> dict[str, Termination]:
    """Drawn plugs with the rails and levels of their board files, where the drawing says none.

    The drawing outranks the file; where both say something, or a contact has another name, the check `board-differs`
    compares them.
    """
    return {
        reference: _with_facts(termination, plug)
        if (board := held.get(termination.board)) is not None and (plug := board.plug_of(termination)) is not None
        else termination
        for reference, termination in terminations.items()
    }


def _with_facts(drawn: Termination, plug: Termination) -> Termination:
    silent = not (drawn.gives or drawn.takes or any(contact.either for contact in drawn.contacts))
    of_file = {contact.number: contact for contact in plug.contacts}
    contacts = []
    for contact in drawn.contacts:
        other = of_file.get(contact.number)
        if other is None or contact.flagged_empty or without_blanks(contact.label) != without_blanks(other.label):
            contacts.append(contact)
            continue
        if silent and (other.gives or other.takes or other.either):
            role = replace(other.role, label=contact.label)
            contact = replace(contact, gives=other.gives, takes=other.takes, either=other.either, role=role)
        contacts.append(
            replace(
                contact,
                level=contact.level or other.level,
                level_max_v=other.level_max_v if contact.level_max_v is None else contact.level_max_v,
            )
        )
    rails = (plug.gives, plug.takes) if silent else (drawn.gives, drawn.takes)
    return replace(drawn, contacts=tuple(contacts), gives=rails[0], takes=rails[1])


def file_named(termination: Termination) -> str:
    """What its field `Board file` says; "" when there is none."""
    return text_of(termination.fields, BOARD_FILE)


def _resolved(board: BoardFile, plug: BoardPlug) -> Termination:
    symbol = _symbol(board, plug)
    part = Gathered(
        reference=plug.name,
        units=(symbol,),
        fields=symbol.fields,
        pins={pin.number: pin for pin in symbol.pins},
        places={pin.number: symbol.place for pin in symbol.pins},
        pin_count=plug.ways,
    )
    nets = tuple(DrawnNet(f"{plug.name}-{pin.number}", ((0, k),)) for k, pin in enumerate(symbol.pins))
    drawing = Drawing(board.name, board.title, "", "", "", (symbol,), nets, (), ())
    termination, oddities = termination_of(part, drawing)
    for oddity in oddities:
        if oddity.what != "view":
            raise TabsideError(f"{plug.key}: {oddity.message}", file=board.file)
    return termination


def _symbol(board: BoardFile, plug: BoardPlug) -> DrawnSymbol:
    """The symbol that a person would have drawn: contacts 1 to n with numbers for names."""
    pins = tuple(DrawnPin(str(n + 1), str(n + 1), "passive", n, False, (0.0, 0.0)) for n in range(plug.ways))
    fields = {
        "Reference": plug.name,
        "Value": plug.name,
        "Footprint": plug.footprint,
        "Board": board.name,
        **plug.fields,
    }
    place = Place(board.file, plug.key, (0.0, 0.0))
    return DrawnSymbol(plug.name, 1, plug.name, plug.footprint, "", fields, (), pins, False, True, True, False, place)
