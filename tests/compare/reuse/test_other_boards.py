"""Another board in place of one: plugs out, wires off, the board out, another in, and all of it onto that one.

The benches carry it out to the letter.  Common practice of work at packs, no source outside.
"""

from __future__ import annotations

import csv
import random
import re

import pytest

from benches.pack_bench import perils
from benches.rebuild_bench import wrongs
from crafts.craft_kit import captive, craft, pads, plug, two_pin
from crafts.pack_crafts import changed, craft_of, some_packs
from slow_cases import slow
from tabside.cli.compare_command import _print
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.compare.order.order_of_work import order_of_work
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


def looks(found):
    return [line for line in found.todo.first if line.startswith("hold the board")]


def sheet_of(answer, board="hub"):
    (sheet,) = (cable for cable in answer["cables"] if cable["do"] == "other board" and cable["board"] == board)
    return sheet["steps"]


def followed(old, new):
    """Both ways: no peril, the old board is free when it goes, and the new build results."""
    answers = []
    for one, other in ((old, new), (new, old)):
        found = compare_crafts(one, other)
        answers.append(comparison_json(found))
        assert perils(found) == wrongs(one, other, answers[-1], found.build.proof.rows) == []
    return answers[0]


def test_the_board_is_looked_at_before_all_else_and_told_everywhere(tmp_path, capsys):
    found = compare_crafts(rover(lamp=True), rover(ways=8, lamp=True))
    (look,) = looks(found)
    assert found.todo.first[0] == look
    assert "J1 is JST GH 8-way, before JST GH 4-way" in look and "it stays" in look
    assert not list(found.kept())
    write_comparison(found, str(tmp_path), None)
    _print(found)
    outputs = {"terminal": capsys.readouterr().out}
    assert "Board hub: another one goes in" in outputs["terminal"]
    assert "Wires W7 W8: onto the new board" in outputs["terminal"]
    for name in ("order-of-work.md", "order-of-work.html", "order-of-work.json"):
        outputs[name] = (tmp_path / name).read_text(encoding="utf-8")
    with (tmp_path / "order-of-work.csv").open(encoding="utf-8", newline="") as file:
        outputs["order-of-work.csv"] = "\n".join(row["words"] for row in csv.DictReader(file))
    out = "take the old board hub out: nothing is plugged into it or soldered to it by now"
    for name, text in outputs.items():
        shown = flat(text.replace("&#39;", "'").replace("\\u0027", "'"))
        for line in (look, out, "put the new board hub in"):
            assert flat(line) in shown, (name, line)


def test_plugs_then_what_a_pack_feeds_then_all_else_comes_off_before_the_board_goes():
    answer = followed(rover(lamp=True), rover(ways=8, lamp=True))
    steps = sheet_of(answer)
    swaps = [step["swap"] for step in steps]
    before = [(step["end"], step["cavity"]) for step in steps[: swaps.index("out")] if step["action"] == "take out"]
    assert before == [("hub/J1", None), ("hub/J9", 1), ("hub/J9", 2), ("hub/J8", 1), ("hub/J8", 2)]
    minus = next(n for n, step in enumerate(steps) if (step["end"], step["cavity"]) == ("hub/J9", 2))
    assert steps[minus]["live"] and steps[minus + 1]["action"] == "insulate"
    assert swaps.index("in") == swaps.index("out") + 1
    assert steps[-1]["action"] == "test" and steps[-1]["words"].startswith("meter hub alone")
    assert "unsolder W1 at hub/J9 1, tape its bare end at once" in answer["first"][1]  # its plus before all else
    on = [step for cable in answer["cables"] for step in cable["steps"] if step["action"] == "solder"]
    assert [(step["end"], step["cavity"]) for step in on] == [
        ("hub/J8", 1),
        ("hub/J8", 2),
        ("hub/J9", 2),
        ("hub/J9", 1),
    ]
    assert "first power now, through a smoke stopper" in on[-1]["words"]


@pytest.mark.parametrize("after", [{"ways": 8}, {"family": "JST PH"}], ids=["ways", "family"])
@pytest.mark.parametrize(
    "what",
    [{}, {"soldered": False}, {"fuse": True}, {"fuse": True, "switch": True}, {"lamp": True}, {"switch": False}],
    ids=lambda what: ", ".join(f"{key} {value}" for key, value in what.items()) or "soldered",
)
def test_the_exchange_is_carried_out_without_peril(what, after):
    followed(rover(**what), rover(**what, **after))


def test_what_comes_from_fuse_and_switch_of_a_pack_is_live_too():
    steps = sheet_of(followed(rover(fuse=True, switch=True), rover(ways=8, fuse=True, switch=True)))
    assert any(step["words"] == "no fuse in F1 from here on: take it out; switch SW1 off" for step in steps)
    (plus,) = (step for step in steps if (step["action"], step["end"], step["cavity"]) == ("take out", "hub/J9", 1))
    assert plus["live"]


def test_a_pack_in_a_plug_of_its_own_is_only_pulled_out():
    answer = followed(rover(soldered=False), rover(ways=8, soldered=False))
    assert not any(step["live"] for cable in answer["cables"] for step in cable["steps"])


def test_a_cable_in_which_nothing_changes_goes_from_board_to_board_and_is_measured_at_the_new_one():
    """The receiver has another connector; at the hub, which stays, the plug of the other cable stays in."""

    def built(family):
        yield plug("J1", "5V GND", board="hub", signals="5V, GND", family="JST GH", gives="5V 1A")
        yield plug("J2", "5V GND", board="gps", signals="5V, GND", family="JST GH", takes="5V 0.1A")
        yield plug("J3", "A B", board="hub", signals="TX, RX", family="JST SH")
        yield plug("J4", "A B", board="gps", signals="RX, TX", family=family)

    answer = followed(*(craft(*built(family), settings=SETTINGS) for family in ("JST SH", "JST PH")))
    moved = next(cable for cable in answer["cables"] if cable["new"] == "C1")
    assert moved["do"] == "move plug" and moved["board"] == "gps" and "Nothing in it changes" in moved["words"]
    assert {row["from"]["board"] for row in moved["measure"]} == {"gps"}
    assert [step["end"] for step in sheet_of(answer, "gps") if step["action"] == "take out"] == ["gps/J2", "gps/J4"]


def test_a_board_without_a_packs_wires_comes_out_when_the_pack_is_off():
    """The receiver has another connector; the pack is soldered to the hub.  Its one cable's sheet has it all."""
    old, new = (craft(*_alone("JST GH", soldered=True, far=far), settings=SETTINGS) for far in ("JST GH", "JST PH"))
    answer = followed(old, new)
    assert any("unsolder W" in line for line in answer["first"])
    (cable,) = (cable for cable in answer["cables"] if any(step["swap"] for step in cable["steps"]))
    assert cable["do"] == "re-make" and not any(step["live"] for step in cable["steps"])


def test_another_name_with_other_contacts_is_another_board_and_a_name_alone_is_none():
    def named(name, signals):
        yield plug("J1", "5V A B GND", board="hub", signals="5V, TX, RX, GND", family="JST GH", gives="5V 1A")
        nets = {"RX": "A", "TX": "B"}
        far = [nets.get(each, each) for each in signals.split(", ")]
        yield plug("J2", far, board=name, signals=signals, family="JST GH", takes="5V 0.1A")
        yield pads("J3", "5V GND", board="hub", signals="5V, GND", gives="5V 1A")
        yield pads("J4", "5V GND", board=name, signals="5V, GND", takes="5V 0.1A")

    old, same, other = (
        craft(*named(*each), settings=SETTINGS)
        for each in (("gps", "5V, RX, TX, GND"), ("gps two", "5V, RX, TX, GND"), ("gps two", "GND, TX, RX, 5V"))
    )
    assert looks(compare_crafts(old, same)) == []
    (named_anew,) = (change.bench for change in compare_crafts(old, same).changes if change.subject == "board")
    assert "the same board only has another name now, leave it in" in named_anew
    assert "listed below does not put it in: all power out and packs off first" in named_anew
    (goes,) = (change.bench for change in compare_crafts(old, other).changes if change.subject == "board")
    assert goes.startswith("Fit gps two in place of gps: find contact 1 on it, and do what is listed below")
    answer = followed(old, other)
    assert "hold the board gps against the new drawing" in answer["first"][0]
    steps = [step for cable in answer["cables"] for step in cable["steps"]]
    assert any(step["words"].startswith("take the old board gps out") and step["swap"] == "out" for step in steps)


@pytest.mark.parametrize(
    "seed",
    [
        *range(6),
        107,  # in series: no volts are there before the second pack's wires are on again
        130,
        143,
        *slow((*range(6, 107), *range(108, 130), *range(131, 143), *range(144, 150))),
    ],
)
def test_boards_with_packs_by_dice_are_exchanged_without_peril(seed):
    dice = random.Random(f"boards {seed}")
    build = some_packs(dice)
    other = {**(changed(build, dice) if dice.random() < 0.5 else build), "connector": "JST PH"}
    if dice.random() < 0.2:
        other["turned"] = True
    followed(craft_of(build), craft_of(other))


def test_a_board_with_the_same_connectors_is_not_asked_for():
    found = compare_crafts(rover(lamp=True), rover())
    assert looks(found) == [] and not any(work.fate.board for work in found.work)


def test_it_is_told_also_where_nothing_else_is_to_be_done():
    """A connector that no wire meets."""
    old = craft(*_alone("JST GH"), settings=SETTINGS)
    new = craft(*_alone("JST PH"), settings=SETTINGS)
    found = compare_crafts(old, new)
    assert any("J7 is JST PH 4-way, before JST GH 4-way" in line for line in looks(found))
    assert order_of_work(found).first[0] == looks(found)[0]
    followed(old, new)


def _alone(family, *, soldered=False, far="JST GH"):
    own = {"board": "hub", "signals": "5V, TX, RX, GND"}
    yield plug("J1", "5V A B GND", family="JST GH", gives="5V 1A", **own)
    yield plug("J2", "5V B A GND", board="gps", signals="5V, TX, RX, GND", family=far, takes="5V 0.1A")
    if soldered:
        yield pads("J9", ["BAT", "GND"], board="hub", signals="BAT+, GND")
        yield captive("BT1", ["BAT", "GND"], board="pack", signals="BAT+, GND", gives="VBAT 45A")
    yield plug("J7", "- - - -", family=family, **own)


def regulated(name, order, tail):
    """A regulator with wires of its own at a driver's pads, and pads that feed a rail."""
    out = {"6V": "6V", "OG": "GND"}
    legs = {"BAT": "VIN", "GND": "GND"}
    return craft(
        pads("J5", ["BAT", "GND"], board="driver", signals="BAT+, BAT-", gives="9-17V 9A"),
        captive("J2", tail, board=name, signals=", ".join(legs[n] for n in tail), takes="9-26V 5A", value=name),
        pads("J3", order, board=name, signals=", ".join(out[n] for n in order), gives="6V 5A"),
        pads("J4", ["6V", "OG"], board="rail", signals="6V, GND", takes="6V 2A"),
    )


def test_a_board_that_goes_takes_its_own_wires_along_and_plus_stays_plus():
    """Else the old part's wires are soldered to the new one's, and the red wire becomes the minus."""
    old, new = regulated("small", ["6V", "OG"], ["BAT", "GND"]), regulated("strong", ["OG", "6V"], ["GND", "BAT"])
    found = compare_crafts(old, new)
    words = [step.words for work in found.work for step in work.steps]
    assert sum("cut strong/J2 lead" in each for each in words) == 2
    assert not any("solder it to strong/J2" in each for each in words)
    assert sum("unsolder" in each and "driver/J5" in each for each in words) == 2
    assert not any("unsolder" in each and "rail/J4" in each for each in words)  # the rail's ends stay
    assert wrongs(old, new, comparison_json(found), found.build.proof.rows) == []


def test_the_board_that_goes_is_named_where_its_plug_comes_out():
    """The new board is still in its bag."""
    old = craft(
        plug("J1", "5V GND", board="hub", signals="5V, GND", family="JST GH", gives="5V 1A"),
        plug("J2", "5V GND", board="fix", signals="5V, GND", family="JST GH", takes="5V 0.1A"),
    )
    new = craft(
        plug("J1", "5V GND", board="hub", signals="5V, GND", family="JST GH", gives="5V 1A"),
        plug("J2", "GND 5V", board="fix two", signals="GND, 5V", family="JST GH", takes="5V 0.1A"),
    )
    words = [step.words for work in compare_crafts(old, new).work for step in work.steps]
    out = next(each for each in words if each.startswith("unplug the cable from fix two/J2"))
    assert "on the old board fix" in out
    assert "on the old board" not in next(each for each in words if "from hub/J1" in each)


def test_a_boards_own_wires_are_named_when_another_of_its_name_goes_in():
    def of(family):
        return craft(
            pads("J5", ["BAT", "GND"], board="driver", signals="BAT+, BAT-", gives="9-17V 9A"),
            captive("J2", ["BAT", "GND"], board="hub", signals="VIN, GND", takes="9-26V 5A"),
            plug("J3", ["5V", "G"], board="hub", signals="5V, GND", gives="5V 2A", family=family),
            plug("J4", ["5V", "G"], board="lamp", signals="5V, GND", takes="5V 1A", family="JST GH"),
        )

    found = compare_crafts(of("JST GH"), of("JST SH"))
    words = [step.words for work in found.work for step in work.steps]
    own = next(n for n, each in enumerate(words) if each.startswith("its own wires go with it"))
    out = next(n for n, each in enumerate(words) if each.startswith("take the old board hub out"))
    assert own < out
    assert "driver/J5 1" in words[own]
    assert "driver/J5 2" in words[own]


def test_pads_in_another_order_are_told_apart():
    old, new = regulated("small", ["6V", "OG"], ["BAT", "GND"]), regulated("strong", ["OG", "6V"], ["GND", "BAT"])
    told = " ".join(compare_crafts(old, new).todo.first)
    assert "J3 is solder pads with 1 GND, 2 6V, before solder pads with 1 6V, 2 GND" in told


def test_tape_goes_with_the_old_board():
    """The pads of the new one have none."""

    def of(name, signals, value):
        return craft(
            captive("J1", ["BAT", "GND"], board="pack", signals="BAT+, GND", gives="VBAT 45A", value=value),
            pads("J2", ["BAT", "GND"] if signals[0] == "V" else ["GND", "BAT"], board=name, signals=signals),
            settings=SETTINGS,
        )

    found = compare_crafts(of("small", "VIN, GND", "one pack"), of("strong", "GND, VIN", "other pack"))
    words = [step.words for work in found.work for step in work.steps]
    assert any("over what is bare at strong/J2" in each for each in words)  # the old one's pads, by their new name
    assert not any("take the tape off strong/J2" in each for each in words)
    assert perils(found) == []
