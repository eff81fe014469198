"""Tabside's symbol library: terminations with the fields that Tabside reads already there.

    python -m tabside.kicad.symbols [FILE.kicad_sym]

The same version gives the same bytes.  Nothing in it is more than an ordinary symbol with fields: drawings made with
KiCad's own symbols are read just as well.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import NamedTuple

from tabside.facts.families import Family, family, family_by_text
from tabside.kicad.made_file import write_made
from tabside.kicad.symbol_nodes import (
    circle_node,
    effects_node,
    field_node,
    hide_node,
    library_text_of,
    line_node,
    number_node,
    pair_node,
    rectangle_node,
    symbol_format,
)
from tabside.kicad.versions import Version
from tabside.read.kicad.text.sexpr import Atom, Node
from tabside.words.contacts import counted, with_article

MOST_WAYS = 12
STEP = 2.54  # mm: KiCad's grid of pins
PAD_RADIUS = 1.016  # mm
_PIN = 3.81  # mm, from a contact's point to its body

# Families that have receptacles of their own here, with the footprints of KiCad's library that take their plugs.
# Which ones: common practice, no source; the footprints are looked up in KiCad's library by a test.
COMMON: Mapping[str, str] = {
    "jst_sh": "JST_SH_*_1x{ways:02d}-*",
    "jst_gh": "JST_GH_*_1x{ways:02d}-*",
    "jst_zh": "JST_ZH_*_1x{ways:02d}*",
    "jst_ph": "JST_PH_*_1x{ways:02d}*",
    "jst_xh": "JST_XH_*_1x{ways:02d}*",
    "jst_vh": "JST_VH_*_1x{ways:02d}_*",
    "molex_picoblade": "Molex_PicoBlade_*_1x{ways:02d}*",
    "molex_clikmate_150": "Molex_CLIK-Mate_*_1x{ways:02d}-1MP_P1.50mm_*",
    "hirose_df13": "Hirose_DF13-*_1x{ways:02d}_*",
    "pinheader_254": "PinHeader_1x{ways:02d}_P2.54mm_*",
    "amass_xt30": "AMASS_XT30*_1x{ways:02d}_*",
    "amass_xt60": "AMASS_XT60*_1x{ways:02d}_*",
    "amass_xt90": "AMASS_XT90*_1x{ways:02d}_*",
    "amass_mr30": "AMASS_MR30*_1x{ways:02d}_*",
}
FIELDS = ("Board", "Kind", "Family", "Signals", "Gives", "Takes", "Either", "Level", "Level max")
_FACES = ("Seen from", "Contact 1", "Entry", "Tabs")
_SHOWN = ("Board",)


class LibrarySymbol(NamedTuple):
    """One symbol of the library."""

    name: str
    letters: str  # of its reference
    ways: int
    description: str
    keywords: str
    fields: Mapping[str, str]  # those that Tabside reads, empty ones to be filled in
    footprints: str = ""  # KiCad's filter
    look: str = "plug"  # plug, pads, leads, splice, fuse


def library_symbols() -> tuple[LibrarySymbol, ...]:
    """All symbols of the library, in the order of their names."""
    found = [*_of_families(), *_pads(), *_bare_leads(), *_in_line_parts()]
    return tuple(sorted(found, key=lambda symbol: symbol.name))


@cache
def library_text(version: Version) -> str:
    """The library in the file format of a version of KiCad, or of the newest one known here."""
    file_format = symbol_format(version)
    return library_text_of((_symbol(symbol, file_format) for symbol in library_symbols()), version)


def _of_families() -> Iterator[LibrarySymbol]:
    for family_id, filter_ in COMMON.items():
        known = family(family_id)
        name = known.id.upper().removeprefix("GENERIC_")
        circuits = known.circuits or frozenset()
        for ways in sorted(n for n in circuits if 2 <= n <= MOST_WAYS):
            words = f"{known.title}, {ways}-way"
            footprints = filter_.format(ways=ways)
            yield LibrarySymbol(
                f"Receptacle_{name}_{ways:02d}",
                "J",
                ways,
                f"Board connector (header) for {with_article(known.title)} cable plug, {ways}-way",
                f"receptacle header connector {words}",
                {**_empty(), **dict.fromkeys(_FACES, ""), "Kind": "receptacle", "Family": _written(known)},
                footprints,
            )
            yield LibrarySymbol(
                f"Captive_{name}_{ways:02d}",
                "J",
                ways,
                f"Leads of a part (motor, camera, pack) that end in {with_article(known.title)} plug, {ways}-way",
                f"captive leads plug {words}",
                {**_empty(), "Kind": "captive", "Family": _written(known)},
                look="leads",
            )


def _written(known: Family) -> str:
    """The family as the field says it: its title where that is read back, else its id."""
    return known.title if family_by_text(known.title) == known else known.id


def _pads() -> Iterator[LibrarySymbol]:
    for ways in range(1, MOST_WAYS + 1):
        fields = {**_empty(), "Kind": "pad", "Leads max": ""}
        del fields["Family"]
        words = "One bare pad" if ways == 1 else f"{ways} bare pads beside each other"
        filters = "SolderWire* TestPoint_Pad* " if ways == 1 else "SolderWire* "
        yield LibrarySymbol(
            f"Pads_{ways:02d}",
            "J",
            ways,
            f"{words} of a board, for leads to be soldered",
            "pad solder",
            fields,
            filters.strip(),
            look="pads",
        )


def _bare_leads() -> Iterator[LibrarySymbol]:
    for ways in range(1, 7):
        fields = {**_empty(), "Kind": "captive"}
        del fields["Family"]
        yield LibrarySymbol(
            f"Captive_bare_{ways:02d}",
            "J",
            ways,
            f"{counted(ways, 'lead')} of a part (motor, camera, pack) with bare ends",
            "captive leads motor phases",
            fields,
            look="leads",
        )


def _in_line_parts() -> Iterator[LibrarySymbol]:
    yield LibrarySymbol(
        "Splice", "X", 1, "Splice: any number of wires", "splice joint", {"Kind": "splice"}, "", "splice"
    )
    yield LibrarySymbol("Fuse_in_line", "F", 2, "In-line fuse: a wire on each side", "fuse protection", {}, "", "fuse")


def _empty() -> dict[str, str]:
    return dict.fromkeys(FIELDS, "")


def _symbol(symbol: LibrarySymbol, file_format: int) -> Node:
    top = _top(symbol)
    bottom = round(top - STEP * (symbol.ways - 1), 4)
    across = symbol.look == "fuse"
    above = (0.0, 3.81) if across else (0.0, top + (5.08 if symbol.fields.get("Board") is not None else 3.81))
    own = [
        ("Reference", symbol.letters, above, False),
        ("Value", symbol.name, (0.0, -3.81) if across else (0.0, bottom - 3.81), False),
        ("Footprint", "", (0.0, 0.0), True),
        ("Datasheet", "~", (0.0, 0.0), True),
    ]
    described = [("Description" if file_format >= 20231120 else "ki_description", symbol.description)]
    described += [("ki_keywords", symbol.keywords)]
    described += [("ki_fp_filters", symbol.footprints)] if symbol.footprints else []
    fields = [
        (n, v, (0.0, top + 2.54) if n in _SHOWN else (0.0, 0.0), n not in _SHOWN) for n, v in symbol.fields.items()
    ]
    ordered = [*own, *fields, *((name, text, (0.0, 0.0), True) for name, text in described)]
    node: Node = [Atom("symbol"), symbol.name]
    if symbol.look in ("splice", "fuse"):
        node.append([Atom("pin_numbers"), hide_node(file_format)])
    node.append([Atom("pin_names"), pair_node("offset", "1.016"), hide_node(file_format)])
    node += [pair_node("exclude_from_sim", "no")] if file_format >= 20231120 else []
    node += [pair_node("in_bom", "yes"), pair_node("on_board", "yes")]
    node += [field_node(field, number, file_format) for number, field in enumerate(ordered)]
    node.append([Atom("symbol"), f"{symbol.name}_0_1", *_body(symbol)])
    node.append([Atom("symbol"), f"{symbol.name}_1_1", *_pins(symbol)])
    node += [pair_node("embedded_fonts", "no")] if file_format >= 20241209 else []
    return node


def _top(symbol: LibrarySymbol) -> float:
    """The height of contact 1, y upwards, on the grid of pins."""
    return 0.0 if symbol.look in ("splice", "fuse") else round(STEP * ((symbol.ways - 1) // 2), 4)


def _pins(symbol: LibrarySymbol) -> Iterator[Node]:
    if symbol.look == "splice":
        yield _pin("1", (0.0, 0.0), 0, 0.0)
    elif symbol.look == "fuse":
        yield _pin("1", (-5.08, 0.0), 0, 2.54)
        yield _pin("2", (5.08, 0.0), 180, 2.54)
    else:
        for contact in range(1, symbol.ways + 1):
            length = 5.08 - PAD_RADIUS if symbol.look == "pads" else _PIN
            yield _pin(str(contact), (-5.08, _top(symbol) - STEP * (contact - 1)), 0, length)


def _pin(number: str, at: tuple[float, float], angle: int, length: float) -> Node:
    place: Node = [Atom("at"), number_node(at[0]), number_node(at[1]), Atom(str(angle))]
    node: Node = [Atom("pin"), Atom("passive"), Atom("line"), place, [Atom("length"), number_node(length)]]
    return [*node, [Atom("name"), "~", effects_node()], [Atom("number"), number, effects_node()]]


def _body(symbol: LibrarySymbol) -> Iterator[Node]:
    top = _top(symbol)
    bottom = top - STEP * (symbol.ways - 1)
    if symbol.look == "splice":
        yield circle_node((0.0, 0.0), PAD_RADIUS, "outline")
    elif symbol.look == "fuse":
        yield rectangle_node((-2.54, 0.762), (2.54, -0.762), 0.254)
        yield line_node([(-2.54, 0.0), (2.54, 0.0)], 0.0)
    elif symbol.look == "pads":
        for contact in range(symbol.ways):
            yield circle_node((0.0, top - STEP * contact), PAD_RADIUS, "none")
    else:
        yield rectangle_node((-1.27, top + 1.27), (1.27, bottom - 1.27), 0.254)
        if symbol.look == "leads":  # they come out of the part as a bundle
            yield line_node([(1.27, top), (3.81, (top + bottom) / 2), (1.27, bottom)], 0.254)
        yield line_node([(-1.27, top + 1.27), (0.0, top + 1.27), (-1.27, top), (-1.27, top + 1.27)], 0.0, "outline")


def main(arguments: list[str]) -> int:
    target = Path(arguments[0]) if arguments else Path("tabside.kicad_sym")
    return write_made(target, library_text((9, 0)).encode())


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
