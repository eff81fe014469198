"""The bench with packs, for `tabside plan`: a new craft is made by its sheets, from boards with no wire on them.

Brute force; common practice, no source outside.
"""

from __future__ import annotations

from msgspec.structs import replace

from benches.pack_bench import PackBench
from tabside.compare import compare_crafts
from tabside.documents.as_json.plan import step_json
from tabside.documents.build import craft_build
from tabside.model.craft import Craft
from tabside.rules import check_craft

OF_A_PLAN = {"old_lead": None, "of_old": False, "swap": None}  # what the steps of a comparison say beside it


def perils_of_plan(craft: Craft) -> list[str]:
    """A line for each."""
    boards = replace(craft, leads=(), links=(), cables=())
    bench = PackBench(compare_crafts(boards, craft))
    bench.out = {ref for ref, each in craft.terminations.items() if each.kind.value == "in-line"} - {"R9"}
    build = craft_build(craft, check_craft(craft))
    rows = {row.id: row for row in build.proof.rows}
    order = build.order_of_work
    if any(cable.stopped for cable in build.plan.cables):
        return []
    for row in order.before:
        bench.row(row, "before the first sheet")
    for n, cable in enumerate(build.plan.cables):
        if n == order.packs_from:
            for row in order.all_made:
                bench.row(row, "when all is made, the packs away")
        bench.shared_power = any("has had power from" in text for text in cable.cautions)
        steps = [step_json(step) | OF_A_PLAN for step in cable.steps]
        for k, step in enumerate(steps):
            bench.step(step, steps[k + 1 :], rows)
    for row in order.volts:
        if all(end.lead is None for end in row.ends):  # at first power the others are measured at plugs
            bench.row(row, "volts of the pack")
    bench.at_the_end()
    return bench.said
