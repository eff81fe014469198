"""Labels, twists and what is laid ready: what is done to wires without a tool at their ends."""

from __future__ import annotations

from tabside.analysis.joined.lead_ends import EndKind, WireFrom
from tabside.compare.changes.new_labels import labels_again
from tabside.compare.fates.cable_fate import plugs_made_anew
from tabside.compare.work.hands.both_builds import BothBuilds
from tabside.compare.work.hands.work_sheet import WorkSheet
from tabside.make.sheets.cable_plan import Action
from tabside.make.sheets.pen_marks import PEN_MATE, has_signs, pen_by_signs
from tabside.make.sheets.ready_sheets import mark_words
from tabside.make.sheets.step_list import LABELS_READY, all_ends, labels_of_wires
from tabside.model.craft import Cable
from tabside.model.natural import natural
from tabside.words.lengths import length_words


def lay_ready(sheet: WorkSheet, cable: Cable) -> None:
    """Labels of the wires that are new in it, and leads that are bought with both contacts on."""
    builds, steps = sheet.builds, sheet.steps
    marks = {builds.new.leads[wire].mark for wire in sheet.fate.made}
    new = sorted(marks - set(sheet.names.values()), key=natural)
    if new:
        steps.label(cable.ends[0], f"{labels_of_wires(' '.join(new))}; {LABELS_READY}")
    ready = [_lead_words(builds, mark) for mark in new if _is_bought_whole(builds, mark)]
    if ready:
        steps.label(cable.ends[0], f"pre-crimped leads ready: {', '.join(ready)}; tie back what is longer")


def _is_bought_whole(builds: BothBuilds, mark: str) -> bool:
    """Whether it comes with a contact at both ends: no step of its own cuts or takes it."""
    planned = builds.wires.steps.get(mark, ())
    is_put_in = all(step.action is Action.PUT_IN for step in planned)
    return bool(planned) and is_put_in and builds.made[mark].wire_from is WireFrom.NEW


def _lead_words(builds: BothBuilds, mark: str) -> str:
    words = (mark, builds.wires.colours.get(mark), length_words(builds.made[mark].lead.length_mm))
    return " ".join(filter(None, words))


def pen_new_plugs(sheet: WorkSheet) -> None:
    """Contact 1 of each plug that is new on a cable whose wires are there, as on the plan's sheets."""
    builds, fate = sheet.builds, sheet.fate
    kinds = {end.key[0]: end.kind for made in builds.made.values() for end in made.ends}
    new = plugs_made_anew(builds.new, fate) | {sheet.places[ref] for ref in fate.rehoused}
    for reference in sorted(new, key=natural):
        end = sheet.ends[reference]
        if has_signs(reference, kinds[reference], builds.build.craft):
            sheet.steps.label(reference, pen_by_signs(reference, builds.build.craft))
        elif kinds[reference] is EndKind.MATE:
            sheet.steps.label(reference, PEN_MATE)
        elif kinds[reference] in (EndKind.CONTACT, EndKind.PLUG, EndKind.CUP):
            thing = "housing" if kinds[reference] is EndKind.CONTACT else "plug"
            words = f"hold the empty {thing} for {end.shown} to its board connector, find contact 1 on the board"
            sheet.steps.label(reference, f"{words}, pen-mark that side{mark_words((end,), 'mating end up')}")


def twist(sheet: WorkSheet, cable: Cable) -> None:
    """Wires that were not twisted together before; the sheet of wires that are made says it of itself."""
    for pair in sheet.builds.pairs:
        marks = [lead.mark for lead in pair]
        if set(marks) & set(cable.leads):
            how = "one end of each out of its cavity or off its joint, then back into the same one"
            sheet.steps.label(cable.ends[0], f"twist {' and '.join(marks)} together: {how}")


def label_again(sheet: WorkSheet, cable: Cable) -> None:
    """Before its plugs go in: what is printed on it says something else now."""
    builds, fate, steps = sheet.builds, sheet.fate, sheet.steps
    named = bool(cable.mark) and ((fate.old is not None and not fate.old.mark) or bool(fate.sources))
    if named:
        steps.label(cable.ends[0], f"label {all_ends(len(cable.ends))} {cable.mark}")
    for labels in labels_again(builds.rebuild, (fate,)):
        new = labels._replace(flags=()) if named else labels
        if new.texts:
            steps.label(cable.ends[0], f"put its new labels on, in place of the old ones: {new.texts}")
