"""Work at wires that a pack reaches, packs that are others now, and splices that are opened.

What is held: fuse out, each step marked LIVE, one wire at a time, tape at once, every joint covered, the fuse back,
volts last and no ohms.  Common practice of work at packs, no source outside; `tests/make` holds the plan to the same.
"""

from __future__ import annotations

import random
from types import SimpleNamespace

import pytest
from msgspec.structs import replace

from benches.live_bench import at_joints, dangers
from benches.rebuild_bench import wrongs
from crafts.craft_kit import captive, craft, pads, plug, splice, two_pin
from slow_cases import slow
from tabside.cli.compare_command import _print
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.compare.order.order_of_work import order_of_work
from tabside.compare.order.sheets import as_plan
from tabside.compare.work.covering.tape import tape_off
from tabside.compare.work.packs.bare_ends import ends_and_joints
from tabside.model.craft import CraftSettings
from tabside.wiring.terminations.fields import read_volts
from tabside.words.cautions import LIVE_CAUTIONS_OF_CHANGES
from tabside_exporters.pages.sheet_layout import blocks_of

VOLTS = {"4S": read_volts("12-16.8V"), "6S": read_volts("18-25.2V")}
SETTINGS = CraftSettings(battery=VOLTS["4S"], battery_text="4S")


def stated(made, facts):
    """`facts`: by the ends of a wire, "F1 J1"; others are 12 AWG, 100 mm, red."""
    usual = {"gauge_awg": 12, "length_mm": 100.0, "colour": "RD"}
    leads = []
    for lead in made.leads:
        name = " ".join(sorted(key[0] for key in lead.ends))
        leads.append(replace(lead, **(usual | facts.get(name, {}))))
    return replace(made, leads=tuple(leads))


def boat(*, fuse="F1", spliced=False, settings=SETTINGS, pack="pack", value="", facts=None):
    """A pack whose own bare leads are soldered to a fuse and into the plug of the power board."""
    symbols = [
        captive("J1", ["BAT", "GND"], board=pack, signals="BAT+, GND", gives="VBAT 45A", value=value),
        plug("J2", ["FED" if fuse else "BAT", "GND"], board="power", signals="BAT+, GND", family="XT60"),
        plug("J3", ["5V", "GND"], board="power", signals="5V, GND", family="JST GH", gives="5V 1A"),
        plug("J4", ["5V", "GND"], board="pilot", signals="5V, GND", family="JST GH", takes="5V 0.1A"),
    ]
    if fuse:
        symbols.append(two_pin(fuse, "BAT", "FED", value="30A"))
    if spliced:
        symbols += [splice("SP1", "FED"), pads("J9", ["FED", "GND"], board="lamp", signals="BAT+, GND")]
    return stated(craft(*symbols, settings=settings), facts or {})


def both(old, new):
    """The comparison, held against the bench that rebuilds and the one that looks for danger."""
    found = compare_crafts(old, new)
    answer = comparison_json(found)
    assert wrongs(old, new, answer, () if found.same else found.build.proof.rows) == []
    counted = found.old.craft  # contacts of fuses and switches numbered as in the new drawing, as the steps call them
    assert dangers(counted, new, answer) == []
    assert at_joints(counted, new, answer) == []
    return found, answer


def live(answer):
    return [step for cable in answer["cables"] for step in cable["steps"] if step["live"]]


def words(answer):
    return [step["words"] for cable in answer["cables"] for step in cable["steps"]]


@pytest.mark.parametrize("what", [{"gauge_awg": 10}, {"length_mm": 60.0}, {"length_mm": 160.0}, {"colour": "BK"}])
def test_the_wire_behind_the_fuse_is_changed_live(what):
    _, answer = both(boat(), boat(facts={"F1 J2": what}))
    assert not any("plug" in need["item"] for need in answer["parts"])  # the plug there takes the new wire
    told = words(answer)
    out = next(n for n, each in enumerate(told) if each.startswith("no fuse in F1"))
    assert out < next(n for n, each in enumerate(told) if each.startswith("LIVE"))
    assert told[-1].startswith("put the fuse into F1, then measure volts now")
    assert {step["action"] for step in live(answer)} >= {"solder", "insulate"}
    assert any("W1 at F1 1" in each for each in told)  # the pack's other wires are looked at first


def test_the_packs_own_wire_is_shortened_live():
    _, answer = both(boat(), boat(facts={"F1 J1": {"length_mm": 60.0}}))
    actions = [step["action"] for step in live(answer) if step["lead"] == live(answer)[-1]["lead"]]
    assert actions[actions.index("take out") + 1] == "insulate"  # taped at once
    assert actions[-2:] == ["solder", "insulate"]


@pytest.mark.parametrize(
    "other",
    [
        {"settings": CraftSettings(battery=VOLTS["6S"], battery_text="6S")},
        {"value": "other pack"},
    ],
    ids=["cells", "value"],
)
@pytest.mark.parametrize("fuse", ["F1", ""])
def test_another_pack_brings_its_own_wires(other, fuse):
    old, new = boat(fuse=fuse, value="one pack"), boat(**({"fuse": fuse, "value": "one pack"} | other))
    for one, two in ((old, new), (new, old)):
        found, answer = both(one, two)
        first, *rest = [cable for cable in answer["cables"] if cable["steps"]]
        assert first["do"] == "retire"
        assert not any(fate.words == "Keep it." for fate in found.cables if fate.new and "J1" in fate.new.ends)
        soldered = [step for cable in rest for step in cable["steps"] if step["action"] == "solder" and step["live"]]
        assert len({step["lead"] for step in soldered}) == 2  # both wires of the new pack
        assert not any(each.item.startswith("cable") for each in found.purchases if each.more < 0)
        if fuse:
            assert [step["action"] for step in first["steps"] if step["live"]] == ["leave out", "insulate"] * 2


def test_a_pack_stated_for_the_first_time_is_the_same_pack():
    found = compare_crafts(boat(settings=CraftSettings()), boat())
    assert not any(step.live for work in found.work for step in work.steps)


def with_plug(*, fused, settings=SETTINGS):
    """A pack with a plug of its own, straight in or by way of a piece with a fuse."""
    return craft(
        captive("J1", ["BAT", "GND"], board="pack", signals="BAT+, GND", gives="VBAT 45A", family="XT60"),
        plug("J2", ["FED" if fused else "BAT", "GND"], board="power", signals="BAT+, GND", family="XT60"),
        *([two_pin("F1", "BAT", "FED", value="30A")] if fused else []),
        settings=settings,
    )


@pytest.mark.parametrize("fused", [False, True])
def test_another_pack_with_a_plug_is_got_and_the_old_one_put_away_before_it_comes(fused):
    """With a piece of wires between, these stay and only the pack goes."""
    old, new = with_plug(fused=fused), with_plug(fused=fused, settings=SIX["settings"])
    for one, two in ((old, new), (new, old)):
        found, answer = both(one, two)
        told = [*answer["first"], *words(answer)]
        away = next(n for n, each in enumerate(told) if "put" in each and "away before" in each)
        assert "unplug" in f"{told[away - 1]} {told[away]}"
        assert not any("cavity" in each or "solder" in each for each in words(answer))
        if not fused:
            assert away < next(n for n, each in enumerate(told) if "measure volts" in each)
        needs = sorted(each.more for each in found.purchases if each.item.startswith("board or part pack, "))
        assert needs == [-1, 1]


def test_the_packs_own_plug_stays_and_the_piece_between_is_plugged_into_the_craft():
    found, answer = both(with_plug(fused=False), with_plug(fused=True))
    assert not any(each.more < 0 for each in found.purchases)  # nothing for the drawer: the wires are the pack's
    benches = [each.bench for each in found.changes if each.subject == "lead"]
    assert not any("both ends" in each for each in benches) and any("stays on" in each for each in benches)
    told = words(answer)
    assert any("plug for pack/J1 stays UNPLUGGED" in each for each in told)
    assert not any("plug for power/J2 stays UNPLUGGED" in each for each in told)
    assert any("plug the cable into power/J2" in each for each in told)


def lamps(*at):
    """Lamps on splices of a fed wire: `at` names the splice of each."""
    symbols = [plug("J1", ["V", "GND"], board="power", signals="VBAT, GND", gives="VBAT 5A", family="JST GH")]
    names = sorted({*at, "SP1"})
    symbols += [splice(name, "V") for name in names]
    symbols += [
        captive(f"J{n + 10}", ["V", "GND"], board=f"lamp {n}", signals="VBAT, GND", takes="9-30V 1A")
        for n in range(len(at))
    ]
    return craft(*symbols)


@pytest.mark.parametrize(("before", "after"), [(3, 2), (2, 3), (4, 2)])
def test_an_opened_splice_is_looked_at_and_covered_once(before, after):
    old, new = lamps(*["SP1"] * before), lamps(*["SP1"] * after)
    found = compare_crafts(old, new)
    steps = [step for work in found.work for step in work.steps]
    at = [step for step in steps if step.termination == "SP1" and not step.of_old]
    joints = [n for n, step in enumerate(at) if step.action.value in ("solder", "take out", "leave out")]
    assert joints
    assert any("cut the cover off splice SP1" in step.words for step in at[: joints[0]])
    assert [n for n, step in enumerate(at) if step.action.value == "insulate"] == [len(at) - 1]
    assert at[-1].action.value == "insulate" and len(at) - 1 > joints[-1]
    looked = [
        step
        for step in steps
        if "inspect splice SP1" in step.words or any(r.where.termination == "SP1" for r in step.rows)
    ]
    assert looked


@pytest.mark.parametrize("seed", [*range(6), 49, 75, *slow(n for n in range(6, 300) if n not in (49, 75))])
def test_random_packs_and_edits_are_never_worked_on_by_ohms_or_bare(seed):
    dice = random.Random(seed)

    def some():
        facts = {
            name: {"gauge_awg": 12, "length_mm": dice.choice([60.0, 100.0]), "colour": dice.choice(["RD", "BK"])}
            for name in ("F1 J1", "F1 J2", "J1 J2", "J1 J9", "J2 SP1", "F1 SP1", "J9 SP1")
        }
        cells = dice.choice(["4S", "4S", "6S"])
        return boat(
            fuse=dice.choice(["F1", "F1", ""]),
            spliced=dice.random() < 0.4,
            settings=CraftSettings(battery=VOLTS[cells], battery_text=cells),
            value=dice.choice(["", "one", "two"]),
            facts=facts,
        )

    old, new = some(), some()
    both(old, new)
    both(new, old)


def test_a_page_says_live_where_a_joint_is_undone_and_nothing_of_cavities():
    found = compare_crafts(boat(value="one"), boat(value="two"))
    gone = next(work for work in found.work if work.fate.pack_goes)
    told = [
        item["words"] for block in blocks_of(as_plan(gone), {}) for line in block["lines"] for item in line["items"]
    ]
    undone = [each for each in told if "unsolder" in each or "take it off" in each]
    assert len(undone) == 2 and all(each.startswith("LIVE: spare") and "cavity" not in each for each in undone)


def odd_boat(dice):
    """Fuses, switches and splices in any order in a pack's plus, a plug or pads, another pack, a lamp beside."""
    symbols, fed = [], "BAT"
    for name in dice.sample(["F1", "SW1", "SP1"], dice.choice([0, 1, 1, 2, 3])):
        if name == "SP1":
            symbols.append(splice(name, fed))
            continue
        symbols.append(two_pin(name, fed, f"N{name}", value="30A" if name == "F1" else "switch"))
        fed = f"N{name}"
    symbols += [splice("SP2", "GND")] if dice.random() < 0.3 else []
    own = {"board": "power", "signals": "BAT+, GND"}
    plugged = dice.random() < 0.6
    symbols.append(
        plug("J2", [fed, "GND"], family="XT60", **own) if plugged else pads("J2", [fed, "GND"], takes="9-26V 1A", **own)
    )
    more = {"family": "XT60"} if dice.random() < 0.3 else {}
    pack = {"signals": "BAT+, GND", "gives": "VBAT 45A"}
    symbols.append(captive("J1", ["BAT", "GND"], board="pack", value=dice.choice("aab"), **pack, **more))
    if dice.random() < 0.25:
        symbols.append(captive("J8", ["BAT", "GND"], board="pack two", value=dice.choice("ab"), **pack))
    if dice.random() < 0.3:
        symbols.append(captive("J9", [fed, "GND"], board="lamp", signals="BAT+, GND", takes="9-26V 1A"))
    symbols += [
        plug("J3", ["5V", "GND"], board="power", signals="5V, GND", family="JST GH", gives="5V 1A"),
        plug("J4", ["5V", "GND"], board="pilot", signals="5V, GND", family="JST GH", takes="5V 0.1A"),
    ]
    cells = dice.choice(["4S", "4S", "6S"])
    made = craft(*symbols, settings=CraftSettings(battery=VOLTS[cells], battery_text=cells))
    facts = ({"length_mm": dice.choice([60.0, 100.0]), "colour": dice.choice(["RD", "BK", "RD"])} for _ in made.leads)
    leads = [replace(lead, gauge_awg=12, **each) for lead, each in zip(made.leads, facts, strict=True)]
    return replace(made, leads=tuple(leads))


@pytest.mark.parametrize(
    "seed",
    [15, 34, 57, 60, 64, 75, 573, *(pytest.param(n, marks=pytest.mark.slow) for n in range(300, 600) if n != 573)],
)
def test_odd_packs_are_never_worked_on_by_ohms_or_bare(seed):
    dice = random.Random(seed)
    old, new = odd_boat(dice), odd_boat(dice)
    both(old, new)
    both(new, old)


def test_a_pack_with_a_fuse_and_a_switch_waits_for_first_power_at_both():
    def made(length_mm):
        symbols = [
            captive("J1", ["BAT", "AUX", "GND"], board="pack", signals="BAT+, BAT+, GND", gives="VBAT 45A"),
            pads("J2", ["FED", "SWITCHED", "GND"], board="power", signals="BAT+, BAT+, GND"),
            two_pin("F1", "BAT", "FED", value="30A"),
            two_pin("SW1", "AUX", "SWITCHED", value="toggle"),
            plug("J3", ["5V", "GND"], board="power", signals="5V, GND", family="JST GH", gives="5V 1A"),
            plug("J4", ["5V", "GND"], board="pilot", signals="5V, GND", family="JST GH", takes="5V 0.1A"),
        ]
        return stated(craft(*symbols, settings=SETTINGS), {"J3 J4": {"gauge_awg": 28, "length_mm": length_mm}})

    answer = comparison_json(compare_crafts(made(100.0), made(60.0)))
    assert "take the fuse out of F1 and switch SW1 off" in answer["first"][0]
    (last,) = answer["last"]
    assert "leave the fuse out of F1 until first power" in last and "leave SW1 off until first power" in last


@pytest.mark.parametrize(
    ("fused", "words"), [(True, "take the fuse out of F1"), (False, "LIVE: unsolder W1 at power/J2 1")]
)
def test_a_pack_without_a_plug_is_parted_from_the_craft_before_any_other_work(fused, words):
    def made(length_mm):
        symbols = [
            captive("J1", ["BAT", "GND"], board="pack", signals="BAT+, GND", gives="VBAT 45A"),
            pads("J2", ["FED" if fused else "BAT", "GND"], board="power", signals="BAT+, GND"),
            *([two_pin("F1", "BAT", "FED", value="30A")] if fused else []),
            plug("J3", ["5V", "GND"], board="power", signals="5V, GND", family="JST GH", gives="5V 1A"),
            plug("J4", ["5V", "GND"], board="pilot", signals="5V, GND", family="JST GH", takes="5V 0.1A"),
        ]
        return stated(craft(*symbols, settings=SETTINGS), {"J3 J4": {"gauge_awg": 28, "length_mm": length_mm}})

    answer = comparison_json(compare_crafts(made(100.0), made(60.0)))
    first, last = answer["first"], answer["last"]
    assert len(first) == 1 and words in first[0] and first[0].startswith("pack has no plug")
    if fused:
        assert len(last) == 1 and "leave the fuse out of F1 until first power" in last[0]
    else:  # no short while it is off, then volts at the bare end, the limiter, the joint, a look, a cover
        told = ["no short", "bare end of W1 for power/J2:1", "through a smoke stopper", "then cover it"]
        assert all(word in line for word, line in zip(told, last, strict=True))
        assert all("LIVE" in line for line in last[1:])
    assert comparison_json(compare_crafts(made(100.0), made(100.0)))["first"] == []
    assert comparison_json(compare_crafts(boat(), boat(facts={"J3 J4": {"length_mm": 60.0}})))["first"] == []


def on_pads(*, fuse="", settings=SETTINGS, value="", plus_mm=100.0, turned=False, crossed=False):
    """A pack whose own bare leads are soldered to a board, straight or by way of a fuse.

    `turned`: the board has its pads the other way round; `crossed`: each lead is on the other one's pad.
    """
    fed = "FED" if fuse else "BAT"
    nets = ["GND", fed] if turned != crossed else [fed, "GND"]
    names = "GND, BAT+" if turned else "BAT+, GND"
    symbols = [
        captive("J1", ["BAT", "GND"], board="pack", signals="BAT+, GND", gives="VBAT 45A", value=value),
        pads("J2", nets, board="power", signals=names),
        *([two_pin(fuse, "BAT", fed, value="40A")] if fuse else []),
        plug("J3", ["5V", "GND"], board="power", signals="5V, GND", family="JST GH", gives="5V 1A"),
        plug("J4", ["5V", "GND"], board="pilot", signals="5V, GND", family="JST GH", takes="5V 0.1A"),
    ]
    made = craft(*symbols, settings=settings)
    own = " ".join(sorted(("J1", fuse or "J2")))
    leads = (
        replace(lead, length_mm=plus_mm)
        if own == " ".join(sorted(key[0] for key in lead.ends)) and lead.net_id == made.leads[0].net_id
        else lead
        for lead in stated(made, {}).leads
    )
    return replace(made, leads=tuple(leads))


SIX = {"settings": CraftSettings(battery=VOLTS["6S"], battery_text="6S")}


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ({}, {"fuse": "F1"}),
        ({"fuse": "F1"}, {}),
        ({"fuse": "F1"}, {"fuse": "F1", **SIX}),
        ({}, SIX),
        ({"plus_mm": 160.0}, {}),
    ],
    ids=["fuse in", "fuse out", "cells, fused", "cells", "shorter"],
)
def test_the_last_joint_of_a_soldered_pack_is_metered_while_its_end_is_bare(before, after):
    """No short, volts at the bare end, solder, look, cover: the order that `tabside plan` has for a new craft."""
    old, new = on_pads(**before), on_pads(**after)
    found, answer = both(old, new)
    steps = [step for cable in answer["cables"] for step in cable["steps"]]
    rows = {row.id: row for work in found.work for row in work.measure}
    volts = next(
        n for n, step in enumerate(steps) if any(rows[each].kind.value == "volts" for each in step["rows"] or ())
    )
    end = rows[steps[volts]["rows"][0]].where
    assert end.at.value == "bare end"
    joints = [
        n
        for n, step in enumerate(steps)
        if step["action"] == "solder" and step["lead"] == end.lead and step["end"].endswith(end.termination)
    ]
    assert len(joints) == 1 and volts < joints[0]
    assert any(rows[each].test.value == "no short" for step in steps[:volts] for each in step["rows"] or ())
    last = steps[joints[0] + 1 :]
    looks = [n for n, step in enumerate(last) if step["action"] == "test" and step["rows"]]
    covers = [n for n, step in enumerate(last) if step["action"] == "insulate"]
    assert covers and (not looks or looks[0] < covers[-1])
    told = [step["words"] for step in steps]
    assert ("through a smoke stopper at this joint" in told[joints[0]]) is not bool(after.get("fuse"))


@pytest.mark.parametrize("seed", [*range(4), *(pytest.param(n, marks=pytest.mark.slow) for n in range(4, 200))])
def test_random_packs_on_pads_are_never_joined_bare_nor_metered_by_ohms(seed):
    dice = random.Random(seed)

    def some():
        if dice.random() < 0.3:
            return odd_boat(dice)
        settings = SIX["settings"] if dice.random() < 0.3 else SETTINGS
        length = dice.choice([60.0, 100.0, 160.0])
        return on_pads(fuse=dice.choice(["F1", ""]), settings=settings, value=dice.choice(["", "a"]), plus_mm=length)

    old, new = some(), some()
    both(old, new)
    both(new, old)


def test_a_wire_that_comes_off_first_is_called_by_its_new_number():
    old = on_pads()
    leads = tuple(replace(lead, mark=f"W{50 + n}") for n, lead in enumerate(old.leads))
    cables = tuple(replace(each, leads=tuple(f"W{50 + int(m[1:]) - 1}" for m in each.leads)) for each in old.cables)
    links = tuple(
        replace(link, leads=tuple(next(new for new in leads if new.ends == lead.ends) for lead in link.leads))
        for link in old.links
    )
    renumbered = replace(old, leads=leads, cables=cables, links=links)
    first = comparison_json(compare_crafts(renumbered, on_pads(fuse="F1")))["first"]
    assert "unsolder W1 (was W50) at power/J2 1" in first[0]


def test_another_pack_is_among_what_to_get():
    needs = {each.item: each.more for each in compare_crafts(boat(), boat(**SIX)).purchases}
    assert sorted(more for item, more in needs.items() if item.startswith("board or part pack, ")) == [-1, 1]


def test_a_pack_that_goes_first_is_not_said_to_come_last():
    assert not any("come last" in each or each.startswith("Power plug out,") for each in LIVE_CAUTIONS_OF_CHANGES)


def test_a_fuse_goes_in_dead_and_the_packs_lead_is_the_last_joint():
    found, answer = both(on_pads(), on_pads(fuse="F1"))
    steps = [step for cable in answer["cables"] for step in cable["steps"]]
    new = [step for step in steps if step["lead"] == "W2"]  # from the fuse to the board, fresh off the reel
    assert new and not any(step["live"] for step in new)
    joints = [(step["lead"], step["end"]) for step in steps if step["action"] == "solder"]
    assert joints == [("W2", "F1/F1"), ("W2", "power/J2"), ("W1", "F1/F1")]
    volts = next(step for step in steps if step["words"].startswith("measure volts"))
    rows = {row.id: row for work in found.work for row in work.measure}
    assert [rows[each].where.lead for each in volts["rows"]] == ["W1"]


def test_a_bare_end_of_a_pack_is_taped_while_hands_are_elsewhere():
    found = compare_crafts(on_pads(), on_pads(**SIX))
    work = next(each for each in found.work if each.fate.new is not None and each.steps)

    def stripped_at(steps):
        return next(n for n, step in enumerate(steps) if step.action.value == "strip" and step.lead == "W1")

    stripped = stripped_at(work.steps)
    look = next(step for step in work.steps if step.full.startswith("inspect W2"))
    steps = [*work.steps[: stripped + 1], look, *work.steps[stripped + 1 :]]
    (done,) = ends_and_joints([work.with_steps(steps)], found.new, SimpleNamespace(mine=frozenset({"W1", "W2"})))
    (done,), _ = tape_off([done], (), {})
    stripped = stripped_at(done.steps)
    told = [step.words for step in done.steps[stripped + 1 : stripped + 5]]
    assert told[0] == "LIVE: W1: tape over its bare end" and told[1] == look.words
    assert told[2] == "LIVE: take the tape off the bare end of W1" and told[3].startswith("measure volts now")


def test_each_joint_of_a_pack_is_looked_at_before_its_cover():
    steps = [step for work in compare_crafts(on_pads(), on_pads(**SIX)).work for step in work.steps]
    joints = [n for n, step in enumerate(steps) if step.live and step.action.value == "solder"]
    assert len(joints) == 2
    assert all([step.action.value for step in steps[n : n + 3]] == ["solder", "test", "insulate"] for n in joints)


def test_the_packs_other_wires_are_covered_where_they_are_by_then():
    words = [step.words for work in compare_crafts(on_pads(fuse="F1"), on_pads()).work for step in work.steps]
    assert any("nothing is bare on the pack's other wires, W1 at F1 1 of the old drawing" in each for each in words)


def test_the_terminal_tells_tests_where_they_are_made_and_parts_before_a_wire_is_on_them(capsys):
    found = compare_crafts(on_pads(), on_pads(fuse="F1"))
    _print(found)
    said = capsys.readouterr().out.lower()
    assert "continuity sheet, below" not in said and "measure again" not in said
    part = next(row for row in found.measure if row.when.value == "part")
    first, sheets = said.index(f"row {found.step_of[part.id]}: "), said.index("wires w2: make")
    assert said.index("the meter first, and parts before a wire is on them") < first < sheets
    volts = next(row for row in found.measure if row.kind.value == "volts")
    assert said.index("measure volts now") < said.index(f"row {found.step_of[volts.id]}: ") < said.index("then first")


def test_nothing_follows_the_sheets_where_one_of_them_stops():
    found = compare_crafts(on_pads(plus_mm=60.0), on_pads(plus_mm=160.0))
    order = order_of_work(found)
    assert any(line.startswith("do not begin") for line in order.first)
    assert order.last == order.at_packs == order.power == ()
