"""Random crafts with random stock, kits and prices: what the pages say adds up to what the solver chose.

Logic, no source: nothing is used twice, money and pieces are conserved.
"""

from __future__ import annotations

import random
from collections import Counter

import pytest

from crafts.craft_kit import captive, pads, plug
from crafts.small_craft import small_craft
from tabside.documents.build import craft_build
from tabside.make.options.activities import BuyContacts, BuyHousings, BuyKit, BuyListed
from tabside.make.options.lead_options import contacts_spent
from tabside.make.options.things import ListedCable, ListedLead, ListedWire, LooseContact
from tabside.make.solve.choosing import choose
from tabside.model.craft import CraftSettings
from tabside.model.stock import (
    Bench,
    Costs,
    KitItem,
    StockCable,
    StockContact,
    StockHousing,
    StockKit,
    StockLead,
    StockWire,
)
from tabside.rules import check_craft

FAMILIES = {"jst_sh": "JST SH", "jst_gh": "JST GH", "jst_ph": "JST PH"}
IDS = tuple(FAMILIES)


def symbols(dice):
    made = []
    boards = dice.randint(1, 4)
    for k in range(boards):
        ways = dice.randint(2, 6)
        names = [f"N{k}{n}" for n in range(dice.randint(1, ways))]
        first, second = names + ["-"] * (ways - len(names)), dice.sample(names, len(names))
        second += ["-"] * (ways - len(names))
        a = dice.choice(IDS)
        b = a if dice.random() < 0.6 else dice.choice(IDS)
        made.append(plug(f"J{2 * k + 1}", first, board="hub", family=FAMILIES[a]))
        kind = dice.random()
        if kind < 0.7:
            made.append(plug(f"J{2 * k + 2}", second, board=f"b{k}", family=FAMILIES[b]))
        else:
            made.append((pads if kind < 0.85 else captive)(f"J{2 * k + 2}", second, board=f"b{k}"))
    return made, boards


def stock(dice, boards, free):
    def price(most):
        if free and dice.random() < 0.3:
            return 0.0
        return None if dice.random() < 0.5 else round(dice.uniform(0.05, most), 2)

    def some(most):
        return range(dice.randint(0, most))

    def a_cable(k):
        ways = dice.randint(2, 6)
        a = dice.choice(IDS)
        b = a if dice.random() < 0.7 else dice.choice(IDS)
        leads = dice.randint(1, ways)
        pairs = zip(dice.sample(range(1, ways + 1), leads), dice.sample(range(1, ways + 1), leads), strict=True)
        board = dice.randrange(boards)
        kept = (f"J{2 * board + 1}", f"J{2 * board + 2}") if dice.random() < 0.25 else None
        return StockCable(
            f"cable {k}",
            ((a, ways), (b, ways)),
            tuple(pairs),
            "map",
            dice.choice([None, 120.0, 330.0]),
            dice.randint(0, 2),
            dice.choice([None, True, False]),
            price(4),
            dice.randint(1, 3),
            kept,
        )

    def a_lead():
        a = dice.choice(IDS)
        ends = (a,) if dice.random() < 0.2 else (a, a if dice.random() < 0.6 else dice.choice(IDS))
        return StockLead(
            ends,
            dice.choice([90.0, 150.0, 250.0, 400.0]),
            dice.choice([28, 28, 26, None]),
            dice.choice([None, "red"]),
            dice.randint(0, 4),
            dice.choice([None, 0.7]),
            price(1),
            dice.randint(1, 4),
        )

    cables = [a_cable(k) for k in some(4)]
    leads = [a_lead() for _ in some(4)]
    housings = [
        StockHousing(dice.choice(IDS), dice.randint(2, 6), dice.randint(0, 2), price(1), dice.randint(1, 5))
        for _ in some(3)
    ]
    contacts = [StockContact(dice.choice(IDS), dice.randint(0, 9), price(1), dice.randint(1, 10)) for _ in some(3)]
    wire = [
        StockWire(
            dice.choice([28, 26]),
            dice.choice([None, "red"]),
            dice.choice([150.0, 300.0, 1000.0]),
            dice.randint(0, 3),
            dice.choice([None, 0.7, 0.9]),
            price(2),
        )
        for _ in some(3)
    ]
    listed = {"cable": cables, "lead": leads, "housing": housings, "contact": contacts, "wire": wire}
    kits = []
    for k in some(2):
        items = tuple(
            KitItem(kind, dice.randrange(len(entries)), dice.randint(1, 5))
            for kind, entries in listed.items()
            if entries and dice.random() < 0.5
        )
        kits += [StockKit(f"kit {k}", 0, price(5), items)] if items else []
    ends = [f"J{n}" for n in range(1, 2 * boards + 1)]
    usual = 0.0 if free else dice.choice([0.3, 1.0])
    costs = Costs(
        minute=dice.choice([0.0, 0.1, 0.5]),
        buy_ready=dice.random() < 0.6,
        cable_price=dice.choice([0.5, 3.0]),
        lead_price=dice.choice([0.1, 0.5]),
        housing_price=usual,
        contact_price=usual / 4,
        wire_price=usual * 5,
    )
    return CraftSettings(
        costs=costs,
        stock_cables=tuple(cables),
        stock_leads=tuple(leads),
        stock_housings=tuple(housings),
        stock_contacts=tuple(contacts),
        stock_wire=tuple(wire),
        stock_kits=tuple(kits),
        bench=Bench(*(frozenset(dice.sample(ends, dice.randint(0, 1))) for _ in range(3))),
    )


def planned(seed):
    dice = random.Random(seed)
    made, boards = symbols(dice)
    settings = stock(dice, boards, free=seed % 4 == 0)
    ends = [" - ".join(":".join(end) for end in lead.ends) for lead in small_craft(*made).leads]
    mixed = dice.random() < 0.5
    facts = {
        each: {
            "length_mm": dice.choice([100.0, 100.0, 220.0, 40.0]),
            "gauge_awg": dice.choice([28, 26]) if mixed else 28,
            "colour": dice.choice([None, "red", "black"]) if mixed else None,
        }
        for each in ends
    }
    craft = small_craft(*made, settings=settings, leads=facts)
    build = craft_build(craft, check_craft(craft))
    return build.craft, build.plan, choose(build.craft, build.leads)


@pytest.mark.parametrize("start", range(0, 240, 40))
def test_what_the_pages_say_adds_up(start):
    for seed in range(start, start + 40):
        craft, plan, choices = planned(seed)
        wrong = list(_wrong(craft, plan, choices))
        assert not wrong, f"seed {seed}: {wrong}"


def _wrong(craft, plan, choices):
    settings, times = craft.settings, choices.solved.times

    def had(kind, n):
        entry = getattr(settings, {"cable": "stock_cables", "lead": "stock_leads", "wire": "stock_wire"}[kind])[n]
        listed = {"cable": ListedCable, "lead": ListedLead, "wire": ListedWire}[kind](n)
        bought = times.get(BuyListed(listed), 0) * getattr(entry, "pack", 1)
        kits = sum(
            item.count * times.get(BuyKit(k), 0)
            for k, kit in enumerate(settings.stock_kits)
            for item in kit.items
            if (item.kind, item.index) == (kind, n)
        )
        return entry.count, bought, kits

    used = Counter()
    for choice in choices.cables:
        if choice.ready is not None and choice.ready.stock is not None:
            used["cable", choice.ready.stock] += 1
    pieces, rolls = {}, {}
    for choice in choices.cables:
        lacking = {made.lead.mark for made in choice.job.new} - set(choice.sources)
        if choice.ready is None and not choice.stopped and lacking:
            yield "leads without a source", lacking
        for mark, source in choice.sources.items():
            if source.stock_lead is not None:
                pieces.setdefault(source.stock_lead, set()).add(source.piece or mark)
            if source.stock_wire is not None:
                rolls.setdefault(source.stock_wire.entry, set()).add(source.stock_wire.piece)
    used.update({("lead", n): len(found) for n, found in pieces.items()})
    used.update({("wire", n): len(found) for n, found in rolls.items()})
    for (kind, n), count in used.items():
        if count > sum(had(kind, n)):
            yield "used more than there is", kind, n, count, had(kind, n)
    for cut in plan.stock_cuts:
        if cut.length_mm is not None and sum(length for _, length in cut.pieces) > cut.length_mm + 1e-6:
            yield "cut longer than its piece", cut
    if abs(sum(cable.cost for cable in plan.cables) - plan.cost) > 0.01:
        yield "cables do not add up", [cable.cost for cable in plan.cables], plan.cost
    if sum(choices.bought.values()) > 150:
        yield "bought a lot", times
    bought = Counter()
    for deed, count in choices.bought.items():
        if isinstance(deed, BuyContacts):
            bought["contacts", deed.family] += count * deed.pack
        elif isinstance(deed, BuyHousings):
            bought["housings", deed.family, deed.ways] += count * deed.pack
    told = Counter()
    for each in plan.purchases:
        if each.item == "contact":
            told["contacts", each.family] += each.to_buy
        elif each.item == "housing":
            told["housings", each.family, each.ways] += each.to_buy
    for thing, count in told.items():
        if count > bought[thing]:
            yield "told to buy more than the plan buys", thing, count, bought[thing]
    for thing in bought:
        if not told[thing]:
            yield "bought, but nobody is told", thing
    kits = Counter(each.note for each in plan.purchases if each.item == "kit")
    if sum(kits.values()) != sum(isinstance(deed, BuyKit) for deed in choices.bought):
        yield "kits", kits


def test_the_same_craft_gives_the_same_plan():
    for seed in range(12):
        assert planned(seed)[1] == planned(seed)[1]


def test_contacts_are_rounded_up_once_for_all_gauges():
    """One crimp at 26 AWG, one at 28, half a contact spoiled at each: 3 contacts, not 2 and 2."""
    craft = small_craft(
        plug("J1", "A B", board="a", family="JST GH"),
        pads("J2", "A B", board="b"),
        settings=CraftSettings(costs=Costs(buy_ready=False, spoil_1_25=1.5)),
        leads={"J1:1 - J2:1": {"gauge_awg": 26}, "J1:2 - J2:2": {"gauge_awg": 28}},
    )
    plan = craft_build(craft, check_craft(craft)).plan
    assert sum(each.quantity for each in plan.purchases if each.item == "contact") == 3
    assert contacts_spent(["jst_gh", "jst_gh"], craft.settings.costs) == {LooseContact("jst_gh"): 3.0}
