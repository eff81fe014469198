"""The plan for a person at a terminal of 80 columns: a sheet for each cable, with boxes to tick and to look at."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from tabside.cli.report import WIDTH
from tabside.documents.build import Build
from tabside.make.buy.purchase import PIECES
from tabside.make.sheets.cable_plan import CablePlan, Handling, PlugRow, Step
from tabside.model.craft import Craft
from tabside.words.cautions import CAUTIONS
from tabside.words.lengths import tenths_up
from tabside.words.visible_text import visible

_NOT_CLEARED = "NOT CLEARED: {}; see `tabside check`. Mend it before making any cable."
_BOX = 5  # columns of a box, its left wall included


def print_plan(build: Build, cables: Sequence[CablePlan]) -> None:
    """The cables that are asked for, then what all of them take."""
    craft, plan = build.craft, build.plan
    if not build.cleared:
        print(_filled(_NOT_CLEARED.format(_many(build.errors, "error"))))
        print()
    print(_filled(_title(craft)))
    print()
    for caution in CAUTIONS:
        print(_filled(caution, "! "))
    families: dict[str, Handling] = {}
    for cable in cables:
        _print_cable(cable)
        families |= {each.family: each for each in cable.handling}
    for handling in families.values():
        _print_handling(handling)
    for finding in plan.findings:
        print()
        print(_filled(f"{finding.severity.upper()}  {finding.rule}: {finding.message} {finding.fix}"))
    _print_totals(build)


def _title(craft: Craft) -> str:
    revision = f", revision {craft.revision}" if craft.revision else ""
    return f"{craft.name}{revision} ({craft.drawing_hash}): how each cable is made"


def _print_cable(cable: CablePlan) -> None:
    print()
    print("=" * WIDTH)
    print(_filled(f"{cable.label}  {' - '.join(end.name for end in cable.ends)}: {cable.method}"))
    if cable.from_what:
        print(_filled(f"from {cable.from_what}", "  ", "    "))
    if cable.stopped:
        print(_filled(f"STOP: {cable.stopped}", "  "))
        return
    print(_filled(f"why: {cable.why}", "  ", "    "))
    print(f"  {cable.minutes:g} min, {cable.cost:.2f} for parts")
    for text in cable.needs_one_look:
        print(_filled(f"[ ] needs one look: {text}", "  ", "      "))
    for text in cable.warnings:
        print(_filled(f"warning: {text}", "  ", "    "))
    for text in cable.preparation if cable.steps or cable.start_proof else ():
        print(_filled(f"[ ] {text}", "  ", "      "))
    if cable.start_proof:
        print(_filled(f"[ ] {cable.start_proof}", "  ", "      "))
    _print_steps(cable)
    _print_proof(cable)


def _print_steps(cable: CablePlan) -> None:
    for row in cable.rows:
        if any(each.lead for each in row.before):
            print(_filled(f"{row.board}/{row.termination} before:", "  "))
            _print_boxes(_before(row), None)
    for step in cable.steps:
        colour = f" [{step.colour}]" if step.colour else ""
        print(_filled(f"[ ] {step.number:>2}  {step.words}{colour}", "  ", "          "))
        if _shows(step):
            _print_boxes(step.occupancy, step.parked, step.housing)


def _shows(step: Step) -> bool:
    return bool(step.occupancy) and step.action in ("take out", "put in", "leave out")


def _before(row: PlugRow) -> tuple[str | None, ...]:
    return tuple(each.lead for each in row.before)


def _print_boxes(occupancy: Sequence[str | None], parked: str | None, housing: str = "") -> None:
    """Cavities from the mark on, in lines that fit; the parked lead in a box of its own."""
    across = (WIDTH - 12) // _BOX
    for start in range(0, len(occupancy), across):
        part = occupancy[start : start + across]
        numbers = "".join(f" {start + n:^{_BOX - 1}}" for n in range(1, len(part) + 1))
        boxes = "".join(f"|{_short(lead):^{_BOX - 1}}" for lead in part) + "|"
        print(f"          {numbers}")
        print(f"     {housing:<5}{boxes}")
    if parked:
        print(f"          parked: |{_short(parked):^{_BOX - 1}}|")


def _short(lead: str | None) -> str:
    return "" if lead is None else lead.replace("spare ", "s")


def _print_proof(cable: CablePlan) -> None:
    if not cable.proof or not (cable.steps or cable.start_proof):
        return
    print("  Proof, before any power:")
    for each in cable.proof:
        marks = f"{' '.join(each.leads)}: " if each.leads else ""
        note = f" ({each.note})" if each.note else ""
        print(_filled(f"[ ] {marks}{each.start} to {each.end}: {each.expect}{note}", "    ", "        "))


def _print_handling(handling: Handling) -> None:
    print()
    print(_filled(f"Contacts of {handling.family}"))
    print(_filled(f"release: {handling.release}", "  ", "    "))
    print(_filled(f"seat: {handling.seat}", "  ", "    "))
    print(_filled(f"use again: {handling.reuse}", "  ", "    "))
    for text in handling.inspect:
        print(_filled(f"look: {text}", "  ", "    "))
    print(_filled(f"source: {handling.source}", "  ", "    "))


def _print_totals(build: Build) -> None:
    plan = build.plan
    print()
    print("=" * WIDTH)
    print(
        _filled(
            f"All cables: {plan.minutes:g} min, {plan.cost:.2f} for parts, {_many(plan.crimps, 'crimp')} by hand. "
            f"All crimped by hand: {plan.by_hand.minutes:g} min, {_many(plan.by_hand.crimps, 'crimp')}, "
            f"{plan.by_hand.contacts} contacts to buy, {plan.by_hand.cost:.2f} for contacts and wire."
        )
    )
    print(_filled(f"Choice: {plan.bound_words}."))
    mass = plan.mass
    print(
        _filled(
            f"Mass: {mass.copper_g + mass.insulation_g:.1f} g for {_many(mass.leads, 'lead')} "
            f"({'; '.join(mass.notes)})."
        )
    )
    for each in plan.stock_cuts:
        pieces = " + ".join(f"{mark} {tenths_up(length):g}" for mark, length in each.pieces)
        left = "" if each.offcut_mm is None else f", {each.offcut_mm:.0f} mm left"
        print(_filled(f"cut {each.item}: {pieces} mm{left}", "  ", "    "))
    bought = [each for each in plan.purchases if each.to_buy and not each.item.startswith(("board", "captive part"))]
    if bought:
        print("To buy")
    for line in bought:
        family = f" {line.family}" if line.family else ""
        ways = f" {line.ways} ways" if line.ways else ""
        gauge = f" {line.gauge_awg} AWG" if line.gauge_awg not in (None, "") else ""
        colour = f" {line.colour}" if line.colour else ""
        number = f", {line.part_number}" if line.part_number and line.part_number != "not known" else ""
        note = f" ({line.note})" if line.note else ""
        unit = "piece" if line.unit == PIECES and line.to_buy == 1 else line.unit
        text = f"{line.to_buy} {unit} {line.item}{family}{ways}{gauge}{colour}{number}{note}"
        print(_filled(text, "  ", "    "))
    for text in plan.assumptions:
        print(_filled(text))
    if build.cleared:
        print(_filled("Begin with the first box; stop anywhere and go on at the first one without a tick."))
    else:
        print(_filled(_NOT_CLEARED.format(_many(build.errors, "error"))))


def _filled(text: str, first: str = "", then: str | None = None) -> str:
    return textwrap.fill(
        visible(" ".join(text.split())) if not first.endswith("  ") else visible(text),
        WIDTH,
        initial_indent=first,
        subsequent_indent=first if then is None else then,
        break_on_hyphens=False,
    )


def _many(number: int, what: str) -> str:
    return f"{number} {what}" + ("" if number == 1 else "s")
