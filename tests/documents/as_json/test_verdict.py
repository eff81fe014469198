"""The JSON of a verdict: the keys that stay."""

from __future__ import annotations

import json

import pytest

from crafts.craft_kit import craft, plug
from tabside.documents.as_json.verdict import contact_json, verdict_json
from tabside.rules import check_craft

MIRRORED = (
    plug("J1", "A B C D", board="pilot", family="JST GH", signals="5V, TX, RX, GND"),
    plug("J2", "D C B A", board="gps", family="JST GH", signals="5V, RX, TX, GND"),
)


def made():
    a_craft = craft(*MIRRORED, root="pond")
    return a_craft, json.loads(json.dumps(verdict_json(a_craft, check_craft(a_craft))))


def test_the_keys_and_the_counts():
    a_craft, found = made()
    keys = {"format", "craft", "findings", "counts", "judged", "verdict", "not_judged", "chosen"}
    assert set(found) == keys
    assert found["format"] == "tabside/check/1"
    assert found["craft"] == a_craft.name
    assert set(found["counts"]) == {"error", "warning", "note", "accepted"}
    assert found["counts"]["error"] == 1
    assert found["judged"] == {
        "leads": 4,
        "not_judged": 0,
        "boards_unknown": 0,
        "families_unknown": 0,
        "views_unknown": 2,
    }


def test_a_finding_with_its_folded_clashes_and_places():
    _, found = made()
    finding = found["findings"][0]
    assert set(finding) == {"rule", "severity", "message", "fix", "accepted", "where", "folded"}
    assert (finding["rule"], finding["severity"], finding["accepted"]) == ("mirrored", "error", None)
    assert len(finding["folded"]) == 4
    assert {each["rule"] for each in finding["folded"]} <= {"role-clash", "uart-not-crossed"}
    where = finding["where"][0]
    assert set(where) == {"board", "termination", "contact", "net", "sheet", "at_mm"}
    assert where["sheet"] == "/" and len(where["at_mm"]) == 2
    assert isinstance(where["contact"], int)


def test_keys_that_do_not_apply_are_null():
    _, found = made()
    note = next(each for each in found["findings"] if each["rule"] == "end-kind")
    assert note["where"][0]["contact"] is None and note["where"][0]["net"] is None


@pytest.mark.parametrize(("drawn", "written"), [("7", 7), ("A7", "A7"), ("07", "07"), ("", ""), (None, None)])
def test_contacts_are_integers_when_decimal(drawn, written):
    assert contact_json(drawn) == written
