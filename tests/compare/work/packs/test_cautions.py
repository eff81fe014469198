"""What the plan warns of at a pack's own wires stands in every output of a comparison, sheet by sheet.

The measure is the plan of the new, or of the old, craft.  Common practice of work at packs, no source outside.
"""

from __future__ import annotations

import csv
import re

import pytest

from crafts.craft_kit import captive, craft, pads, plug, two_pin
from tabside.cli.compare_command import _print
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.compare.pages import write_comparison
from tabside.documents.build import craft_build
from tabside.model.craft import CraftSettings
from tabside.rules import check_craft
from tabside.wiring.terminations.fields import read_volts
from tabside.words.cautions import CAUTIONS, LIVE_CAUTIONS

SETTINGS = CraftSettings(battery=read_volts("12-16.8V"), battery_text="4S")


def boat(*, packs=("one",), fuse="", switch="", pads_at=True, value="", extra=False):
    """Packs on one board: soldered to pads, or into a plug; with or without fuse and switch."""
    symbols, fed = [], "BAT"
    for name, what in ((fuse, "30A"), (switch, "switch")):
        if name:
            symbols.append(two_pin(name, fed, f"N{name}", value=what))
            fed = f"N{name}"
    own = {"board": "power", "signals": "BAT+, GND"}
    symbols.append(pads("J2", [fed, "GND"], **own) if pads_at else plug("J2", [fed, "GND"], family="XT60", **own))
    for n, name in enumerate(packs):
        at = {"board": f"pack {name}", "signals": "BAT+, GND", "gives": "VBAT 45A", "value": value}
        symbols.append(captive(f"J1{n}", ["BAT", "GND"], **at))
    symbols.append(plug("J3", ["5V", "GND"], board="power", signals="5V, GND", family="JST GH", gives="5V 1A"))
    symbols.append(plug("J4", ["5V", "GND"], board="pilot", signals="5V, GND", family="JST GH", takes="5V 0.1A"))
    if extra:
        symbols.append(pads("J5", ["5V", "GND"], board="lamp", signals="5V, GND", takes="5V 0.1A"))
    return craft(*symbols, settings=SETTINGS)


CASES = {
    "exchanged": ({"value": "a"}, {"value": "b"}),
    "exchanged, fused": ({"value": "a", "fuse": "F1"}, {"value": "b", "fuse": "F1"}),
    "exchanged, plug": ({"value": "a", "pads_at": False}, {"value": "b", "pads_at": False}),
    "added": ({"packs": ()}, {}),
    "a second one": ({}, {"packs": ("one", "two")}),
    "removed": ({}, {"packs": ()}),
    "one of two removed": ({"packs": ("one", "two")}, {}),
    "fuse in": ({}, {"fuse": "F1"}),
    "fuse out": ({"fuse": "F1"}, {}),
    "switch in": ({}, {"switch": "SW1"}),
    "another board": ({"pads_at": True}, {"pads_at": False}),
    "beside a pack": ({}, {"extra": True}),
}


def plans_cautions(*crafts):
    """What the plans of these crafts say on sheets with live steps, without where these sheets stand."""
    said = set()
    for each in crafts:
        for sheet in craft_build(each, check_craft(each)).plan.cables:
            if sheet.is_live:
                said |= {text.removeprefix("Sheets with LIVE steps come last. ") for text in sheet.cautions}
    return said


def flat(text):
    """Without boxes, escapes and breaks of lines."""
    return re.sub(r"[\s\\*]+", " ", text)


@pytest.mark.parametrize("case", CASES)
def test_every_output_warns_of_packs_as_the_plan_does(case, tmp_path, capsys):
    old, new = (boat(**each) for each in CASES[case])
    found = compare_crafts(old, new)
    answer = comparison_json(found)
    live = [each for each in answer["cables"] if any(step["live"] for step in each["steps"])]
    assert live or answer["first"]
    wanted = {text.removeprefix("Sheets with LIVE steps come last. ") for text in LIVE_CAUTIONS}
    assert wanted <= plans_cautions(old, new)
    for each in live:
        assert wanted <= set(each["cautions"]), each["words"]
    new_plan = plans_cautions(new)
    built = [text for each in live if each["new_leads"] for text in each["cautions"]] + answer["cautions"]
    if any(each["new_leads"] for each in live) or any("LIVE" in line for line in answer["last"]):
        assert {text for text in new_plan if "powers" not in text and "has had power" not in text} <= set(built)
    write_comparison(found, str(tmp_path), None)
    _print(found)
    outputs = {"terminal": capsys.readouterr().out}
    for name in ("order-of-work.md", "order-of-work.html", "order-of-work.json", "comparison.md"):
        outputs[name] = (tmp_path / name).read_text(encoding="utf-8")
    with (tmp_path / "order-of-work.csv").open(encoding="utf-8", newline="") as file:
        outputs["order-of-work.csv"] = "\n".join(row["words"] for row in csv.DictReader(file))
    times = len(live) + any("LIVE" in line for line in (*answer["first"], *answer["last"]))
    for name, text in outputs.items():
        shown = flat(text.replace("&#39;", "'").replace("\\u0027", "'"))
        for caution in {*wanted, *(text for each in live for text in each["cautions"])}:
            assert flat(caution) in shown, (name, caution)
        for caution in wanted:
            assert shown.count(flat(caution)) >= times, (name, caution)
        assert all(flat(caution) in shown for caution in CAUTIONS), name


def test_the_order_of_work_says_nothing_of_packs_where_none_is_touched():
    old, new = boat(packs=()), boat(packs=(), extra=True)
    answer = comparison_json(compare_crafts(old, new))
    assert not any("pack" in text for each in answer["cables"] for text in each["cautions"])
    assert any("ventilation" in text for each in answer["cables"] for text in each["cautions"])
