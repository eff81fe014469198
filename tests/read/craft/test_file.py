"""The craft file: read with a schema, each mistake one clear line.  Cell voltages: LiPo guides, grade C."""

from __future__ import annotations

import pytest

from tabside.errors import TabsideError
from tabside.model.craft import CraftSettings, Limits, Protection
from tabside.model.roles import Volts
from tabside.model.stock import Bench
from tabside.read.craft.file import settings_from_text

WHOLE = """
[craft]
name = "Pond skater"
battery = "4S"
[boards.pilot]
at_mm = [0, 0, 12]
[lengths_mm]
"pilot/J2 - drive/J10" = 85
[defaults]
gauge_awg = 28
service_loop_mm = 20
[[stock.cables]]
name = "8-way SH leftover"
ends = ["jst_sh 8", "JST-SH 8"]
map = "reversed"
length_mm = 100
count = 2
repinnable = true
[[stock.leads]]
ends = ["jst_sh", "jst_gh"]
length_mm = 150
gauge_awg = 28
colour = "RD"
count = 10
[limits]
drop_percent_regulated = 2.5
drop_percent_battery = 6
budget_percent = 70
[wire]
ampacity = "ac4313_105C"
ampacity_factor = 0.76
temperature_c = 60
insulation_od_mm = { 28 = 0.9, 12 = 4.5 }
[[protection]]
at = "pack/J1:2"
what = "limiter of the pack"
[[accept]]
rule = "no-return"
at = ["pilot/J4:2", "buzzer/P1:1"]
reason = "buzzer is driven between both contacts"
"""


def read(text: str):
    return settings_from_text(text.encode(), "boat.craft.toml")


def test_all_that_a_craft_file_says_is_read():
    settings = read(WHOLE)
    assert settings.name == "Pond skater"
    assert settings.battery == Volts(12.0, 16.8)
    assert settings.at_mm == {"pilot": (0, 0, 12)}
    assert settings.lengths_mm == {("J2", "J10"): 85}
    assert (settings.gauge_awg, settings.service_loop_mm) == (28, 20)
    assert settings.stock_cables[0].map == tuple((n, 9 - n) for n in range(1, 9))
    assert settings.stock_leads[0].ends == ("jst_sh", "jst_gh")
    assert settings.accept[0].at == (("J4", "2"), ("P1", "1"))
    assert settings.limits == Limits(2.5, 6.0, 70.0, "ac4313_105C", 0.76, 60.0, {28: 0.9, 12: 4.5})
    assert settings.protections == (Protection(("J1", "2"), "limiter of the pack"),)


def test_an_empty_file_changes_nothing():
    settings = read("")
    assert settings.battery is None
    assert settings.service_loop_mm == 15
    assert settings.limits == CraftSettings().limits


@pytest.mark.parametrize(
    ("battery", "volts"),
    [
        ('battery = "1S"', Volts(3.0, 4.2)),
        ('battery = "6s"', Volts(18.0, 25.2)),
        ('battery = "4S HV"', Volts(12.0, 17.4)),
        ('battery = "12V lead"\nvolts = [14.4, 10.5]', Volts(10.5, 14.4)),
        ('battery = "4S"\nvolts = [10, 17.4]', Volts(10.0, 17.4)),
        ('battery = "12V lead"', Volts(10.5, 14.4, named=12)),
        ('battery = "6S LiPo"', Volts(18.0, 25.2)),
        ('battery = "6S2P"', Volts(18.0, 25.2)),
        ('battery = "LiFePO4 4S"', Volts(10.0, 14.6, unsure_above=14.4)),
        ('battery = "2x12V"', Volts(21.0, 28.8, named=24)),
        ('battery = "14.8V"', Volts(12.0, 16.8, named=14.8)),
    ],
)
def test_the_battery_says_what_its_rail_can_reach(battery, volts):
    assert read(f"[craft]\n{battery}\n").battery == volts


@pytest.mark.parametrize(
    ("text", "line"),
    [
        pytest.param("[craft]\nnmae = 'x'", "boat.craft.toml: craft.nmae: no such key; did you mean `name`?", id="key"),
        pytest.param("[crafts]", "boat.craft.toml: crafts: no such key; did you mean `craft`?", id="table"),
        pytest.param(
            "[[stock.cables]]\nnam = 'x'\nends=['jst_sh 4', 'jst_sh 4']",
            "boat.craft.toml: stock.cables[0].nam: no such key; did you mean `name`?",
            id="key in a list",
        ),
        pytest.param(
            "[lengths_mm]\n'a/J1 - b/J2' = -5",
            "boat.craft.toml: lengths_mm[...]: expected a number > 0.0",
            id="negative length",
        ),
        pytest.param(
            "[lengths_mm]\n'a/J1 b/J2' = 5",
            'boat.craft.toml: lengths_mm."a/J1 b/J2": write "board/J1 - board/J2"',
            id="no link",
        ),
        pytest.param(
            "[defaults]\ngauge_awg = '28 AWG'",
            "boat.craft.toml: defaults.gauge_awg: expected a whole number, got text",
            id="unit written into a number",
        ),
        pytest.param("[craft]\nname = ", "boat.craft.toml:2: Invalid value", id="toml"),
        pytest.param(
            "[[stock.leads]]\nends = ['jst_shh']\nlength_mm = 5",
            'boat.craft.toml: stock.leads[0].ends: "jst_shh" is no family that Tabside knows; did you mean `jst_sh`?',
            id="family",
        ),
        pytest.param(
            "[[stock.cables]]\nname='x'\nends=['jst_sh 2', 'jst_sh 2']\nmap=[[1, 3]]",
            "boat.craft.toml: stock.cables[0].map: each cavity once, from 1 to 2",
            id="cavity that the plug has not",
        ),
        pytest.param(
            "[[accept]]\nrule='x'\nat=['J1']\nreason='y'",
            'boat.craft.toml: accept[0].at: "J1" is no contact; write "board/J1:2"',
            id="contact",
        ),
        pytest.param("[craft]\nbattery = 'a big one'", 'boat.craft.toml: craft.battery: "a big one"', id="battery"),
        pytest.param(
            "[craft]\nbattery = '4S'\nvolts = [20.0, 25.2]",
            'boat.craft.toml: craft.volts: 20 to 25.2 V is not what battery = "4S" reaches (12 to 16.8 V); keep the ',
            id="battery and volts",
        ),
        pytest.param("[craft]\nbattery = '6S'\nvolts = [12, 16.8]", "boat.craft.toml: craft.volts: 12 to ", id="lower"),
        pytest.param("[craft]\nbattery = '99S'", "boat.craft.toml: craft.battery: 99 cells in series", id="cells"),
        pytest.param(
            "[limits]\ndrop_percent = 3",
            "boat.craft.toml: limits.drop_percent: no such key; did you mean `drop_percent_battery`?",
            id="limit",
        ),
        pytest.param("[limits]\nbudget_percent = 0", "boat.craft.toml: limits.budget_percent: expected", id="nought"),
        pytest.param(
            "[wire]\nampacity = 'nasa'",
            'boat.craft.toml: wire.ampacity: "nasa" is no table of currents; did you mean `nasa_',
            id="table of currents",
        ),
        pytest.param(
            "[wire]\nampacity = 'rc_silicone_optimistic'",
            'boat.craft.toml: wire.ampacity: "rc_silicone_optimistic" is never a limit; there are ac4313_105C, ',
            id="sellers' table",
        ),
        pytest.param(
            "[wire]\ninsulation_od_mm = { awg28 = 1 }",
            'boat.craft.toml: wire.insulation_od_mm: "awg28" is no gauge; write AWG, for example 28 = 0.9',
            id="gauge",
        ),
        pytest.param(
            "[[protection]]\nat='pack'\nwhat='fuse'",
            'boat.craft.toml: protection[0].at: "pack" is no contact; write "board/J1:2"',
            id="protection",
        ),
        pytest.param("[wire]\ntemperature_c = 500", "boat.craft.toml: wire.temperature_c: expected", id="hot"),
        pytest.param("[wire]\ntemperature_c = nan", "boat.craft.toml: wire.temperature_c: ", id="nan"),
        pytest.param("[lengths_mm]\n'a/J1 - b/J2' = inf", "boat.craft.toml: lengths_mm[...]: ", id="infinite"),
        pytest.param("a = " + "[" * 5000, "boat.craft.toml", id="deep"),
    ],
)
def test_a_mistake_is_one_clear_line(text, line):
    with pytest.raises(TabsideError) as raised:
        read(text)
    assert str(raised.value).startswith(line)
    assert "\n" not in str(raised.value)


def test_a_pack_without_a_board_goes_by_its_reference_as_the_findings_print_it():
    settings = read("[[accept]]\nrule = 'fuse-missing'\nat = ['BT1:1']\nreason = 'x'\n")
    assert settings.accept[0].at == (("BT1", "1"),)
    assert [(named.board, named.termination, named.contact) for named in settings.named] == [("BT1", "BT1", "1")]


def test_bytes_that_are_no_text_name_their_line():
    with pytest.raises(TabsideError, match=r"boat.craft.toml:2: is not UTF-8"):
        settings_from_text(b"[craft]\nname = '\xff'", "boat.craft.toml")


def test_housings_contacts_and_wire_in_stock_and_costs_are_read():
    text = """
[[stock.housings]]
end = "JST SH 8"
count = 3
[[stock.contacts]]
family = "jst_sh"
count = 40
price = 2.5
pack = 100
[[stock.wire]]
gauge_awg = 28
colour = "BK"
length_mm = 1500
[costs]
move_minutes = 4
"""
    settings = settings_from_text(text.encode(), "pond.craft.toml")
    (housing,) = settings.stock_housings
    (contact,) = settings.stock_contacts
    (wire,) = settings.stock_wire
    assert (housing.family, housing.ways, housing.count) == ("jst_sh", 8, 3)
    assert (contact.family, contact.count, contact.price, contact.pack) == ("jst_sh", 40, 2.5, 100)
    assert (wire.gauge_awg, wire.colour, wire.length_mm, wire.count) == (28, "BK", 1500, 1)
    assert (settings.costs.move_minutes, settings.costs.minute) == (4, 0.5)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[[stock.housings]]\nend = "jst_sh"', "stock.housings[0].end"),
        ('[[stock.contacts]]\nfamily = "jst_sj"', "stock.contacts[0].family"),
        ("[[stock.wire]]\ngauge_awg = 28\nlength_mm = -1", "stock.wire[0].length_mm"),
        ("[costs]\nmove_minute = 3", "did you mean `move_minutes`?"),
    ],
)
def test_mistakes_in_stock_and_costs_name_their_key(text, said):
    with pytest.raises(TabsideError) as error:
        settings_from_text(text.encode(), "pond.craft.toml")
    assert said in str(error.value) and "\n" not in str(error.value)


def test_kits_prices_kept_cables_cutting_and_bench_are_read():
    text = """
[[stock.cables]]
name = "mine"
ends = ["jst_sh 4", "jst_sh 4"]
price = 3.5
pack = 2
for = "radio/J10 - pilot/J2"
[[stock.leads]]
ends = ["jst_sh", "jst_sh"]
length_mm = 150
od_mm = 0.7
price = 4
pack = 10
[[stock.wire]]
gauge_awg = 28
length_mm = 1000
price = 1.5
[[stock.kits]]
name = "box"
count = 2
price = 12
cables = [{ name = "short", ends = ["jst_gh 4", "jst_gh 4"], count = 3 }]
leads = [{ ends = ["jst_gh", "jst_gh"], length_mm = 150, count = 20 }]
housings = [{ end = "jst_gh 4", count = 5 }]
contacts = [{ family = "jst_gh", count = 50 }]
wire = [{ gauge_awg = 26, length_mm = 2000 }]
[cutting]
again_mm = 3
[bench]
work_at = ["radio/J10"]
slack_at = ["pilot/J2", "radio/J10"]
"""
    settings = settings_from_text(text.encode(), "pond.craft.toml")
    mine, short = settings.stock_cables
    assert (mine.price, mine.pack, mine.reserved, mine.repinnable) == (3.5, 2, ("J2", "J10"), None)
    assert (short.name, short.count) == ("short", 6)  # two boxes of three
    assert [(each.count, each.price, each.pack, each.od_mm) for each in settings.stock_leads] == [
        (1, 4.0, 10, 0.7),
        (40, None, 1, None),
    ]
    assert [each.count for each in settings.stock_housings] == [10]
    assert [each.count for each in settings.stock_contacts] == [100]
    assert [(each.gauge_awg, each.count, each.price) for each in settings.stock_wire] == [(28, 1, 1.5), (26, 2, None)]
    (kit,) = settings.stock_kits
    assert (kit.name, kit.count, kit.price) == ("box", 2, 12.0)
    assert [(item.kind, item.index, item.count) for item in kit.items] == [
        ("cable", 1, 3),
        ("lead", 1, 20),
        ("housing", 0, 5),
        ("contact", 0, 50),
        ("wire", 1, 1),
    ]
    assert (settings.cutting.strip_mm, settings.cutting.again_mm) == (None, 3.0)
    assert settings.bench == Bench(frozenset({"J10"}), frozenset(), frozenset({"J2", "J10"}))
    named = {(each.board, each.termination) for each in settings.named}
    assert named == {("radio", "J10"), ("pilot", "J2")}


_CABLE = '[[stock.cables]]\nname = "x"\nends = ["jst_sh 4", "jst_sh 4"]\n'


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (f'{_CABLE}for = "pilot/J1"', 'stock.cables[0].for: write "board/J1 - board/J2"'),
        (f"{_CABLE}pack = 0", "stock.cables[0].pack: "),
        (f"{_CABLE}map = 3", "stock.cables[0].map: expected text or a list, got a whole number"),
        (f"{_CABLE}map = []", "stock.cables[0].map: a cable that connects nothing"),
        (f'{_CABLE}repinnable = "yes"', "stock.cables[0].repinnable: expected true or false, got text"),
        ('[[stock.cables]]\nname = "x"', "stock.cables[0]: the key `ends` is missing"),
        ('[[stock.cables]]\nname = "x"\nends = ["jst_sh 4"]', "stock.cables[0].ends: expected a list of at least 2"),
        ('[[stock.cables]]\nname = ""\nends = ["jst_sh 4", "jst_sh 4"]', "stock.cables[0].name: expected "),
        (f'{_CABLE}for = "a/J1:1 - b/J2:1"', 'stock.cables[0].for: write "board/J1 - board/J2"'),
        (
            '[[stock.kits]]\nname = "x"\nhousings = [{ end = "jst_sh 4", count = 0 }]',
            "stock.kits[0]: there is nothing in ",
        ),
        (f"{_CABLE}price = -1", "stock.cables[0].price: "),
        (f'{_CABLE}reserved = "a/J1 - b/J2"', "stock.cables[0].reserved: no such key; "),
        ('[[stock.kits]]\nname = "x"', "stock.kits[0]: there is nothing in "),
        (
            '[[stock.kits]]\nname = "x"\nhousings = [{ end = "jst_sh" }]',
            'stock.kits[0].housings[0].end: "jst_sh" is no family and ways',
        ),
        (
            '[[stock.kits]]\nname = "x"\nhousings = [{ ends = "jst_sh 4" }]',
            "stock.kits[0].housings[0].ends: no such key; did you mean `end`?",
        ),
        ("[cutting]\nagain = 3", "cutting.again: no such key; did you mean `again_mm`?"),
        ("[cutting]\nstrip_mm = -1", "cutting.strip_mm: "),
        ('[bench]\nwork_at = ["J1"]', 'bench.work_at[0]: "J1" is no termination; write "board/J1"'),
        ('[bench]\nwork_at = ["a/J1:2"]', 'bench.work_at[0]: "a/J1:2" is no termination'),
        ('[bench]\nwork_at = ["a/J1"]\nnever_at = ["a/J1"]', "bench: J1 is in work_at and in never_at"),
    ],
)
def test_mistakes_in_kits_kept_cables_and_bench_name_their_key(text, said):
    with pytest.raises(TabsideError) as error:
        settings_from_text(text.encode(), "pond.craft.toml")
    assert str(error.value).startswith(f"pond.craft.toml: {said}") and "\n" not in str(error.value)


def test_what_lies_in_stock_is_one_of_a_kind_where_no_number_says_otherwise():
    text = """
[[stock.cables]]
name = "short"
ends = ["jst_gh 4", "jst_gh 4"]
[[stock.leads]]
ends = ["jst_gh"]
length_mm = 150
[[stock.housings]]
end = "jst_gh 4"
[[stock.contacts]]
family = "jst_gh"
[[stock.wire]]
gauge_awg = 28
length_mm = 1500
"""
    found = settings_from_text(text.encode(), "pond.craft.toml")
    stock = (found.stock_cables, found.stock_leads, found.stock_housings, found.stock_contacts, found.stock_wire)
    assert [[each.count for each in kind] for kind in stock] == [[1]] * 5
    assert [kind[0].pack for kind in stock[:4]] == [1] * 4
