"""A plug drawn cavity by cavity: face `tabs`, face `printed`, or the row counted from the mark where no face is known.

Our own design, black on white.  Drawn in millimetres of paper.  The faces of a plug stand side by side where the page
is wide enough; a cavity is nine wide at most, and at least four and a half, and four times a pitch up to 1.0 mm.
The row at true size and a ruler stand beside them, to check the print.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from tabside.facts import families
from tabside.make.sheets.cable_plan import CableEnd, Cavity, PlugRow
from tabside_exporters.formats.cells import clean
from tabside_exporters.formats.page_templates import rendered_part

CELL_MM = 9.0  # a cavity on paper, when the faces fit the page
SMALLEST_MM = 4.5  # so that its number can be read
SCALE = 4.0  # least scale of plugs up to 1.0 mm pitch
PAGE_MM = 186.0  # A4 and Letter upright, with their margins
PAD_MM = 4.5  # on both sides of a row: room for the mark
GAP_MM = 3.0
ROW_MM, TAG_FROM_MM, LETTER_MM = 40.0, 36.0, 2.3  # height of a face; where the leads' tags begin, and a letter
_MOST_LETTERS = 10


class Box(Struct, frozen=True):
    """One cavity as drawn."""

    x: float
    number: str
    lead: str  # its mark, and its colour where that is known
    signal: str
    is_first: bool


class FaceLook(Struct, frozen=True):
    """Which face it is, and what is drawn for it; as it stands, a row of which no face is known."""

    is_tabs: bool = False  # release windows towards you, leads down
    is_printed: bool = False
    outer_latch: bool = False  # drawn and crossed out: it is not the side of the locking tab
    opening: str = ""  # words at the board's edge


class Face(Struct, frozen=True):
    """One row of cavities, left to right, with what stands around it."""

    title: str
    boxes: tuple[Box, ...]
    cell: float
    width: float
    mark_left: bool  # on which side of the row contact 1's mark lies
    look: FaceLook
    height: float


class TrueSize(Struct, frozen=True):
    """The row at its real size, with a ruler."""

    pitch_mm: float
    dots: tuple[float, ...]
    width: float


def plug_faces(
    row: PlugRow, end: CableEnd, *, among: int | None = None, true_size: bool = True, before: bool = True
) -> str:
    """SVG of a plug: before (where work starts from a cable) and after on face `tabs`, then as printed on the board.

    `among`: so many faces stand side by side; else those of this plug alone.  `true_size`: the row itself, too.
    `before`: as it is before the steps, too.

    Where the drawing does not settle a face, the row is drawn counted from the mark and nothing is guessed.
    """
    tabs_known = end.contact_1_on_tabs is not None
    stays = not before or [box.lead for box in row.before] == [box.lead for box in row.after]
    rows = [(when, row_) for when, row_ in (("before", () if stays else row.before), ("after", row.after)) if row_]
    printed = bool(row.after) and end.contact_1 is not None and end.entry is not None
    cell = _cell_mm(among or len(rows) + printed, len(row.after), end.family)
    faces = [
        _tabs(f"{end.shown}, {when}", cavities, end, cell)
        if tabs_known
        else _counted(f"{end.shown}, {when}", cavities, cell)
        for when, cavities in rows
    ]
    if printed:
        faces.append(_printed(f"{end.shown}, as printed on the board", row.after, end, cell))
    return _drawn(faces, _true_size(end.family, len(row.after)) if true_size else None, end)


def plug_of_board(name: str, cavities: Sequence[Cavity], end: CableEnd) -> str:
    """SVG of a plug as printed on the board and as it lies in the hand, so far as each is known; else counted."""
    in_hand, printed = end.contact_1_on_tabs is not None, end.contact_1 is not None
    cell = _cell_mm(max(1, printed + in_hand), len(cavities), end.family)
    faces = [_printed(f"{name}, as printed on the board", cavities, end, cell)] if printed else []
    faces += [_tabs(f"{name}, cable plug in the hand", cavities, end, cell)] if in_hand else []
    return _drawn(faces or [_counted(name, cavities, cell)], _true_size(end.family, len(cavities)), end)


def family_at_true_size(family: str) -> str:
    """SVG of six cavities at their real size with a ruler: hold a plug beside it."""
    true_size = _true_size(family, 6)
    title = clean(families.family(family).title)
    return rendered_part("bench/plug.svg.j2", faces=(), true_size=true_size, scale="", family=title, pad=PAD_MM)


def plug_pair(
    name: str, before: Sequence[Cavity], after: Sequence[Cavity], ends: tuple[CableEnd, CableEnd] | None = None
) -> str:
    """SVG of the old and the new order of one plug, as it lies in the hand where both are known; else counted."""
    cell = _cell_mm(2, max(len(before), len(after)), None)
    rows = [(f"{name}, old", before), (f"{name}, new", after)]
    if ends is not None and all(end.contact_1_on_tabs is not None for end in ends):
        faces = [_tabs(title, row, end, cell) for (title, row), end in zip(rows, ends, strict=True)]
    else:
        faces = [_counted(title, row, cell) for title, row in rows]
    return _drawn([face for face in faces if face.boxes], None, None)


def _cell_mm(faces: int, ways: int, family: str | None) -> float:
    """Width of a cavity, so that so many faces stand side by side if they can."""
    pitch = families.family(family).pitch_mm if family is not None else None
    room = (PAGE_MM - (faces - 1) * GAP_MM) / max(1, faces) - 2 * PAD_MM
    least = max(SMALLEST_MM, SCALE * min(pitch or 1.0, 1.0))
    whole = (PAGE_MM - 2 * PAD_MM) / max(1, ways)  # a single face never leaves the page
    return round(min(CELL_MM, max(room / max(1, ways), least), whole) - 0.005, 2)  # never wider


def _tabs(title: str, cavities: Sequence[Cavity], end: CableEnd, cell: float) -> Face:
    left = end.contact_1_on_tabs == "left"
    latch = end.family is not None and families.family(end.family).latch == "positive"
    what = f"{title}: locking-tab side facing you, wires down"
    return _face(what, cavities, left, cell, FaceLook(is_tabs=True, outer_latch=latch))


def _printed(title: str, cavities: Sequence[Cavity], end: CableEnd, cell: float) -> Face:
    opening = "opening, towards you" if end.entry == "side" else "opens upwards"
    left = end.contact_1 == "left"
    return _face(title, cavities, left, cell, FaceLook(is_printed=True, opening=opening))


def _counted(title: str, cavities: Sequence[Cavity], cell: float) -> Face:
    what = f"{title}: counted from the contact-1 mark, side not known"
    return _face(what, cavities, True, cell, FaceLook())


def _face(title: str, cavities: Sequence[Cavity], left: bool, cell: float, look: FaceLook) -> Face:
    shown = list(cavities) if left else list(cavities)[::-1]
    boxes = tuple(_box(n * cell, cavity, is_first=cavity is cavities[0]) for n, cavity in enumerate(shown))
    height = max(ROW_MM, TAG_FROM_MM + LETTER_MM * max((len(box.lead) for box in boxes), default=0))
    return Face(clean(title), boxes, cell, cell * len(cavities), left, look, height)


def _box(x: float, cavity: Cavity, *, is_first: bool) -> Box:
    lead = " ".join(filter(None, (cavity.lead, cavity.colour)))
    return Box(x, clean(cavity.number), clean(lead), _short(cavity.signal), is_first)


def _true_size(family: str | None, ways: int) -> TrueSize | None:
    pitch = families.family(family).pitch_mm if family is not None else None
    if pitch is None or not ways or pitch * ways > PAGE_MM:
        return None
    return TrueSize(pitch, tuple(pitch * n for n in range(ways)), pitch * (ways - 1))


def _drawn(faces: Sequence[Face], true_size: TrueSize | None, end: CableEnd | None) -> str:
    if not faces:
        return ""
    pitch = true_size.pitch_mm if true_size is not None else None
    scale = "" if pitch is None else f"drawn {faces[0].cell / pitch:.2g} : 1 along the row"
    family = "" if end is None or end.family is None else families.family(end.family).title
    return rendered_part(
        "bench/plug.svg.j2", faces=faces, true_size=true_size, scale=scale, family=clean(family), pad=PAD_MM
    )


def _short(text: str) -> str:
    said = clean(text)
    return said if len(said) <= _MOST_LETTERS else said[: _MOST_LETTERS - 1] + "…"
