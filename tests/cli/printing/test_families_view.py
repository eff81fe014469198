"""The list of families for a person and for a program."""

from __future__ import annotations

import json
import re

import pytest
from msgspec.structs import fields

from tabside.cli.printing.families_view import HEADS, details, families_json, members, narrow_rows, rows
from tabside.errors import TabsideError
from tabside.facts.families import Family, family_ids


def test_every_family_has_a_row_and_the_rows_have_the_same_columns():
    listed = rows()
    assert [row["family"] for row in listed] == list(family_ids())
    assert {tuple(row) for row in listed} == {
        (
            "family",
            "maker",
            "series",
            "pitch",
            "rows",
            "ways",
            "rated A",
            "at AWG",
            "AWG",
            "latch",
            "retention",
            "sources",
        )
    }


def test_a_row_says_what_is_known_and_marks_what_is_not():
    (sh,) = rows(["JST SH"])
    # JST "SH CONNECTOR" datasheet: 1 A at AWG 28, AWG 32 to 28.
    assert (sh["rated A"], sh["at AWG"], sh["AWG"], sh["ways"]) == ("1", "28", "32-28", "2-16 20")
    (ze,) = rows(["jst_ze"])
    assert (ze["rated A"], ze["at AWG"], ze["AWG"], ze["sources"]) == ("?", "?", "?", "- - -")


def test_the_json_has_every_field_with_its_source():
    answer = json.loads(json.dumps(families_json()))
    assert answer["format"] == "tabside/families/1"
    assert [each["id"] for each in answer["families"]] == list(family_ids())
    sh = answer["families"][0]
    assert sh["rating_a"] == 1.0
    assert sh["rating_source"]["grade"] == "A"
    assert "SH CONNECTOR" in sh["rating_source"]["text"]
    assert sh["strip_mm"] == 1.5
    assert sh["circuits"] == [*range(2, 17), 20]
    assert sh["housings"][0] == {"part": "SHR-{nn}V-S-B", "note": "with side protrusions"}
    assert [contact["number"] for contact in sh["contacts"]] == ["SSH-003T-P0.2-H"]


def test_only_those_asked_for_are_shown():
    assert [each["id"] for each in families_json(["jst gh", "XT60"])["families"]] == ["jst_gh", "amass_xt60"]


def test_a_name_that_there_is_not_is_one_clear_line_with_the_nearest():
    with pytest.raises(TabsideError) as caught:
        rows(["molex picoblad"])
    assert str(caught.value) == "no connector family is called 'molex picoblad'; did you mean molex_picoblade?"


def test_the_narrow_rows_fit_a_terminal_of_80_columns():
    listed = narrow_rows()
    widths = [max(len(row[column]) for row in [*listed, {column: column}]) for column in listed[0]]
    assert sum(widths) + 2 * (len(widths) - 1) <= 80
    shl = next(row for row in listed if row["write in Family"] == "jst_shl")
    assert shl["ways"] == "2-30*"


def test_the_details_say_each_figure_in_words_with_its_source():
    (pairs,) = details(["jst_sh"])
    said = dict(pairs)
    assert said["ways"] == "2-16 20"
    assert said["housing of the plug"] == "SHR-{nn}V-S-B (with side protrusions); SHR-{nn}V-S (without)"
    assert said["crimp contacts"] == "SSH-003T-P0.2-H (AWG 32-28)"
    assert said["source of the rating"].startswith("JST")
    assert said["strip, mm"] == "1.5"
    assert "plugged, times" not in said and "plugged" in said["not known"].split("; ")


def test_the_details_say_grades_in_words_and_nothing_twice():
    for pairs in details(family_ids()):
        said = dict(pairs)
        text = " ".join(said.values())
        assert re.search(r"\[(?:CP|MEM|[ABCKPM])\b", text) is None, said["write in Family"]
        assert said.get("ways, as stated") != said.get("ways", "")


def test_every_field_of_a_family_has_a_head_in_words():
    assert list(HEADS) == [*(field.name for field in fields(Family)), "contacts"]
    assert not any("_" in head for head in HEADS.values() if head)


@pytest.mark.parametrize("text", ["jst", "JST", " Jst "])
def test_a_maker_stands_for_its_families(text):
    ids = [each["id"] for each in families_json([text])["families"]]
    assert ids == list(members(text)) and len(ids) > 10
    assert all(id.startswith("jst_") for id in ids)


def test_a_line_of_a_maker_stands_for_its_families_and_one_alone_for_itself():
    assert members("Molex Clikmate") == ("molex_clikmate_125", "molex_clikmate_150", "molex_clikmate_200")
    assert members("servo") == () and [each["family"] for each in rows(["servo"])] == ["servo_254"]
    assert [each["family"] for each in rows(["jst_sh", "jst"])].count("jst_sh") == 1


@pytest.mark.parametrize(("wrong", "near"), [("jts", "did you mean jst?"), ("molx", "did you mean molex?")])
def test_a_maker_misspelt_is_told(wrong, near):
    assert members(wrong) == ()
    with pytest.raises(TabsideError, match=re.escape(near)):
        rows([wrong])


@pytest.mark.parametrize("text", ["", " ", "_", "-", "jst_s", "j"])
def test_a_part_of_a_word_names_no_family(text):
    assert members(text) == ()
