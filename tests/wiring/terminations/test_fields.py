"""Names of fields: what is one field, what is a slip of the pencil.  The spellings are our own."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from crafts.craft_kit import plug
from crafts.finding_kit import findings_of, of_rule
from drawing.drawing_kit import Sheet, connector
from tabside.craft_reading import read_craft
from tabside.model.findings import Severity
from tabside.rules.annotation import annotation
from tabside.wiring.terminations.fields import Fields, near_misses

KICAD_SYMBOLS = Path("/usr/share/kicad/symbols")


@pytest.mark.parametrize("name", ["Contact1", "contact_1", "CONTACT-1", "Contact 1", " contact  1 "])
def test_case_blanks_and_dashes_do_not_matter(name):
    assert Fields({name: "left"}).text("contact 1") == "left"


def test_two_spellings_that_differ_are_a_finding():
    made = plug("J1", "a b", fields={"Contact 1": "left", "contact_1": "right"})
    assert of_rule("field-unclear", findings_of(annotation, made))
    assert not findings_of(annotation, plug("J1", "a b", fields={"Contact 1": "left", "contact_1": "left"}))


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        ("Signal", "Signals"),
        ("Bord", "Board"),
        ("Take", "Takes"),
        ("Givs", "Gives"),
        ("Boards", "Board"),
        ("SeenFrom_", ""),
        ("See from", "Seen from"),
        ("Famliy", "Family"),
        ("Families", "Family"),
        ("Tab", "Tabs"),
        ("Contact", "Contact 1"),
        ("Contact 2", "Contact 1"),
        ("Entries", "Entry"),
        ("Kinds", "Kind"),
        ("Lead max", "Leads max"),
        ("Takes (V)", "Takes"),
        ("Level [V]", "Level"),
        ("Level max V", "Level max"),
        ("Max level", "Level max"),
        ("Level (dB)", "Level"),
        ("Rating (A)", "Rating"),
        ("Current (A)", ""),
        ("Voltage Rating", ""),
        ("Notes", ""),
        ("Height", ""),
        ("Mass", ""),
        ("Supplier", ""),
        ("Value", ""),
    ],
)
def test_near_misses_are_told_with_what_is_meant(name, meant):
    assert near_misses({name: "x"}) == ({name: meant} if meant else {})
    found = of_rule("field-unclear", findings_of(annotation, plug("J1", "a b", fields={name: "x"} if meant else {})))
    assert [each.severity for each in found] == ([Severity.WARNING] if meant else [])
    assert not meant or (name in found[0].message and meant in found[0].message)


def test_an_empty_field_is_no_slip():
    assert near_misses({"Signal": "", "Bord": "~"}) == {}


@pytest.mark.skipif(not KICAD_SYMBOLS.is_dir(), reason="KiCad's libraries are not here")
def test_no_field_of_kicads_libraries_is_a_near_miss():
    names = {
        name
        for file in KICAD_SYMBOLS.glob("*.kicad_sym")
        for name in re.findall(r'\(property "([^"]+)"', file.read_text(encoding="utf-8"))
    }
    assert names and near_misses(dict.fromkeys(names, "x")) == {}


def test_a_sheets_misspelt_board_is_told():
    made = plug("J1", "a b", sheet_fields=[{"Bord": "pilot"}])
    (found,) = of_rule("field-unclear", findings_of(annotation, made))
    assert "Bord" in found.message and "Board" in found.message


# Text variables, put in as KiCad does.  Source: KiCad's manual, "Text variables".


def drawn(board: str, tmp_path: Path, **project: object):
    child, root = Sheet("motor"), Sheet("variables")
    fields = {"Board": board, "Signals": "${Value}"}
    child.place(connector(2), (50.8, 50.8), reference="J1", value="A B", fields=fields)
    for n in range(6):
        root.sheet(child, f"motor {n + 1}", (20, 20 + 20 * n))
    return read_craft(root.write(tmp_path, **project)).terminations


def test_the_sheets_name_gives_six_boards(tmp_path):
    found = drawn("${SHEETNAME}", tmp_path)
    assert [each.board for each in found.values()] == [f"motor {n}" for n in range(1, 7)]
    assert [contact.label for contact in found["J1"].contacts] == ["A", "B"]


def test_the_projects_own_variables(tmp_path):
    found = drawn("${CRAFT} ${SHEETNAME}", tmp_path, project={"text_variables": {"CRAFT": "pond"}})
    assert found["J1"].board == "pond motor 1"


def test_a_variable_that_nobody_defines_is_told(tmp_path):
    made = plug("J1", "a b", board="${NOBODY}")
    (found,) = of_rule("field-unclear", findings_of(annotation, made))
    assert "${NOBODY}" in found.message
    assert drawn("${NOBODY}", tmp_path)["J1"].board_stated is False
