"""The picture as shapes for its template, and as SVG: boards, plugs, cables, marks, and the lines between them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from markupsafe import Markup
from msgspec import Struct

from tabside.model.craft import Craft
from tabside.model.natural import natural
from tabside_exporters.formats.page_templates import rendered_part
from tabside_exporters.picture.content import BoardShown, CableShown, Content, Mark, Note, Notes, PlugShown, content_of
from tabside_exporters.picture.layout import (
    LETTER,
    MARK,
    PAD,
    ROW,
    TITLE,
    TITLE_LETTER,
    Box,
    Layout,
    laid_out,
    unused_lines,
)

_MARGIN = 4


class PlacedMark(Struct, frozen=True):
    x: float
    y: float  # of its middle
    mark: Mark


class Text(Struct, frozen=True):
    x: float
    y: float  # of the base line
    text: str
    full: str  # what did not fit, in whole
    bold: bool = False


class Shape(Struct, frozen=True):
    """A board or a cable."""

    box: Box
    kind: str  # "board", "cable"
    texts: tuple[Text, ...]
    marks: tuple[PlacedMark, ...]
    link: str
    strong: bool
    dashed: bool
    words: str  # for those who cannot see it


class Line(Struct, frozen=True):
    path: str
    dot: tuple[float, float]  # where it meets the plug
    strong: bool
    dashed: bool


class Picture(Struct, frozen=True):
    width: float
    height: float
    shapes: tuple[Shape, ...]
    lines: tuple[Line, ...]
    words: str
    alone: tuple[str, ...]  # boards that no cable meets

    @property
    def fits(self) -> bool:
        """Whether it is still read when it is shrunk to the width of a laptop's screen."""
        return self.width <= 1500

    @property
    def upright(self) -> bool:
        """Whether it is larger on a sheet that stands upright."""
        return self.height > self.width


def draw_craft(craft: Craft, notes: Notes) -> Picture:
    """The whole craft, with these notes."""
    content = content_of(craft, notes)
    layout = laid_out(content)
    board_of = {reference: board for board in content.boards for reference in board.references}
    ports = dict(_ports(content, layout))
    shapes = [_board(board, layout.boards[board.name], ports) for board in content.boards if board.references]
    shapes += [_cable(cable, layout.cables[cable.label], board_of) for cable in content.cables]
    lines = tuple(line for cable in content.cables for line in _lines(cable, layout, board_of, ports))
    boards = sum(bool(board.references) for board in content.boards)
    alone = tuple(board.name for board in content.boards if not board.references)
    words = f"boards and parts: {boards}; cables and loose connections between them: {len(content.cables)}"
    return Picture(layout.width + 2 * _MARGIN, layout.height + 2 * _MARGIN, tuple(shapes), lines, words, alone)


def craft_svg(picture: Picture) -> Markup:
    """The picture as a part of a page; the page's style gives it its look."""
    return rendered_part("craft/craft-picture.svg.j2", picture=picture, margin=_MARGIN)


def _ports(content: Content, layout: Layout) -> Iterator[tuple[str, float]]:
    """Where each termination lies on its board's box, from the top: plugs in the order of what they are joined to."""
    at: dict[str, list[float]] = {}
    for cable in content.cables:
        for reference in cable.ends:
            at.setdefault(reference, []).append(layout.cables[cable.label].middle)
    for board in content.boards:
        box = layout.boards.get(board.name)
        if box is None:
            continue
        if not board.plugs:
            yield from ((reference, box.y + TITLE / 2) for reference in board.references)
        ordered = sorted(board.plugs, key=lambda plug: sum(at[plug.reference]) / len(at[plug.reference]))
        for n, plug in enumerate(ordered):
            yield plug.reference, box.y + TITLE + ROW * (n + len(board.note.lines)) + ROW / 2


def _board(board: BoardShown, box: Box, ports: Mapping[str, float]) -> Shape:
    texts = [_text(box, box.y + 14, board.name, len(board.note.marks), bold=True)]
    marks = list(_marks(board.note, box, box.y + TITLE / 2))
    for n, line in enumerate(board.note.lines):
        texts.append(_text(box, box.y + TITLE + ROW * n + 11, line, 0))
    for plug in board.plugs:
        y = ports[plug.reference]
        texts.append(_text(box, y + 4, plug.text, len(plug.note.marks)))
        marks += _marks(plug.note, box, y)
    lines = unused_lines(board)
    for n, line in enumerate(reversed(lines)):
        texts.append(_text(box, box.y + box.height - PAD - ROW * n - 2, line, 0))
    said = ", ".join([board.name, *(plug.text for plug in board.plugs), *_said(board.note, *_notes(board.plugs))])
    strong = board.note.strong
    return Shape(box, "board", tuple(texts), tuple(marks), board.note.link, strong, board.note.dashed, said)


def _notes(plugs: tuple[PlugShown, ...]) -> list[Note]:
    return [plug.note for plug in plugs]


def _said(*notes: Note) -> list[str]:
    return [mark.words for note in notes for mark in note.marks]


def _cable(cable: CableShown, box: Box, board_of: Mapping[str, BoardShown]) -> Shape:
    note = cable.note
    texts = [_text(box, box.y + 14, cable.title, len(note.marks), bold=True)]
    texts += [_text(box, box.y + TITLE + 13 * n + 9, line, 0) for n, line in enumerate(note.lines)]
    marks = tuple(_marks(note, box, box.y + TITLE / 2))
    ends = " to ".join(f"{board_of[reference].name} {reference}" for reference in sorted(cable.ends, key=natural))
    words = ", ".join([f"{cable.label}: {ends}", *note.lines, *_said(note)])
    return Shape(box, "cable", tuple(texts), marks, note.link, note.strong, note.dashed, words)


def _text(box: Box, y: float, text: str, marks: int, *, bold: bool = False) -> Text:
    room = box.width - 2 * PAD - MARK * marks
    most = max(int(room / (TITLE_LETTER if bold else LETTER) + 0.01), 1)
    fits = text if len(text) <= most else text[: most - 1] + "…"
    return Text(box.x + PAD, y, fits, "" if fits == text else text, bold)


def _marks(note: Note, box: Box, y: float) -> Iterator[PlacedMark]:
    for n, mark in enumerate(reversed(note.marks)):
        yield PlacedMark(box.right - PAD - MARK * n - MARK / 2, y, mark)


def _path(board: Box, y: float, cable: Box, layout: Layout) -> str:
    """From a plug to a cable: level beside boxes, up or down only where the space between two columns is free."""
    left, right, first, last = (
        (board, cable, y, cable.middle) if board.column < cable.column else (cable, board, cable.middle, y)
    )
    free, until = layout.columns[left.column][1], layout.columns[right.column][0]
    half = (free + until) / 2
    curve = f"C{half:.1f} {first:.1f} {half:.1f} {last:.1f} {until:.1f} {last:.1f}"
    return f"M{left.right:.1f} {first:.1f} H{free:.1f} {curve} H{right.x:.1f}"


def _lines(
    cable: CableShown, layout: Layout, board_of: Mapping[str, BoardShown], ports: Mapping[str, float]
) -> Iterator[Line]:
    box = layout.cables[cable.label]
    for reference in cable.ends:
        board = layout.boards[board_of[reference].name]
        y = ports[reference]
        path = _path(board, y, box, layout)
        start = board.right if board.column < box.column else board.x
        yield Line(path, (start, y), cable.note.strong, cable.note.dashed)
