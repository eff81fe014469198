"""Plugs that only go into other connectors: what is unplugged, measured, looked at and set in the firmware.

What a hand does not touch cannot be spoiled; common practice, no source.  `tests/kits/benches/rebuild_bench.py` carries
the steps out.
"""

from __future__ import annotations

import pytest

from benches.rebuild_bench import wrongs
from crafts.craft_kit import captive, craft, plug, two_pin
from crafts.hub_craft import two_at_a_hub
from dice.random_edits import draft, edited, of_one_family
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.compare.order.order_of_work import order_of_work
from tabside.prove.measurement import RowKind, When

ORDER = "5V, SDA, SCL, GND"


def sensors(baro, compass, *, ports=("J7", "J8", "J9"), first=ORDER):
    """A barometer, a compass and a display on one pilot, each at a port; `first`: the pin order of the first port."""
    at = {"baro": baro, "compass": compass}
    far = {"baro": "J13", "compass": "J18"}
    used = {port: name for name, port in at.items()}
    return craft(
        plug("J6", "V6 T R GND6", board="pilot", signals="5V, TX1, RX1, GND", family="JST GH"),
        plug("J12", "V6 R T GND6", board="radio", signals="5V, TX, RX, GND", family="JST GH"),
        *(
            plug(
                port,
                "V{0} A{0} B{0} G{0}".format(used[port]) if port in used else "- - - -",
                board="pilot",
                signals=first if port == ports[0] else ORDER,
                family="JST GH",
            )
            for port in ports
        ),
        *(
            plug(far[name], f"V{name} A{name} B{name} G{name}", board=name, signals=ORDER, family="JST GH")
            for name in at
        ),
    )


def test_two_plugs_exchanged_between_like_ports_are_all_that_is_touched():
    old, new = sensors("J8", "J9"), sensors("J9", "J8")
    found = compare_crafts(old, new)
    works = [work for work in found.work if work.steps]
    assert {work.fate.what for work in works} == {"move plug"}
    steps = [step for work in works for step in work.steps]
    hands = [(step.action.value, step.end) for step in steps if step.action.value in ("take out", "put in")]
    assert sorted(hands) == sorted((hand, f"pilot/{port}") for hand in ("take out", "put in") for port in ("J8", "J9"))
    assert not any(step.unplug or step.plug_in or step.rows for step in steps)
    assert [row for row in found.measure if row.when not in (When.METER, When.CRAFT)] == []
    looks = " ".join(row.words for row in found.measure if row.kind is RowKind.LOOK)
    assert "pilot/J8" in looks and "pilot/J9" in looks and "pilot/J6" not in looks and "radio/J12" not in looks
    put_in = [step.words for step in steps if step.action.value == "put in"]
    assert all("hold the label on the plug against the name printed there" in words for words in put_in)
    assert wrongs(old, new, comparison_json(found), found.build.proof.rows) == []
    assert not any("Test it" in each.bench for each in found.changes if each.subject == "lead")


def test_a_port_in_which_no_plug_has_been_is_tried_against_its_board():
    found = compare_crafts(sensors("J8", "J9"), sensors("J7", "J9"))
    (work,) = (work for work in found.work if work.steps)
    rows = [row for step in work.steps for row in step.rows]
    assert rows and {row.plugged[0] if row.plugged else row.where.termination for row in rows} == {"J7"}
    assert all(row.when is When.PLUGGED for row in rows)
    assert work.fate.untried == ("J7",)


def test_a_plug_that_goes_where_other_contacts_were_wired_is_measured():
    old = sensors("J7", "J9", first="5V, SDA, GND, SCL")
    found = compare_crafts(old, sensors("J9", "J7", first=ORDER))
    assert any(row.when is When.PLUGGED for row in found.measure)


def test_the_firmware_is_set_only_where_the_use_of_a_port_is_another_one():
    found = compare_crafts(sensors("J8", "J9"), sensors("J9", "J8"))
    assert {each.name for each in order_of_work(found).settings} == {"port pilot/J8", "port pilot/J9"}
    assert all("firmware of pilot" in each.bench for each in order_of_work(found).settings)


@pytest.mark.parametrize(
    ("order", "asked"), [("M1 M2 G", set()), ("M2 M1 G", {"port pilot/J1"})], ids=["as before", "motors exchanged"]
)
def test_another_order_of_motors_is_set_in_the_firmware(order, asked):
    def with_motors(nets):
        return craft(
            plug("J1", "M1 M2 G", board="pilot", signals="M1, M2, GND", family="JST GH"),
            plug("J2", nets, board="drive", signals="PWM1, PWM2, GND", family="JST GH"),
        )

    found = compare_crafts(with_motors("M1 M2 G"), with_motors(order))
    names = {each.name for each in order_of_work(found).settings}
    assert asked <= names and (bool(asked) or not names)


def test_a_port_that_had_no_use_has_nothing_to_take_back():
    found = compare_crafts(sensors("J8", "J9"), sensors("J7", "J9"))
    (bench,) = (each.bench for each in found.changes if each.name == "port pilot/J7")
    assert bench == "Set it in the firmware of pilot."


def test_a_plug_with_a_packs_own_wires_goes_elsewhere_and_all_of_it_is_measured():
    """Its plug is handled with power near."""

    def fed_at(port):
        return craft(
            captive("J1", "B G", board="pack", signals="BAT+, BAT-", gives="12-16.8V 30A"),
            two_pin("F1", "B", "Q", value="30A"),
            *(
                plug(each, "Q G" if each == port else "- -", board="power", signals="VBAT, GND", family="XT60")
                for each in ("J2", "J3")
            ),
        )

    (moved,) = [work for work in compare_crafts(fed_at("J2"), fed_at("J3")).work if work.steps]
    assert (moved.fate.what, moved.fate.replugged) == ("move plug", None)
    assert moved.measure and "Measure all of it." in moved.fate.words


@pytest.mark.parametrize("seed", [700, 712, 743])
def test_one_old_cable_that_gives_wires_is_called_one(seed):
    told = 0
    for what in ("one plug of two", "wires moved", "splice split"):
        before = of_one_family(draft(seed))
        after = edited(before, what, seed)
        for work in compare_crafts(before.craft(), after.craft()).work if after is not None else ():
            if work.fate.sources:
                many = len(work.fate.sources) > 1
                told += 1
                assert ("It is made of the old cables" in work.fate.words) is many
                assert ("Its wires come out of the old cable " in work.fate.words) is not many
    assert told


def test_contact_1_of_each_new_housing_is_marked_before_a_contact_goes_in():
    """As on the plan's sheets; common practice, no source."""
    lies = {"contact_1": "left", "entry": "side", "tabs": "away"}
    together, apart = (two_at_a_hub(merged=merged, **lies) for merged in (True, False))
    for old, new, places in ((apart, together, {"hub/J1"}), (together, apart, {"hub/J1", "hub/J3"})):
        found = compare_crafts(old, new)
        for work in found.work:
            marked = {}
            for step in work.steps:
                if "pen-mark that side" in step.words:
                    marked[step.end] = step.number
                    places.discard(step.end)
                    sided = "windows facing you, mating end up, the mark must lie at the " in step.words
                    assert sided is step.end.startswith("hub/")  # where the drawing says how the connector lies
                    assert step.words.startswith(f"hold the empty housing for {step.end} to its board connector")
            for end, number in marked.items():
                assert all(
                    s.number > number for s in work.steps if s.end == end and s.action.value == "put in" and s.cavity
                )
        assert not places, places


def test_a_plug_of_a_parts_own_into_another_ones_is_another_plug_on_both():
    """Nothing is made: both parts come with the plug that is drawn now, or it is put on their leads."""

    def made(family):
        return craft(
            captive("BT1", "VBAT GND", board="pack", value="pack", family=family, signals="VBAT, GND", gives="1:11V"),
            captive(
                "J1", "VBAT GND", board="driver", value="driver", family=family, signals="VBAT, GND", takes="1:11V"
            ),
        )

    found = compare_crafts(made("Amass XT30"), made("Amass XT60"))
    more = {need.item: need.more for need in found.purchases}
    for board in ("pack", "driver"):
        for title, count in (("XT60", 1), ("XT30", -1)):
            assert [n for item, n in more.items() if f"part {board}," in item and title in item] == [count], more


def links(*families):
    """A gps and a radio on one pilot, each with a cable of its own."""
    far = (("J3", "J4", "gps"), ("J5", "J6", "radio"))
    symbols = []
    for n, ((port, reference, board), family) in enumerate(zip(far, families, strict=False)):
        nets = f"V{n} A{n} B{n} G{n}"
        symbols.append(plug(port, nets, board="pilot", signals="5V, TX, RX, GND", family=family, gives="5V 1A"))
        symbols.append(plug(reference, nets, board=board, signals="5V, RX, TX, GND", family=family, takes="5V 0.1A"))
    return craft(*symbols)


@pytest.mark.parametrize(
    ("before", "after", "again", "freed"),
    [
        (("JST GH",), ("JST SH", "JST GH"), [("C1", "C2")], 0),
        (("JST SH", "JST GH"), ("JST GH",), [("C2", "C1")], 1),
        (("JST GH", "JST SH"), ("JST SH", "JST GH"), [("C2", "C1"), ("C1", "C2")], 0),
    ],
    ids=["one more", "one fewer", "exchanged"],
)
def test_a_cable_whose_own_link_has_other_plugs_now_serves_where_its_plugs_are_drawn(before, after, again, freed):
    """Else one goes into the drawer and the same is bought."""
    old, new = links(*before), links(*after)
    found = compare_crafts(old, new)
    answer = comparison_json(found)
    assert wrongs(old, new, answer, found.build.proof.rows) == []
    used = [(cable["old"], cable["new"]) for cable in answer["cables"] if cable["do"] == "re-use"]
    assert used == again
    assert sum(part["item"].startswith("cable C") for part in answer["parts"]) == freed
    assert not any("JST GH" in part["item"] and part["more"] > 0 for part in answer["parts"])


@pytest.mark.parametrize(("family", "turns"), [("servo_254", True), ("pinheader_254", True), ("JST GH", False)])
def test_a_plug_that_nothing_holds_the_right_way_round_says_which_way_it_goes_in(family, turns):
    """Plain 2.54 mm headers have no key: common practice, no source."""

    def made(ports):
        order = {"signals": "S, 5V, GND", "family": family}
        servos = [captive(f"M{k}", f"S{k} V{k} G{k}", board=f"servo {k}", **order) for k in (1, 2)]
        return craft(*(plug(port, f"S{k} V{k} G{k}", board="pilot", **order) for k, port in ports), *servos)

    found = compare_crafts(made(((1, "J1"), (2, "J2"))), made(((2, "J1"), (1, "J2"))))
    plugged = [step.words for work in found.work for step in work.steps if step.words.startswith("plug the cable")]
    assert len(plugged) == 2 and all(("the other way round" in words) is turns for words in plugged)


def test_two_ports_whose_printed_names_are_exchanged_are_told_by_these():
    """The references stay: only what is printed beside the ports tells where each plug goes."""

    def made(first, second):
        ports = [
            plug(f"J{k}", f"A{k} B{k}", board="pilot", value=name, signals="TX, RX", family="JST GH")
            for k, name in ((1, first), (2, second))
        ]
        far = [
            plug(f"J{k + 4}", f"B{k} A{k}", board=f"radio {k}", value="IO", signals="RX, TX", family="JST GH")
            for k in (1, 2)
        ]
        return craft(*ports, *far)

    found = compare_crafts(made("TELEM", "RC IN"), made("RC IN", "TELEM"))
    told = {change.bench.split(". ")[0] for change in found.changes if change.subject == "cable"}
    assert told == {
        "Unplug it from pilot/J1 (TELEM) and plug it into pilot/J1 (RC IN)",
        "Unplug it from pilot/J2 (RC IN) and plug it into pilot/J2 (TELEM)",
    }
