"""What is told of wires beside their changes, and what is no change: common practice, no source."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from crafts.craft_kit import captive, craft, pads, plug, two_pin
from tabside.cli.compare_command import _print
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.compare.order.order_of_work import order_of_work


def star(*, lamps, drawn=False):
    """Lamps on one pair of pads: by names alone, or wire by wire."""
    made = craft(
        pads("J5", "V G", board="hub", signals="12V, GND", gives="1:12V 4A", leads_max=4),
        *(pads(f"J1{n}", "V G", board=f"lamp {n}", signals="12V, GND", takes="1:12V 1A") for n in range(lamps)),
    )
    leads = tuple(replace(lead, how="drawn") for lead in made.leads) if drawn else made.leads
    return replace(made, leads=leads)


def test_wires_that_were_chosen_and_are_changed_are_named_once(capsys):
    found = compare_crafts(star(lamps=3), star(lamps=2))
    marks = [lead.mark for lead in found.old.craft.leads if lead.how == "chosen"]
    assert marks
    told = order_of_work(found).chosen
    assert told.startswith("Not drawn but chosen in the old drawing: ") and all(mark in told for mark in marks)
    _print(found)
    assert " ".join(capsys.readouterr().out.split()).count("Not drawn but chosen") == 1
    assert comparison_json(found)["chosen"] == told
    assert not order_of_work(compare_crafts(star(lamps=3, drawn=True), star(lamps=2, drawn=True))).chosen
    assert not order_of_work(compare_crafts(star(lamps=3), star(lamps=3))).chosen


def test_another_lamp_is_told_apart_in_its_wires_too():
    def lit(value):
        return craft(
            pads("J1", "V G", board="hub", signals="5V, GND", gives="5V 1A"),
            captive("J2", "V G", board="lamp", value=value, signals="5V, GND", takes="5V 0.1A"),
        )

    changes = [each for each in compare_crafts(lit("red lamp"), lit("green lamp")).changes if each.subject == "lead"]
    assert changes
    for each in changes:
        assert each.before.endswith("red lamp") and each.after.endswith("green lamp")


def test_a_name_that_came_or_went_on_a_wire_is_no_other_voltage_where_the_contact_states_its_own():
    """A fuse put in: the net behind the pack has another name, the pack gives what it gave."""

    def fed(net, gives="1:12.8-16.8V 30A"):
        made = craft(
            captive("BT1", f"{net} G", board="pack", signals="VBAT, GND", gives=gives),
            pads("J9", f"{net} G", board="hub", signals="VBAT, GND", takes="1:7-30V 5A"),
        )
        names = {lead.net_id: (net,) for lead in made.leads if lead.a[1] == "1"}
        return replace(made, net_names=names)

    for old, new in ((fed("VBAT"), fed("OUT")), (fed("OUT"), fed("VBAT"))):
        assert not [each for each in compare_crafts(old, new).changes if each.subject == "fact"]
    other = compare_crafts(fed("+12V"), fed("+5V"))
    assert [each.name for each in other.changes if each.name.endswith(": rail")]


@pytest.mark.parametrize(("before", "after", "told"), [(None, 1.0, True), (1.0, None, False), (1.0, 1.0, False)])
def test_an_insulation_that_is_stated_for_the_first_time_is_to_be_seen(before, after, told, capsys):
    """Unknown against known: the wire that is there is looked at, and stays."""

    def link(od_mm):
        made = craft(
            plug("J1", "A B", board="hub", family="JST GH", signals="TX, GND"),
            plug("J2", "A B", board="gps", family="JST GH", signals="RX, GND"),
        )
        limits = replace(made.settings.limits, insulation_mm={} if od_mm is None else {28: od_mm})
        leads = tuple(replace(lead, gauge_awg=28) for lead in made.leads)
        return replace(made, leads=leads, settings=replace(made.settings, limits=limits))

    found = compare_crafts(link(before), link(after))
    assert [fate.what for fate in found.cables] == ["keep"]
    words = "check that the wire you have is 1 mm over its insulation"
    assert bool([line for line in order_of_work(found).stated if words in line]) is told
    _print(found)
    assert (words in " ".join(capsys.readouterr().out.split())) is told


def test_a_cable_that_stays_and_is_measured_says_so_and_what_to_see_in_json_too():
    """Where contact 1 lies is stated otherwise, and a colour for the first time."""

    def link(contact_1, colour):
        made = craft(
            plug("J1", "A B", board="hub", family="JST GH", signals="TX, GND"),
            plug("J2", "A B", board="gps", family="JST GH", signals="RX, GND", contact_1=contact_1, entry="side"),
        )
        return replace(made, leads=tuple(replace(lead, colour=colour) for lead in made.leads))

    (cable,) = comparison_json(compare_crafts(link("left", None), link("right", "RD")))["cables"]
    assert cable["do"] == "keep" and cable["steps"]
    assert cable["words"].startswith("It stays as it is. What the drawing says of it has changed: measure it.")
    assert "check that the wire you have is RD" in cable["words"]


def test_what_was_set_in_a_board_that_goes_is_not_taken_back():
    def flown(*far):
        hub = plug("J1", "A B G" if far else "- - -", board="hub", family="JST GH", signals="TX, RX, GND")
        return craft(hub, *far)

    gps = plug("J2", "A B G", board="gps", family="JST GH", signals="RX, TX, GND")
    found = compare_crafts(flown(gps), flown())
    told = {each.name: each.bench for each in found.changes if each.subject == "setting"}
    assert told["port gps/J2"] == "Nothing to take back: its board goes."
    assert told["port hub/J1"].endswith("take back what is set for it in hub.")
    assert [each.name for each in order_of_work(found).settings] == ["port hub/J1"]


def test_a_parts_own_wire_is_not_made_and_pads_have_no_contact_1_to_be_found():
    lamp = {"board": "lamp", "signals": "5V, GND", "value": "lamp"}
    lies = {"entry": "side", "tabs": "away", "contact_1": "left", "family": "JST GH"}
    there = craft(
        plug("J3", "V G", board="hub", signals="5V, GND", **lies), captive("J12", "V G", family="JST GH", **lamp)
    )
    more = craft(
        plug("J3", "V - - G", board="hub", signals="5V, TX, RX, GND", **lies),
        captive("J12", "V G", family="JST GH", **lamp),
    )
    bare = craft(pads("J3", "V G", board="hub", signals="5V, GND"), captive("J12", "V G", **lamp))
    (added,) = (each for each in compare_crafts(there, more).changes if (each.kind, each.subject) == ("added", "lead"))
    assert added.bench == "It is the part's own wire: the steps of cable C1 say where its far end goes."
    told = [each.name for each in compare_crafts(there, bare).changes if each.subject == "fact"]
    assert not [name for name in told if name.startswith("hub/J3: ")], told


def lit(*, inlet):
    """A lamp on a hub's pads; `inlet`: with pads for power that a supply's own are wired to."""
    own = {"board": "hub"}
    symbols = [pads("J5", "V G", signals="12V, GND", gives="1:12V 4A", **own)]
    symbols.append(pads("J6", "V G", board="lamp", signals="12V, GND", takes="1:12V 1A"))
    if inlet:
        symbols.append(pads("J7", "S G2", signals="24V, GND", takes="1:24V 2A", **own))
        symbols.append(pads("J8", "S G2", board="supply", signals="24V, GND", gives="1:24V 2A"))
    return craft(*symbols)


def test_pads_on_a_board_that_stays_are_not_taken_out_and_have_no_contact_1():
    goes, comes = compare_crafts(lit(inlet=True), lit(inlet=False)), compare_crafts(lit(inlet=False), lit(inlet=True))
    (bench,) = (change.bench for change in goes.changes if change.name == "hub/J7")
    assert bench == "Nothing is on these pads any more: the steps take off what was there."
    (bench,) = (change.bench for change in comes.changes if change.name == "hub/J7")
    assert bench == "Find its pads by the names printed there."


def test_a_joint_of_the_old_drawing_is_named_before_its_drawing():
    """ "F1 of the old drawing 1" is read twice."""

    def fed(*, fused):
        through = [two_pin("F1", "V", "W", value="2A")] if fused else []
        return craft(
            pads("J1", "V G", board="hub", signals="12V, GND", gives="1:12V 4A"),
            pads("J2", ["W" if fused else "V", "G"], board="lamp", signals="12V, GND", takes="1:12V 1A"),
            *through,
        )

    steps = [step.words for work in compare_crafts(fed(fused=True), fed(fused=False)).work for step in work.steps]
    off = [words for words in steps if "of the old drawing" in words]
    assert off and all("F1 1 of the old drawing" in words or "F1 2 of the old drawing" in words for words in off)
