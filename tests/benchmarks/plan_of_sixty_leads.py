"""How long the choice for a craft of sixty leads takes, with a full drawer and without one.

    python tests/benchmarks/plan_of_sixty_leads.py

Prints the seconds of each craft, the solver's library loaded before.
"""

import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "kits"))

from crafts.craft_kit import pads, plug
from crafts.small_craft import small_craft
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.make.solve.choosing import choose
from tabside.model.craft import CraftSettings
from tabside.model.stock import StockCable, StockHousing, StockLead, StockWire

FAMILIES = ("JST SH", "JST GH", "JST PH")


def sixty_leads(seed: int, stocked: bool):
    """Eight cables between plugs of six ways, half of them of two families, and four sets of tails of three."""
    dice = random.Random(seed)
    symbols = []
    for n in range(8):
        nets = [f"N{n}_{k}" for k in range(6)]
        other = dice.sample(nets, 6) if dice.random() < 0.7 else nets
        first = dice.choice(FAMILIES)
        second = dice.choice(FAMILIES) if n % 2 else first
        symbols.append(plug(f"J{2 * n + 1}", nets, board=f"a{n}", family=first))
        symbols.append(plug(f"J{2 * n + 2}", other, board=f"b{n}", family=second))
    for n in range(4):
        nets = [f"T{n}_{k}" for k in range(3)]
        symbols.append(plug(f"J{50 + n}", nets, board=f"c{n}", family=dice.choice(FAMILIES)))
        symbols.append(pads(f"P{n + 1}", nets, board=f"d{n}"))
    stock = {}
    if stocked:
        ids = ("jst_sh", "jst_gh", "jst_ph")
        orders = [dice.sample(range(1, 7), 6) for _ in range(12)]
        stock = {
            "stock_cables": tuple(
                StockCable(
                    f"left over {k}",
                    ((ids[k % 3], 6), (ids[k % 3], 6)),
                    tuple(enumerate(order, 1)),
                    "map",
                    float(dice.randrange(100, 300, 10)),
                    1,
                    True,
                )
                for k, order in enumerate(orders)
            ),
            "stock_leads": tuple(
                StockLead((a, b), float(dice.randrange(100, 500, 50)), 28, None, dice.randrange(1, 12))
                for a in ids
                for b in ids
            ),
            "stock_housings": tuple(StockHousing(each, 6, 2) for each in ids),
            "stock_wire": tuple(StockWire(28, None, 1500.0, 4) for _ in range(2)),
        }
    craft = small_craft(*symbols, settings=CraftSettings(**stock))
    lengths = {" - ".join(":".join(end) for end in lead.ends): dice.randrange(50, 300, 10) for lead in craft.leads}
    facts = {ends: {"gauge_awg": 28, "length_mm": float(length)} for ends, length in lengths.items()}
    return small_craft(*symbols, settings=CraftSettings(**stock), leads=facts)


if __name__ == "__main__":
    import highspy  # noqa: F401  (its loading is no part of the choice)

    for seed in range(5):
        for stocked in (False, True):
            craft = sixty_leads(seed, stocked)
            start = time.perf_counter()
            choices = choose(craft, how_leads_are_made(craft))
            spent = time.perf_counter() - start
            found = choices.solved
            print(
                f"{len(craft.leads)} leads, {'stocked' if stocked else 'empty'}: {spent:.2f} s, {found.cost:.2f}, "
                f"{'optimal' if found.optimal else f'bound {found.bound:.2f}'}"
            )
