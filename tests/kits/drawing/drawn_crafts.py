"""Draws whole crafts for tests: terminations placed on a grid, their contacts joined in the way that is asked for.

    sheet = craft_drawing(
        boards={
            "pilot": [termination("J1", "5V TX RX GND", family="JST SH", gives="5V 1A")],
            "radio": [termination("J2", "5V TX RX GND", family="JST GH", takes="5V 0.2A")],
        },
        joins=[
            join("J1:1 J2:1", by="global", name="+5V"),
            join("J1:2 J2:3"),
            join("J1:3 J2:2", by="local", name="LINK"),
            join("J1:4 J2:4", by="power", name="GND"),
            empty("J3:2"),
        ],
    )
    path = sheet.write(tmp_path)

Without `name` a net drawn by wires keeps the name that KiCad gives it.  With `own_sheets=True` each board stands in a
sheet of its own, with the field Board on the sheet symbol, and its joined contacts come out as sheet pins.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from drawing.drawing_kit import Sheet, Symbol, connector, power
from drawing.drawing_symbols import Point

STEP = 2.54
COLUMN_X = 177.8  # pins of all terminations lie on this line, each at a height of its own
TOP_Y = 25.4
FIELD_NAMES = {
    "board": "Board",
    "kind": "Kind",
    "family": "Family",
    "signals": "Signals",
    "seen_from": "Seen from",
    "contact_1": "Contact 1",
    "entry": "Entry",
    "tabs": "Tabs",
    "gives": "Gives",
    "takes": "Takes",
    "either": "Either",
    "level": "Level",
    "level_max": "Level max",
    "leads_max": "Leads max",
}


@dataclass(frozen=True)
class Drawn:
    """One symbol of a craft."""

    reference: str
    symbol: Symbol
    fields: Mapping[str, str]
    value: str = ""
    footprint: str = ""
    dnp: bool = False
    in_bom: bool = True


@dataclass(frozen=True)
class Join:
    """Contacts of one net, each (reference, pin number), and how they are drawn together."""

    contacts: tuple[tuple[str, str], ...]
    by: str = "wire"  # wire, local, global, power, no_connect
    name: str = ""
    fields: Mapping[str, str] = field(default_factory=dict)  # on the label, or on a directive on the wire


def termination(
    reference: str,
    names: str | int | Sequence[str] = (),
    *,
    symbol: Symbol | None = None,
    value: str = "",
    footprint: str = "",
    types: str | Sequence[str] = "passive",
    numbers: Sequence[str] = (),
    dnp: bool = False,
    in_bom: bool = True,
    **fields: object,
) -> Drawn:
    """A termination, or any part, to be placed.

    `names`: pin names from contact 1 up, as text with blanks between, as a list, or as a count of nameless pins.
    `fields`: those of the drawing by keyword (family="JST SH", kind="pad", leads_max=2, seen_from="tabs"); any other
    keyword is a field of just that name.
    """
    listed = names.split() if isinstance(names, str) else names
    prefix = reference.rstrip("0123456789?")
    shown = {FIELD_NAMES.get(key, key): str(said) for key, said in fields.items() if said is not None}
    drawn = symbol or connector(listed, types=types, numbers=numbers, prefix=prefix)
    return Drawn(reference, drawn, shown, value or (drawn.name if symbol else ""), footprint, dnp, in_bom)


def contacts(text: str) -> tuple[tuple[str, str], ...]:
    """``"J1:4 J2:4"`` as pairs of reference and pin number."""
    return tuple((reference, digit) for reference, _, digit in (word.partition(":") for word in text.split()))


def join(text: str, *, by: str = "wire", name: str = "", fields: Mapping[str, str] | None = None) -> Join:
    """One net: contacts written "J1:4 J2:4".

    `by`: "wire" (with a local label on it when there is a name), "local" or "global" (a label at each contact),
    "power" (a power symbol at each).
    """
    if by != "wire" and not name:
        raise ValueError(f"a net drawn by {by} needs a name: {text}")
    return Join(contacts(text), by, name, dict(fields or {}))


def joins_straight(first: str, second: str, ways: int | Sequence[tuple[int, int]]) -> list[Join]:
    """One wire for each pair of contacts of two terminations: n to n, or the pairs as given."""
    pairs = [(k, k) for k in range(1, ways + 1)] if isinstance(ways, int) else ways
    return [join(f"{first}:{a} {second}:{b}") for a, b in pairs]


def empty(text: str) -> Join:
    """Contacts with a no-connect flag."""
    return Join(contacts(text), "no_connect")


def craft_drawing(
    boards: Mapping[str, Sequence[Drawn]],
    joins: Sequence[Join],
    *,
    loose: Sequence[Drawn] = (),
    name: str = "craft",
    title: Mapping[str, str] | None = None,
    own_sheets: bool = False,
    say_board: bool = True,
) -> Sheet:
    """A drawing of the craft; `write` it, or hand it to `turned` or `nested` first.

    `loose`: parts of no board (fuses, capacitors, splices).  `say_board=False` leaves the field Board out.
    """
    root = Sheet(name)
    root.title_block = dict(title or {})
    if own_sheets:
        ends = _boards_in_sheets(root, boards, joins)
    else:
        ends = {}
        for board, drawn in boards.items():
            _place(root, drawn, {"Board": board} if say_board else {}, ends)
    _place(root, loose, {}, ends)
    for lane, item in enumerate(joins):
        drawn_here = [ends[c] for c in item.contacts if not (own_sheets and c not in ends)]
        _draw(root, item, drawn_here, COLUMN_X - STEP * (lane + 3))
    return root


def _place(sheet: Sheet, drawn: Sequence[Drawn], more: Mapping[str, str], ends: dict[tuple[str, str], Point]) -> None:
    """Place the symbols below what is there already; note where their pins lie."""
    y = max((at[1] for at in ends.values()), default=TOP_Y - 4 * STEP) + 4 * STEP
    for item in drawn:
        pins = item.symbol.pins_of(1)
        top = max((p.at[1] for p in pins), default=0.0)
        left = min((p.at[0] for p in pins), default=0.0)
        placed = sheet.place(
            item.symbol,
            (COLUMN_X - left, y + top),
            reference=item.reference,
            value=item.value or item.symbol.name,
            footprint=item.footprint,
            fields={**more, **item.fields},
            dnp=item.dnp,
            in_bom=item.in_bom,
        )
        for pin in pins:
            ends[item.reference, pin.number] = placed.pin(pin.number)
        y = max((ends[item.reference, p.number][1] for p in pins), default=y) + 4 * STEP


def _boards_in_sheets(
    root: Sheet, boards: Mapping[str, Sequence[Drawn]], joins: Sequence[Join]
) -> dict[tuple[str, str], Point]:
    """Place each board in a sheet of its own; the joined contacts come out as sheet pins on one line."""
    ends: dict[tuple[str, str], Point] = {}
    wanted = [contact for item in joins for contact in item.contacts if item.by not in ("no_connect", "power")]
    y = TOP_Y
    for board, drawn in boards.items():
        child = Sheet(board.replace(" ", "_"))
        inside: dict[tuple[str, str], Point] = {}
        _place(child, drawn, {}, inside)
        out = [contact for contact in inside if contact in wanted]
        for contact in out:
            child.label("hierarchical", "_".join(contact), inside[contact], shape="bidirectional")
        for item in joins:  # flags and power symbols stay on the board's own sheet
            if item.by in ("no_connect", "power"):
                _draw(child, item, [inside[c] for c in item.contacts if c in inside], 0)
        pins = {"_".join(c): (COLUMN_X, y + STEP * (k + 1)) for k, c in enumerate(out)}
        size = (40.64, STEP * (len(out) + 2))
        use = root.sheet(child, board, (COLUMN_X, y), size, pins=pins, fields={"Board": board})
        ends |= {c: use.pin("_".join(c)) for c in out}
        y += size[1] + 4 * STEP
    return ends


def _draw(sheet: Sheet, item: Join, at: Sequence[Point], lane_x: float) -> None:
    if item.by == "no_connect":
        sheet.no_connect(*at)
    elif item.by == "wire":
        _trunk(sheet, item, sorted(at, key=lambda p: p[1]), lane_x)
    else:
        for x, y in at:
            sheet.wire((x, y), (x - STEP, y))
            if item.by == "power":
                sheet.place(power(item.name), (x - STEP, y), 270, value=item.name)
            else:
                sheet.label(item.by, item.name, (x - STEP, y), fields=item.fields)


def _trunk(sheet: Sheet, item: Join, at: Sequence[Point], lane_x: float) -> None:
    """A line to the left from each contact, and an upright one that joins them; no two nets share a lane."""
    for x, y in at:
        sheet.wire((x, y), (lane_x, y))
    sheet.wire(*((lane_x, y) for _, y in at))
    sheet.junction(*((lane_x, y) for _, y in at[1:-1]))
    if item.name:
        sheet.label("local", item.name, (lane_x, at[0][1]), fields=item.fields)
    elif item.fields:
        sheet.directive((lane_x, at[0][1]), fields=item.fields)
