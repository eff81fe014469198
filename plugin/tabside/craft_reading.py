"""From a root schematic and its craft file to a craft: the one place that joins reading and wiring."""

from __future__ import annotations

import os

from msgspec.structs import replace

from tabside.errors import TabsideError
from tabside.model.craft import Craft, CraftSettings, HeldBoard, Named, Oddity
from tabside.model.drawing import Drawing, Place
from tabside.read import Source, read_drawing
from tabside.wiring import build_craft
from tabside.words.nearest import did_you_mean


def read_craft(source: Source, *, kicad: int | None = None, variant: str | None = None) -> Craft:
    """The craft that a root schematic draws, with what its craft file says.

    `kicad` says by whose rules the drawing is read, 9's or 10's, and `variant` which of its design variants.

    `source` is the path of a root `.kicad_sch`, or a kicad-skip `Schematic` of it.  The craft file
    `<name>.craft.toml` is read from the same folder when it is there.

    Raises: TabsideError when a file cannot be read, or when the craft file speaks of what is not drawn.
    """
    return craft_of(read_drawing(source, kicad=kicad, variant=variant), source)


def craft_file_beside(source: Source) -> str | None:
    """The craft file that belongs to a root schematic, or None where there is none.

    A link that leads nowhere is there: reading it says so.
    """
    root = _root_of(source)
    beside = None if root is None else _craft_file_of(root)
    return beside if beside is not None and os.path.lexists(beside) else None


def _root_of(source: Source) -> str | None:
    """None for a schematic that was read from no file."""
    root = source if isinstance(source, (str, os.PathLike)) else getattr(source, "filepath", None)
    return os.fspath(root) if root else None


def _craft_file_of(root: str) -> str:
    return root.removesuffix(".kicad_sch") + ".craft.toml"


def craft_of(drawing: Drawing, source: Source) -> Craft:
    """The craft of a drawing that was read from `source`, with what the craft file beside it says."""
    craft_file = craft_file_beside(source)
    if craft_file is None:
        return _told_of_like_names(build_craft(drawing, CraftSettings()), source)
    from tabside.read.craft.file import read_craft_file  # not loaded when no craft file asks for it

    settings = read_craft_file(craft_file)
    craft = build_craft(drawing, settings, _boards(settings, craft_file))
    for named in settings.named:
        _must_exist(named, craft, os.path.basename(craft_file))
    return craft


def _told_of_like_names(craft: Craft, source: Source) -> Craft:
    """With a warning for each file whose name is the craft file's but for capitals: it is not read."""
    root = _root_of(source)
    if root is None:
        return craft
    right = os.path.basename(_craft_file_of(root))
    try:
        beside = sorted(os.listdir(os.path.dirname(root) or os.curdir))
    except OSError:
        return craft
    told = tuple(
        Oddity(
            "craft-file",
            "",
            f"{name} is not read: the craft file of this drawing is called {right}",
            Place(os.path.basename(root), "/", (0.0, 0.0)),
        )
        for name in beside
        if name != right and name.casefold() == right.casefold()
    )
    return replace(craft, oddities=(*told, *craft.oddities)) if told else craft


def _boards(settings: CraftSettings, craft_file: str) -> tuple[HeldBoard, ...]:
    """The boards of the files that the craft file names."""
    if not settings.board_files:
        return ()
    from tabside.board_reading import read_boards  # not loaded when no craft file asks for it
    from tabside.read.craft.board_files import board_paths

    return read_boards(board_paths(settings.board_files, craft_file))


def _must_exist(named: Named, craft: Craft, file: str) -> None:
    """Raise when a board, termination or contact that the craft file speaks of is not in the craft.

    One that is drawn and not fitted, in this variant or for now, is no mistake: what is said of it waits.
    """
    unfitted = {(part.board, part.reference) for part in craft.parts if part.dnp}
    boards = {termination.board for termination in craft.terminations.values()}
    if (named.board, named.termination) in unfitted:
        return
    if named.board not in boards:
        if named.termination is None and named.board in {board for board, _ in unfitted}:
            return
        raise TabsideError(f'{named.key}: no board "{named.board}" is drawn{_near(named.board, boards)}', file=file)
    if named.termination is None:
        return
    on_board = {t.reference for t in craft.terminations.values() if t.board == named.board}
    if named.termination not in on_board:
        hint = _near(named.termination, on_board)
        raise TabsideError(f'{named.key}: board "{named.board}" has no {named.termination}{hint}', file=file)
    if named.contact is None:
        return
    contacts = {contact.number for contact in craft.terminations[named.termination].contacts}
    if named.contact not in contacts:
        hint = _near(named.contact, contacts)
        raise TabsideError(f"{named.key}: {named.termination} has no contact {named.contact}{hint}", file=file)


def _near(text: str, right: set[str]) -> str:
    return "; " + did_you_mean(text, sorted(right), f"there are {', '.join(sorted(right)[:12])}") if right else ""
