"""Which fuses come out while hands are at a pack's wires.

Logic, and common practice of work at packs, no source outside.
"""

from __future__ import annotations

from crafts.craft_kit import captive, craft, pads, plug, two_pin
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.model.craft import Craft


def fed(*, fused: bool) -> Craft:
    """A pack, fused or not, and a fuse behind the board that it never reaches; numbered in the order of the drawing."""
    symbols = [
        captive("BT1", ["BAT", "GND"], board="pack", signals="BAT+, GND", gives="VBAT 45A"),
        plug("J2", ["FED" if fused else "BAT", "GND"], board="power", signals="BAT+, GND", family="XT60"),
        pads("J5", ["5V", "GND"], board="power", signals="5V, GND", gives="5V 1A"),
        pads("J6", ["5VF", "GND"], board="servo", signals="5V, GND", takes="5V 0.1A"),
    ]
    servo = two_pin("F2" if fused else "F1", "5V", "5VF", value="2A")
    return craft(*symbols, two_pin("F1", "BAT", "FED", value="30A"), servo) if fused else craft(servo, *symbols)


def test_a_fuse_that_is_called_now_as_the_packs_was_stays_in():
    found = compare_crafts(fed(fused=True), fed(fused=False))
    assert found.matching.pairs["F2"] == "F1"
    words = [step["words"] for cable in comparison_json(found)["cables"] for step in cable["steps"]]
    assert [text for text in words if "take it out" in text or "fuse back" in text] == [
        "no fuse in F1 of the old drawing from here on: take it out"
    ]
    cautions = {text for cable in comparison_json(found)["cables"] for text in cable["cautions"] if "Fuse" in text}
    assert cautions == {"Fuse out of F1 of the old drawing."}
