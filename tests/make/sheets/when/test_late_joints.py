"""Every row carried out where it stands, by hands that know nothing of how the rows were put there.

What is expected is logic, no source: a probe on a bare end wants an end that is stripped and not soldered; a row that
goes through a splice wants the splice made; what must stay apart is not joined by a board behind it.
"""

from __future__ import annotations

import random

import pytest

from crafts.craft_kit import captive, pads, plug, power, splice, two_pin
from crafts.small_craft import small_craft
from dice.random_harness import random_craft as random_harness
from tabside.documents.build import craft_build
from tabside.make.sheets.cable_plan import Action
from tabside.model.groups import Groups
from tabside.prove.measurement import At, RowKind, When
from tabside.prove.measurement import Test as Measure
from tabside.rules import check_craft


def tied(craft):
    """Wires that a cable, a link, a splice or an in-line part ties together: mark -> all of them."""
    groups = Groups()
    for lead in craft.leads:
        groups.join(lead.mark, ("cable", lead.cable) if lead.cable else ("link", *sorted(lead.link)))
        for reference, _ in lead.ends:
            if craft.terminations[reference].kind in ("splice", "in-line"):
                groups.join(lead.mark, reference)
    return {
        lead.mark: [other for other in craft.leads if groups.together(lead.mark, other.mark)] for lead in craft.leads
    }


class Hands:
    def __init__(self, craft, plan):
        self.craft, self.unit = craft, tied(craft)
        self.stripped, self.joined = set(), set()
        self.made_as_it_is = {mark for cable in plan.cables if cable.start is not None for mark in cable.leads}

    def do(self, step):
        at = (step.lead, step.termination)
        if step.action is Action.STRIP:
            self.stripped.add(at)
        elif step.action in (Action.SOLDER, Action.PUT_IN):
            self.joined.add(at)

    def can_measure(self, row):
        """What hinders, or nothing."""
        for end in row.ends:
            at = (end.lead, end.termination)
            if end.at is At.BARE and (at not in self.stripped or at in self.joined):
                yield f"no bare end of {end.lead} for {end.termination}"
            if end.at is At.CONTACT and end.lead and end.lead not in self.made_as_it_is and at not in self.joined:
                yield f"{end.lead} is not in {end.termination} yet"
        marks = {end.lead for end in row.ends if end.lead}
        unit = {lead.mark: lead for mark in marks for lead in self.unit[mark]}
        for lead in unit.values():
            for reference, _ in lead.ends:
                kind, done = self.craft.terminations[reference].kind, (lead.mark, reference) in self.joined
                if reference in row.soldered_first and kind in ("splice", "in-line") and not done:
                    yield f"{lead.mark} is not on {reference} yet"
                loose = row.when in (When.SPLICED, When.PLUGGED) and reference not in row.soldered_first
                if loose and kind == "pad" and done:
                    yield f"{lead.mark} is soldered to {reference} already"


def walk(craft):
    """The rows of the meter that stand on the sheets, with what hinders each."""
    plan = craft_build(craft, check_craft(craft)).plan
    hands = Hands(craft, plan)
    for cable in plan.cables:
        for step in cable.steps:
            hands.do(step)
            for row in step.rows:
                if row.kind is RowKind.BEEP and row.when is not When.PART:
                    yield row, list(hands.can_measure(row))


def spliced_craft(seed):
    """A plug or pads that feed three to five boards over a splice, some behind a switch; beside it a whole cable."""
    dice = random.Random(seed)
    feed = "FEED"
    symbols = [splice("S1", "FEED")]
    if dice.random() < 0.4:
        symbols.append(two_pin("SW1", "RAW", "FEED", value="toggle"))
        feed = "RAW"
    here = dice.choice(["plug", "pads"])
    if here == "plug":
        symbols.append(plug("J1", [feed, "GND"], board="hub", family="JST XH", signals="12V, GND", gives="12V 3A"))
    else:
        symbols.append(pads("P1", [feed, "GND"], board="hub", signals="12V, GND", gives="12V 3A", leads_max="4"))
    for n in range(dice.randint(2, 5)):
        names = ["FEED", "GND"] if dice.random() < 0.7 else ["FEED", "-"]
        kind = dice.random()
        facts = {"board": f"lamp {n}", "signals": "12V, GND", "takes": "12V 0.5A"}
        if kind < 0.6:
            symbols.append(pads(f"P1{n}", names, leads_max="1", **facts))
        elif kind < 0.8:
            symbols.append(plug(f"J1{n}", names, family="JST XH", **facts))
        else:
            symbols.append(captive(f"J1{n}", names, **facts))
    return small_craft(*symbols, power("GND"), leads={"*": {"gauge_awg": 24, "length_mm": 120.0}})


@pytest.mark.parametrize("seed", range(60))
def test_each_row_at_a_splice_can_be_done_where_it_stands(seed):
    for row, hindered in walk(spliced_craft(seed)):
        assert not hindered, (seed, row.words)


@pytest.mark.parametrize("start", range(0, 60, 20))
def test_each_row_of_a_random_harness_can_be_done_where_it_stands(start):
    told = 0
    for seed in range(start, start + 20):
        for row, hindered in walk(random_harness(seed)):
            told += row.when in (When.SPLICED, When.SOLDERED)
            assert not hindered, (seed, row.words)
    assert told


def test_the_wires_of_a_splice_are_joined_on_the_sheet_of_the_last_one():
    craft = small_craft(
        splice("S1", "A"),
        *(pads(f"P{n}", ["A"], board=f"b{n}", leads_max="1") for n in range(1, 5)),
        leads={"*": {"gauge_awg": 24, "length_mm": 100.0}},
    )
    plan = craft_build(craft, check_craft(craft)).plan
    joints = [[step for step in cable.steps if step.action is Action.SOLDER] for cable in plan.cables]
    assert [len(steps) for steps in joints] == [0, 0, 0, 8]
    at_splice = [step for step in joints[-1] if step.termination == "S1"]
    assert len(at_splice) == 4 and joints[-1][:4] == at_splice
    assert "W1 from one side, W2, W3 and W4 from the other" in at_splice[0].words
    tubes = [step for cable in plan.cables for step in cable.steps if step.action is Action.SHRINK]
    assert [(step.lead, step.end) for step in tubes] == [("W1", "S1/S1")], "one tube, on the wire that lies alone"


def test_how_two_wires_lie_in_one_splice_is_told_at_the_first():
    craft = small_craft(
        splice("S1", "A"),
        *(pads(f"P{n}", ["A"], board=f"b{n}", leads_max="1") for n in range(1, 3)),
        leads={"*": {"gauge_awg": 24, "length_mm": 100.0}},
    )
    steps = [step for cable in craft_build(craft, check_craft(craft)).plan.cables for step in cable.steps]
    first, second = (step for step in steps if step.action is Action.SOLDER and step.termination == "S1")
    assert first.words.endswith("W1 from one side, W2 from the other, the bare ends side by side, all in one joint")
    assert "side by side" not in second.words


def test_a_look_at_a_place_waits_for_the_last_wire_that_is_soldered_there():
    craft = small_craft(
        pads("P1", "V A", board="hub", signals="5V, TX", gives="5V 1A"),
        pads("P2", "V", board="lamp", signals="5V", takes="5V"),
        pads("P3", "A", board="radio", signals="RX"),
        leads={"*": {"gauge_awg": 24, "length_mm": 100.0, "colour": "RD"}},
    )
    plan = craft_build(craft, check_craft(craft)).plan
    looks = [
        (cable.label, row.where.termination)
        for cable in plan.cables
        for step in cable.steps
        for row in step.rows
        if row.kind is RowKind.LOOK
    ]
    assert ("W1", "P1") not in looks and (plan.cables[-1].label, "P1") in looks


@pytest.mark.parametrize("seed", range(0, 30, 3))
def test_a_part_is_measured_on_the_first_sheet_that_meets_it(seed):
    """A row for the part alone wants it without a wire."""
    for craft in (random_harness(seed), spliced_craft(seed), packed_craft(seed)):
        plan = craft_build(craft, check_craft(craft)).plan
        for part in (each.reference for each in craft.terminations.values() if each.kind == "in-line"):
            met = [cable for cable in plan.cables if part in (end.termination for end in cable.ends)]
            on = [
                cable
                for cable in plan.cables
                for step in cable.steps
                for row in step.rows
                if row.when is When.PART and row.where.termination == part
            ]
            assert on == met[:1], (seed, part)


def packed_craft(seed):
    """Packs with bare leads, with or without a fuse and a switch in them, alone or in parallel over splices."""
    dice = random.Random(seed)
    many = dice.randint(1, 2)
    plus, symbols = "VB", []
    if dice.random() < 0.5:
        symbols.append(two_pin("F1", "VB", "FUSED", value="30A"))
        plus = "FUSED"
    if dice.random() < 0.5:
        symbols.append(two_pin("SW1", plus, "SWD", value="switch"))
        plus = "SWD"
    for n in range(many):
        symbols.append(
            captive(f"J1{n}", "VB GND", board=f"pack {n}", signals="BAT+, BAT-", gives="12-16.8V 40A", leads_max="1")
        )
    if many > 1 or dice.random() < 0.5:
        symbols += [splice("S1", "VB"), splice("S2", "GND")]
    end = {"board": "power", "takes": "9-26V 20A", "leads_max": "1"}
    if dice.random() < 0.5:
        symbols.append(plug("J3", ["GND", plus], family="XT60", signals="BAT-, BAT+", **end))
    else:
        symbols.append(pads("P3", ["GND", plus], signals="GND, VBAT", **end))
    return small_craft(*symbols, power("GND"), leads={"*": {"gauge_awg": 12, "length_mm": 90.0}})


@pytest.mark.parametrize("seed", range(60))
def test_a_pack_s_switch_is_off_and_its_fuse_out_at_every_live_joint(seed):
    craft = packed_craft(seed)
    plan = craft_build(craft, check_craft(craft)).plan
    steps = [step for cable in plan.cables for step in cable.steps]
    parts = {each.reference for each in craft.terminations.values() if each.kind == "in-line"}
    on = {"F1": False, "SW1": False}
    for step in steps:
        volts = any(row.kind is RowKind.VOLTS for row in step.rows)
        for part, words in (
            ("F1", ("put the fuse into F1", "take the fuse out of F1")),
            ("SW1", ("SW1 on", "SW1 off")),
        ):
            on[part] = words[0] in step.words or (on[part] and words[1] not in step.words)
        if volts:
            assert all(on[part] for part in parts), (seed, step.words)
        if step.action is Action.SOLDER and step.live:
            assert not any(on.values()), (seed, step.words)
    made = {(step.lead, step.termination) for step in steps if step.action is Action.SOLDER}
    own = {each.reference for each in craft.terminations.values() if each.kind == "captive"}
    assert made == {(lead.mark, key[0]) for lead in craft.leads for key in lead.ends if key[0] not in own}, seed


def test_a_pack_s_switch_of_three_contacts_says_to_which_side():
    craft = small_craft(
        captive("X1", ["GND", "RAW"], board="pack", signals="BAT-, BAT+", gives="VBAT 30A"),
        plug("SW1", {"2": "RAW", "3": "PLUS"}, lib_id="Switch:SW_SPDT", names={"2": "~", "3": "~"}),
        pads("P3", ["GND", "PLUS"], signals="GND, VBAT", board="power", takes="9-26V 20A"),
        power("GND"),
    )
    words = [step.words for cable in craft_build(craft, check_craft(craft)).plan.cables for step in cable.steps]
    assert any("switch SW1 (to where it connects 2 and 3) on" in each for each in words)


@pytest.mark.parametrize("seed", range(40))
def test_a_craft_is_metered_for_a_short_before_a_wire_of_its_pack_is_soldered_to_it(seed):
    """No row sends an ohmmeter to a place that a pack reaches."""
    craft = packed_craft(seed)
    plan = craft_build(craft, check_craft(craft)).plan
    live = False
    for step in (step for cable in plan.cables for step in cable.steps):
        live |= step.live and step.action is Action.SOLDER
        for row in step.rows:
            if row.test is Measure.SHORT:
                assert not live, (seed, row.words)


def test_two_wires_of_one_contact_are_one_joint_under_one_tube():
    craft = small_craft(
        plug("J1", "RAW GND", board="hub", family="JST XH", signals="12V, GND", gives="12V 3A"),
        two_pin("F1", "RAW", "FUSED", value="3A"),
        *(
            pads(f"P{n}", "FUSED GND", board=f"lamp {n}", signals="12V, GND", takes="12V 1A", leads_max="1")
            for n in (1, 2)
        ),
        power("GND"),
        leads={"*": {"gauge_awg": 22, "length_mm": 100.0}},
    )
    plan = craft_build(craft, check_craft(craft)).plan
    steps = [(cable.label, step) for cable in plan.cables for step in cable.steps]
    joints = [
        (label, step)
        for label, step in steps
        if step.action is Action.SOLDER and (step.end, step.cavity) == ("F1/F1", "2")
    ]
    tubes = [step for _, step in steps if step.action is Action.SHRINK and (step.end, step.cavity) == ("F1/F1", "2")]
    assert len(joints) == 2 and len({label for label, _ in joints}) == 1
    (tube,) = tubes
    assert "one tube over" in tube.words and all(step.lead in tube.words for _, step in joints)


@pytest.mark.parametrize("seed", range(30))
@pytest.mark.parametrize("kind", [packed_craft, spliced_craft, random_harness])
def test_every_row_of_a_cable_stands_on_one_sheet(kind, seed):
    """But for those of the whole craft, of packs by themselves, and of cables that cannot be made."""
    craft = kind(seed)
    build = craft_build(craft, check_craft(craft))
    at = [row.id for cable in build.plan.cables for step in cable.steps for row in step.rows]
    stopped = {mark for cable in build.plan.cables if cable.stopped for mark in cable.leads}
    by_itself = {row.id for row in build.order_of_work.volts if not row.leads}
    for row in build.proof.rows:
        if row.when not in (When.METER, When.CRAFT) and not stopped & set(row.leads) and row.id not in by_itself:
            assert at.count(row.id) == 1, (seed, row.words)


def test_the_fuse_and_switch_of_a_branch_stay_out_while_the_pack_is_measured_for_the_others():
    craft = small_craft(
        captive("X1", ["RAW", "GND"], board="pack", signals="BAT+, BAT-", gives="12-16.8V 40A"),
        two_pin("F1", "RAW", "ON", value="30A"),
        splice("S1", "ON"),
        splice("S2", "GND"),
        two_pin("F2", "ON", "HALF", value="1A"),
        two_pin("SW2", "HALF", "LIT"),
        captive("X2", ["LIT", "GND"], board="lamp", signals="+, -", takes="9-26V 0.3A"),
        pads("P1", ["ON", "GND"], board="drive", signals="VBAT, GND", takes="9-26V 9A"),
        power("GND"),
    )
    words = [step.words for cable in craft_build(craft, check_craft(craft)).plan.cables for step in cable.steps]
    power_on = [each for each in words if "put the fuse into" in each]
    assert power_on and all("put the fuse into F1, then measure" in each for each in power_on)
    assert not any("SW2 on" in each for each in power_on)
    assert any("take the fuse out of F1 again, then" in each for each in words)


def test_a_sheet_names_the_places_of_its_own_wire_first_and_last_joints_of_others_behind():
    craft = small_craft(
        pads("P1", ["LED"], board="pilot", signals="LED"),
        splice("S1", "LED"),
        pads("P2", ["LED"], board="strip 1", signals="DI"),
        pads("P3", ["LED"], board="strip 2", signals="DI"),
    )
    plans = craft_build(craft, check_craft(craft)).plan.cables
    for cable in plans:
        own = {key[0] for lead in craft.leads if lead.mark in cable.leads for key in lead.ends}
        assert {end.termination for end in cable.ends} - own == set(cable.guests)
        assert ("last joints at" in cable.between) is bool(cable.guests)


def test_two_soldered_packs_in_series_are_measured_when_the_last_lead_of_both_is_on():
    """Their common volts reach the board's wire over the leads of both.  Logic."""
    craft = small_craft(
        captive("X1", ["RAW", "MID"], board="first", signals="BAT+, BAT-", gives="12V 40A"),
        captive("X2", ["MID", "GND"], board="second", signals="BAT+, BAT-", gives="12V 40A"),
        two_pin("F1", "RAW", "ON", value="20A"),
        pads("P1", ["ON", "GND"], board="drive", signals="VBAT, GND", takes="18-30V 9A"),
        power("GND"),
    )
    steps = [step for cable in craft_build(craft, check_craft(craft)).plan.cables for step in cable.steps]
    soldered = {(step.lead, step.termination): n for n, step in enumerate(steps) if step.action is Action.SOLDER}
    at_own = [n for (_, at), n in soldered.items() if at in ("F1", "X2")]
    (measured,) = [
        n for n, step in enumerate(steps) for row in step.rows if row.kind is RowKind.VOLTS and row.where.lead
    ]
    last = next(n for (_, at), n in soldered.items() if at == "P1" and n > measured)
    assert max(at_own) < measured < last
    shorts = [row for step in steps for row in step.rows if "no steady beep" in row.words and row.open]
    assert [row.where.termination for row in shorts] == ["P1"]
