"""A board that keeps its name and has other connectors: what is soldered to it is told before all else.

Common practice of work at packs, no source outside.
"""

from __future__ import annotations

import csv
import re

from benches.pack_bench import perils
from crafts.craft_kit import captive, craft, pads, plug, two_pin
from tabside.cli.compare_command import _print
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.compare.order import order_of_work
from tabside.compare.pages import write_comparison
from tabside.model.craft import CraftSettings
from tabside.wiring.terminations.fields import read_volts

SETTINGS = CraftSettings(battery=read_volts("12-16.8V"), battery_text="4S")


def rover(*, ways=4, soldered=True, lamp=False, fuse=False, switch=False, family="JST GH"):
    """A pack and a lamp soldered to a hub of which one connector has as many ways."""
    spare = ["-"] * (ways - 4)
    signals = ", ".join(["5V, TX, RX, GND", *(f"IO{n}" for n, _ in enumerate(spare))])
    nets = ["5V", "A", "B", "GND", *spare]
    symbols = [plug("J1", nets, board="hub", signals=signals, family=family, gives="5V 1A")]
    symbols.append(plug("J2", "5V B A GND", board="gps", signals="5V, TX, RX, GND", family="JST GH", takes="5V 0.1A"))
    if fuse:
        symbols.append(two_pin("F1", "BAT", "FED", value="30A"))
    if switch:
        symbols.append(two_pin("SW1", "FED", "ON", value="toggle"))
    own = {"board": "hub", "signals": "BAT+, GND"}
    at = ["ON" if switch else "FED" if fuse else "BAT", "GND"]
    symbols.append(pads("J9", at, **own) if soldered else plug("J9", at, family="XT60", **own))
    symbols.append(captive("BT1", ["BAT", "GND"], board="pack", signals="BAT+, GND", gives="VBAT 45A"))
    if lamp:
        symbols.append(pads("J8", ["5V", "GND"], board="hub", signals="5V, GND", gives="5V 1A"))
        symbols.append(captive("J12", ["5V", "GND"], board="lamp", signals="5V, GND", takes="5V 0.1A"))
    return craft(*symbols, settings=SETTINGS)


def flat(text):
    return re.sub(r"[\s\\*]+", " ", text)


def held(found):
    return [line for line in found.todo.first if "board hub" in line]


def test_what_is_soldered_to_such_a_board_is_told_before_all_else_and_everywhere(tmp_path, capsys):
    found = compare_crafts(rover(lamp=True), rover(ways=8, lamp=True))
    look, out, onto = held(found)
    assert found.todo.first[:3] == (look, out, onto)
    assert "J1 is JST GH 8-way, before JST GH 4-way" in look and "it stays" in look
    assert out.startswith("LIVE: ") and "all plugs" in out and "every fuse" in out
    marks = {f"{lead.ends[0][0]} {lead.ends[1][0]}": [] for lead in found.old.craft.leads}
    for lead in found.old.craft.leads:
        marks[f"{lead.ends[0][0]} {lead.ends[1][0]}"].append(lead.mark)
    places = re.findall(r"(W\d+)(?: \((\w+) of pack\))? off (hub/J\d+ \d)", out)
    assert [(pole, place) for _, pole, place in places] == [
        ("plus", "hub/J9 1"),
        ("minus", "hub/J9 2"),
        ("", "hub/J8 1"),
        ("", "hub/J8 2"),
    ]
    told = re.findall(r"W\d+", onto)
    assert told == [places[n][0] for n in (2, 3, 1, 0)]  # the pack's plus last of all
    assert "tabside plan NEW" in onto and "volts measured before the last joint" in onto
    kept = [line for line in found.kept() if "hub/J9" in line or "hub/J8" in line]
    assert len(kept) == 2 and all("kept where the board hub stays" in line for line in kept)
    cables = comparison_json(found)["cables"]
    assert sum(each["words"] == "Keep it where the board hub stays." for each in cables) == 2
    write_comparison(found, str(tmp_path), None)
    _print(found)
    outputs = {"terminal": capsys.readouterr().out}
    for name in ("order-of-work.md", "order-of-work.html", "order-of-work.json"):
        outputs[name] = (tmp_path / name).read_text(encoding="utf-8")
    with (tmp_path / "order-of-work.csv").open(encoding="utf-8", newline="") as file:
        outputs["order-of-work.csv"] = "\n".join(row["words"] for row in csv.DictReader(file))
    for name, text in outputs.items():
        text = re.sub(r"\\\\?`|</?code>", "", text).replace("`", "")
        shown = flat(text.replace("&#39;", "'").replace("\\u0027", "'"))
        for line in (look, out, onto):
            assert flat(line.replace("`", "")) in shown, (name, line)
        assert "kept where the board hub stays" in shown or name.endswith((".json", ".csv")), name  # rows of work
    assert comparison_json(found)["first"][:3] == [look, out, onto]
    assert any("never cut both" in text or "One lead of the pack" in text for text in found.todo.cautions)


def test_where_the_board_stays_the_work_is_as_before():
    assert perils(compare_crafts(rover(lamp=True), rover(ways=8, lamp=True))) == []


def test_a_pack_in_a_plug_of_its_own_is_only_pulled_out():
    look, out = held(compare_crafts(rover(soldered=False), rover(ways=8, soldered=False)))
    assert "soldered" not in look and "unsolder" not in out
    assert "all plugs" in out and not out.startswith("LIVE")


def test_what_comes_from_the_fuse_of_a_pack_is_live_too():
    found = compare_crafts(rover(fuse=True), rover(ways=8, fuse=True))
    _, out, onto = held(found)
    assert out.startswith("LIVE: ") and "hub/J9 1" in out and "every fuse of a pack out" in out
    assert any("One lead of the pack" in text for text in found.todo.cautions)
    assert "last of all" in onto


def test_so_is_what_comes_from_a_switch_behind_the_fuse():
    found = compare_crafts(*(rover(ways=ways, lamp=True, fuse=True, switch=True) for ways in (4, 8)))
    _, out, onto = held(found)
    plus = next(lead.mark for lead in found.old.craft.leads if ("J9", "1") in lead.ends)
    assert out.startswith("LIVE: ") and f"unsolder one at a time, {plus} off hub/J9 1" in out
    assert plus not in onto.partition("last of all")[0] and plus in onto


def test_a_board_without_a_packs_wires_comes_out_when_the_pack_is_off():
    """The receiver has another connector; the pack is soldered to the hub."""
    old, new = (craft(*_alone("JST GH", soldered=True, far=far), settings=SETTINGS) for far in ("JST GH", "JST PH"))
    first = compare_crafts(old, new).todo.first
    out = next(n for n, line in enumerate(first) if "another board gps goes in" in line)
    off = next(n for n, line in enumerate(first) if "unsolder W" in line)
    assert off < out and "no pack on the craft" in first[out] and not first[out].startswith("LIVE")


def test_a_board_with_the_same_connectors_is_not_asked_for():
    found = compare_crafts(rover(lamp=True), rover())
    assert held(found) == [] and not any("where the board" in line for line in found.kept())


def test_it_is_told_also_where_nothing_else_is_to_be_done():
    """A connector that no wire meets."""
    old = craft(*_alone("JST GH"), settings=SETTINGS)
    new = craft(*_alone("JST PH"), settings=SETTINGS)
    found = compare_crafts(old, new)
    assert any("J7 is JST PH 4-way, before JST GH 4-way" in line for line in held(found))
    assert order_of_work(found).first[0] == held(found)[0]


def _alone(family, *, soldered=False, far="JST GH"):
    own = {"board": "hub", "signals": "5V, TX, RX, GND"}
    yield plug("J1", "5V A B GND", family="JST GH", gives="5V 1A", **own)
    yield plug("J2", "5V B A GND", board="gps", signals="5V, TX, RX, GND", family=far, takes="5V 0.1A")
    if soldered:
        yield pads("J9", ["BAT", "GND"], board="hub", signals="BAT+, GND")
        yield captive("BT1", ["BAT", "GND"], board="pack", signals="BAT+, GND", gives="VBAT 45A")
    yield plug("J7", "- - - -", family=family, **own)
