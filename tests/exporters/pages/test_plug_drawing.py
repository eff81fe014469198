"""Plugs as drawn: order on each face, nothing guessed, to scale, nothing of a name that could change the page."""

from __future__ import annotations

import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from msgspec.structs import replace

from crafts.craft_kit import pads, plug
from crafts.small_craft import small_craft
from programs.footprint_kit import numbered_pads, row_with_opening_below
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.facts.footprints import match_footprint
from tabside.make.sheets.cable_plan import CableEnd, Cavity, PlugRow
from tabside.make.sheets.plug_views import Views
from tabside_exporters.pages.plug_drawing import (
    CELL_MM,
    GAP_MM,
    LETTER_MM,
    PAGE_MM,
    SCALE,
    SMALLEST_MM,
    TAG_FROM_MM,
    plug_faces,
    plug_pair,
)

ROW = tuple(Cavity(str(n), f"W{n}", signal, "RD") for n, signal in enumerate(("5V", "TX", "RX", "GND"), start=1))


def end(**known):
    facts = {"entry": "side", "tabs": "away", "contact_1": "left", "contact_1_on_tabs": "left"} | known
    return CableEnd("pilot", "J1", "jst_sh", 4, True, **facts)


def numbers(svg):
    """Cavity numbers of each face, from left to right as drawn."""
    tree = ElementTree.fromstring(svg.replace("\u00a0", " "))
    faces = []
    for face in tree.iter("svg"):
        texts = [t for t in face.iter("text") if "number" in (t.get("class") or "").split()]
        if texts:
            faces.append([t.text for t in sorted(texts, key=lambda t: float(t.get("x")))])
    return faces


# The face of each case was turned in the hand; common practice, no source.
@pytest.mark.parametrize(
    ("known", "tabs", "printed"),
    [
        ({}, "1234", "1234"),
        ({"tabs": "board", "contact_1_on_tabs": "right"}, "4321", "1234"),
        ({"contact_1": "right", "contact_1_on_tabs": "right"}, "4321", "4321"),
        ({"entry": "top", "tabs": "near", "contact_1_on_tabs": "right"}, "4321", "1234"),
    ],
)
def test_the_row_runs_as_each_face_shows_it(known, tabs, printed):
    drawn = numbers(plug_faces(PlugRow("pilot", "J1", (), ROW), end(**known)))
    assert drawn == [list(tabs), list(printed)]


def test_a_face_that_is_not_known_is_not_drawn():
    svg = plug_faces(PlugRow("pilot", "J1", ROW, ROW), end(tabs=None, contact_1_on_tabs=None, contact_1=None))
    assert "locking-tab side facing you" not in svg and "as printed" not in svg
    assert "counted from the contact-1 mark" in svg
    assert "window" not in svg


def cells(svg):
    """Widths of the cavities of the first face, and of its whole picture, in mm of paper."""
    face = next(ElementTree.fromstring(svg).iter("svg"))
    xs = sorted({float(each.get("x")) for each in face.iter("rect") if each.get("class") == "cavity"})
    return {round(b - a, 2) for a, b in pairwise(xs)}, float(face.get("width").removesuffix("mm"))


def row_of(ways):
    return tuple(Cavity(str(n), f"W{n}", f"S{n}", "RD") for n in range(1, ways + 1))


@pytest.mark.parametrize("ways", range(2, 16))
def test_a_plug_of_one_millimetre_stands_at_four_to_one_at_least(ways):
    svg = plug_faces(PlugRow("pilot", "J1", row_of(ways)[::-1], row_of(ways)), replace(end(), ways=ways))
    assert svg.count("<figure>") == 3  # before, after, as printed
    (cell,), width = cells(svg)
    assert 4.5 <= cell <= CELL_MM and cell / 1.0 >= SCALE >= 4
    assert f"drawn {cell:.2g} : 1" in svg
    if cell > SMALLEST_MM:  # three of them stand side by side
        assert 3 * width + 2 * GAP_MM <= PAGE_MM + 0.05
    assert width <= PAGE_MM


def test_the_tag_of_every_lead_stands_within_its_picture():
    long = (Cavity("1", "spare 12", "5V", "light blue"), *ROW[1:])
    (face, *_) = ElementTree.fromstring(plug_faces(PlugRow("pilot", "J1", (), long), end())).iter("svg")
    height = float(face.get("viewBox").split()[3])
    assert height >= TAG_FROM_MM + LETTER_MM * len("spare 12 light blue")


def test_true_size_is_the_pitch_and_the_ruler_twenty_millimetres():
    svg = plug_faces(PlugRow("pilot", "J1", (), ROW), end())
    true = svg[svg.index('class="true"') :]
    dots = [float(x) for x in re.findall(r'cx="([\d.]+)"', true)]
    assert [round(b - a, 2) for a, b in pairwise(dots)] == [1.0, 1.0, 1.0]
    width, box = re.search(r'viewBox="0 0 ([\d.]+) 10" width="([\d.]+)mm"', true).groups()
    assert width == box  # a unit of the drawing is a millimetre of paper
    assert "h20" in true


def test_the_outer_latch_is_drawn_and_crossed_out_where_there_is_one():
    latched = CableEnd("pilot", "J1", "jst_gh", 4, True, "side", "away", "left", "left")
    assert "outer latch crossed out: not the side with the latch, but the one with the small windows" in plug_faces(
        PlugRow("pilot", "J1", (), ROW), latched
    )
    assert "outer latch" not in plug_faces(PlugRow("pilot", "J1", (), ROW), end())


def test_names_are_escaped():
    row = (Cavity("1", "W1", "<script>", '"><b>'),)
    svg = plug_faces(PlugRow("<i>", "J1", (), row), end())
    assert "<script>" not in svg and "<b>" not in svg and "<i>" not in svg


def test_old_and_new_order_stand_side_by_side():
    svg = plug_pair("pilot/J1", ROW, ROW[::-1])
    assert numbers(svg) == [list("1234"), list("4321")]
    assert "pilot/J1, old" in svg and "pilot/J1, new" in svg
    assert "pilot/J1, new: counted from the contact-1 mark, side not known" in svg


def test_old_and_new_order_lie_as_in_the_hand_where_both_are_known():
    known, unknown = (
        CableEnd("pilot", "J1", "jst_sh", 4, True, "side", "board", "left", "right"),
        end(contact_1_on_tabs=None),
    )
    svg = plug_pair("pilot/J1", ROW, ROW, (known, known))
    assert numbers(svg) == [list("4321")] * 2 and "side not known" not in svg
    for one in ((known, unknown), (unknown, known)):
        assert numbers(plug_pair("pilot/J1", ROW, ROW, one)) == [list("1234")] * 2


@pytest.mark.kicad("footprints")
@pytest.mark.slow
@pytest.mark.parametrize(("tabs", "turned"), [("away", False), ("board", True)])
def test_the_drawn_row_is_that_of_the_pads_of_kicads_footprint(kicad_footprints, tabs, turned):
    """Every side-entry footprint of one row: as its pads lie when the opening is turned towards the reader.

    Source: pads and outlines of KiCad's footprint library; of face `tabs`: the plug turned over in the hand (common
    practice, no source).
    """
    drawn = 0
    for path in sorted(kicad_footprints.glob("Connector_*.pretty/*.kicad_mod")):
        match = match_footprint(path.stem)
        if match is None or match.rows != 1 or match.entry != "side" or match.contact_1 is None or match.ways < 2:
            continue
        ways = match.ways
        order = [str(n) for n in row_with_opening_below(path, numbered_pads(path))]
        board = plug("J1", [f"S{n}" for n in range(ways)], board="a", footprint=path.stem, tabs=tabs)
        made = small_craft(board, pads("P1", [f"S{n}" for n in range(ways)], board="b"))
        seen = Views(made).end("J1", how_leads_are_made(made))
        row = PlugRow("a", "J1", (), tuple(Cavity(str(n), f"W{n}", "", None) for n in range(1, ways + 1)))
        rows = numbers(plug_faces(row, seen))
        assert rows == [order[::-1] if turned else order, order], path.stem
        drawn += 1
    assert drawn > 150
