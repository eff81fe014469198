"""The steps carried out on a model bench that knows nothing of how they were written.

What is expected is the drawing; the rules of the bench are those of the hands (logic, no source): nothing is crimped
before it is stripped, no tube goes over a joint that is there, one lead of a pack is bare at a time.
"""

from __future__ import annotations

import contextlib
import io
import random
import re

import pytest

from crafts.craft_kit import captive, pads, plug, splice, two_pin
from crafts.small_craft import small_craft
from dice.random_harness import random_craft as random_harness
from tabside.cli.printing.plan_report import _print_face
from tabside.documents.as_json.plan import plan_json
from tabside.documents.build import craft_build
from tabside.make.sheets.cable_plan import HANDS, Action
from tabside.make.sheets.face_row import face_of_step
from tabside.model.craft import CraftSettings
from tabside.model.stock import Costs, StockCable, StockLead
from tabside.prove.measurement import RowKind, When
from tabside.rules import check_craft
from tabside_exporters.pages.sheet_layout import blocks_of

FAMILIES = ("JST SH", "JST GH", "JST PH", "XT30")


def planned(*symbols, **stock):
    facts = {"*": {"length_mm": 100.0, "gauge_awg": 28}}
    craft = small_craft(*symbols, settings=CraftSettings(**stock), leads=facts)
    build = craft_build(craft, check_craft(craft))
    return build.craft, build.plan


def random_craft(seed):
    """Plugs, pads and splices of a hub; a pack whose bare leads go to a plug or to pads, with or without a fuse."""
    dice = random.Random(seed)
    symbols = []
    for k in range(dice.randint(1, 4)):
        names = [f"N{k}{n}" for n in range(dice.randint(1, 6))]
        other = dice.sample(names, len(names))
        kind = dice.random()
        symbols.append(
            plug(f"J{2 * k + 1}", names, board="hub", family=dice.choice(FAMILIES))
            if kind < 0.7
            else pads(f"P{2 * k + 1}", names, board="hub")
        )
        if dice.random() < 0.6:
            symbols.append(plug(f"J{2 * k + 2}", other, board=f"b{k}", family=dice.choice(FAMILIES)))
        else:
            symbols.append(pads(f"P{2 * k + 2}", other, board=f"b{k}"))
    if dice.random() < 0.8:
        plus = "FUSED" if dice.random() < 0.5 else "PLUS"
        symbols.append(captive("J90", ["PLUS", "MINUS"], board="pack", signals="BAT+, BAT-", gives="VBAT 10A"))
        if plus == "FUSED":
            symbols.append(two_pin("F1", "PLUS", "FUSED", value="10A"))
        end = dice.choice(["plug", "pads"])
        there = {"plug": plug("J91", [plus, "MINUS"], board="power", family="XT60"), "pads": None}[end]
        symbols.append(there or pads("P91", [plus, "MINUS"], board="power", signals="VBAT, GND"))
    if dice.random() < 0.4:
        symbols += [splice("S1", "JOIN"), *(pads(f"P{n}", ["JOIN"], board=f"x{n}") for n in (70, 71, 72))]
    stock = {}
    if dice.random() < 0.5:
        stock["stock_leads"] = (StockLead(("jst_sh", "jst_sh"), 300.0, 28, "BK", 6),)
    return planned(*symbols, costs=Costs(buy_ready=dice.random() < 0.5), **stock)


def covered_unseen(plan):
    """Joints of live wires whose cover goes on before an eye was there."""
    unseen = []
    for cable in plan.cables:
        waiting = {}
        for step in cable.steps:
            key = (step.lead, step.termination, step.cavity)
            if step.action is Action.SOLDER and step.live:
                waiting[key] = step
            elif step.action is Action.TEST:
                rows = {row.where.termination for row in step.rows if by_eye(row)}
                told = re.match(r"inspect (\w+) at (\S+) (\S+): ", step.words)
                waiting = {
                    at: joint
                    for at, joint in waiting.items()
                    if at[1] not in rows
                    and (told is None or told.groups() not in ((at[0], name, at[2]) for name in (joint.end, at[1])))
                }
            elif step.action is Action.INSULATE and key in waiting and "look with a magnifier" not in step.words:
                unseen.append((cable.label, step.words))
    return unseen


@pytest.mark.parametrize("seed", range(24))
def test_each_joint_of_a_pack_is_looked_at_before_its_cover(seed):
    assert covered_unseen(random_craft(seed)[1]) == []


SUPPLIES = (
    (captive("J90", ["PLUS", "MINUS"], board="pack", signals="BAT+, BAT-", gives="VBAT 10A"),),
    (
        captive("J90", ["PLUS", "MID"], board="pack", signals="BAT+, BAT-", gives="VBAT 10A"),
        captive("J92", ["MID", "MINUS"], board="second", signals="BAT+, BAT-", gives="VBAT 10A"),
    ),
    (
        captive("J90", ["PLUS", "MINUS"], board="pack", signals="BAT+, BAT-", gives="VBAT 10A"),
        captive("J92", ["PLUS", "MINUS"], board="second", signals="BAT+, BAT-", gives="VBAT 10A"),
    ),
    (
        captive("J90", ["RAW", "MINUS"], board="pack", signals="BAT+, BAT-", gives="VBAT 10A"),
        two_pin("F1", "RAW", "PLUS", value="10A"),
    ),
)


@pytest.mark.parametrize("supply", SUPPLIES)
@pytest.mark.parametrize("names", [["PLUS", "MINUS"], ["MINUS", "PLUS"]])
@pytest.mark.parametrize("sort", [pads, splice])
def test_each_joint_of_packs_in_series_in_parallel_and_behind_a_fuse_is_looked_at_before_its_cover(supply, names, sort):
    if sort is pads:
        _, plan = planned(*supply, pads("P91", names, board="power", signals=", ".join(SIGNALS[n] for n in names)))
    else:
        signals = ", ".join(SIGNALS[n] for n in names)
        more = (pads("P91", names, board="power", signals=signals), pads("P92", names, board="esc", signals=signals))
        _, plan = planned(*supply, *more, splice("S1", "MINUS"))
    assert any(step.live and step.action is Action.SOLDER for cable in plan.cables for step in cable.steps)
    assert covered_unseen(plan) == []


SIGNALS = {"PLUS": "VBAT", "MINUS": "GND"}


def is_loose(row):
    """A meter's row for which nothing is soldered yet."""
    return row.kind is RowKind.BEEP and row.when in (When.LOOSE, When.PLUGGED) and not row.soldered_first


class Bench:
    """What is on the bench: each wire with its two ends, as the hands leave them."""

    def __init__(self, craft):
        self.craft = craft
        self.stripped, self.crimped, self.tubes = set(), set(), set()
        self.joined, self.covered = {}, set()
        self.bare_live = set()

    def do(self, step, later_live):
        key = (step.termination, step.cavity)
        at = (step.lead, key)
        if step.action is Action.STRIP:
            assert at not in self.joined
            self.stripped.add(at)
        elif step.action is Action.CRIMP:
            assert at in self.stripped, "crimped before it is stripped"
            self.crimped.add(at)
        elif step.action is Action.SHRINK:
            assert at not in self.joined, "no tube goes over a joint"
            self.tubes.add(at)
        elif step.action is Action.SOLDER:
            assert at in self.stripped, "soldered before it is stripped"
            self.joined[at] = key
        elif step.action is Action.PUT_IN:
            assert key not in {place for (_, place) in self.joined if place[0] == key[0] and place[1] == key[1]}
            self.joined[at] = key
        elif step.action is Action.INSULATE and step.cavity is not None and at in self.joined:
            assert at in self.tubes or "tape" in step.words, "covered with a tube that was not slid on"
            self.covered.add(at)
        if step.live and step.action is Action.CUT:
            assert all(other in self.taped for other in later_live), "another lead of the pack is bare"

    taped: frozenset[str] = frozenset()


@pytest.mark.parametrize("start", range(0, 120, 20))
def test_the_steps_carried_out_give_the_drawn_craft(start):
    """Over all sheets: the last joint of a pack may stand on another one than its wire."""
    for seed in range(start, start + 20):
        craft, plan = random_craft(seed)
        leads = {lead.mark: set(lead.ends) for lead in craft.leads}
        sheets = [cable for cable in plan.cables if not cable.stopped and cable.start is None and cable.steps]
        bench = Bench(craft)
        cut_live = [step.lead for each in sheets for step in each.steps if step.live and step.action is Action.CUT]
        for cable in sheets:
            worked = [mark for step in cable.steps if step.live and step.action is Action.CUT for mark in [step.lead]]
            for step in cable.steps:
                first = re.search(r"first tape over the end of (\w+)", step.words)
                if step.action is Action.INSULATE and first:
                    bench.taped = bench.taped | {first[1]}
                later = worked[worked.index(step.lead) + 1 :] if step.live and step.lead in worked else []
                bench.do(step, later)
        made = {}
        for (mark, _), key in bench.joined.items():
            made.setdefault(mark, set()).add(key)
        for mark in (mark for cable in sheets for mark in cable.leads):
            own = {key for key in leads[mark] if craft.terminations[key[0]].kind == "captive"}
            assert made.get(mark, set()) in (leads[mark] - own, leads[mark]), (seed, mark)
        assert bench.tubes <= bench.covered, (seed, "a tube that was never shrunk")
        hot = {at for at in bench.joined if at[0] in cut_live and craft.terminations[at[1][0]].kind != "receptacle"}
        assert hot <= bench.covered, (seed, "a live joint left open")


def joints_and_tests(plan):
    """All steps of all sheets, in the order of work."""
    return [step for cable in plan.cables for step in cable.steps]


@pytest.mark.parametrize("fuse", [False, True])
def test_a_pack_is_measured_at_its_bare_end_before_that_end_is_soldered(fuse):
    """The words of the row are "before this last wire is soldered"; a fuse is out again by then."""
    plus = "FUSED" if fuse else "PLUS"
    parts = [two_pin("F1", "PLUS", "FUSED", value="10A")] if fuse else []
    _, plan = planned(
        captive("J90", ["PLUS", "MINUS"], board="pack", signals="BAT+, BAT-", gives="VBAT 10A"),
        pads("P91", [plus, "MINUS"], board="power", signals="VBAT, GND", takes="VBAT 9A"),
        *parts,
    )
    steps = joints_and_tests(plan)
    (volts,) = [n for n, step in enumerate(steps) if any(row.kind is RowKind.VOLTS for row in step.rows)]
    (row,) = steps[volts].rows
    soldered = [n for n, step in enumerate(steps) if step.action is Action.SOLDER]
    stripped = [
        n for n, s in enumerate(steps) if s.action is Action.STRIP and (s.lead, s.end) == (row.where.lead, "power/P91")
    ]
    last = soldered[-1]
    assert stripped and stripped[0] < volts < last and steps[last].live
    assert (steps[last].lead, steps[last].end) == (row.where.lead, "power/P91")
    assert all(n < volts for n in soldered if n != last), "everything else is soldered by then"
    look = next(
        n
        for n, step in enumerate(steps)
        if any("power/P91" in each.words for each in step.rows if each.kind is RowKind.LOOK)
    )
    assert last < look, "what is looked at is soldered"
    assert ("fuse out of F1 again" in steps[last].words) is fuse
    said = [text for cable in plan.cables for text in cable.cautions if "powers the craft" in text]
    assert bool(said) is not fuse


def test_a_row_through_a_splice_stands_where_the_last_wire_that_it_visits_is_soldered_into_it():
    told = 0
    for seed in range(60):
        craft = random_harness(seed)
        if not any(termination.kind == "splice" for termination in craft.terminations.values()):
            continue
        plan = craft_build(craft, check_craft(craft)).plan
        at = {lead.mark: {key[0] for key in lead.ends} for lead in craft.leads}
        done = set()
        for step in joints_and_tests(plan):
            if step.action is Action.SOLDER:
                done.add((step.lead, step.termination))
            for row in step.rows:
                if row.when is When.SPLICED and row.kind is RowKind.BEEP:
                    told += 1
                    for mark in {end.lead for end in row.ends if end.lead}:
                        splices = {place for place in at[mark] if craft.terminations[place].kind == "splice"}
                        assert all((mark, place) in done for place in splices), (seed, row.words)
    assert told


def test_the_sheet_of_a_second_pack_without_a_plug_says_that_the_board_has_power():
    _, plan = planned(
        captive("J90", "PLUS MINUS", board="pack a", signals="BAT+, BAT-", gives="VBAT 10A"),
        captive("J92", "PLUS MINUS", board="pack b", signals="BAT+, BAT-", gives="VBAT 10A"),
        pads("P91", "PLUS MINUS", board="power", signals="VBAT, GND", takes="VBAT 9A"),
    )
    said = [any("has had power from" in text for text in cable.cautions) for cable in plan.cables]
    assert said == [False] * (len(said) - 1) + [True]


@pytest.mark.parametrize("seed", range(40))
def test_whatever_never_meets_the_pack_comes_first_and_its_minus_before_its_plus(seed):
    craft, plan = random_craft(seed)
    live = [step for cable in plan.cables for step in cable.steps if step.live]
    steps = [step for cable in plan.cables for step in cable.steps if step.action not in (Action.TEST, Action.LABEL)]
    sheets = [any(step.live for step in cable.steps) for cable in plan.cables]
    assert sheets == sorted(sheets), "a sheet without live steps after one with them"
    for cable in plan.cables:
        flags = [
            step.live for step in cable.steps if step.action is not Action.TEST and step.action is not Action.LABEL
        ]
        assert flags == sorted(flags), "cold work after live work on one sheet"
    if live:
        cut = [step.lead for step in live if step.action is Action.CUT]
        grounds = [
            any(craft.contact(key).role.is_ground for key in lead.ends)
            for mark in cut
            for lead in craft.leads
            if lead.mark == mark
        ]
        assert grounds == sorted(grounds, reverse=True)
        assert all(step.words.startswith("LIVE") for step in live) and steps[-1].live


@pytest.mark.parametrize("seed", range(40))
def test_tests_on_loose_ends_stand_before_the_first_joint(seed):
    _, plan = random_craft(seed)
    for cable in plan.cables:
        joints = [n for n, step in enumerate(cable.steps) if step.action is Action.SOLDER]
        for n, step in enumerate(cable.steps):
            if any(is_loose(row) for row in step.rows):
                assert not joints or n < joints[0]


FACES = [
    {"entry": entry, "tabs": tabs, "contact_1": side}
    for entry, tabs in (("side", "away"), ("side", "board"), ("top", "near"), ("top", "far"))
    for side in ("left", "right")
]


def terminal_row(face):
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        _print_face(face)
    boxes = [line for line in printed.getvalue().splitlines() if "|" in line and "parked" not in line]
    return [cell.strip() for line in boxes for cell in line.split("|")[1:-1]], boxes


@pytest.mark.parametrize("known", [*FACES, {}])
@pytest.mark.parametrize("seed", range(4))
def test_the_position_in_the_row_is_from_left_on_page_and_terminal(known, seed):
    dice = random.Random(seed)
    ways = dice.choice([2, 5, 8, 9])
    names = [f"S{n}" for n in range(ways)]
    order = dice.sample(names, ways)
    symbols = (
        plug("J1", names, board="pilot", family="JST SH", **known),
        plug("J2", order, board="radio", family="JST SH", **known),
    )
    stock = StockCable(
        "left over", (("jst_sh", ways),) * 2, tuple((n, n) for n in range(1, ways + 1)), "straight", 100.0, 1, True
    )
    for settings in ({"stock_cables": (stock,), "costs": Costs(buy_ready=False, move_minutes=0.01, move_risk=0.0)}, {}):
        _, plan = planned(*symbols, **settings)
        (cable,) = plan.cables
        ends = {end.name: end for end in cable.ends}
        lines = [line for block in blocks_of(cable, {}) for line in block.get("lines", ())]
        pages = {line["items"][-1]["number"]: line["face"] for line in lines}
        for step in cable.steps:
            if step.action not in HANDS:
                continue
            place = step.from_left or step.from_mark
            face = face_of_step(step, ends[step.end])
            cells, drawn = terminal_row(face)
            assert [box.here for box in face.boxes].index(True) + 1 == place
            assert [box["here"] for box in pages[step.number]["boxes"]].index(True) + 1 == place
            if step.action is Action.PUT_IN:
                assert cells[place - 1] == step.lead and face.boxes[place - 1].lead == step.lead
            first = [box.number for box in face.boxes].index("1")
            assert face.mark_left is (first == 0)
            assert ("#|" in drawn[0]) is face.mark_left and drawn[-1].endswith("|#") is not face.mark_left


def test_four_alike_are_one_sheet_and_a_fifth_that_differs_is_its_own():
    symbols = []
    for k in range(5):
        symbols.append(
            plug(f"J{2 * k + 1}", [f"A{k}", f"B{k}"], board=f"driver {k}", family="JST SH", signals="5V, TX")
        )
        second = [f"A{k}", f"B{k}"] if k < 4 else [f"B{k}", f"A{k}"]
        there = "5V, RX" if k < 4 else "RX, 5V"
        symbols.append(plug(f"J{2 * k + 2}", second, board=f"lamp {k}", family="JST SH", signals=there))
    _, plan = planned(*symbols, costs=Costs(buy_ready=False))
    assert [cable.same_as for cable in plan.cables] == [None, "C1", "C1", "C1", None]
    answer = plan_json(plan.cables, cleared=True)
    assert [len(cable["steps"]) for cable in answer["cables"]][:4] == [len(plan.cables[0].steps)] * 4


def test_a_starting_cable_is_metered_loose_before_anything_else():
    stock = StockCable("old", (("jst_sh", 4),) * 2, ((1, 2), (2, 1), (3, 3), (4, 4)), "map", 100.0, 1, True)
    symbols = (plug("J1", "A B C D", board="a", family="JST SH"), plug("J2", "A B C D", board="b", family="JST SH"))
    _, plan = planned(*symbols, stock_cables=(stock,), costs=Costs(buy_ready=False))
    first = plan.cables[0].steps[0]
    assert first.action is Action.TEST and "1-2, 2-1, 3-3, 4-4" in first.words and "plugged in nowhere" in first.words
    assert plan_json(plan.cables, cleared=True)["cables"][0]["start"] == [[1, 2], [2, 1], [3, 3], [4, 4]]


def test_a_length_that_is_not_known_is_never_a_number():
    craft = small_craft(
        pads("P1", "A", board="a"), pads("P2", "A", board="b"), leads={"*": {"gauge_awg": 24, "length_mm": None}}
    )
    plan = craft_build(craft, check_craft(craft)).plan
    (cut,) = [step for step in plan.cables[0].steps if step.action is Action.CUT]
    assert "length not known" in cut.words and "0 mm" not in cut.words
    assert any("length not known" in text for text in plan.cables[0].needs_one_look)


@pytest.mark.parametrize(
    ("more", "live"),
    [
        ({"signals": "a, b", "gives": "5V 1A"}, True),  # gives and takes nothing: whatever it is called
        ({"signals": "a, b", "takes": "5V 1A"}, False),
        ({"signals": "VBAT, GND"}, True),
    ],
)
def test_a_part_that_gives_a_supply_and_takes_none_is_live(more, live):
    _, plan = planned(captive("J1", "A B", board="thing", **more), pads("P1", "A B", board="hub", signals="5V, GND"))
    assert any(step.live for cable in plan.cables for step in cable.steps) is live


def two_packs(second):
    """Two packs whose plus leads meet in one splice, or in series, the second on top of the first."""
    first = captive("BT1", ["A", "B"], board="pack 1", signals="BAT+, BAT-", gives="VBAT 10A")
    there = plug("J1", ["A", "B"] if second == ["A", "B"] else ["C", "B"], board="power", family="XT60")
    other = captive("BT2", second, board="pack 2", signals="BAT+, BAT-", gives="VBAT 10A")
    return (first, other, splice("S1", "A"), splice("S2", "B"), there)


def test_packs_in_parallel_are_measured_before_the_second_is_joined():
    """0.1 V: common practice, no source."""
    _, plan = planned(*two_packs(["A", "B"]))
    live = [cable for cable in plan.cables if cable.is_live]
    assert live and all(any("equal within 0.1 V" in text for text in cable.cautions) for cable in live)


def test_the_second_plus_is_measured_against_the_first_before_its_joint_and_the_plug_of_both_once():
    _, plan = planned(*two_packs(["A", "B"]))
    steps = joints_and_tests(plan)
    (equal,) = [n for n, step in enumerate(steps) if "equal within 0.1 V" in step.words]
    joints = [n for n, step in enumerate(steps) if step.action is Action.SOLDER and step.live and step.end == "S1/S1"]
    assert joints[0] < equal < joints[1]
    volts = [row for step in steps for row in step.rows if row.kind is RowKind.VOLTS]
    assert len(volts) == 1 and "before they are connected" not in volts[0].words


def test_the_plug_behind_a_splice_of_a_pack_is_the_half_without_bare_pins():
    _, plan = planned(*two_packs(["A", "B"]))
    at_plug = [s for cable in plan.cables for s in cable.steps if s.end == "power/J1" and s.action is Action.SOLDER]
    assert at_plug and all("without bare pins" in step.words for step in at_plug)
    line = next(line for line in plan.purchases if line.family == "amass_xt60")
    assert "without bare pins" in line.note


def test_a_pack_s_own_plug_that_fits_stays_unplugged_and_comes_last():
    pack = captive("J1", "A B", board="pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 10A")
    there = plug("J2", "A B", board="power", family="XT60", signals="BAT+, BAT-")
    signals = (plug("J3", "X Y", board="power", family="JST SH"), plug("J4", "X Y", board="radio", family="JST SH"))
    _, plan = planned(pack, there, *signals)
    last = plan.cables[-1]
    assert last.meets_pack and "UNPLUGGED until first power" in last.why and not last.is_live


def test_the_mate_of_a_pack_s_plug_is_never_held_to_the_pack():
    pack = captive("J1", "A B", board="pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 10A")
    _, plan = planned(pack, pads("P1", "A B", board="power", signals="BAT+, BAT-"))
    (sheet,) = plan.cables
    labels = [step.words for step in sheet.steps if step.action is Action.LABEL]
    assert any("keep it off the part" in words for words in labels)
    assert not any("hold the plug to its board connector" in words for words in labels)


def test_a_capacitor_across_the_battery_has_its_polarity_and_stands_before_the_pack():
    symbols = (
        captive("J1", "A B", board="pack", signals="BAT+, BAT-", gives="VBAT 10A"),
        pads("P1", "A B", board="power", signals="VBAT, GND"),
        two_pin("C1", "A", "B", value="470uF 35V"),
    )
    _, plan = planned(*symbols)
    (part,) = plan.parts
    assert "plus leg (the long one) to power/P1 contact 1 (VBAT" in part.words
    assert "minus leg (stripe) to power/P1 contact 2 (GND)" in part.words


@pytest.mark.parametrize("start", range(0, 40, 20))
def test_every_row_of_a_cable_or_pack_stands_on_one_sheet_and_no_row_on_two(start):
    for seed in range(start, start + 20):
        craft = random_harness(seed)
        build = craft_build(craft, check_craft(craft))
        told = [row.id for step in joints_and_tests(build.plan) for row in step.rows]
        assert len(told) == len(set(told)), seed
        own = {row.id for row in build.proof.rows if row.when not in (When.METER, When.PART, When.CRAFT)}
        assert own - {row.id for row in build.order_of_work.volts} <= set(told), seed


def assert_each_cup_is_seen_before_its_tube(plan):
    """Logic, no source: nobody sees a bridge under a tube."""
    looked = {
        row.where.termination for cable in plan.cables for step in cable.steps for row in step.rows if by_eye(row)
    }
    for cable in plan.cables:
        seen = set()
        for step in cable.steps:
            place = step.termination
            if step.action is Action.SOLDER:
                seen.discard(place)
            seen |= {row.where.termination for row in step.rows if by_eye(row)}
            if step.action is Action.INSULATE and "heat-shrink" in step.words and "J" in place and place in looked:
                assert place in seen or "look with a magnifier" in step.words, step.words


def by_eye(row):
    return row.kind is RowKind.LOOK


@pytest.mark.parametrize("seed", range(24))
def test_joints_in_plugs_are_looked_at_before_they_are_covered(seed):
    _, plan = random_craft(seed)
    assert_each_cup_is_seen_before_its_tube(plan)


@pytest.mark.parametrize("fused", [False, True])
def test_the_last_look_at_a_pack_s_plug_comes_before_the_last_tube(fused):
    plus = "FUSED" if fused else "PLUS"
    pack = captive("J90", ["PLUS", "MINUS"], board="pack", signals="BAT+, BAT-", gives="VBAT 10A")
    fuse = (two_pin("F1", "PLUS", "FUSED", value="10A"),) if fused else ()
    _, plan = planned(pack, *fuse, plug("J1", ["MINUS", plus], board="hub", family="XT60"))
    assert_each_cup_is_seen_before_its_tube(plan)
    looks = [n for cable in plan.cables for n, step in enumerate(cable.steps) if any(map(by_eye, step.rows))]
    assert looks
    for cable in plan.cables:
        steps = list(cable.steps)
        for n, step in enumerate(steps):
            if any(by_eye(row) and row.where.termination == "J1" for row in step.rows):
                assert any(each.action is Action.INSULATE and each.end == "hub/J1" for each in steps[n + 1 :])


def test_wires_that_meet_in_one_joint_are_told_as_one_joint():
    """All tape comes off and all bare ends lie side by side before the iron; the later wires are in the same joint."""
    _, plan = planned(
        plug("J1", ["FEED", "GND"], board="hub", family="JST XH"),
        splice("S1", "FEED"),
        captive("J2", ["FEED", "GND"], board="lamp"),
        captive("J3", ["FEED"], board="horn"),
    )
    joints = [step for cable in plan.cables for step in cable.steps if step.action is Action.SOLDER]
    at_splice = [step.words for step in joints if step.end.endswith("S1")]
    assert len(at_splice) == 3
    assert "take the tape off" in at_splice[0] and at_splice[0].endswith("side by side, all in one joint")
    assert all("into the same joint" in words and "tape" not in words for words in at_splice[1:])


def test_no_joint_is_named_where_none_is_made_yet():
    """The sheet of a plug whose wires wait for a splice: what is tested there is tested before any joint."""
    symbols = (
        plug("J1", ["FEED", "BACK"], board="hub", family="JST XH"),
        splice("S1", "FEED"),
        splice("S2", "BACK"),
        captive("J2", ["FEED", "BACK"], board="lamp"),
        captive("J3", ["FEED", "BACK"], board="horn"),
    )
    _, plan = planned(*symbols)
    (sheet,) = (cable for cable in plan.cables if cable.mark == "C1")
    assert not any(step.action is Action.SOLDER for step in sheet.steps)
    assert not [step.words for step in sheet.steps if "joints made" in step.words]


@pytest.mark.parametrize(("contact_1", "side"), [("left", "right"), ("right", "left")])
def test_an_empty_housing_s_mark_is_held_against_the_drawing(contact_1, side):
    """Side entry, tabs to the board: the plug is turned over about its leads, left becomes right (logic, no source)."""
    known = {"family": "JST GH", "entry": "side", "tabs": "board", "contact_1": contact_1}
    _, plan = planned(plug("J1", "ABC", board="hub", **known), pads("P1", "ABC", board="radio"))
    pens = [step.words for cable in plan.cables for step in cable.steps if "pen-mark" in step.words]
    assert pens and all(f"the mark must lie at the {side}: else stop" in words for words in pens)


def test_a_part_s_own_wires_that_get_contacts_are_told_how_and_shown():
    """The housing is empty, the contacts are crimped here: the same as of new wire."""
    _, plan = planned(
        plug("J1", ["T", "GND"], board="hub", family="JST GH"), captive("J2", ["T", "GND"], board="probe")
    )
    (sheet,) = plan.cables
    assert [each.family for each in sheet.handling] == ["jst_gh"]
    assert [row.termination for row in sheet.rows] == ["J1"]
    (pen,) = (step.words for step in sheet.steps if "pen-mark" in step.words)
    assert pen.startswith("hold each empty housing")


def test_wires_of_a_part_s_own_plug_are_tagged_as_they_sit_in_it():
    """Moves name wires by number: the row beside the tagging step says which is which."""
    _, plan = planned(
        plug("J1", ["S", "V", "G"], board="hub", family="JST SH", signals="PWM, 5V, GND"),
        captive("J2", ["G", "V", "S"], board="servo", family="JST SH", signals="GND, 5V, PWM"),
    )
    (sheet,) = plan.cables
    ends = {end.name: end for end in sheet.ends}
    (tag,) = (step for step in sheet.steps if step.tags)
    face = face_of_step(tag, ends[tag.end])
    assert face is not None and all(box.lead for box in face.boxes)
    first = next(step for step in sheet.steps if step.action in HANDS)
    assert tag.number < first.number and first.lead == face.boxes[int(first.cavity) - 1].lead


def test_two_parts_own_wires_are_joined_to_each_other():
    """Of packs in series each is metered before the joint, and the other leads of both are taped meanwhile."""
    packs = (
        captive("J91", ["PLUS", "MID"], board="first", signals="BAT+, GND", gives="1:7-8V 20A"),
        captive("J92", ["MID", "MINUS"], board="second", signals="BAT+, GND", gives="1:7-8V 20A"),
    )
    load = pads("P91", ["PLUS", "MINUS"], board="power", signals="BAT+, GND", takes="12-17V 5A")
    _, plan = planned(*packs, load)
    sheet = next(cable for cable in plan.cables if {end.termination for end in cable.ends} == {"J91", "J92"})
    words = [step.words for step in sheet.steps]
    joint = next(n for n, each in enumerate(words) if "solder it to" in each)
    assert all(step.live for step in sheet.steps if step.action is Action.SOLDER)
    assert sum("tape over the end of" in each for each in words[:joint]) == 2
    assert sum("strip" in each for each in words[:joint]) == 2
    before = [row for step in sheet.steps[:joint] for row in step.rows]
    assert {row.where.termination for row in before if row.kind is RowKind.VOLTS} == {"J91", "J92"}
    assert [row.where.termination for row in before if row.kind is not RowKind.VOLTS] == ["P91"]  # no short there
    assert "push the heat-shrink over the joint" in words[-1]


def test_a_lamps_own_wires_are_joined_to_a_boards_own():
    tail = captive("J91", ["5V", "GND"], board="driver", signals="5V, GND", gives="5V 1A")
    lamp = captive("J92", ["5V", "GND"], board="lamp", signals="5V, GND", takes="5V 0.1A")
    more = plug("J93", ["V", "GND"], board="driver", signals="VIN, GND", family="JST GH", takes="9-17V 1A")
    _, plan = planned(tail, lamp, more)
    words = [step.words for cable in plan.cables for step in cable.steps]
    assert sum("solder it to lamp/J92 lead" in each for each in words) == 2


def test_a_part_s_own_lead_that_is_drawn_to_nothing_is_covered_when_its_plug_comes_off():
    craft = small_craft(
        captive("X1", ["S", "", "G"], board="drive", family="servo 254", signals="SIG, 5V, GND"),
        plug("P1", ["S", "G"], board="pilot", family="JST GH", signals="S1, GND"),
    )
    steps = [step for cable in craft_build(craft, check_craft(craft)).plan.cables for step in cable.steps]
    (cover,) = [step for step in steps if step.action is Action.INSULATE]
    assert cover.words.startswith("drive/X1 lead 2 (5V): the drawing does not use it: cut it short")
    cuts = [step.number for step in steps if step.action is Action.CUT]
    assert max(cuts) < cover.number


def test_nothing_is_cut_nor_bought_by_length_where_a_part_s_own_plug_goes_in():
    craft = small_craft(
        captive("X1", ["S", "G"], board="drive", family="servo 254", signals="SIG, GND"),
        plug("P1", ["S", "G"], board="pilot", family="servo 254", signals="S1, GND"),
    )
    (cable,) = craft_build(craft, check_craft(craft)).plan.cables
    assert not any("length not known" in each for each in cable.needs_one_look)
