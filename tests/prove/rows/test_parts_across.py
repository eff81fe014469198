"""Parts across wires: fitted and looked at before the craft is measured for a short.

Logic, no source: a part that comes after the look for a short is measured by nobody; no meter of a bench tells which
way round a capacitor is.
"""

import pytest

from crafts.craft_kit import captive, pads, plug, two_pin
from crafts.small_craft import small_craft
from tabside.documents.build import craft_build
from tabside.prove.measurement import RowKind, When
from tabside.prove.measurement import Test as Measure
from tabside.rules import check_craft
from tabside_exporters.pages.bench_items import bench_sections

PACK = captive("J1", ["PLUS", "MINUS"], board="pack", signals="BAT+, BAT-", gives="VBAT 10A")
PLUGGED = (plug("J2", ["MINUS", "PLUS"], board="power", family="XT60", signals="GND, VBAT"),)
FUSED = (
    two_pin("F1", "PLUS", "FUSED", value="10A"),
    pads("J2", ["FUSED", "MINUS"], board="power", signals="VBAT, GND"),
)
SOLDERED = (pads("J2", ["PLUS", "MINUS"], board="power", signals="VBAT, GND"),)


def built(*symbols):
    craft = small_craft(*symbols, leads={"*": {"length_mm": 100.0, "gauge_awg": 18}})
    return craft_build(craft, check_craft(craft))


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("power", [PLUGGED, FUSED, SOLDERED], ids=["plug", "fuse", "pads"])
def test_a_capacitor_is_looked_at_before_the_look_for_a_short_and_before_the_pack(power, turned):
    plus = "FUSED" if power is FUSED else "PLUS"
    legs = ("MINUS", plus) if turned else (plus, "MINUS")
    build = built(PACK, *power, two_pin("C1", *legs, value="470uF 35V"))
    rows = build.proof.rows
    (look,) = (row for row in rows if row.kind is RowKind.LOOK and "capacitor C1" in row.start)
    place = {"VBAT": "1", "GND": "2"} if power is not PLUGGED else {"GND": "1", "VBAT": "2"}
    assert f"its minus leg (stripe) at power/J2:{place['GND']} (GND)" in look.expect
    assert f"its plus leg (the long one) at power/J2:{place['VBAT']} (VBAT" in look.expect
    assert "burst" in look.note
    after = [row for row in rows if row.test is Measure.SHORT or row.kind is RowKind.VOLTS or row.when is When.PACK]
    assert after
    assert all(rows.index(look) < rows.index(row) for row in after)
    items = [(section.id, item) for section in bench_sections(build) for item in section.items]
    fitted = next(n for n, (section, _) in enumerate(items) if section == "parts")
    seen = next(n for n, (_, item) in enumerate(items) if item.id == look.id)
    first_live = next(n for n, (_, item) in enumerate(items) if item.live)
    shorts = [
        n for n, (_, item) in enumerate(items) if item.id in {row.id for row in rows if row.test is Measure.SHORT}
    ]
    assert fitted < seen < min([first_live, *shorts])


def test_a_resistor_has_no_right_way_round_and_is_looked_at_all_the_same():
    two = pads("J2", ["A", "B"], board="one", signals="OUT, IN")
    build = built(two, pads("J3", ["A", "B"], board="two", signals="IN, OUT"), two_pin("R1", "A", "B", value="120"))
    (look,) = (row for row in build.proof.rows if row.kind is RowKind.LOOK and "R1" in row.start)
    assert "its leg 1 at one/J2:1 (OUT)" in look.expect
    assert "burst" not in look.note
    assert "no solder from one leg to the next" in build.plan.parts[0].words
