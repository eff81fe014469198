"""Labels at true size, and the table for label printers."""

import csv
import re

import pytest

from crafts.bench_craft import EVERYTHING, build_of
from crafts.craft_kit import plug
from crafts.small_craft import RADIO
from tabside.documents.writing.export import export_documents
from tabside_exporters.tables.labels import labels_of


def test_each_end_of_each_cable_has_a_flag_and_each_end_of_each_wire_a_tube():
    build = build_of(*EVERYTHING)
    labels = list(labels_of(build))
    flags = [(label.mark, label.end) for label in labels if label.kind == "flag"]
    assert flags == [(cable.mark, end.shown) for cable in build.plan.cables if cable.mark for end in cable.ends]
    tubes = [label.lines[0] for label in labels if label.kind == "tube"]
    assert tubes == [f"{made.lead.mark} {end[0]}:{end[1]}" for made in build.leads for end in made.lead.ends]


def test_the_page_and_the_table_have_the_same_labels(tmp_path):
    build = build_of(*RADIO)
    export_documents(build, tmp_path, only=["labels"])
    with (tmp_path / "labels.csv").open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    text = (tmp_path / "labels.html").read_text(encoding="utf-8")
    sizes = re.findall(r'<li[^>]*><svg width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"', text)
    assert len(sizes) == len(rows) == 2 + 8
    for (width, height, unit_width, unit_height), row in zip(sizes, rows, strict=True):
        assert (width, height) == (unit_width, unit_height)  # one unit of the drawing is one millimetre
        assert float(row["width_mm"]) == pytest.approx(float(width), abs=0.06)
        assert float(row["height_mm"]) == float(height)
    assert 'class="ruler" width="102mm" height="9mm" viewBox="0 0 102 9"' in text


def test_a_flag_says_its_cable_its_board_and_its_connector_on_both_halves(tmp_path):
    export_documents(build_of(*RADIO), tmp_path, only=["labels"], formats=["html"])
    text = (tmp_path / "labels.html").read_text(encoding="utf-8")
    assert [text.count(f">{word}</text>") for word in ("C1", "pilot", "radio")] == [4, 2, 2]


def test_a_very_long_name_is_cut_on_the_label_and_whole_in_the_table():
    name = "a board with a name that goes on and on for ever"
    build = build_of(
        plug("J1", "TX GND", board=name, family="JST GH"), plug("J2", "TX GND", board="b", family="JST GH")
    )
    label = next(label for label in labels_of(build) if name in label.lines)
    assert label.width_mm < 150 and max(map(len, label.shown)) <= 28


def test_a_name_that_begins_a_formula_stays_text_in_the_table(tmp_path):
    build = build_of(
        plug("J1", "TX GND", board="=1+1", family="JST GH"), plug("J2", "TX GND", board="b", family="JST GH")
    )
    export_documents(build, tmp_path, only=["labels"], formats=["csv"])
    assert ",'=1+1/J1:1," in (tmp_path / "labels.csv").read_text(encoding="utf-8")


def test_the_page_says_what_to_do_with_a_tube_where_both_ends_of_the_wire_are_made(tmp_path):
    """A tube goes over a loose end alone (logic, no source)."""
    export_documents(build_of(*RADIO), tmp_path, only=["labels"], formats=["html"])
    text = (tmp_path / "labels.html").read_text(encoding="utf-8")
    assert (
        "On a wire that has both its ends (a bought cable, a new number): a strip around it, under clear tape." in text
    )
