"""Boards drawn back on one page, to hold against the maker's picture and against the real board."""

from __future__ import annotations

import base64
from collections.abc import Sequence
from pathlib import Path

from markupsafe import Markup
from msgspec import Struct

from tabside.boards.views import BoardView, PlugView, signal_words
from tabside.errors import TabsideError
from tabside.make.sheets.cable_plan import CableEnd, Cavity
from tabside.ordinary_file import read_ordinary
from tabside_exporters.formats.cells import clean
from tabside_exporters.formats.page_templates import rendered
from tabside_exporters.pages.plug_drawing import plug_of_board

LARGEST_PICTURE = 8 * 1024 * 1024
_PICTURES = {b"\x89PNG\r\n\x1a\n": "image/png", b"\xff\xd8\xff": "image/jpeg", b"GIF8": "image/gif"}


class _Plug(Struct, frozen=True):
    name: str
    what: str
    drawing: Markup
    sentence: str
    facts: tuple[str, ...]
    notes: tuple[str, ...]


class _Board(Struct, frozen=True):
    name: str
    heading: str
    source: str
    held: str
    picture: str  # a data URI, "" for none
    picture_words: str
    plugs: tuple[_Plug, ...]


def boards_page(views: Sequence[BoardView]) -> bytes:
    """The page of these boards as UTF-8."""
    boards = [_board(view) for view in views]
    title = boards[0].heading if len(boards) == 1 else f"{len(boards)} boards"
    return rendered(
        "boards/boards.html.j2",
        styles=("tables/page.css", "bench/plug.css", "boards/boards.css"),
        title=title,
        boards=boards,
    )


def _board(view: BoardView) -> _Board:
    picture, words = _picture(view)
    return _Board(
        name=clean(view.board.name),
        heading=clean(view.heading),
        source=clean(view.board.source),
        held=view.held_words,
        picture=picture,
        picture_words=words,
        plugs=tuple(_plug(plug) for plug in view.plugs),
    )


def _plug(plug: PlugView) -> _Plug:
    cavities = [Cavity(number, None, signal_words(signal), None) for number, signal in plug.contacts]
    end = CableEnd(
        "",
        plug.name,
        plug.family,
        len(cavities),
        True,
        plug.entry,
        plug.tabs_face,
        plug.contact_1,
        plug.contact_1_in_hand,
    )
    names = "; ".join(f"{number} {signal_words(signal)}" for number, signal in plug.contacts)
    facts = (("By contact number:", names), ("Gives", plug.gives), ("Takes", plug.takes))
    return _Plug(
        name=clean(plug.name),
        what=plug.what,
        drawing=Markup(plug_of_board(clean(plug.name), cavities, end)),
        sentence=clean(plug.sentence),
        facts=tuple(f"{word} {clean(text)}" for word, text in facts if text),
        notes=tuple(map(clean, plug.notes)),
    )


def _picture(view: BoardView) -> tuple[str, str]:
    """The picture as a data URI, and what is to be said of it."""
    if view.board.picture is None:
        return "", ""
    name = clean(view.board.picture)
    path = Path(view.board.folder) / view.board.picture
    try:
        content = read_ordinary(path, name, LARGEST_PICTURE)
    except TabsideError as error:
        return "", f"The picture is not shown: {error}."
    kind = next((kind for head, kind in _PICTURES.items() if content.startswith(head)), None)
    if kind is None:
        return "", f"{name} is no PNG, JPEG or GIF picture and is not shown."
    return f"data:{kind};base64,{base64.b64encode(content).decode('ascii')}", name
