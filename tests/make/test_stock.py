"""Stock that can be bought, kits, cables kept for a place, wishes for the bench, insulation, the solver's limit.

Prices and counts are chosen so that the best way can be worked out by hand beside each case.
"""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st
from msgspec.structs import replace

from crafts.craft_kit import captive, pads, plug
from crafts.small_craft import small_craft
from tabside.documents.build import craft_build
from tabside.errors import TabsideError
from tabside.make import assignment
from tabside.make.assignment import Activity, Job, Offer, assign
from tabside.make.method import Method
from tabside.make.sheets.cable_plan import HANDS, Action
from tabside.make.solve import choosing
from tabside.model.craft import CraftSettings
from tabside.model.stock import (
    Bench,
    Costs,
    Cutting,
    KitItem,
    StockCable,
    StockContact,
    StockHousing,
    StockKit,
    StockLead,
    StockWire,
)
from tabside.rules import check_craft

FREE = Costs(
    minute=0.0,
    move_risk=0.0,
    slack_price=0.0,
    buy_ready=False,
    spoil=1.0,
    spoil_1_0=1.0,
    spoil_1_25=1.0,
    housing_price=1.0,
    contact_price=1.0,
    wire_price=1000.0,
)


def links(count, ways=2, family="JST SH"):
    """So many boards beside a hub, each joined straight by its own cable of `ways` leads."""
    symbols = []
    for k in range(count):
        names = [f"S{k}{n}" for n in range(ways)]
        symbols += [
            plug(f"J{2 * k + 1}", names, board="hub", family=family),
            plug(f"J{2 * k + 2}", names, board=f"b{k}", family=family),
        ]
    return symbols


def made(symbols, *, length_mm=100.0, gauge_awg=28, costs=FREE, **stock):
    facts = {"*": {"length_mm": length_mm, "gauge_awg": gauge_awg}}
    stock.setdefault("cutting", Cutting(0.0, 0.0))
    craft = small_craft(*symbols, settings=CraftSettings(costs=costs, **stock), leads=facts)
    return craft_build(craft, check_craft(craft)).plan


def cable(count=1, *, ways=2, pairs=None, name="spare", **more):
    pairs = pairs or tuple((n, n) for n in range(1, ways + 1))
    return StockCable(name, (("jst_sh", ways), ("jst_sh", ways)), pairs, "map", 120.0, count, **more)


def line(plan, item):
    (found,) = [each for each in plan.purchases if each.item == item]
    return found


def test_cables_are_bought_by_the_pack():
    """Five cables, one is there; packs of three at 2.0 beat a cable by hand, 2 housings, 4 contacts and 200 mm: 206."""
    plan = made(links(5), stock_cables=(cable(1, price=2.0, pack=3),))
    assert {each.method for each in plan.cables} == {Method.PLUG_IN}
    bought = line(plan, "ready-made cable")
    assert (bought.quantity, bought.in_stock, bought.to_buy) == (5, 1, 4)
    assert bought.note == "spare; 2 bags of 3"
    assert plan.cost == pytest.approx(4.0)


def test_a_cable_that_costs_more_than_the_work_is_not_bought():
    """By hand: 2 housings and 4 contacts at 1.0, and 0.206 m of wire (strips of 1.5 mm) at 1.0 a metre, are 6.206."""
    costs = replace(FREE, wire_price=1.0)
    assert made(links(1), costs=costs, stock_cables=(cable(0, price=6.1),)).cost == pytest.approx(6.1)
    plan = made(links(1), costs=costs, stock_cables=(cable(0, price=6.3),))
    assert plan.cables[0].method is Method.CRIMP and plan.cost == pytest.approx(6.206)


def test_leads_are_bought_by_the_pack():
    lead = StockLead(("jst_sh", "jst_sh"), 120.0, 28, None, 1, price=0.5, pack=2)
    plan = made(links(2), stock_leads=(lead,))
    bought = line(plan, "pre-crimped lead")
    assert (bought.quantity, bought.in_stock, bought.to_buy) == (4, 1, 3)
    assert bought.note == "JST SH both ends 120 mm; 2 bags of 2"
    assert plan.cost == pytest.approx(4 * 1.0 + 2 * 0.5)  # four housings, two packs


def test_wire_is_bought_by_the_piece():
    """Three leads of 400 mm: two from the piece of 1000 mm that is there, the third from one that is bought."""
    wire = StockWire(28, None, 1000.0, 1, price=3.0)
    symbols = (pads("P1", "A B C", board="a"), pads("P2", "A B C", board="b"))
    plan = made(symbols, length_mm=400.0, stock_wire=(wire,))
    bought = line(plan, "wire")
    assert (bought.quantity, bought.in_stock, bought.to_buy) == (1200, 800, 400)  # 200 mm stay of the first
    assert "1 piece of 1000 mm to buy" in bought.note
    assert plan.cost == pytest.approx(3.0)
    assert [len(cut.pieces) for cut in plan.stock_cuts] == [2, 1]


def kit(count=0, price=4.0, *, items=(("lead", 0, 10), ("housing", 0, 4))):
    return StockKit("box of SH", count, price, tuple(KitItem(*each) for each in items))


def test_a_kit_is_bought_once_for_all_that_is_in_it():
    """Two cables want 4 leads and 4 housings: one box at 4.0; by hand they cost 8 contacts, 4 housings and wire."""
    leads = (StockLead(("jst_sh", "jst_sh"), 120.0, 28, None, 0),)
    plan = made(links(2), stock_leads=leads, stock_housings=(StockHousing("jst_sh", 2, 0),), stock_kits=(kit(),))
    assert plan.cost == pytest.approx(4.0)
    assert (line(plan, "kit").quantity, line(plan, "kit").note) == (1, "box of SH")
    for item in ("pre-crimped lead", "housing"):
        assert (line(plan, item).quantity, line(plan, item).to_buy) == (4, 0)
        assert "4 in the kit box of SH" in line(plan, item).note


def test_a_kit_that_is_there_is_counted_with_the_stock():
    leads = (StockLead(("jst_sh", "jst_sh"), 120.0, 28, None, 10),)
    housings = (StockHousing("jst_sh", 2, 4),)
    plan = made(links(2), stock_leads=leads, stock_housings=housings, stock_kits=(kit(1, None),))
    assert plan.cost == 0.0
    assert not [each for each in plan.purchases if each.item == "kit"]


def test_a_second_box_is_bought_when_one_does_not_suffice():
    leads = (StockLead(("jst_sh", "jst_sh"), 120.0, 28, None, 0),)
    box = kit(items=(("lead", 0, 3),))
    plan = made(links(2), stock_leads=leads, stock_kits=(box,))
    assert line(plan, "kit").quantity == 2
    assert plan.cost == pytest.approx(2 * 4.0 + 4 * 1.0)


def test_contacts_and_wire_of_a_kit_are_used():
    """One cable by hand: 4 contacts and 2 x 100 mm of wire from a box at 2.0, two housings at 1.0."""
    box = kit(price=2.0, items=(("contact", 0, 4), ("wire", 0, 1)))
    plan = made(
        links(1),
        stock_contacts=(StockContact("jst_sh", 0),),
        stock_wire=(StockWire(28, None, 500.0, 0),),
        stock_kits=(box,),
    )
    assert plan.cost == pytest.approx(4.0)
    assert (line(plan, "contact").quantity, line(plan, "contact").to_buy) == (4, 0)
    assert (line(plan, "wire").quantity, line(plan, "wire").to_buy) == (206, 0)  # 2 x 100 mm and four strips


@hypothesis_settings(deadline=None, max_examples=40)
@given(data=st.data())
def test_packs_and_kits_are_as_cheap_as_brute_force(data):
    """Cables only: n wanted, some there, packs and boxes of some size at some price; the cheapest sum by trying all."""
    wanted = data.draw(st.integers(1, 4))
    there = data.draw(st.integers(0, 2))
    pack, price = data.draw(st.integers(1, 3)), data.draw(st.integers(1, 9))
    inside, box_price = data.draw(st.integers(1, 4)), data.draw(st.integers(1, 9))
    box = StockKit("box", 0, float(box_price), (KitItem("cable", 0, inside),))
    plan = made(links(wanted), stock_cables=(cable(there, price=float(price), pack=pack),), stock_kits=(box,))
    best = min(
        packs * price + boxes * box_price
        for packs, boxes in product(range(5), range(5))
        if there + packs * pack + boxes * inside >= wanted
    )
    assert plan.cost == pytest.approx(best)


def test_a_cable_kept_for_a_place_is_used_there_though_another_would_be_cheaper():
    """The kept one wants its contacts moved, the other is straight already: it serves the other place."""
    kept = cable(pairs=((1, 2), (2, 1)), name="mine", reserved=("J1", "J2"))
    plan = made(links(2), costs=replace(FREE, minute=1.0), stock_cables=(cable(2, name="straight"), kept))
    assert [(each.method, each.start_from) for each in plan.cables] == [
        (Method.RE_PIN, "stock:mine"),
        (Method.PLUG_IN, "stock:straight"),
    ]
    assert "keeps this cable for this place" in plan.cables[0].why


def test_a_cable_kept_for_another_place_is_never_taken():
    plan = made(links(2), stock_cables=(cable(name="mine", reserved=("J3", "J4")),))
    assert [each.start_from for each in plan.cables] == [None, "stock:mine"]


def test_a_cable_kept_for_a_place_that_it_does_not_reach_is_not_used():
    plan = made(links(1), length_mm=200.0, stock_cables=(cable(reserved=("J1", "J2")),))
    assert plan.cables[0].start_from is None


def test_a_cable_of_which_nobody_says_that_it_can_be_re_pinned_wants_one_look():
    turned = ((1, 2), (2, 1))
    (said,) = made(links(1), stock_cables=(cable(pairs=turned, repinnable=True),)).cables
    (unsaid,) = made(links(1), stock_cables=(cable(pairs=turned),)).cables
    (never,) = made(links(1), stock_cables=(cable(pairs=turned, repinnable=False),)).cables
    assert (said.method, unsaid.method, never.method) == (Method.RE_PIN, Method.RE_PIN, Method.CRIMP)
    assert not [text for text in said.needs_one_look if "moulded" in text]
    assert [text for text in unsaid.needs_one_look if "moulded" in text]


TURNED = ((1, 2), (2, 1), (3, 3))


def worked_at(plan):
    (one,) = plan.cables
    return {step.end for step in one.steps if step.action in HANDS}


@pytest.mark.parametrize("end", ["J1", "J2"])
def test_the_end_to_work_at_can_be_wished(end):
    stock = (cable(ways=3, pairs=TURNED, repinnable=True),)
    board = {"J1": "hub", "J2": "b0"}[end]
    for bench in (
        Bench(work_at=frozenset({end})),
        Bench(never_at=frozenset({"J1", "J2"} - {end})),
        Bench(slack_at=frozenset({end})),
    ):
        assert worked_at(made(links(1, 3), stock_cables=stock, bench=bench)) == {f"{board}/{end}"}


def test_an_easier_family_goes_before_the_end_where_the_slack_lies():
    """A lance of GH is lifted and springs back, a tang of PH must be re-formed."""
    symbols = (plug("J1", "A B C", board="a", family="JST GH"), plug("J2", "A B C", board="b", family="JST PH"))
    ends = (("jst_gh", 3), ("jst_ph", 3))
    stock = (StockCable("mixed", ends, TURNED, "map", 120.0, 1, True),)
    assert worked_at(made(symbols, stock_cables=stock, bench=Bench(slack_at=frozenset({"J2"})))) == {"a/J1"}
    assert worked_at(made(symbols, stock_cables=stock, bench=Bench(work_at=frozenset({"J2"})))) == {"b/J2"}


def test_no_contact_is_moved_where_none_may_be():
    stock = (cable(ways=3, pairs=TURNED, repinnable=True),)
    plan = made(links(1, 3), stock_cables=stock, bench=Bench(never_at=frozenset({"J1", "J2"})))
    assert plan.cables[0].method is Method.CRIMP


def test_a_wish_that_cannot_be_met_gives_way():
    """The cable has a lead too much: it is taken out at both ends, whatever is wished."""
    symbols = links(1, 2)
    wide = (
        plug("J1", ["S00", "S01", "-"], board="hub", family="JST SH"),
        plug("J2", ["S00", "S01", "-"], board="b0", family="JST SH"),
    )
    plan = made(wide, stock_cables=(cable(ways=3, repinnable=True),), bench=Bench(work_at=frozenset({"J2"})))
    assert plan.cables[0].method is Method.RE_PIN and len(symbols) == 2
    assert worked_at(plan) == {"hub/J1", "b0/J2"}


# JST SH takes insulation of 0.4 to 0.8 mm (maker's data sheet, 2024-10-04).
@pytest.mark.parametrize(("od_mm", "taken"), [(0.8, True), (0.81, False), (0.4, True), (0.39, False), (None, True)])
def test_wire_whose_insulation_the_contact_does_not_hold_is_not_crimped(od_mm, taken):
    plan = made(links(1), stock_wire=(StockWire(28, None, 1000.0, 1, od_mm=od_mm),))
    assert bool(plan.stock_cuts) is taken


def test_a_tail_whose_insulation_fits_no_contact_of_the_other_plug_is_not_made():
    """GH leads of 1.0 mm over the insulation: GH holds 0.76 to 1.0 mm (quoted from the maker), SH 0.4 to 0.8 mm."""
    symbols = (plug("J1", "A B", board="a", family="JST GH"), plug("J2", "A B", board="b", family="JST SH"))
    for od_mm, tails in ((1.0, 0), (0.78, 2)):
        lead = StockLead(("jst_gh", "jst_gh"), 150.0, 28, None, 2, od_mm=od_mm)
        assert len(made(symbols, stock_leads=(lead,)).stock_cuts) == tails


def test_soldered_wire_may_have_any_insulation():
    symbols = (pads("P1", "A", board="a"), pads("P2", "A", board="b"))
    assert made(symbols, stock_wire=(StockWire(28, None, 1000.0, 1, od_mm=3.0),)).stock_cuts


def hard(size=40):
    """A knapsack of many offers that no bound cuts short."""
    jobs = [
        Job(
            f"j{n}",
            tuple(Offer(k, 1000 + (n * 7919 + k * 104729) % 997, {"r": 1 + (n * 31 + k * 17) % 97}) for k in range(12)),
        )
        for n in range(size)
    ]
    return jobs, [Activity("more", 3.3, {}, {"r": 1.0})], {"r": 900.0}


def test_a_solver_that_had_to_stop_gives_what_it_found_with_its_bound(monkeypatch):
    """The first run tells the optimum; then the solver's answer is cut short as HiGHS gives it at its time limit."""
    jobs, activities, there = hard(6)
    best = assign(jobs, activities, there)
    assert best.optimal and best.bound == best.cost
    real = assignment.least_cost

    def stopped(*arguments, **named):
        found = real(*arguments, **named)
        return found._replace(optimal=False, bound=found.bound - 5.0)

    monkeypatch.setattr(assignment, "least_cost", stopped)
    found = assign(jobs, activities, there)
    assert not found.optimal
    assert found.bound == pytest.approx(best.cost - 5.0) and found.cost == pytest.approx(best.cost)


@pytest.mark.parametrize("seconds", [1e-6, 0.05, 0.5])
def test_the_solver_itself_stops_in_time_and_never_claims_too_much(seconds):
    jobs, activities, there = hard()
    found = assign(jobs, activities, there, seconds)
    if found is None:
        return  # none found in time
    assert found.bound <= found.cost + 1e-6
    assert len(found.offers) == len(jobs)
    taken = sum(offer.takes["r"] for offer in found.offers)
    assert taken <= 900 + found.times.get("more", 0)


def test_a_plan_that_had_to_stop_says_so(monkeypatch):
    real = assignment.least_cost

    def stopped(*arguments, **named):
        found = real(*arguments, **named)
        return found._replace(optimal=False, bound=found.bound - 1.0)

    monkeypatch.setattr(assignment, "least_cost", stopped)
    plan = made(links(2), stock_cables=(cable(2),))
    assert not plan.optimal
    assert "the solver had to stop" in plan.bound_words and "solve_seconds" in plan.bound_words


def test_no_plan_in_time_is_one_clear_line(monkeypatch):
    monkeypatch.setattr(choosing, "assign", lambda *_: None)
    with pytest.raises(TabsideError, match="no plan was found in time"):
        made(links(1))


def test_contacts_for_a_mating_plug_count_as_crimps_by_hand():
    """The charger's plug stays; a plug that mates with it is made: two contacts, and two in the GH plug."""
    symbols = (
        captive("J1", "A B", board="pack", family="JST XH", signals="VBAT, GND", gives="VBAT 10A"),
        plug("J2", "A B", board="driver", family="JST GH", signals="VBAT, GND"),
    )
    plan = made(symbols)
    (one,) = plan.cables
    crimped = [step.end for step in one.steps if step.action is Action.CRIMP]
    assert plan.crimps == len(crimped) == plan.by_hand.crimps
    assert "pack/J1" in crimped and "driver/J2" in crimped


# Ranges typed from the makers' documents as the tables cite them: JST GH, XH, VH, Hirose DF13, Molex 50079 and 50058
# (public repositories that quote the makers), JST SH (data sheet, read).  Wires: style UL1007, 26 AWG, about 1.3 mm
# over PVC (from memory); Belden 1852, 28 AWG, 0.89 mm (public repository).
@pytest.mark.parametrize(
    ("family", "gauge_awg", "od_mm", "taken"),
    [
        pytest.param("JST GH", 26, 1.3, False, id="UL1007 26 AWG: conductor fits, insulation does not"),
        pytest.param("JST GH", 28, 0.89, True, id="Belden 1852"),
        pytest.param("JST GH", 24, None, False, id="GH ends at 26 AWG"),
        pytest.param("JST GH", 30, None, True, id="GH begins at 30 AWG"),
        pytest.param("JST SH", 28, 0.89, False, id="Belden 1852 is too thick for SH"),
        pytest.param("JST XH", 22, 1.6, True, id="XH with its contact for 22 AWG"),
        pytest.param("JST XH", 30, 1.6, False, id="its contact for 30 AWG holds 1.3 mm at most"),
        pytest.param("JST VH", 18, 3.0, True, id="VH at its thickest"),
        pytest.param("JST VH", 22, 3.1, False, id="and beyond, at a gauge for which there is no other contact"),
        pytest.param("Hirose DF13", 24, None, False, id="DF13 ends at 26 AWG"),
        pytest.param("Molex PicoBlade", 32, None, True, id="PicoBlade with its contact for 32 AWG"),
        pytest.param("Molex PicoBlade", 24, None, False, id="PicoBlade ends at 26 AWG"),
    ],
)
def test_wire_against_the_ranges_of_the_makers(family, gauge_awg, od_mm, taken):
    plan = made(
        links(1, family=family), gauge_awg=gauge_awg, stock_wire=(StockWire(gauge_awg, None, 1000.0, 1, od_mm=od_mm),)
    )
    assert bool(plan.stock_cuts) is taken
    if od_mm is None and not taken:
        assert plan.cables[0].stopped  # no wire of this gauge goes into it at all


def kept_not_used(symbols, **more):
    """What the sheet of the first cable says of a cable that is kept for its place and not used."""
    said = {"ends": (("jst_sh", 2), ("jst_sh", 2)), "map": ((1, 2), (2, 1)), "count": 1, "repinnable": True} | more
    bench = said.pop("bench", Bench())
    kept = StockCable(
        "mine", said.pop("ends"), said.pop("map"), "map", said.pop("length_mm", 120.0), reserved=("J1", "J2"), **said
    )
    (one, *_) = made(symbols, stock_cables=(kept,), bench=bench).cables
    return one


@pytest.mark.parametrize(
    ("more", "why"),
    [
        pytest.param({"repinnable": False}, "cannot be moved", id="moulded"),
        pytest.param({"count": 0}, "none is there, and it has no price", id="gone"),
        pytest.param({"bench": Bench(never_at=frozenset({"J1", "J2"}))}, "never_at", id="not to be touched"),
        pytest.param({"map": ((1, 1),)}, "fewer wires than are drawn", id="too few leads"),
        pytest.param({"ends": (("jst_gh", 2), ("jst_sh", 2))}, "plugs do not go in", id="other plugs"),
        pytest.param({"length_mm": 90.0}, "too short", id="short"),
        pytest.param({"length_mm": 900.0}, "too long", id="long"),
    ],
)
def test_a_kept_cable_that_is_not_used_is_told_with_the_reason(more, why):
    one = kept_not_used(links(1), **more)
    assert one.start_from is None
    (warning,) = one.warnings
    assert warning.startswith('"mine", which the craft file keeps for this place, is not used: ') and why in warning


def test_a_kept_cable_that_is_used_is_told_of_nothing():
    assert kept_not_used(links(1)).warnings == ()


def test_what_costs_nothing_is_bought_only_where_it_is_used():
    plan = made(links(1), stock_cables=(cable(0, price=0.0, pack=3),))
    assert line(plan, "ready-made cable").note == "spare; 1 bag of 3"
    free = replace(FREE, contact_price=0.0, housing_price=0.0, wire_price=0.0)
    plan = made(links(1), costs=free)
    assert (line(plan, "contact").to_buy, line(plan, "housing").to_buy) == (4, 2)


def test_a_currency_of_large_numbers_stops_nothing():
    costs = replace(FREE, minute=12_500.0, contact_price=2_000.0, housing_price=7_500.0, wire_price=12_500.0)
    (one,) = made(links(1), costs=costs).cables
    assert one.method is Method.CRIMP and not one.stopped


def test_the_cheapest_of_several_offers_is_taken():
    """Four contacts: four at 5.0, or a hundred for 0.1."""
    offers = (StockContact("jst_sh", 0, 5.0, 1), StockContact("jst_sh", 0, 0.1, 100))
    housings = (StockHousing("jst_sh", 2, 0, 5.0, 5), StockHousing("jst_sh", 2, 0, 0.2, 1))
    plan = made(links(1), stock_contacts=offers, stock_housings=housings)
    assert plan.cost == pytest.approx(0.1 + 2 * 0.2 + 0.206 * FREE.wire_price)


def test_packs_that_two_gauges_share_are_told_once():
    """Four contacts for 28 AWG, four for 30 AWG: one pack of ten, on the last of the two lines."""
    costs = replace(FREE, contact_price=50.0)
    gauges = {"J1:1 - J2:1": 28, "J1:2 - J2:2": 28, "J3:1 - J4:1": 30, "J3:2 - J4:2": 30}
    facts = {ends: {"gauge_awg": gauge} for ends, gauge in gauges.items()}
    settings = CraftSettings(costs=costs, stock_contacts=(StockContact("jst_sh", 0, 1.0, 10),))
    craft = small_craft(*links(2), settings=settings, leads={"*": {"length_mm": 100.0}} | facts)
    plan = craft_build(craft, check_craft(craft)).plan
    contacts = [each for each in plan.purchases if each.item == "contact"]
    assert [(each.gauge_awg, each.quantity) for each in contacts] == [(28, 4), (30, 4)]
    assert ["1 bag of 10" in each.note for each in contacts] == [False, True]


def test_wire_to_buy_stands_in_the_order_of_its_gauge_and_what_is_not_known_last():
    stated = {
        "J1:1 - J2:1": {"gauge_awg": 28, "colour": "BK"},
        "J1:2 - J2:2": {"gauge_awg": 22, "colour": "RD"},
        "J3:1 - J4:1": {"gauge_awg": 28, "colour": "BN"},
        "J3:2 - J4:2": {"gauge_awg": None, "colour": "BK"},
    }
    symbols = [pads(f"J{n}", names, board=f"b{n}") for n, names in enumerate(("A B", "A B", "C D", "C D"), 1)]
    craft = small_craft(*symbols, settings=CraftSettings(costs=FREE), leads={"*": {"length_mm": 100.0}} | stated)
    wire = [each for each in craft_build(craft, check_craft(craft)).plan.purchases if each.item == "wire"]
    order = [(each.gauge_awg, each.colour) for each in wire]
    assert order == [(22, "RD"), (28, "BK"), (28, "BN"), (None, "BK")]


def test_wire_is_never_taken_for_a_lead_whose_gauge_nobody_states():
    wire = (StockWire(30, None, 5000.0, 1), StockWire(12, None, 5000.0, 1))
    assert not made(links(1), gauge_awg=None, stock_wire=wire).stock_cuts


def test_a_lead_with_its_contacts_is_taken_after_a_look_at_its_gauge():
    lead = StockLead(("jst_sh", "jst_sh"), 120.0, 28, None, 2)
    (one,) = made(links(1), gauge_awg=None, stock_leads=(lead,)).cables
    assert one.method is Method.ASSEMBLE
    assert any("28 AWG: enough for the current?" in text for text in one.needs_one_look)
    (stated,) = made(links(1), stock_leads=(lead,)).cables
    assert not any("enough for the current" in text for text in stated.needs_one_look)


def test_the_piece_that_is_meant_is_named():
    """Of two rolls of one gauge only the blue one has insulation that GH holds (0.76 to 1.0 mm, quoted)."""
    rolls = (StockWire(28, "RD", 5000.0, 1, od_mm=3.0), StockWire(28, "BU", 5000.0, 1, od_mm=0.9))
    plan = made(links(1, family="JST GH"), stock_wire=rolls)
    cut = next(step.words for step in plan.cables[0].steps if step.action is Action.CUT)
    assert "wire (28 AWG, BU, 0.9 mm over the insulation, from stock)" in cut
    assert {each.colour for each in plan.cuts} == {"BU"}


def test_what_is_bought_is_not_called_stock():
    first, second = made(links(2), stock_cables=(cable(1, price=1.0),)).cables
    assert "from stock" in first.from_what and "to buy" in second.from_what
    leads = (StockLead(("jst_sh", "jst_sh"), 120.0, 28, None, 2, price=0.1),)
    first, second = made(links(2), stock_leads=leads).cables
    assert "from stock" in first.from_what and "bought" in second.from_what
    assert "from stock" not in second.from_what


def test_a_part_s_own_leads_take_contacts_and_housings_of_the_stock_too():
    """Camera: three bare leads into XH; hub: two leads from XH to pads.  Three contacts are there for five crimps."""
    symbols = (
        captive("J1", "A B C", board="camera"),
        plug("J7", "A B C", board="hub", family="JST XH"),
        plug("J3", "D E", board="hub", family="JST XH"),
        pads("P1", "D E", board="light"),
    )
    stock = {"stock_contacts": (StockContact("jst_xh", 3),), "stock_housings": (StockHousing("jst_xh", 3, 1),)}
    plan = made(symbols, **stock)
    contacts = [each for each in plan.purchases if each.item == "contact"]
    assert sum(each.quantity for each in contacts) == 5 and sum(each.to_buy for each in contacts) == 2
    housings = {
        each.ways: (each.quantity, each.in_stock, each.to_buy) for each in plan.purchases if each.item == "housing"
    }
    assert housings == {2: (1, 0, 1), 3: (1, 1, 0)}
    assert plan.cost == pytest.approx(
        2 * 1.0 + 1.0 + 0.2048 * FREE.wire_price
    )  # two contacts, a housing, wire with XH strips
    assert sum(each.cost for each in plan.cables) == pytest.approx(plan.cost)


def test_never_at_holds_for_a_part_s_own_plug_too():
    symbols = (
        captive("J1", "A B C", board="sensor", family="JST GH"),
        plug("J2", "B A C", board="hub", family="JST GH"),
    )
    (moved,) = made(symbols).cables
    (stopped,) = made(symbols, bench=Bench(never_at=frozenset({"J1"}))).cables
    assert moved.method is Method.RE_PIN
    assert stopped.steps == () and "never_at" in stopped.stopped


def test_a_cable_that_cannot_be_made_buys_nothing():
    facts = {"length_mm": 100.0}
    craft = small_craft(
        *links(1),
        settings=CraftSettings(costs=FREE),
        leads={"J1:1 - J2:1": {"gauge_awg": 20} | facts, "J1:2 - J2:2": {"gauge_awg": 28} | facts},
    )
    plan = craft_build(craft, check_craft(craft)).plan
    assert plan.cables[0].stopped and plan.cost == 0.0 and plan.cuts == ()
    assert [each.item for each in plan.purchases] == ["board b0", "board hub"]


@pytest.mark.parametrize("cells", ["C0, C1, C2, C3", "B0, B1, B2, B3", "GND, 1S, 2S, 3S", "GND, C1, C2, C3"])
def test_a_balance_lead_is_never_re_pinned(cells):
    turned = ", ".join(reversed(cells.split(", ")))
    symbols = (
        captive("J3", "A B C D", board="pack", family="JST XH", signals=cells),
        plug("J4", "D C B A", board="alarm", family="JST XH", signals=turned),
    )
    (one,) = made(symbols).cables
    assert one.steps == () and "never re-pin" in one.stopped
