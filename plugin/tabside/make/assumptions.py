"""What a plan takes for granted, and how sure it is that nothing weighs less."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import fields

from tabside.make.method import Method
from tabside.make.needs.crimping import cut_length_words
from tabside.make.options.activities import BuyTails, BuyWhole
from tabside.make.sheets.cable_plan import CablePlan
from tabside.make.sheets.wires.bench_wires import BenchWires
from tabside.make.solve.choice import CraftChoice
from tabside.model.craft import Craft
from tabside.model.stock import Costs


def bound_words(choices: CraftChoice) -> str:
    found = choices.solved
    if found.optimal:
        return "the cheapest plan in money, minutes and risk together (solved exactly)"
    return (
        f"the solver had to stop: this choice weighs {found.cost:.2f}, none can weigh less than {found.bound:.2f}; "
        "raise costs.solve_seconds in the craft file for more"
    )


def assumptions(craft: Craft, choices: CraftChoice, wires: BenchWires, cables: Iterable[CablePlan]) -> tuple[str, ...]:
    said = []
    if wires.usual_colours:
        said.append("Colours that neither drawing nor stock says are common practice: identify no wire by its colour.")
    if any(choice.ready is not None and choice.ready.stock is None for choice in choices.cables):
        said.append(
            "Assumed to be available to buy (no source): ready-made straight cables with the same plug at both ends."
        )
    if any(isinstance(deed, BuyWhole | BuyTails) for deed in choices.bought):
        said.append("Assumed to be available to buy (no source): pre-crimped leads with the same contact at both ends.")
    changed = [cost.name for cost in fields(Costs) if getattr(craft.settings.costs, cost.name) != cost.default]
    said.append(
        "Minutes, prices and risk of the craft file's [costs] are common practice, no source"
        + (f", but for those it states: {', '.join(changed)}." if changed else "; state your own there.")
    )
    weights = ", ".join(f"{cost.name} {_shown(getattr(craft.settings.costs, cost.name))}" for cost in fields(Costs))
    said.append(f"What the choice went by ([costs] in the craft file, prices in your currency): {weights}.")
    cutting = craft.settings.cutting
    said.append(
        f"{cut_length_words(cutting)} The service loop of {craft.settings.service_loop_mm:g} mm is included only in "
        "lengths worked out from positions."
    )
    if any(cable.method in (Method.CRIMP,) for cable in cables):
        costs = craft.settings.costs
        said.append(
            f"Spares for spoiled crimps: {costs.spoil_1_0:g} contacts bought per good crimp up to 1.0 mm pitch, "
            f"{costs.spoil_1_25:g} up to 1.25 mm, {costs.spoil:g} above (common practice, no source)."
        )
    return tuple(said)


def _shown(value: object) -> str:
    return ("yes" if value else "no") if isinstance(value, bool) else f"{value:g}"
