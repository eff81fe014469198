"""What a drawing states of a place or a part is part of the build: what hangs on it burns when nobody looks.

That a fuse protects the wire behind it is the rule `fuse-size`; the rest is common practice, no source.
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from crafts.craft_kit import Symbol, captive, craft, plug, two_pin
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.documents.build import craft_build
from tabside.model.craft import Acceptance, CraftSettings, Limits
from tabside.rules import check_craft

FAMILY = {"family": "JST GH", "signals": "5V, GND"}
HUB = plug("J1", "A B", board="hub", value="TELEM1", gives="1:5V 1A", **FAMILY)
FAR = plug("J2", "C B", board="far", value="IN", takes="1:5V 0.2A", **FAMILY)
FUSE = two_pin("F1", "A", "C", value="Fuse")


def differs(before: list[Symbol], after: list[Symbol]) -> list[tuple[str, str, str | None, str | None]]:
    found = compare_crafts(craft(*before), craft(*after))
    assert found.same is not bool(found.changes)
    return [(each.subject, each.name, each.before, each.after) for each in found.changes if each.subject != "finding"]


def rated(symbol: Symbol, rating: str) -> Symbol:
    return replace(symbol, fields={**symbol.fields, "Rating": rating})


def test_a_fuse_of_another_rating_is_another_build():
    before, after = [HUB, FAR, rated(FUSE, "2A")], [HUB, FAR, rated(FUSE, "5A")]
    assert differs(before, after) == [("termination", "F1", "rating 2 A", "rating 5 A")]
    assert differs(before, [HUB, FAR, FUSE]) == [("termination", "F1", "rating 2 A", "rating not stated")]


def test_a_rating_written_in_another_way_is_the_same_fuse():
    assert differs([HUB, FAR, rated(FUSE, "2A")], [HUB, FAR, rated(FUSE, "2000 mA")]) == []
    assert differs([HUB, FAR, replace(FUSE, value="2A")], [HUB, FAR, rated(replace(FUSE, value="2A"), "2 A")]) == []


def test_a_capacitor_rated_otherwise_is_another_part():
    capacitor = two_pin("C1", "A", "B", value="470uF 35V")
    there, none = [HUB, FAR, FUSE, capacitor], [HUB, FAR, FUSE]
    assert len(differs(there, [*none, rated(capacitor, "16V")])) == 2
    assert differs(there, [*none, rated(capacitor, "35 V")]) == []


@pytest.mark.parametrize(("letters", "others"), [("SW", "D"), ("SW", "F"), ("F", "CB"), ("R", "L"), ("JP", "SW")])
def test_a_part_of_another_kind_under_one_value_is_another_build(letters, others):
    """A diode where a switch was stops what flows backwards; the letters are those of KiCad's libraries: [K]."""
    before, after = (two_pin(f"{ref}1", "A", "C", value="5A") for ref in (letters, others))
    told = differs([HUB, FAR, before], [HUB, FAR, after])
    assert ("termination", f"{letters}1", "in-line part, 2-way", None) in told
    assert ("termination", f"{others}1", None, "in-line part, 2-way") in told
    assert {subject for subject, *_ in told} >= {"termination", "lead"}
    assert differs([HUB, FAR, before], [HUB, FAR, replace(before, reference=f"{letters}9")]) == []


def test_a_part_across_wires_of_another_kind_under_one_value_is_another_part():
    across = [two_pin(ref, "A", "B", value="100") for ref in ("R1", "L1", "R9")]
    told = differs([HUB, FAR, FUSE, across[0]], [HUB, FAR, FUSE, across[1]])
    assert {subject for subject, *_ in told} == {"part"} and len(told) == 2
    assert differs([HUB, FAR, FUSE, across[0]], [HUB, FAR, FUSE, across[2]]) == []


@pytest.mark.parametrize("kind", ["receptacle", "pad"])
def test_a_place_of_another_name_on_the_board_is_said(kind):
    """The same symbol, but another port of the board may be meant."""
    spare = plug("J3", "- -", board="hub", value="TELEM2", **FAMILY)
    hub = replace(HUB, fields={**HUB.fields, "Kind": kind})
    told = differs([hub, spare, FAR, FUSE], [replace(hub, value="TELEM3"), spare, FAR, FUSE])
    assert ("fact", "hub/J1: name on the board", "TELEM1", "TELEM3") in told
    for value in ("telem-1", "Conn_01x02"):
        assert differs([hub, spare, FAR, FUSE], [replace(hub, value=value), spare, FAR, FUSE]) == []


def test_a_connector_that_is_drawn_on_a_new_board_takes_its_plug_along():
    """The board that it was on stays: it has not only been given another name."""
    port, more = (plug(ref, "- -", board="hub", value=ref, **FAMILY) for ref in ("J3", "J4"))
    after = replace(HUB, fields={**HUB.fields, "Board": "second hub"})
    for old, new in ((HUB, after), (after, HUB)):
        answer = comparison_json(compare_crafts(craft(old, port, more, FAR, FUSE), craft(new, port, more, FAR, FUSE)))
        moved = [cable for cable in answer["cables"] if cable["do"] == "move plug"]
        whole = [(step["action"], step["end"], step["of_old"]) for cable in moved for step in cable["steps"]]
        assert ("take out", f"{old.fields['Board']}/J1", True) in whole
        assert ("put in", f"{new.fields['Board']}/J1", False) in whole
        assert moved[0]["measure"]


def bus(pair: str = "", *, second: str = ""):
    made = craft(
        plug("J1", "H L G", board="hub", family="JST GH", signals="CANH, CANL, GND"),
        plug("J2", "H L G", board="node", family="JST GH", signals="CANH, CANL, GND"),
    )
    pairs = {"W1": pair, "W2": second or pair}
    return replace(made, leads=tuple(replace(lead, pair=pairs.get(lead.mark) or None) for lead in made.leads))


def test_wires_that_are_to_be_twisted_together_are_another_build_and_measured():
    """The field `Pair`, as the manual has it: wires of one pair are twisted together."""
    answer = comparison_json(compare_crafts(bus(), bus("can")))
    (change,) = answer["changes"]
    assert not answer["same"] and change["name"] == "twisted together: W1 and W2"
    (cable,) = answer["cables"]
    assert sum(step["words"].startswith("twist W1 and W2 together") for step in cable["steps"]) == 1
    assert {mark for row in cable["measure"] for mark in row["leads"]} >= {"W1", "W2"}
    back = comparison_json(compare_crafts(bus("can"), bus()))
    assert [each["kind"] for each in back["changes"]] == ["removed"] and not back["cables"][0]["steps"]


def test_a_pair_of_another_name_and_a_name_on_one_wire_alone_are_no_change():
    assert compare_crafts(bus("can"), bus("line")).same
    assert compare_crafts(bus(), bus("can", second="other")).same


def test_the_plan_says_which_wires_are_twisted_together():
    made = bus("can")
    sheets = craft_build(made, check_craft(made)).plan.cables
    (look,) = [text for sheet in sheets for text in sheet.needs_one_look if "twist" in text]
    assert "W1 and W2 are twisted together (pair can)" in look


@pytest.mark.parametrize(("before", "after", "stays"), [(1.0, 1.0, True), (1.0, 1.5, False), (None, 1.5, True)])
def test_wire_of_another_insulation_is_made_again_where_both_are_stated(before, after, stays):
    def lit(insulation_mm):
        limits = Limits(insulation_mm={} if insulation_mm is None else {26: insulation_mm})
        return craft(
            plug("J1", "V G", board="hub", signals="5V, GND", family="JST GH", gives="5V 1A"),
            plug("J2", "V G", board="lamp", signals="5V, GND", family="JST GH", takes="5V 0.1A"),
            settings=CraftSettings(gauge_awg=26, limits=limits),
        )

    (work,) = compare_crafts(lit(before), lit(after)).work
    assert bool(work.fate.wires) is stays and bool(work.fate.made) is not stays


def test_a_change_never_says_the_same_before_and_after():
    cases = [
        ({}, {"isolated": "yes"}),
        ({}, {"either": "5V"}),
        ({}, {"types": "input"}),
        ({}, {"family": "JST PH"}),
        ({}, {"kind": "pad"}),
    ]
    for one, other in cases:
        old, new = (plug("J1", "A B", board="hub", **(FAMILY | more)) for more in (one, other))
        for pair in ((old, new), (new, old)):
            found = compare_crafts(*(craft(each, replace(FAR, nets=(("1", "A"), ("2", "B")))) for each in pair))
            assert found.changes
            assert [each for each in found.changes if each.before == each.after and each.subject != "cable"] == []
            assert not any(word in (each.before, each.after) for each in found.changes for word in ("True", "false"))


def test_a_parts_own_wires_are_no_cable_for_the_drawer():
    pack = captive("J3", "P M", board="pack", value="pack", family="XT60", signals="BAT+, BAT-", gives="1:9-12V")
    there = plug("J4", "P M", board="hub", value="BATT", family="XT60", signals="BAT+, BAT-")
    for new, words in ((craft(HUB, FAR, FUSE, there), "go with it"), (craft(HUB, FAR, FUSE, pack), "stay on it")):
        found = compare_crafts(craft(HUB, FAR, FUSE, pack, there), new)
        (gone,) = [fate for fate in found.cables if fate.what == "retire"]
        assert words in gone.words and "stock" not in gone.words


def test_a_logic_level_is_told_of_signals_and_a_rail_once():
    def link(level, gives):
        return craft(
            plug("J1", "V A G", board="hub", family="JST GH", signals="5V, TX, GND", gives=gives, level="3.3V"),
            plug("J2", "V A G", board="gps", family="JST GH", signals="5V, RX, GND", takes="1:5V 0.1A", level=level),
        )

    found = compare_crafts(link("3.3V", "1:5V 1A"), link("5V", "1:5V 2A"))
    told = [each.name for each in found.changes if each.subject == "fact"]
    assert sorted(told) == ["gps/J2:2 (RX): level", "hub/J1: gives"]


@pytest.mark.parametrize(
    ("limits", "name", "before", "after"),
    [
        ({"budget_percent": 50.0}, "limits.budget_percent", "80", "50"),
        ({"ampacity_factor": 0.5}, "wire.ampacity_factor", "1", "0.5"),
        ({"wire_c": 60.0}, "wire.temperature_c", "20", "60"),
        ({"insulation_mm": {28: 0.9}}, "wire.insulation_od_mm", "", "28 AWG 0.9 mm"),
    ],
)
def test_a_limit_is_called_by_its_key_in_the_craft_file(limits, name, before, after):
    def of(**stated):
        return craft(HUB, FAR, FUSE, settings=CraftSettings(limits=Limits(**stated)))

    (change,) = (each for each in compare_crafts(of(), of(**limits)).changes if each.name == name)
    assert (change.before or "", change.after) == (before or change.before, after)


def test_an_acceptance_that_accepts_nothing_says_so():
    """Its contacts are there, and the finding names others."""

    def of(*contacts):
        accept = tuple(Acceptance("fuse-missing", contacts, "bench only") for _ in contacts[:1])
        pack = captive("BT1", "V G", board="pack", signals="VBAT, GND", gives="1:12-16V 30A")
        board = plug("J9", "V G", board="hub", signals="VBAT, GND", takes="1:7-30V 5A", family="XT60")
        return craft(pack, board, settings=CraftSettings(accept=accept, gauge_awg=12))

    for contacts, works in (((("BT1", "1"), ("J9", "1")), True), ((("BT1", "2"), ("J9", "1")), False)):
        found = compare_crafts(of(), of(*contacts))
        (change,) = (each for each in found.changes if each.subject == "acceptance")
        assert change.bench.startswith("Accepted now:" if works else "It accepts nothing:"), change
