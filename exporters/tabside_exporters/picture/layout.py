"""Where boards and cables lie: in columns from the pack to the ends of the craft, by a library for layered graphs.

A cable is a box of its own between the columns of the boards that it joins, so that its number has a place and a cable
with three ends is drawn like any other.  Lengths are units of the drawing; it is shown at its natural size.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from msgspec import Struct

from tabside.model.groups import Groups
from tabside_exporters.picture.content import BoardShown, CableShown, Content, Shown, Thing

LETTER = 6.7  # width of an average letter at 11 units
TITLE_LETTER = 9.4  # of the bold ones
TITLE, ROW, PAD = 19, 15, 5
MARK = 17  # width of a finding's mark
_BETWEEN, _COLUMN = 9, 38  # free space between boxes of a column, and between columns
_WIDEST = 210


class Box(Struct, frozen=True):
    """A placed rectangle."""

    x: float
    y: float
    width: float
    height: float
    column: int

    @property
    def right(self) -> float:
        return self.x + self.width

    @property
    def middle(self) -> float:
        return self.y + self.height / 2


class Layout(Struct, frozen=True):
    width: float
    height: float
    boards: Mapping[str, Box]  # by name
    cables: Mapping[str, Box]  # by label
    columns: tuple[tuple[float, float], ...] = ()  # left and right edge of each column


def laid_out(content: Content) -> Layout:
    """Boxes for all boards that cables meet, and all cables."""
    depth = _depths(content)
    placed: dict[Thing, Box] = {}
    top = 0.0
    for piece in _pieces(content):
        part = _placed(piece, depth)
        placed |= {key: Box(box.x, box.y + top, box.width, box.height, box.column) for key, box in part.items()}
        top = max(box.y + box.height for box in placed.values()) + 2 * _BETWEEN
    columns = _columns(placed)
    placed = _in_columns(placed, columns)
    width = max((box.right for box in placed.values()), default=0.0)
    height = max((box.y + box.height for box in placed.values()), default=0.0)
    boards = {name: box for (what, name), box in placed.items() if what is Shown.BOARD}
    cables = {label: box for (what, label), box in placed.items() if what is Shown.CABLE}
    return Layout(width, height, boards, cables, columns)


def _board_of(content: Content) -> dict[str, str]:
    return {reference: board.name for board in content.boards for reference in board.references}


def _depths(content: Content) -> dict[str, int]:
    """How many cables away from the pack each board is; without a pack, from the board that most cables meet."""
    board_of = _board_of(content)
    beside: dict[str, set[str]] = {board.name: set() for board in content.boards if board.references}
    cables: dict[str, int] = dict.fromkeys(beside, 0)
    for cable in content.cables:
        names = {board_of[reference] for reference in cable.ends}
        for name in names:
            beside[name] |= names - {name}
            cables[name] += 1
    order = {board.name: n for n, board in enumerate(content.boards)}
    busiest = sorted(beside, key=lambda name: (-cables[name], order[name]))
    depth: dict[str, int] = {}
    starts = [board.name for board in content.boards if board.is_start and board.references]
    while True:
        depth |= dict.fromkeys(starts, 0)
        now = starts
        while now:
            following = sorted({n for name in now for n in beside[name] if n not in depth}, key=lambda n: order[n])
            for name in following:
                depth[name] = depth[now[0]] + 1
            now = following
        starts = [name for name in busiest if name not in depth][:1]
        if not starts:
            return depth


def _pieces(content: Content) -> list[Content]:
    """The craft in parts that no cable joins, in the order of their first boards."""
    board_of = _board_of(content)
    joined = Groups[str]()
    for cable in content.cables:
        first, *others = (board_of[reference] for reference in cable.ends)
        for other in others:
            joined.join(other, first)
    groups: dict[str, list[BoardShown]] = {}
    for board in content.boards:
        if board.references:
            groups.setdefault(joined.root(board.name), []).append(board)
    cables: dict[str, list[CableShown]] = {}
    for cable in content.cables:
        cables.setdefault(joined.root(board_of[cable.ends[0]]), []).append(cable)
    return [Content(tuple(boards), tuple(cables.get(name, ()))) for name, boards in groups.items()]


class _View:
    """A box as the library wants it: its columns are rows of ours, so that width and height change places."""

    def __init__(self, width: float, height: float) -> None:
        self.w, self.h = height, width
        self.xy = (0.0, 0.0)


def _placed(content: Content, depth: Mapping[str, int]) -> dict[Thing, Box]:
    from grandalf.graphs import Edge, Graph, Vertex
    from grandalf.layouts import SugiyamaLayout

    board_of = _board_of(content)
    vertices: dict[Thing, Any] = {}
    for board in content.boards:
        box = (Shown.BOARD, board.name)
        vertices[box] = Vertex(box)
        vertices[box].view = _View(*board_size(board))
    edges = []
    for cable in content.cables:
        box = (Shown.CABLE, cable.label)
        vertices[box] = Vertex(box)
        vertices[box].view = _View(*cable_size(cable))
        names = list(dict.fromkeys(board_of[reference] for reference in cable.ends))
        least = min(depth[name] for name in names)
        for name in names:
            end = (Shown.BOARD, name)
            first, second = (end, box) if depth[name] == least else (box, end)
            edges.append(Edge(vertices[first], vertices[second]))
    graph = Graph(list(vertices.values()), edges)
    layout = SugiyamaLayout(graph.C[0])
    layout.xspace, layout.yspace = _BETWEEN, _COLUMN
    roots = [vertices[Shown.BOARD, board.name] for board in content.boards if depth[board.name] == 0]
    layout.init_all(roots=roots, inverted_edges=[])
    layout.draw(10)
    columns = [list(layer) for layer in layout.layers]
    return _apart(columns)


def _apart(columns: Sequence[Sequence[Any]]) -> dict[Thing, Box]:
    """The library's places, with whatever it laid on each other moved apart, from the top of the drawing down."""
    boxes: dict[Thing, Box] = {}
    for n, column in enumerate(columns):
        below = float("-inf")
        for vertex in sorted(column, key=lambda placed: placed.view.xy[0] - placed.view.w / 2):
            view = vertex.view
            y = max(view.xy[0] - view.w / 2, below)
            below = y + view.w + _BETWEEN
            boxes[vertex.data] = Box(0.0, y, view.h, view.w, n)
    highest = min(box.y for box in boxes.values())
    return {key: Box(box.x, box.y - highest, box.width, box.height, box.column) for key, box in boxes.items()}


def _columns(boxes: Mapping[Thing, Box]) -> tuple[tuple[float, float], ...]:
    widths = [0.0] * (1 + max((box.column for box in boxes.values()), default=-1))
    for box in boxes.values():
        widths[box.column] = max(widths[box.column], box.width)
    edges, left = [], 0.0
    for width in widths:
        edges.append((left, left + width))
        left += width + _COLUMN
    return tuple(edges)


def _in_columns(boxes: Mapping[Thing, Box], columns: Sequence[tuple[float, float]]) -> dict[Thing, Box]:
    """Each box at the left of its column, over all parts of the craft alike."""
    return {key: Box(columns[box.column][0], box.y, box.width, box.height, box.column) for key, box in boxes.items()}


def board_size(board: BoardShown) -> tuple[float, float]:
    """Width and height of a board's box."""
    widths = [TITLE_LETTER * len(board.name) + MARK * len(board.note.marks)]
    widths += [LETTER * len(plug.text) + MARK * len(plug.note.marks) for plug in board.plugs]
    widths += [LETTER * len(line) for line in (*board.note.lines, *unused_lines(board))]
    height = (
        TITLE + ROW * (len(board.plugs) + len(board.note.lines) + len(unused_lines(board))) + PAD * bool(board.plugs)
    )
    return min(max(widths) + 2 * PAD, _WIDEST), height


def unused_lines(board: BoardShown) -> tuple[str, ...]:
    if not board.unused:
        return ()
    return (f"not wired: {', '.join(board.unused)}" if len(board.unused) <= 3 else f"{len(board.unused)} not wired",)


def cable_size(cable: CableShown) -> tuple[float, float]:
    """Width and height of a cable's box."""
    marks = MARK * len(cable.note.marks)
    widths = [TITLE_LETTER * len(cable.title) + marks, *(LETTER * len(line) for line in cable.note.lines)]
    return min(max(widths) + 2 * PAD, _WIDEST), TITLE + 13 * len(cable.note.lines) + 2
