"""What is told of wires beside their changes, and what is no change: common practice, no source."""

from __future__ import annotations

from msgspec.structs import replace

from crafts.craft_kit import captive, craft, pads
from tabside.cli.compare_command import _print
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.compare.order import order_of_work


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
