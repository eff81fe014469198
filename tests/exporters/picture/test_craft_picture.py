"""The picture of the whole craft: everything is in it, nothing lies on anything else, every line meets its plug."""

import re
from itertools import combinations

import pytest

from crafts.bench_craft import EVERYTHING, LENGTHS, build_of
from crafts.craft_kit import craft, pads, plug, power, two_pin
from dice.random_harness import random_craft
from tabside.documents.writing.export import export_documents
from tabside_exporters.picture.content import Note, Notes, content_of, runs_of
from tabside_exporters.picture.drawing import craft_svg, draw_craft
from tabside_exporters.picture.layout import laid_out


def boxes(drawn):
    return [shape.box for shape in drawn.shapes]


def apart(a, b):
    return a.right <= b.x or b.right <= a.x or a.y + a.height <= b.y or b.y + b.height <= a.y


@pytest.mark.parametrize("seed", range(25))
def test_every_board_and_cable_is_drawn_once_and_none_lies_on_another(seed):
    made = random_craft(seed)
    drawn = draw_craft(made, Notes())
    wired = {made.terminations[reference].board for run in runs_of(made) for reference in run.ends}
    assert sum(shape.kind == "board" for shape in drawn.shapes) == len(wired)
    assert sum(shape.kind == "cable" for shape in drawn.shapes) == len(runs_of(made))
    assert len(drawn.lines) == sum(len(run.ends) for run in runs_of(made))
    assert all(apart(a, b) for a, b in combinations(boxes(drawn), 2))
    assert all(box.x >= 0 and box.y >= 0 and box.right <= drawn.width for box in boxes(drawn))
    for line in drawn.lines:
        x, y = line.dot
        assert any(box.y <= y <= box.y + box.height and x in (box.x, box.right) for box in boxes(drawn))


@pytest.mark.parametrize("seed", range(25))
def test_no_line_runs_behind_a_box(seed):
    """A line goes up and down only between columns, and level beside boxes no wider than their column."""
    drawn = draw_craft(random_craft(seed), Notes())
    for line in drawn.lines:
        numbers = [float(each) for each in re.findall(r"-?[0-9.]+", line.path)]
        (x1, y1, free), (y2, until, x2) = numbers[:3], (numbers[-2], numbers[-3], numbers[-1])
        for box in boxes(drawn):
            assert box.right <= free + 0.1 or box.x >= until - 0.1
            assert not (box.y < y1 < box.y + box.height and x1 + 0.1 < box.right <= free and box.x > x1 - 0.1)
            assert not (box.y < y2 < box.y + box.height and until <= box.x < x2 - 0.1)


def test_power_flows_from_the_pack_on_the_left_and_no_text_is_wider_than_its_box():
    build = build_of(*EVERYTHING, leads=LENGTHS)
    drawn = draw_craft(build.craft, Notes())
    left = {shape.texts[0].text: shape.box.x for shape in drawn.shapes if shape.kind == "board"}
    assert left["pack"] < left["driver"]
    # DejaVu Sans is 0.6 em wide in the mean of its lower-case letters: measured on the font.
    for shape in drawn.shapes:
        for text in shape.texts:
            assert len(text.text) * (12.5 * 0.68 if text.bold else 11 * 0.59) <= shape.box.width


def test_a_cable_with_three_ends_is_one_box_with_three_lines_and_a_board_without_cables_is_named():
    made = craft(
        plug("J1", "A B GND GND", board="hub", family="JST GH", signals="PWM1, PWM2, GND, GND"),
        plug("J2", "A GND", board="left", family="JST SH", signals="PWM, GND"),
        plug("J3", "B GND", board="right", family="JST SH", signals="PWM, GND"),
        plug("J9", "- -", board="spare", family="JST SH", signals="PWM, GND"),
        power("GND"),
    )
    drawn = draw_craft(made, Notes())
    assert [shape.texts[0].text for shape in drawn.shapes if shape.kind == "cable"] == ["C1"]
    assert len(drawn.lines) == 3
    assert drawn.alone == ("spare",)


def test_an_in_line_part_is_a_box_of_one_line_with_its_value():
    made = craft(
        pads("J1", "BAT GND", board="hub", signals="VBAT, GND"),
        two_pin("F1", "BAT", "VCC", value="30A"),
        pads("J2", "VCC GND", board="lamp", signals="VBAT, GND"),
    )
    names = [shape.texts[0].text for shape in draw_craft(made, Notes()).shapes]
    assert "F1 (30A)" in names


def test_wires_without_a_cable_carry_their_own_numbers_as_far_as_they_fit():
    nets = [f"N{n}" for n in range(12)]
    made = craft(pads("J1", nets, board="a"), pads("J2", nets, board="b"))
    drawn = draw_craft(made, Notes())
    assert [shape.texts[0].text for shape in drawn.shapes if shape.kind == "cable"] == ["W1 to W12"]


def test_notes_of_another_s_making_stand_at_their_cable_and_plug():
    build = build_of(*EVERYTHING, leads=LENGTHS)
    label = runs_of(build.craft)[0].label
    notes = Notes(cables={label: Note(("move plug",), "#there", strong=True)}, boards={"radio": Note(("new",))})
    svg = craft_svg(draw_craft(build.craft, notes))
    assert 'href="#there"' in svg and ">move plug</text>" in svg and ">new</text>" in svg
    assert '<rect class="cable strong"' in svg


def test_a_craft_without_wires_has_an_empty_picture():
    drawn = draw_craft(craft(plug("J1", "- -", board="a"), plug("J2", "- -", board="b")), Notes())
    assert drawn.shapes == () and drawn.alone == ("a", "b")
    assert "<svg" in craft_svg(drawn)


def test_names_of_a_drawing_are_cut_to_their_box_and_told_in_whole():
    long = "a board with a name of very many letters that nobody would ever write <b>"
    made = craft(pads("J1", "A B", board=long), pads("J2", "A B", board="b"))
    drawn = draw_craft(made, Notes())
    svg = craft_svg(drawn)
    assert "&lt;b&gt;" in svg and "<b>" not in svg
    assert max(box.width for box in boxes(drawn)) < 260


def links(text):
    return re.findall(r'href="([^"]+)"', text)


def test_every_link_of_the_page_leads_to_something_in_the_folder(tmp_path):
    crossed = plug("J7", "L_N L_P", board="crossed", family="JST GH", signals="5V, GND", takes="5V 0.1A")
    build = build_of(*EVERYTHING, crossed, leads=LENGTHS)
    export_documents(build, tmp_path, formats=["html"])
    text = (tmp_path / "craft-picture.html").read_text(encoding="utf-8")
    assert any(link.startswith("findings.html#finding-") for link in links(text))
    assert any(link.startswith("plan.html#s-C") for link in links(text))
    for link in links(text):
        name, _, anchor = link.partition("#")
        assert f'id="{anchor}"' in (tmp_path / name).read_text(encoding="utf-8"), link


def test_without_the_other_pages_nothing_is_linked(tmp_path):
    build = build_of(*EVERYTHING, leads=LENGTHS)
    result = export_documents(build, tmp_path, only=["craft-picture"])
    assert result.files == ("craft-picture.html",)
    assert links((tmp_path / "craft-picture.html").read_text(encoding="utf-8")) == []
    rows = result.documents["craft-picture"]
    assert [row["cable"] for row in rows] == [run.label for run in runs_of(build.craft)]


def test_a_craft_of_a_hundred_boards_is_laid_out():
    symbols = [plug(f"J{n}", f"S{n} GND", board=f"b{n}", family="JST GH", signals="SIG, GND") for n in range(1, 101)]
    hubs = [plug(f"J{n + 100}", f"S{n} GND", board=f"hub{n // 10}", family="JST GH") for n in range(1, 101)]
    made = craft(*symbols, *hubs, power("GND"))
    layout = laid_out(content_of(made, Notes()))
    assert len(layout.boards) == 111
