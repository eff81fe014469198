"""A whole export of a small craft, its cells typed by hand."""

import csv
import json
import zipfile

import pandas as pd
import pytest
from msgspec.structs import replace

from crafts.craft_kit import plug
from crafts.small_craft import CAMERA, GROUND, LIGHT, RADIO, small_craft
from tabside import __version__
from tabside.documents.as_json.model import model_json
from tabside.documents.build import craft_build
from tabside.documents.document import find_documents
from tabside.documents.writing.export import export_documents
from tabside.errors import TabsideError
from tabside.model.craft import CraftSettings
from tabside.model.findings import Finding, Judged, Severity, Verdict, Where
from tabside.model.stock import Costs

LEADS = {
    "J1:1 - J3:1": {"gauge_awg": 28, "colour": "RD", "length_mm": 85.0},
    "J1:2 - J3:3": {"gauge_awg": 28, "colour": "YE", "length_mm": 85.0},
    "J1:3 - J3:2": {"gauge_awg": 28, "colour": "GN", "length_mm": 85.0},
    "J1:4 - J3:4": {"gauge_awg": 28, "colour": "BK", "length_mm": 85.0},
    "J5:1 - P2:1": {"gauge_awg": 28, "colour": "RD", "length_mm": 40.25},
    "J5:2 - P2:2": {"notes": ("keep clear of the hatch",)},
}
ERROR = Finding("role-clash", Severity.ERROR, "TX meets TX", "exchange them", (Where("pilot", "J1", "2", "TX"),))
WIRE_COLUMNS = [
    "mark",
    "net",
    "signal",
    "from_board",
    "from_termination",
    "from_contact",
    "from_end",
    "to_board",
    "to_termination",
    "to_contact",
    "to_end",
    "cable",
    "gauge_awg",
    "colour",
    "length_mm",
    "chosen",
    "note",
]


def a_build(*findings, craft=None):
    # Nothing ready-made is on sale: every lead is cut from new wire.
    nothing_sold = CraftSettings(costs=Costs(buy_ready=False))
    craft = craft or small_craft(*RADIO, *LIGHT, leads=LEADS, title="Pond skater", revision="B", settings=nothing_sold)
    return craft_build(craft, Verdict(findings, Judged(len(craft.leads), 0, 0, 0, 0)))


def rows_of(result, document):
    return json.loads(json.dumps(result.documents[document]))  # as JSON has them


def text_of(path):
    """The text of a page; that of a workbook is in its shared strings."""
    if path.suffix != ".xlsx":
        return path.read_text(encoding="utf-8")
    with zipfile.ZipFile(path) as book:
        return book.read("xl/sharedStrings.xml").decode()


def csv_rows(path):
    with path.open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def test_the_wire_list(tmp_path):
    rows = rows_of(export_documents(a_build(), tmp_path), "wire-list")
    assert [list(row) for row in rows] == [WIRE_COLUMNS] * 6
    assert [[row[name] for name in WIRE_COLUMNS[1:]] for row in rows] == [
        [
            "V",
            "5V",
            "pilot",
            "J1",
            1,
            "JST GH plug, 4-way",
            "radio",
            "J3",
            1,
            "JST GH plug, 4-way",
            rows[0]["cable"],
            28,
            "RD",
            85.0,
            "by name, only these two",
            None,
        ],
        [
            "TX",
            "TX / RX",
            "pilot",
            "J1",
            2,
            "JST GH plug, 4-way",
            "radio",
            "J3",
            3,
            "JST GH plug, 4-way",
            rows[0]["cable"],
            28,
            "YE",
            85.0,
            "by name, only these two",
            None,
        ],
        [
            "RX",
            "RX / TX",
            "pilot",
            "J1",
            3,
            "JST GH plug, 4-way",
            "radio",
            "J3",
            2,
            "JST GH plug, 4-way",
            rows[0]["cable"],
            28,
            "GN",
            85.0,
            "by name, only these two",
            None,
        ],
        [
            "GND",
            "GND",
            "pilot",
            "J1",
            4,
            "JST GH plug, 4-way",
            "radio",
            "J3",
            4,
            "JST GH plug, 4-way",
            rows[0]["cable"],
            28,
            "BK",
            85.0,
            "by name, only these two",
            None,
        ],
        [
            "L_P",
            "LED+",
            "pilot",
            "J5",
            1,
            "JST GH plug, 2-way",
            "light",
            "P2",
            1,
            "solder to pad",
            rows[4]["cable"],
            28,
            "RD",
            40.3,
            "by name, only these two",
            None,
        ],
        [
            "L_N",
            "LED-",
            "pilot",
            "J5",
            2,
            "JST GH plug, 2-way",
            "light",
            "P2",
            2,
            "solder to pad",
            rows[4]["cable"],
            None,
            None,
            None,
            "by name, only these two",
            "keep clear of the hatch",
        ],
    ]
    assert [row["mark"] for row in rows] == ["W1", "W2", "W3", "W4", "W5", "W6"]
    assert rows[0]["cable"] != rows[4]["cable"] and rows[0]["cable"].startswith("C")


@pytest.mark.parametrize(("net", "signal"), [("LAMP", "LAMP"), ("Net-(J1-Pin_1)", None)])
def test_without_labels_the_signal_is_the_net_s_given_name(tmp_path, net, signal):
    craft = small_craft(plug("J1", [net], board="a"), plug("J2", [net], board="b"))
    (row,) = rows_of(export_documents(a_build(craft=craft), tmp_path), "wire-list")
    assert (row["net"], row["signal"]) == (net, signal)


def test_the_cut_list_has_its_sums_in_every_row(tmp_path):
    export_documents(a_build(), tmp_path)
    table = pd.read_csv(tmp_path / "cut-list.csv")
    shown = table[["gauge_awg", "colour", "cut_length_mm", "leads", "group_pieces", "group_total_mm"]]
    assert shown.values.tolist() == [
        ["28", "BK", "98.0", "W4", 1, "98.0"],
        ["28", "GN", "98.0", "W3", 1, "98.0"],
        ["28", "RD", "98.0", "W1", 2, "151.8"],
        ["28", "RD", "53.8", "W5", 2, "151.8"],
        ["28", "YE", "98.0", "W2", 1, "98.0"],
        ["not known", "not known", "not known", "W6", 1, "not known"],
    ]
    assert table["group_not_known"].tolist() == [0, 0, 0, 0, 0, 1]
    assert set(table["strip_from_mm"]) == {1.5}  # GH
    assert set(table["strip_to_mm"]) == {"1.5", "not known"}
    assert set(table["taken_from"]) == {"new wire"} and table["offcut_mm"].isna().all()


def test_the_cut_list_on_paper_ends_with_totals_and_says_what_the_signs_mean(tmp_path):
    """Colours: IEC 60757, codes and words.  28 AWG is 0.0810 mm²: ASTM B258 formula, 0.127 x 92^((36-28)/39) mm."""
    export_documents(a_build(), tmp_path)
    lines = (tmp_path / "cut-list.md").read_text(encoding="utf-8").splitlines()
    at = lines.index("## Totals")
    assert lines[at + 2 : at + 9] == [
        "| gauge_awg | colour    | pieces |  total_mm | not_known |",
        "| --------: | :-------- | -----: | --------: | --------: |",
        "|        28 | BK        |      1 |      98.0 |         0 |",
        "|        28 | GN        |      1 |      98.0 |         0 |",
        "|        28 | RD        |      2 |     151.8 |         0 |",
        "|        28 | YE        |      1 |      98.0 |         0 |",
        "| not known | not known |      1 | not known |         1 |",
    ]
    assert "- Colours: BK black, GN green, RD red, YE yellow." in lines
    assert "- Conductors: 28 AWG 0.081 mm² (solid; stranded wire differs a little)." in lines
    assert "group_total_mm" not in "".join(lines)


def test_the_bom(tmp_path):
    rows = rows_of(export_documents(a_build(), tmp_path), "bom")
    names = ["item", "part_number", "family", "ways", "quantity", "in_stock", "to_buy", "used_for"]
    assert set(names) | {"source"} <= set(rows[0])
    assert [[row[name] for name in names] for row in rows[:4]] == [
        ["housing", "GHR-02V-S", "JST GH", 2, 1, 0, 1, "pilot/J5"],
        ["housing", "GHR-04V-S", "JST GH", 4, 2, 0, 2, "pilot/J1, radio/J3"],
        # 1.25 mm pitch: two contacts for each good crimp, common practice, no source.
        ["contact", "SSHL-002T-P0.2", "JST GH", None, 2, 0, 2, "pilot/J5 (1)"],
        ["contact", "SSHL-002T-P0.2", "JST GH", None, 18, 0, 18, "pilot/J1 (4), radio/J3 (4), pilot/J5 (1)"],
    ]


def test_the_bom_on_paper_numbers_its_sources(tmp_path):
    export_documents(a_build(), tmp_path)
    lines = (tmp_path / "bom.md").read_text(encoding="utf-8").splitlines()
    head = [cell.strip() for cell in lines[lines.index("") + 4].split("|")]
    (housing,) = [line for line in lines if "GHR-02V-S" in line]
    assert [cell.strip() for cell in housing.split("|")][head.index("source")] == "1"
    at = lines.index("## Sources")
    assert lines[at + 2].startswith("1. ") and "JST catalogues" in lines[at + 2]


def test_a_cell_that_does_not_apply_is_empty_and_one_that_is_not_known_says_so(tmp_path):
    export_documents(a_build(), tmp_path)
    by_item = {}
    for row in csv_rows(tmp_path / "bom.csv"):
        by_item.setdefault(row["item"], []).append(row)
    housing, unknown_wire = by_item["housing"][0], by_item["wire"][-1]
    assert (housing["gauge_awg"], housing["colour"]) == ("", "")
    assert (unknown_wire["ways"], unknown_wire["gauge_awg"], unknown_wire["quantity"]) == ("", "not known", "not known")
    assert by_item["board light"][0]["part_number"] == "not known"


def test_every_document_in_every_format_is_written_and_named(tmp_path):
    result = export_documents(a_build(), tmp_path / "out")
    suffixes = dict.fromkeys(find_documents(), ("csv", "html", "json", "md", "xlsx"))
    suffixes |= dict.fromkeys(("bench", "board-entry", "craft-picture", "findings", "index"), ("html",))
    names = sorted(f"{id}.{suffix}" for id, found in suffixes.items() for suffix in found)
    assert list(result.files) == names
    assert {"bom.csv", "continuity-sheet.xlsx", "findings.html", "port-list.md", "wire-list.html"} <= set(names)
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == sorted([*names, "tabside-manifest.json"])
    assert result.as_json() == {
        "format": "tabside/export/1",
        "files": [(tmp_path / "out" / name).as_posix() for name in names],
        "documents": result.documents,
        "mistakes": result.beside["mistakes"],
        "model": model_json(result.craft),
    }
    json.dumps(result.as_json())


def test_some_documents_in_some_formats(tmp_path):
    result = export_documents(a_build(), tmp_path, only=["bom", "wire-list"], formats=["csv"])
    assert list(result.files) == ["bom.csv", "wire-list.csv"]
    assert list(result.documents) == ["bom", "wire-list"]


def test_a_document_that_exists_as_a_page_only_is_left_out_of_other_formats(tmp_path):
    result = export_documents(a_build(), tmp_path / "all", formats=["csv"])
    assert "bom.csv" in result.files and not [name for name in result.files if name.startswith("findings")]
    with pytest.raises(TabsideError, match="document findings is written as html only; name that format too"):
        export_documents(a_build(), tmp_path / "one", only=["findings", "bom"], formats=["csv"])
    assert not (tmp_path / "one").exists()


def test_an_unknown_document_or_format_writes_nothing(tmp_path):
    for wrong in ({"only": ["wires"]}, {"formats": ["pdf"]}):
        with pytest.raises(TabsideError, match="there is no"):
            export_documents(a_build(), tmp_path / "out", **wrong)
    assert not (tmp_path / "out").exists()


def test_the_same_craft_gives_the_same_bytes_wherever_it_is_written(tmp_path):
    for folder in ("one", "else/where"):
        export_documents(a_build(ERROR), tmp_path / folder)
    one, two = ({p.name: p.read_bytes() for p in (tmp_path / f).iterdir()} for f in ("one", "else/where"))
    assert one == two
    assert not any(str(tmp_path).encode() in content for content in one.values())


def test_while_errors_stand_every_page_says_not_cleared(tmp_path):
    build = a_build(ERROR, ERROR)
    assert not build.cleared
    result = export_documents(build, tmp_path)
    for name in result.files:
        assert "NOT CLEARED TO BUILD: 2 errors" in text_of(tmp_path / name)


def test_an_accepted_error_clears_the_craft_and_stays_visible_with_its_reason(tmp_path):
    build = a_build(replace(ERROR, accepted="bench loop for a test"))
    assert build.cleared
    for name in export_documents(build, tmp_path).files:
        text = text_of(tmp_path / name)
        assert "NOT CLEARED" not in text
        assert "role-clash (error) at pilot/J1:2, because: bench loop for a test" in text


def test_every_page_says_what_it_belongs_to(tmp_path):
    build = a_build()
    for name in export_documents(build, tmp_path).files:
        text = text_of(tmp_path / name)
        for mark in ("Pond skater", "B", build.craft.drawing_hash, __version__):
            assert mark in text


def test_names_that_are_formulas_or_break_tables_do_no_harm(tmp_path):
    evil = plug("J1", "=1+1 a|b -", board="../../etc", family="JST GH", signals="-, +5V, @x")
    other = plug("J3", "=1+1 a|b -", board='say "hi",\nboard', family="JST GH", signals="-, +5V, @x")
    export_documents(a_build(craft=small_craft(evil, other, title="=cmd|'x'!A0")), tmp_path / "out")
    first, second = csv_rows(tmp_path / "out" / "wire-list.csv")
    assert (first["net"], first["signal"], first["from_board"]) == ("'=1+1", "'-", "../../etc")
    assert (second["net"], second["signal"], second["to_board"]) == ("a|b", "'+5V", 'say "hi",\nboard')
    assert first["about"].startswith("'=cmd|")
    markdown = (tmp_path / "out" / "wire-list.md").read_text(encoding="utf-8")
    assert r"| a\|b " in markdown and "| '=1+1 " in markdown
    assert {path.name for path in tmp_path.iterdir()} == {"out"}


def test_a_craft_without_leads_gives_pages_that_say_so(tmp_path):
    export_documents(a_build(craft=small_craft(settings=CraftSettings(name="Empty"))), tmp_path)
    assert "No wire." in (tmp_path / "wire-list.md").read_text(encoding="utf-8")
    (row,) = csv_rows(tmp_path / "wire-list.csv")
    assert row["mark"] == "" and row["about"].startswith("Empty")
    assert json.loads((tmp_path / "wire-list.json").read_text())["rows"] == []


def test_tables_can_be_worked_with_as_they_are():
    """For a person at a Python prompt: numbers are numbers, what is not known is missing."""
    table = pd.DataFrame(find_documents()["wire-list"].rows(a_build()))
    assert table["length_mm"].sum() == pytest.approx(4 * 85 + 40.3)
    assert table["gauge_awg"].isna().tolist() == [False] * 5 + [True]
    assert table["from_contact"].tolist() == ["1", "2", "3", "4", "1", "2"]


def test_leads_that_are_not_cut_are_counted_in_the_notes(tmp_path):
    craft = small_craft(*CAMERA, *LIGHT, *GROUND)
    export_documents(a_build(craft=craft), tmp_path)
    text = (tmp_path / "cut-list.md").read_text(encoding="utf-8")
    assert "- Leads not cut because they belong to a part (motor, camera, pack): 3." in text
