"""The sheet of a cable that is made lead by lead."""

from __future__ import annotations

from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import EndKind, WireFrom
from tabside.make.method import Method
from tabside.make.sheets.cable_plan import CablePlan
from tabside.make.sheets.handling import handling_of
from tabside.make.sheets.looks import gauge_looks
from tabside.make.sheets.loose.loose_sheet import LooseSheet
from tabside.make.sheets.loose.loose_steps import loose_steps
from tabside.make.sheets.pen_marks import label_ends, pens
from tabside.make.sheets.ready_sheets import plug_rows
from tabside.make.sheets.when.pack_volts import MEASURE_VOLTS
from tabside.make.sheets.wires.source_words import source_item
from tabside.make.solve.choice import CableChoice
from tabside.make.solve.lead_methods import method_of
from tabside.model.craft import Craft
from tabside.model.natural import natural

_WAITS = "its own plug fits and is wired pin-for-pin: leave it UNPLUGGED until first power"
_WHY = {
    Method.DIRECT: "its own plug fits and is wired pin-for-pin: plug it in",
    Method.AS_BOUGHT: "bought complete: do not cut or re-pin it",
    Method.ASSEMBLE: "pre-crimped leads into empty housings: the cheapest choice for the whole craft",
    Method.TAIL: "a plug on one end, the other cut to length and soldered",
    Method.SOLDER: "soldered at both ends",
    Method.CRIMP: "no ready-made cable or pre-crimped lead fits all its connectors",
}


def lead_by_lead(made: CablePlan, sheet: LooseSheet) -> CablePlan:
    """`made`: all of the sheet but its steps and how it is made."""
    craft, job, method = sheet.craft, sheet.choice.job, method_of(sheet.choice)
    families = {end.family for lead in job.leads for end in lead.ends if end.kind is EndKind.CONTACT and end.family}
    handled = sorted(families, key=natural)
    if method in (Method.DIRECT, Method.AS_BOUGHT):
        _test_as_it_is(sheet)
    else:
        label_ends(job, sheet.steps, pens(job, sheet.steps.ends, bool(handled), craft))
        loose_steps(sheet)
    before: dict[str, tuple[str | None, ...]] = {}
    return replace(
        made,
        method=method,
        needs_one_look=(*made.needs_one_look, *gauge_looks(sheet.choice, craft)),
        from_what=_made_of(sheet.choice, method, craft),
        steps=tuple(sheet.steps.steps),
        minutes=made.minutes + _own_minutes(sheet.choice, craft),
        why=_WAITS if method is Method.DIRECT and made.meets_pack else _WHY[method],
        rows=plug_rows(made.ends, before, sheet.steps, craft, sheet.wires.colours) if handled else (),
        handling=tuple(map(handling_of, handled)),
    )


def _test_as_it_is(sheet: LooseSheet) -> None:
    """Nothing is made: all that can be tested is tested once."""
    moments, at = sheet.moments, sheet.choice.job.terminations[0]
    rows = (*moments.loose, *moments.half, *moments.soldered, *moments.last)
    if rows:
        sheet.steps.test(at, "test it", rows)
    if moments.volts:
        sheet.steps.test(at, MEASURE_VOLTS, moments.volts)


def _own_minutes(choice: CableChoice, craft: Craft) -> float:
    """Work on a part's own leads, which leaves nothing to choose."""
    costs, minutes = craft.settings.costs, 0.0
    for made in choice.job.leads:
        if made.wire_from is WireFrom.CAPTIVE and EndKind.MATED not in {end.kind for end in made.ends}:
            joint = any(end.kind not in (EndKind.OWN, EndKind.CONTACT) for end in made.ends)
            minutes += costs.cut_minutes + (costs.solder_minutes if joint else costs.crimp_minutes)
    return minutes


def _made_of(choice: CableChoice, method: Method, craft: Craft) -> str:
    if method is Method.DIRECT:
        return "the part's own plug"
    if method is Method.AS_BOUGHT:
        return "a ready-made cable, bought complete"
    texts: dict[str, int] = {}
    for made in choice.job.leads:
        source = choice.sources.get(made.lead.mark)
        text = "the part's own leads" if source is None else source_item(source, craft)
        texts[text] = texts.get(text, 0) + 1
    return ", ".join(f"{count} x {text}" if count > 1 else text for text, count in texts.items())
