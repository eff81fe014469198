"""Boards drawn back, as JSON."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tabside.boards.views import BoardView, PlugView


def boards_json(views: Sequence[BoardView]) -> dict[str, Any]:
    """One board as an object of its own; several under one roof."""
    boards = [_board(view) for view in views]
    return boards[0] if len(boards) == 1 else {"format": "tabside/boards/1", "boards": boards}


def _board(view: BoardView) -> dict[str, Any]:
    return {
        "format": "tabside/board/1",
        "board": view.board.name,
        "title": view.board.title,
        "source": view.board.source,
        "held": view.board.held,
        "plugs": [_plug(plug) for plug in view.plugs],
    }


def _plug(plug: PlugView) -> dict[str, Any]:
    return {
        "name": plug.name,
        "kind": plug.kind,
        "family": plug.family,
        "contacts": [
            {"contact": int(number) if number.isdecimal() else number, "signal": signal}
            for number, signal in plug.contacts
        ],
        "printed": None if plug.printed is None else list(plug.printed),
        "tabs": None if plug.in_hand is None else list(plug.in_hand),
        "contact_1": plug.contact_1,
        "words": plug.sentence,
        "notes": list(plug.notes),
    }
