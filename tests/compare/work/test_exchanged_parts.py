"""Parts that bring their own wires and are others now: what is got, what comes off, what goes on.

Common practice, no source outside: nobody solders a plug to the wires of a pack, and the wires of a lamp stay on it.
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from benches.pack_bench import perils
from benches.rebuild_bench import wrongs
from crafts.craft_kit import captive, craft, pads, plug, two_pin
from tabside.cli.compare_command import _print
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.compare.order.order_of_work import order_of_work
from tabside.model.craft import CraftSettings
from tabside.wiring.terminations.fields import read_volts

SETTINGS = CraftSettings(battery=read_volts("12-16.8V"), battery_text="4S")


def fed(*, in_plug, board="power"):
    """A pack soldered to a board, or with a plug of its own for the board's connector."""
    own = {"board": board, "signals": "BAT+, GND"}
    at = plug("J2", ["BAT", "GND"], family="XT60", **own) if in_plug else pads("J2", ["BAT", "GND"], **own)
    more = {"family": "XT60"} if in_plug else {}
    pack = captive("J1", ["BAT", "GND"], board="pack", signals="BAT+, GND", gives="VBAT 45A", **more)
    return craft(pack, at, settings=SETTINGS)


def lit(value, *, end=pads, lamp="lamp", value_of_board="", **more):
    """A lamp with its own wires at a hub that feeds it."""
    return craft(
        end("J1", ["5V", "GND"], board="hub", signals="5V, GND", gives="5V 1A", value=value_of_board, **more),
        captive("J2", ["5V", "GND"], board=lamp, signals="5V, GND", takes="5V 0.1A", value=value, **more),
    )


def steps_of(found):
    return [(work.fate.what, step) for work in found.work for step in work.steps]


def test_a_soldered_pack_that_gets_a_plug_is_another_pack():
    old, new = fed(in_plug=False), fed(in_plug=True)
    found = compare_crafts(old, new)
    needs = {need.item: need.more for need in found.purchases}
    assert [more for item, more in needs.items() if "pack" in item and "own Amass XT60 plug" in item] == [1]
    assert sorted(more for item, more in needs.items() if item.startswith("board or part pack")) == [-1, 1]
    assert needs["board power with the connectors drawn now, where the one there has others"] == 1
    assert "J2 is Amass XT60 2-way, before solder pads" in " ".join(found.todo.first)
    off = [step.words for what, step in steps_of(found) if what == "retire"]
    assert [each for each in off if "off power/J2" in each] and "put the pack away" in off[-1]
    benches = [change.bench for change in found.changes if change.subject == "lead"]
    assert len(benches) == 2 and not any("stays on it" in each for each in benches)
    assert perils(found) == []
    assert wrongs(old, new, comparison_json(found), found.build.proof.rows) == []


def test_a_pack_whose_plug_is_cut_off_keeps_its_wires():
    old, new = fed(in_plug=True), fed(in_plug=False)
    found = compare_crafts(old, new)
    assert not any(each.was.startswith("W") or "W" in each.now for each in found.todo.numbers)  # W1 is not spare
    assert not any("spare W" in step.words for _, step in steps_of(found))
    assert perils(found) == []
    assert wrongs(old, new, comparison_json(found), found.build.proof.rows) == []


@pytest.mark.parametrize(("end", "more"), [(pads, {}), (plug, {"family": "JST GH"})])
def test_another_lamp_brings_its_own_wires(end, more):
    old, new = lit("red lamp", end=end, **more), lit("green lamp", end=end, **more)
    found = compare_crafts(old, new)
    needs = {need.item: need.more for need in found.purchases}
    assert needs["board or part lamp, green lamp"] == 1 and needs["board or part lamp, red lamp"] == -1
    steps = steps_of(found)
    assert [step for what, step in steps if what == "retire"] and [step for what, step in steps if what == "make"]
    assert not any(step.live for _, step in steps)
    assert not any("pack" in work.fate.words for work in found.work)
    assert list(found.kept()) == []
    assert wrongs(old, new, comparison_json(found), found.build.proof.rows) == []


def test_another_lamp_at_a_plug_with_other_wires_leaves_these_in():
    """A probe's wire sits in the same plug."""

    def shared(value):
        return craft(
            plug("J1", ["5V", "S", "GND"], board="hub", signals="5V, SIG, GND", gives="5V 1A", family="JST GH"),
            captive("J2", ["5V", "GND"], board="lamp", signals="5V, GND", takes="5V 0.1A", value=value),
            captive("J6", ["S"], board="probe", signals="SIG", value="probe"),
        )

    old, new = shared("red lamp"), shared("green lamp")
    found = compare_crafts(old, new)
    (work,) = (work for work in found.work if work.steps)
    assert "Another part" in work.fate.words and "pack" not in work.fate.words
    assert [each.now for each in found.todo.numbers] == ["spare W1", "spare W3"]  # the lamp's, that go with it
    assert sum("take spare W" in step.words for step in work.steps) == 2
    assert not any("W2" in step.words for step in work.steps if step.action.value in ("leave out", "cut"))
    assert wrongs(old, new, comparison_json(found), found.build.proof.rows) == []


def test_a_lamp_of_the_same_value_stays():
    found = compare_crafts(lit("red lamp"), lit("red lamp"))
    assert found.same and not found.purchases


def railed(fuse="1A", switch="K1", **fields):
    """A pack behind a switch that is soldered into its plus, and a fuse in the rail."""
    return craft(
        captive("J1", ["BAT", "GND"], board="pack", signals="BAT+, GND", gives="VBAT 45A"),
        two_pin("SW1", "BAT", "ON", value=switch, fields=fields),
        pads("J2", ["ON", "GND"], board="power", signals="BAT+, GND"),
        plug("J3", ["5V", "GND"], board="power", signals="5V, GND", gives="5V 1A", family="JST GH"),
        two_pin("F5", "5V", "F5V", value=fuse),
        plug("J4", ["F5V", "GND"], board="pilot", signals="5V, GND", takes="5V 0.1A", family="JST GH"),
        settings=SETTINGS,
    )


@pytest.mark.parametrize(
    ("part", "other"), [("F5", {"fuse": "2A"}), ("SW1", {"switch": "K2"}), ("SW1", {"MPN": "ES-2"})], ids=str
)
def test_a_part_between_wires_comes_off_them_and_the_next_one_goes_onto_them(part, other):
    old, new = railed(**{name: "ES-1" for name in other if name == "MPN"}), railed(**other)
    for one, two in ((old, new), (new, old)):
        found = compare_crafts(one, two)
        answer = comparison_json(found)
        assert perils(found) == wrongs(one, two, answer, found.build.proof.rows) == []
        steps = [step for cable in answer["cables"] for step in cable["steps"]]
        swaps = [n for n, step in enumerate(steps) if step["swap"] in ("out", "in")]
        joints = [
            (n, step["action"]) for n, step in enumerate(steps) if step["end"] == f"{part}/{part}" and step["cavity"]
        ]
        assert {action for n, action in joints if n < swaps[0]} <= {"take out", "insulate"}
        assert sum(action == "take out" for n, action in joints if n < swaps[0]) == 2
        assert sum(action == "solder" for n, action in joints if n > swaps[1]) == 2
        assert steps[swaps[1] + 1]["action"] == "test" and steps[swaps[1] + 1]["rows"]
        assert f"hold {part} against the new drawing" in found.todo.first[0]


@pytest.mark.parametrize(("before", "after"), [("1A", "1 A"), ("1A", "1A 32V"), ("1A", "F 1A")])
def test_a_rating_that_is_the_same_in_other_words_takes_nothing_off(before, after):
    assert steps_of(compare_crafts(railed(fuse=before), railed(fuse=after))) == []


@pytest.mark.parametrize("value", ["Lamp, red", "red  lamp", "lamp red"])
def test_a_value_that_is_only_put_in_other_words_is_no_change(value):
    found = compare_crafts(lit("red lamp"), lit(value))
    assert found.same and not found.purchases


@pytest.mark.parametrize("value", ["red lamp 5 mm", "lamp"])
def test_a_value_that_says_more_or_less_is_looked_at_and_nothing_comes_off(value):
    found = compare_crafts(lit("red lamp"), lit(value))
    assert steps_of(found) == [] and not found.purchases
    assert [(change.name, change.before, change.after) for change in found.changes if change.subject == "fact"] == [
        ("lamp/J2: value", "red lamp", value)
    ]


@pytest.mark.parametrize("name", ["MPN", "Part Number", "Manufacturer_Part_Number", "Mfr. Part #", "PN"])
def test_another_part_number_is_another_part(name):
    """The same pins, the same board, the same Value."""
    old, new = (lit("lamp", fields={name: number}) for number in ("LX-120", "LX-140"))
    found = compare_crafts(old, new)
    steps = steps_of(found)
    assert [step for what, step in steps if what == "retire"] and [step for what, step in steps if what == "make"]
    assert any(change.name == "lamp/J2: part number" for change in found.changes)
    assert wrongs(old, new, comparison_json(found), found.build.proof.rows) == []


@pytest.mark.parametrize("numbers", [({}, {"MPN": "LX-120"}), ({"MPN": "LX-120"}, {"MPN": "lx120"})])
def test_a_part_number_that_one_drawing_has_is_looked_at_and_one_that_is_written_otherwise_is_the_same(numbers):
    found = compare_crafts(*(lit("lamp", fields=fields) for fields in numbers))
    assert steps_of(found) == []
    assert found.same is all(numbers)


def test_the_number_of_a_shop_says_nothing():
    assert compare_crafts(*(lit("lamp", fields={"Shop Part": text}) for text in ("C1", "C2"))).same


def test_another_part_number_on_a_board_is_another_board():
    def built(number):
        yield plug("J1", ["5V", "GND"], board="hub", signals="5V, GND", gives="5V 1A", family="JST GH")
        at = {"board": "gps", "signals": "5V, GND", "fields": {"MPN": number}}
        yield plug("J2", ["5V", "GND"], family="JST GH", takes="5V 0.1A", **at)

    old, new = (craft(*built(number), settings=SETTINGS) for number in ("M8", "M10"))
    found = compare_crafts(old, new)
    assert "J2 is JST GH 2-way M10, before JST GH 2-way M8" in found.todo.first[0]
    assert [step.swap for _, step in steps_of(found) if step.swap] == ["out", "in"]
    assert wrongs(old, new, comparison_json(found), found.build.proof.rows) == []


def test_the_name_of_a_symbol_says_of_no_part_what_it_is():
    found = compare_crafts(lit("Conn_01x02"), lit("red lamp"))
    assert steps_of(found) == [] and not found.purchases


def test_a_board_with_a_pigtail_is_no_part_that_goes():
    def pigtail(value):
        return craft(
            captive("J2", ["5V", "GND"], board="cam", signals="5V, GND", takes="5V 0.1A", value=value),
            plug("J3", "5V A B GND", board="cam", signals="5V, TX, RX, GND", family="JST GH"),
            pads("J1", ["5V", "GND"], board="hub", signals="5V, GND", gives="5V 1A"),
            plug("J4", "5V B A GND", board="gps", signals="5V, TX, RX, GND", family="JST GH"),
        )

    found = compare_crafts(pigtail("lead a"), pigtail("lead b"))
    assert steps_of(found) == [] and not found.purchases


def test_ready_made_cables_are_got_by_their_lengths(capsys):
    """Of wires too thin for what is drawn now."""

    def link(gauge):
        made = craft(
            plug("J1", "5V A B GND", board="hub", signals="5V, TX, RX, GND", gives="5V 1A", family="JST GH"),
            plug("J2", "5V A B GND", board="gps", signals="5V, RX, TX, GND", takes="5V 0.1A", family="JST GH"),
        )
        leads = (replace(lead, gauge_awg=gauge, length_mm=240.0) for lead in made.leads)
        return replace(made, leads=tuple(leads))

    found = compare_crafts(link(28), link(26))
    facts = {"family": "jst_gh", "ways": 4, "length_mm": 240.0}
    for part, gauge, more in zip(comparison_json(found)["parts"], (26, 28), (1, -1), strict=True):
        assert part.items() >= {**facts, "gauge_awg": gauge, "more": more, "unit": "pieces"}.items()
    (line,) = (each for each in order_of_work(found).get if "ready-made cable" in each)
    assert "at least 240 mm" in line and "C1" in line
    _print(found)
    assert "at least 240 mm" in " ".join(capsys.readouterr().out.split())


def powered_by(family):
    """A pack with a plug of its own."""
    own = {"board": "power", "signals": "BAT+, GND", "family": family}
    pack = captive("J1", ["BAT", "GND"], board="pack", signals="BAT+, GND", gives="VBAT 45A", family=family)
    return craft(pack, plug("J2", ["BAT", "GND"], **own), settings=SETTINGS)


def test_a_pack_with_another_plug_is_another_pack():
    old, new = powered_by("XT60"), powered_by("XT90")
    found = compare_crafts(old, new)
    needs = {need.item: need.more for need in found.purchases}
    assert [more for item, more in needs.items() if "pack" in item and "own Amass XT90" in item] == [1]
    assert [more for item, more in needs.items() if "pack" in item and "own Amass XT60" in item] == [-1]
    words = [step.words for what, step in steps_of(found) if what == "retire"]
    assert "put the pack away" in words[-1]
    assert wrongs(old, new, comparison_json(found), found.build.proof.rows) == []


@pytest.mark.parametrize(
    ("old", "new", "comes"),
    [
        (lit("", end=plug, family="JST GH"), lit("", end=plug, family="JST SH"), "with its own JST SH plug"),
        (lit(""), lit("", end=plug, family="JST GH"), "with its own JST GH plug"),
        (
            lit(""),
            craft(
                pads("J1", ["5V", "GND"], board="hub", signals="5V, GND", gives="5V 1A"),
                plug("J2", ["5V", "GND"], board="lamp", signals="5V, GND", takes="5V 0.1A", family="JST GH"),
            ),
            "with a board connector JST GH",
        ),
    ],
    ids=["another plug", "bare wires to a plug", "bare wires to a connector"],
)
def test_a_lamp_with_another_end_is_another_lamp(old, new, comes):
    """Else nothing is got, nothing made, and the old plug is tried in the new connector."""
    found = compare_crafts(old, new)
    needs = {need.item: need for need in found.purchases}
    (come,) = (need for item, need in needs.items() if comes in item)
    assert come.more == 1
    assert "own wires" in come.note
    assert [need.more for item, need in needs.items() if item.startswith("board or part lamp")].count(-1) == 1
    assert wrongs(old, new, comparison_json(found), found.build.proof.rows) == []


def with_balance(cells):
    """A pack with a plug for its power and one for its balance taps, each in a board of its own."""
    taps = [f"CELL{k}" for k in range(1, cells)]
    wires, names = ["GND", *(f"C{k}" for k in range(1, cells)), "BAT"], ", ".join(["GND", *taps, "VBAT"])
    volts = f"{cells * 3}-{cells * 4.2:.1f}V"
    return craft(
        captive("J1", ["BAT", "GND"], board="pack", signals="VBAT, GND", gives=f"1:{volts} 30A", family="XT60"),
        captive("J2", wires, board="pack", signals=names, family="JST XH"),
        plug("J3", ["BAT", "GND"], board="driver", signals="VBAT, GND", family="XT60"),
        plug("J4", wires, board="watcher", signals=names, family="JST XH"),
        settings=CraftSettings(battery=read_volts(volts), battery_text=f"{cells}S"),
    )


def test_a_pack_with_two_plugs_is_put_away_when_both_are_out():
    found = compare_crafts(with_balance(2), with_balance(3))
    steps = [step.words for work in found.work for step in work.steps]
    away = [n for n, words in enumerate(steps) if words.startswith("put the pack away")]
    out = [n for n, words in enumerate(steps) if words.startswith("unplug the cable from")]
    assert len(away) == 1 and len(out) == 2 and max(out) < away[0]


@pytest.mark.parametrize("cells", [2, 3, 4])
def test_the_volts_of_all_cells_are_looked_for_at_the_packs_plus_and_not_at_its_first_tap(cells):
    """Three to 4.2 V a cell stand at the lowest tap; common practice of lithium cells, no source."""
    rows = compare_crafts(with_balance(cells), with_balance(cells + 1)).build.proof.rows
    volts = {(row.where.termination, row.where.contact): row.volts for row in rows if row.volts is not None}
    assert set(volts) == {("J3", "1"), ("J4", str(cells + 2))}
    assert {round(high / (cells + 1), 2) for _, high in volts.values()} == {4.2}


def test_a_plug_in_which_a_wire_stays_is_called_so_when_the_rest_of_its_cable_goes_with_a_part():
    """The lamp's own plug, and a fuse, come out of a cable of which one wire serves on in its plug at the gps."""
    names, own = "9V, 9V, X1, RX", "5V, DATA, GND"
    lamp = captive("J4", "5V D G", board="lamp", signals=own, family="JST GH")
    far = {"board": "gps", "signals": names, "family": "JST PH"}
    old = craft(
        two_pin("F7", "9V", "FED", value="2A"),
        plug("J2", "FED 9V X R", **far),
        plug("J3", "5V D G 9V 9V X R", board="hub", signals=f"{own}, 9V, 9V, X1, TX", family="JST GH"),
        lamp,
    )
    new = craft(
        plug("J1", "9V 9V X R", board="hub", signals="9V, 9V, X1, TX", family="JST PH"),
        plug("J2", "9V 9V X R", **far),
        plug("J3", "5V D G", board="hub", signals=own, family="JST GH"),
        lamp,
    )
    found = compare_crafts(old, new)
    assert wrongs(old, new, comparison_json(found), found.build.proof.rows) == []
