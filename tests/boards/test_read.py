"""Pinouts read from CSV, workbooks and pasted lines: what is understood, and what is refused."""

import subprocess
import sys
import zipfile

import openpyxl
import pandas as pd
import pytest

from tabside.boards.tables.reading import read_rows
from tabside.boards.tables.rows import rows_of, rows_of_text
from tabside.cli import main
from tabside.errors import TabsideError
from tabside.read.craft.board_file import board_from_text

ROW = ["5V", "TX", "RX", "GND"]


def understood(text):
    found = read_rows(list(rows_of_text(text)), "pinout.txt")
    return {plug.name: plug.names("pinout.txt") for plug in found.plugs}


@pytest.mark.parametrize(
    "text",
    [
        "TELEM\n1 5V\n2 TX\n3 RX\n4 GND\n",
        "TELEM:\npin 1: 5V\npin 2: TX\npin 3: RX\npin 4: GND",
        "TELEM\n1) 5V\n2) TX\n3) RX\n4) GND",
        "TELEM\n1. 5V\n2. TX\n3. RX\n4. GND",
        "TELEM\n1 - 5V\n2 - TX\n3 - RX\n4 - GND",
        "TELEM\n1\t5V\n2\tTX\n3\tRX\n4\tGND",
        "TELEM\n4 GND\n3 RX\n2 TX\n1 5V",
        "TELEM (JST GH, 4-pin)\n\n1 5V (red)\n2 TX (out)\n3 RX (in)\n4 GND\n",
        "TELEM\n| Pin | Signal | Volt |\n|---|---|---|\n| 1 | 5V | 5 |\n| 2 | TX | 3.3 |\n| 3 | RX | |\n| 4 | GND | |",
        "TELEM\n1 5V +5V\n2 TX (OUT) +3.3V\n3 RX IN 3.3V\n4 GND",
        "TELEM: 5V | TX | RX | GND",
        "TELEM: 5V, TX, RX, GND",
        "TELEM: 5V TX RX GND",
        "TELEM | 5V | TX | RX | GND",
        "TELEM\n5V | TX | RX | GND",
        "TELEM\n5V TX RX GND",
        "plug | 1 | 2 | 3 | 4\nTELEM | 5V | TX | RX | GND",
        "Connector\tPin\tFunction\nTELEM\t1\t5V\n\t2\tTX\n\t3\tRX\n\t4\tGND",
        "* 1 5V\n* 2 TX\n* 3 RX\n* 4 GND",
        "- Pin 1: 5V\n- Pin 2: TX\n- Pin 3: RX\n- Pin 4: GND",
    ],
)
def test_the_usual_shapes_are_understood(text):
    ((name, names),) = understood(text).items()
    assert names == ROW and name in ("TELEM", "plug 1")


def test_a_block_a_plug_or_a_line_a_plug():
    text = "TELEM\n1 5V\n2 GND\n\nCAN\n1 5V\n2 CAN_H\n3 CAN_L\n4 GND\n\nUSB: VBUS, D-, D+, GND"
    assert understood(text) == {
        "TELEM": ["5V", "GND"],
        "CAN": ["5V", "CAN_H", "CAN_L", "GND"],
        "USB": ["VBUS", "D-", "D+", "GND"],
    }


def test_a_family_is_taken_from_a_heading_that_names_just_one():
    found = read_rows(list(rows_of_text("TELEM (JST-GH 4 pin)\n1 5V\n2 TX\n3 RX\n4 GND")), "x")
    assert found.plugs[0].family == "JST GH"
    assert read_rows(list(rows_of_text("TELEM (JST 4 pin)\n1 5V\n2 TX\n3 RX\n4 GND")), "x").plugs[0].family is None


def test_a_line_that_is_a_plug_says_its_family_too():
    text = "RX (JST-SH 4 pin): 5V, GND, RX2, TX2\nUSB pads\n1: VBUS\n2: D-\n3: D+\n4: GND"
    rx, usb = read_rows(list(rows_of_text(text)), "x").plugs
    assert (rx.name, rx.family, rx.said_ways, rx.pads) == ("RX", "JST SH", 4, False)
    assert (usb.name, usb.pads) == ("USB pads", True)


def test_words_beside_a_name_are_left_out_and_told():
    found = read_rows(list(rows_of_text("A\n1 VCC +5V\n2 SAFETY SWITCH IN\n3 GND, black")), "x")
    assert found.plugs[0].names("x") == ["VCC", "SAFETY SWITCH IN", "GND"]
    assert found.plugs[0].left_out == ["line 2: +5V", "line 4: , black"]


def test_an_order_without_numbers_is_said_to_be_assumed():
    found = read_rows(list(rows_of_text("TELEM: 5V | TX | RX | GND")), "x")
    assert any("no contact numbers: taken from contact 1 up" in text for text in found.assumed)


def test_other_lines_are_told_and_change_nothing():
    found = read_rows(
        list(rows_of_text("Our best board yet\nAll ports are 3.3 V\nTELEM\n1 5V\n2 GND\nsee page 4")), "x"
    )
    assert [plug.name for plug in found.plugs] == ["TELEM"]
    assert found.not_read == ["line 1: Our best board yet", "line 2: All ports are 3.3 V", "line 6: see page 4"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("TELEM\n1 5V\n2 TX\n4 GND", "contact 3 is missing; write `3 nc`"),
        ("TELEM\n1 5V\n2 TX\n2 RX", "line 4: TELEM has contact 2 twice"),
        ("TELEM\n0 5V\n1 TX", "contacts count from 0"),
        ("TELEM (6 pins)\n1 5V\n2 GND", "is said to have 6 contacts, 2 are listed"),
        ("Pin | Signal\n1 | 5V\n2 |\n3 | GND", "contact 2 of"),
        ("A board of ours, with many plugs.", "has no pinout that is understood"),
        ("", "has no pinout that is understood"),
        ("1 5V\n999 GND", "has a contact above 200"),
    ],
)
def test_what_is_not_sure_is_refused_with_its_place(text, said):
    with pytest.raises(TabsideError) as error:
        understood(text)
    assert said in str(error.value)


TABLE = pd.DataFrame(
    {
        "Connector": ["TELEM", None, None, None, "BAT", None],
        "Family": ["JST GH", None, None, None, None, None],
        "Pin": [1, 2, 3, 4, 1, 2],
        "Signal": [*ROW, "VBAT", "GND"],
    }
)


@pytest.mark.parametrize("ending", ["csv", "semicolon.csv", "tsv", "xlsx", "utf16.csv"])
def test_tables_of_every_kind_make_a_board_file(tmp_path, ending, capsys):
    path = tmp_path / f"pinout.{ending}"
    if ending == "xlsx":
        TABLE.to_excel(path, index=False)
    else:
        mark = {"semicolon.csv": ";", "tsv": "\t"}.get(ending, ",")
        TABLE.to_csv(path, index=False, sep=mark, encoding="utf-16" if "16" in ending else "utf-8-sig")
    assert main(["boards", "read", str(path), "--to", str(tmp_path / "pilot.board.toml")]) == 0
    said = capsys.readouterr().out
    assert "Understood TELEM (JST GH): 5V, TX, RX, GND" in said and "Understood BAT (family not given)" in said
    board = board_from_text((tmp_path / "pilot.board.toml").read_bytes(), "pilot.board.toml")
    assert board.name == "pilot" and board.plugs[0].fields["Signals"] == "5V, TX, RX, GND"
    assert board.plugs[0].fields["Family"] == "JST GH" and board.plugs[1].ways == 2


def test_each_sheet_of_a_workbook_is_read(tmp_path):
    path = tmp_path / "pinout.xlsx"
    with pd.ExcelWriter(path) as book:
        for name in ("TELEM", "GPS"):
            pd.DataFrame({"Pin": [1, 2], "Name": ["5V", "GND"]}).to_excel(book, sheet_name=name, index=False)
    assert [plug.name for plug in read_rows(rows_of(path), "x").plugs] == ["TELEM", "GPS"]


def test_a_file_that_is_there_is_not_overwritten(tmp_path, capsys):
    (tmp_path / "t.txt").write_text("1 5V\n2 GND\n")
    (tmp_path / "a.board.toml").write_text("mine")
    assert main(["boards", "read", str(tmp_path / "t.txt"), "--to", str(tmp_path / "a.board.toml")]) == 2
    assert (tmp_path / "a.board.toml").read_text() == "mine"
    assert main(["boards", "read", str(tmp_path / "t.txt"), "--to", str(tmp_path / "a.board.toml"), "--force"]) == 0


def test_a_table_that_is_not_understood_writes_nothing(tmp_path, capsys):
    (tmp_path / "t.csv").write_text("a,b\nc,d\n")
    assert main(["boards", "read", str(tmp_path / "t.csv"), "--to", str(tmp_path / "a.board.toml")]) == 2
    assert not (tmp_path / "a.board.toml").exists()
    assert capsys.readouterr().err.startswith("tabside: t.csv: has no pinout that is understood")


@pytest.mark.parametrize("content", [b"PK\x03\x04 no zip", b"", b"\x00\x01\x02"])
def test_a_damaged_workbook_is_one_line(tmp_path, content, capsys):
    (tmp_path / "t.xlsx").write_bytes(content)
    assert main(["boards", "read", str(tmp_path / "t.xlsx")]) == 2
    assert "is no workbook that can be read" in capsys.readouterr().err


def test_a_workbook_that_unpacks_to_very_much_is_not_unpacked(tmp_path, capsys):
    with zipfile.ZipFile(tmp_path / "t.xlsx", "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/workbook.xml", b"0" * (65 * 1024 * 1024))
    assert main(["boards", "read", str(tmp_path / "t.xlsx")]) == 2
    assert "too large when unpacked" in capsys.readouterr().err


def test_quotes_and_line_ends_cannot_break_the_file(tmp_path, capsys):
    (tmp_path / "t.txt").write_text('A"B\n1 "x\\\n2 GND\n')
    assert main(["boards", "read", str(tmp_path / "t.txt"), "--to", str(tmp_path / "a.board.toml")]) == 0
    board = board_from_text((tmp_path / "a.board.toml").read_bytes(), "a.board.toml")
    assert board.plugs[0].name == 'A"B' and board.plugs[0].fields["Signals"] == '"x\\, GND'


def test_pandas_is_loaded_only_for_tables():
    code = "import sys, tabside.cli.boards_command, tabside.boards.tables.reading; print('pandas' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def packed_anew(path, part, change):
    """The workbook with one of its parts changed: a zip file packs millions of equal rows into some kilobytes."""
    with zipfile.ZipFile(path) as old:
        parts = {name: old.read(name) for name in old.namelist()}
    parts[part] = change(parts[part])
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as new:
        for name, content in parts.items():
            new.writestr(name, content)


SHEET, STYLES, BOOK = "xl/worksheets/sheet1.xml", "xl/styles.xml", "xl/workbook.xml"
BOMBS = {
    "rows": (SHEET, lambda text: text.replace(b"<sheetData", b"<row/>" * 10**6 + b"<sheetData")),
    "cells": (SHEET, lambda text: text.replace(b"<sheetData", b"<c/>" * 10**7 + b"<sheetData")),
    "styles": (STYLES, lambda text: text.replace(b"</cellXfs>", b"<xf/>" * 10**6 + b"</cellXfs>")),
    "sheets": (BOOK, lambda text: text.replace(b"</sheets>", b'<sheet sheetId="2"/>' * 10**4 + b"</sheets>")),
    "entities": (BOOK, lambda text: b'<!DOCTYPE a [<!ENTITY b "c">]>' + text),
}


@pytest.mark.parametrize("bomb", BOMBS)
def test_a_workbook_that_unpacks_to_millions_is_refused_at_once(tmp_path, bomb):
    path = tmp_path / "t.xlsx"
    openpyxl.Workbook().save(path)
    packed_anew(path, *BOMBS[bomb])
    assert path.stat().st_size < 10**6
    with pytest.raises(TabsideError, match=r"too large when unpacked|no workbook that can be read"):
        rows_of(path)


def test_one_cell_in_the_last_corner_of_a_workbook(tmp_path):
    book = openpyxl.Workbook()
    book.active["XFD1048576"] = "x"
    book.save(tmp_path / "t.xlsx")
    with pytest.raises(TabsideError, match="more than 10000 rows"):
        rows_of(tmp_path / "t.xlsx")


def test_a_cell_that_says_na_is_a_name(tmp_path):
    book = openpyxl.Workbook()
    for row in (["plug", "contact", "signal"], ["A", 1, "NA"], ["A", 2.0, "5V"]):
        book.active.append(row)
    book.save(tmp_path / "t.xlsx")
    assert [row.cells for row in rows_of(tmp_path / "t.xlsx")][1:3] == [("A", "1", "NA"), ("A", "2", "5V")]


def test_in_and_out_stay_where_they_tell_the_direction():
    """VIDEO on VIDEO would hide that two outputs meet."""
    assert understood("CAM\n1 5V OUT\n2 GND\n3 VIDEO OUT\n4 TX OUT 3.3V\n5 VIDEO IN red\n") == {
        "CAM": ["5V", "GND", "VIDEO OUT", "TX", "VIDEO IN"]
    }


def test_columns_that_are_not_taken_over_are_said(tmp_path, capsys):
    table = "| Pin | Name | Note | Wire |\n|---|---|---|---|\n| 1 | VBAT | 7-26 V | red |\n| 2 | GND |"
    (tmp_path / "v.md").write_text(table)
    assert main(["boards", "read", str(tmp_path / "v.md")]) == 0
    told = capsys.readouterr().out
    assert "Left out: line 1: the columns Note, Wire" in told
    assert "Add the family to each plug" in told


@pytest.mark.parametrize("word", ["-", "—", "N/C", "n.c.", "unused", "(not connected)", "NC"])
def test_words_for_not_used_are_nc_and_that_is_said(word):
    found = read_rows(list(rows_of_text(f"CAM\n1 5V\n2 GND\n3 {word}\n")), "pinout.txt")
    assert found.plugs[0].names("pinout.txt") == ["5V", "GND", "nc"]
    assert found.assumed == ([] if word == "NC" else [f'line 4: "{word}" of CAM means not used (nc)'])


def test_a_colour_in_brackets_before_the_name_is_no_name():
    assert understood("CAM\nPin 1 (red) = VCC\nPin 2 (black): GND\nPin 3 = SIG\n") == {"CAM": ["VCC", "GND", "SIG"]}


@pytest.mark.parametrize("text", ["pin 1: 5V\npin 2:\n", "CAM\n1 5V\n2\n3 GND\n", "1 = 5V\n2 =\n"])
def test_a_contact_without_a_name_is_refused(text):
    """One contact less would be a plug of another size, with its names at other contacts."""
    with pytest.raises(TabsideError, match=r"contact 2 of .* has no name"):
        understood(text)


def test_a_quote_left_open_is_told_and_swallows_no_contact(tmp_path):
    (tmp_path / "x.csv").write_text('Pin,Name\n1,"VCC\n2,GND\n3,TX\n', encoding="utf-8")
    with pytest.raises(TabsideError, match="is no CSV table that can be read"):
        list(rows_of(tmp_path / "x.csv"))
