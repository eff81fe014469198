"""Contact 1 of each plug by a pen mark, and the labels of a cable and its wires."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from tabside.analysis.joined.lead_ends import EndKind, is_polarised
from tabside.make.needs.cable_jobs import CableJob
from tabside.make.sheets.cable_plan import CableEnd
from tabside.make.sheets.ready_sheets import mark_words
from tabside.make.sheets.step_list import LABELS_READY, StepList, all_ends, labels_of_wires
from tabside.model.craft import Craft
from tabside.words.contacts import termination_name
from tabside.words.signals import signal_words

_PEN_LOOSE = "hold each empty housing to its board connector, find contact 1 on the board, pen-mark that side"
PEN_MATE = (
    "find contact 1 or plus and minus as moulded into the loose mating connector, and pen-mark it; keep it off the part"
)
_PEN_SIGNED = (
    "without signs, or with others than the board's connector has: find contact 1 on the board and go by the numbers"
)
PEN_PLUG = "hold the plug to its board connector, find contact 1 on the board, pen-mark that side"
_NO_PLUG = (EndKind.PAD, EndKind.SPLICE, EndKind.INLINE, EndKind.OWN)


def pens(job: CableJob, ends: Sequence[CableEnd], housings: bool, craft: Craft) -> Iterator[tuple[str, str]]:
    """How the plugs get their mark, each with the place; the mate of a pack's own plug is never held to it."""
    plugs = {end.key[0]: end.kind for made in job.leads for end in made.ends if end.kind not in _NO_PLUG}
    signed = [reference for reference in plugs if has_signs(reference, plugs[reference], craft)]
    if EndKind.MATE in plugs.values():
        yield job.terminations[0], PEN_MATE
    elif len(signed) < len(plugs):
        pen = f"{_PEN_LOOSE}{mark_words(ends, 'mating end up')}" if housings else PEN_PLUG
        yield job.terminations[0], pen
    yield from ((reference, pen_by_signs(reference, craft)) for reference in signed)


def pen_by_signs(reference: str, craft: Craft) -> str:
    """Which wire goes where in a plug with plus and minus moulded into it."""
    contacts = craft.terminations[reference].contacts
    goes = [
        f"{signal_words(craft, contact.key)} (contact {contact.number}) to {'-' if contact.role.is_ground else '+'}"
        for contact in contacts
        if contact.role.is_ground or contact.role.is_supply
    ]
    where = f"plug for {termination_name(craft, reference)}: by the + and - moulded into it, {', '.join(goes)}"
    return f"{where}; {_PEN_SIGNED}"


def has_signs(reference: str, kind: EndKind, craft: Craft) -> bool:
    """Whether it is a plug with soldered cups, for a connector that has plus and minus."""
    return kind is EndKind.CUP and is_polarised(craft, reference)


def label_ends(job: CableJob, steps: StepList, pens: Iterable[tuple[str, str]]) -> None:
    """Contact 1 of each plug; then the labels, which go on when there is something to put them on."""
    if job.mark is not None:
        for reference, pen in pens:
            steps.label(reference, pen)
        ends = all_ends(len(job.terminations))
        labels = f"labels ready: {job.mark} for {ends} of the cable, and each wire's number for both its ends"
    else:
        labels = labels_of_wires(job.label)
    steps.label(job.terminations[0], f"{labels}; {LABELS_READY}")
