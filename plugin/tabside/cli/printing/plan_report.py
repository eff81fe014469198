"""The plan for a person at a terminal of 80 columns: a sheet for each cable, with boxes to tick and to look at."""

from __future__ import annotations

from collections.abc import Sequence

from tabside.cli.printing.paragraphs import filled
from tabside.cli.width import WIDTH
from tabside.documents.build import CraftBuild
from tabside.documents.order_of_work import VOLTS
from tabside.facts import families
from tabside.make.buy.purchase import NOT_KNOWN, PIECES, Drawn, Purchase
from tabside.make.craft_plan import CraftPlan
from tabside.make.sheets.cable_plan import Action, CablePlan, Handling, Step
from tabside.make.sheets.face_row import FaceRow, face_of, face_of_step
from tabside.make.sheets.handling import workmanship
from tabside.make.sheets.part_steps import PARTS_TITLE
from tabside.model.craft import Craft
from tabside.prove.measurement import Measurement
from tabside.prove.rows.row_words import row_words
from tabside.words.cautions import CAUTIONS, ORDER_OF_WORK
from tabside.words.contacts import begun, counted, listed
from tabside.words.lengths import length_words
from tabside.words.spare_wires import narrow
from tabside.words.verdict import stop_words

_STOP = "{}; fix the drawing before you make any cable."
_SIGNS = (
    "In every row of boxes: the plug in your hand, locking-tab side (a small window above each wire) facing you, wires "
    'down; "#" is the contact-1 mark. While a cable is loose, board/J4:1 means contact 1 of its plug for board/J4.'
)
_BOX = 5  # columns of a box, its left wall included
_STEP_ACROSS = (WIDTH - 14) // _BOX  # boxes in one line


def print_plan(build: CraftBuild, cables: Sequence[CablePlan]) -> None:
    """The cables that are asked for, then what all of them take."""
    craft, plan = build.craft, build.plan
    if not build.cleared:
        print(filled(_STOP.format(stop_words(build.errors, build.verdict.undecided))))
        print()
    print(filled(_title(craft)))
    print()
    for caution in (*CAUTIONS, *ORDER_OF_WORK):
        print(filled(caution, "! "))
    for text in (*plan.legend, _SIGNS):
        print(filled(text))
    for text in workmanship(plan.cables):
        print(filled(f"inspect: {text}", "", "  "))
    families: set[str] = set()
    shown: set[str] = set()
    order, whole = build.order_of_work, len(cables) == len(plan.cables)
    for n, cable in enumerate(cables):
        for handling in cable.handling:
            if handling.family not in families:
                families.add(handling.family)
                _print_handling(handling)
        if cable.meets_pack and not any(other.meets_pack for other in cables if other.label in shown):
            _print_parts(plan)
        if whole and n == order.packs_from:
            _print_rows(order.title, order.all_made)
        if cable.same_as in shown:
            _print_twin(cable, next(other for other in cables if other.label == cable.same_as))
        else:
            shown.add(cable.label)
            _print_cable(cable, [other.label for other in cables if other.same_as == cable.label])
    if whole and not any(cable.meets_pack for cable in cables):
        _print_parts(plan)
    if whole and order.packs_from == len(cables):
        _print_rows(order.title, order.all_made)
    if whole:
        _print_rows(VOLTS, order.volts)
    for finding in plan.findings:
        print()
        print(filled(f"{finding.severity.upper()}  {finding.rule}: {finding.message} {finding.fix}"))
    _print_totals(build)


def _print_rows(title: str, rows: Sequence[Measurement]) -> None:
    """Measurements that belong to no sheet."""
    if rows:
        print()
        print(filled(title))
    for row in rows:
        print(filled(row_words(row), "  [ ] ", "      "))


def _print_parts(plan: CraftPlan) -> None:
    if plan.parts:
        print()
        print("=" * WIDTH)
        print(filled(PARTS_TITLE))
    for part in plan.parts:
        print(filled(f"[ ] {part.words}", "  ", "      "))


def _title(craft: Craft) -> str:
    revision = f", revision {craft.revision}" if craft.revision else ""
    return f"{craft.name}{revision} ({craft.drawing_hash}): how each cable is made"


def _heading(cable: CablePlan, twins: Sequence[str] = ()) -> str:
    """ "Cable C3", "W14 W15", "Make 2: cables C11, C12"."""
    if not twins:
        return begun(cable.name)
    kind = "cables " if cable.mark is not None else ""
    return f"Make {len(twins) + 1}: {kind}{', '.join((cable.label, *twins))}"


def _print_cable(cable: CablePlan, twins: Sequence[str]) -> None:
    print()
    print("=" * WIDTH)
    print(filled(f"{_heading(cable, twins)}  {cable.between}: {cable.method.words}"))
    if cable.from_what:
        print(filled(f"from {cable.from_what}", "  ", "    "))
    if cable.stopped:
        print(filled(f"STOP: {cable.stopped}", "  "))
        return
    print(filled(f"why: {cable.why}", "  ", "    "))
    print(f"  {cable.effort_words}")
    for text in cable.cautions:
        print(filled(text, "  ! ", "    "))
    for text in cable.needs_one_look:
        print(filled(f"[ ] check first: {text}", "  ", "      "))
    for text in cable.warnings:
        print(filled(f"warning: {text}", "  ", "    "))
    _print_steps(cable)
    _print_elsewhere(cable)


def _print_elsewhere(cable: CablePlan) -> None:
    for place in cable.elsewhere:
        print(filled(place.words, "  ", "    "))


def _print_twin(cable: CablePlan, first: CablePlan) -> None:
    """What is different when it is made as the first one."""
    print()
    print("=" * WIDTH)
    print(filled(f"{_heading(cable)}  {cable.between}: make it as {first.name}"))
    wires = ", ".join(f"{mine} for {other}" for mine, other in zip(cable.leads, first.leads, strict=True))
    print(filled(f"wires: {wires}", "  ", "    "))
    for step in cable.steps:
        if step.rows:
            _print_test(step)
    _print_elsewhere(cable)


def _print_steps(cable: CablePlan) -> None:
    ends = {end.name: end for end in cable.ends}
    for row in cable.rows:
        if any(cavity.lead for cavity in row.before):
            print(filled(f"{row.board}/{row.termination} before:", "  "))
            _print_face(face_of([cavity.lead for cavity in row.before], ends[f"{row.board}/{row.termination}"]))
    for step in cable.steps:
        if step.action is Action.TEST and step.rows:
            _print_test(step)
            continue
        print(filled(step.words, f"  [ ] {step.number:>2}  ", "          "))
        face = face_of_step(step, ends[step.end])
        if face is not None:
            _print_face(face)


def _print_face(face: FaceRow) -> None:
    """As it lies in the hand, in lines that fit; "#" is the contact-1 mark, the parked wire has a box of its own."""
    for start in range(0, len(face.boxes), _STEP_ACROSS):
        part = face.boxes[start : start + _STEP_ACROSS]
        at_left = face.mark_left and start == 0
        at_right = not face.mark_left and start + _STEP_ACROSS >= len(face.boxes)
        numbers = "".join(f" {box.number:^{_BOX - 1}}" for box in part)
        boxes = "".join(f"|{narrow(box.lead):^{_BOX - 1}}" for box in part) + "|"
        print(f"           {numbers}")
        print(f"     {face.housing:<5}{'#' if at_left else ' '}{boxes}{'#' if at_right else ''}")
    if face.parked:
        print(f"           parked: |{narrow(face.parked):^{_BOX - 1}}|")


def _print_test(step: Step) -> None:
    print(filled(f"{step.words}:", f"      {step.number:>2}  ", "          "))
    for row in step.rows:
        print(filled(f"[ ] {row_words(row)}", "        ", "            "))


def _print_handling(handling: Handling) -> None:
    print()
    print(filled(f"Contacts of {handling.title}: once, before the first cable that needs it"))
    print(filled(f"release: {handling.release}", "  ", "    "))
    print(filled(f"seat: {handling.seat}", "  ", "    "))
    for text in handling.crimp:
        print(filled(f"crimp: {text}", "  ", "    "))
    print(filled(f"re-use: {handling.reuse}", "  ", "    "))
    print(filled(f"source: {handling.source}", "  ", "    "))


def _to_buy(line: Purchase) -> str:
    """ "14 x crimp contact, JST GH, 28 AWG", "126 mm wire, 12 AWG, RD (1 piece, 0.2 m)"."""
    amount = f"{line.to_buy} x" if line.unit == PIECES else f"{line.to_buy} {line.unit}".strip()
    facts = (
        line.words,
        families.family(line.family).title if line.family else "",
        f"{line.ways}-way" if line.ways else "",
        f"{line.gauge_awg} AWG" if line.gauge_awg not in (None, "") else "",
        line.colour or "",
        "" if line.part_number == NOT_KNOWN else line.part_number,
        f"for {listed(list(line.used_for))}" if line.drawn is Drawn.PART and line.used_for else "",
    )
    note = f" ({line.note})" if line.note else ""
    return f"{amount} {', '.join(filter(None, facts))}{note}"


def _print_totals(build: CraftBuild) -> None:
    plan = build.plan
    print()
    print("=" * WIDTH)
    for text in plan.total_words:
        print(filled(text))
    mass = plan.mass
    print(
        filled(
            f"Mass: {mass.copper_g + mass.insulation_g:.1f} g for {counted(mass.leads, 'wire')} "
            f"({'; '.join(mass.notes)})."
        )
    )
    for cut in plan.stock_cuts:
        pieces = " + ".join(f"{mark} {length_words(length)}" for mark, length in cut.pieces)
        left = "" if cut.offcut_mm is None else f", {cut.offcut_mm:.0f} mm left"
        print(filled(f"cut {cut.item}: {pieces}{left}", "  ", "    "))
    bought = [purchase for purchase in plan.purchases if purchase.to_buy and purchase.drawn is not Drawn.BOARD]
    if bought:
        print("To buy")
    for line in bought:
        print(filled(_to_buy(line), "  ", "    "))
    for text in plan.assumptions:
        print(filled(text))
    if build.cleared:
        print(filled("Work through the boxes in order. You can stop at any time and resume at the first open box."))
    else:
        print(filled(_STOP.format(stop_words(build.errors, build.verdict.undecided))))
