"""What the drawing does not say: families, boards, lengths.  One line for each kind, however many lack it."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.joined.joints import PASSES, letters_of
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.agreement import LOAD_ENDS
from tabside.analysis.places import at_termination
from tabside.analysis.returns import NoReturn, carriers, missing_returns, return_severity
from tabside.analysis.supplies import feeds_of
from tabside.model.craft import Kind, Termination
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.wiring import faces
from tabside.words.contacts import counted, listed, termination_name


def families_unknown(judgement: Judgement) -> list[Termination]:
    """Receptacles whose plug is not known, and captive parts whose family was written and is not known."""
    return [
        termination
        for termination in judgement.craft.terminations.values()
        if termination.family is None
        and (termination.kind is Kind.RECEPTACLE or (termination.kind is Kind.CAPTIVE and termination.family_text))
    ]


def boards_unknown(judgement: Judgement) -> list[Termination]:
    """Terminations whose reference stands in for the board; a battery's symbol is the part itself."""
    return [
        termination
        for termination in judgement.craft.terminations.values()
        if not termination.board_stated and termination.kind not in PASSES and not _is_part_itself(termination)
    ]


def _is_part_itself(termination: Termination) -> bool:
    """A battery, a panel, a plain motor or a lamp is no plug of something else."""
    loads = any(contact.role.name in LOAD_ENDS for contact in termination.contacts)
    return loads or letters_of(termination.reference) in ("BT", "SC")


def views_unknown(judgement: Judgement) -> list[Termination]:
    """Receptacles of which one cannot tell in which order the plug in the hand shows its cavities."""
    return [termination for termination in judgement.craft.terminations.values() if faces.is_unknown(termination)]


@check("family-unknown", severity=Severity.WARNING)
def family_unknown(judgement: Judgement) -> Iterator[Finding]:
    """The plug family of each board connector is known.

    Without the family nobody knows which plug goes in, or which contact to buy.  Example: a connector drawn as
    Conn_01x06 without Family and footprint.

    Fix: write the field Family, or choose a footprint that names it.
    Accept: connectors that are soldered over.
    Warns: a family that is written and is none of the table's; any unknown one where stock cables are to be compared,
    or where a clash could not be tried for a mirrored end.
    Notes: board connectors of which the drawing says no family.
    Source: the table of families.
    """
    missing = families_unknown(judgement)
    written = [termination for termination in missing if termination.family_text]
    silent = [termination for termination in missing if not termination.family_text]
    for some, needed in ((written, True), (silent, bool(judgement.craft.settings.stock_cables))):
        if some:
            names = [_family_name(judgement, termination) for termination in some]
            yield Finding(
                rule="family-unknown",
                severity=Severity.WARNING if needed else Severity.NOTE,
                message=f"The plug family of {counted(len(some), 'connector')} is not known: {listed(names)}.",
                fix="Write the field Family (tabside families lists them), or choose a footprint that names it.",
                where=tuple(at_termination(judgement.craft, termination.reference) for termination in some),
                harm=harm.DRAWING,
            )


def _family_name(judgement: Judgement, termination: Termination) -> str:
    said = f' ("{termination.family_text}")' if termination.family_text else ""
    return termination_name(judgement.craft, termination.reference) + said


@check("board-unknown", severity=Severity.WARNING)
def board_unknown(judgement: Judgement) -> Iterator[Finding]:
    """Every connector or pad says which board it belongs to.

    Each of two plugs of one board looks like a board of its own: grounds seem to be missing, and sources to be two.
    Example: J3 and J4 of the autopilot, neither with a field Board.

    Fix: write the field Board at the symbols, or at the sheet that holds them.
    Accept: parts with one plug.
    Warns: when a missing ground or a second source was found at one: two plugs of one board look like two boards.
    Notes: else; the reference stands in for the board.
    Source: logic.
    """
    missing = boards_unknown(judgement)
    if not missing:
        return
    accused = {
        reference for found in missing_returns(judgement) if _matters(judgement, found) for reference in _ends(found)
    }
    accused |= {contact.termination for found in feeds_of(judgement) for contact in found.sources}
    needed = [termination for termination in missing if termination.reference in accused]
    names = listed([termination.reference for termination in needed or missing])
    yield Finding(
        rule="board-unknown",
        severity=Severity.WARNING if needed else Severity.NOTE,
        message=f"{names} is not assigned to a board; it is treated as a board of its own."
        if len(missing) == 1
        else f"{len(missing)} connectors are not assigned to a board; each is treated as a board of its own: {names}.",
        fix="Write the field Board at these symbols, or at the sheet that holds them.",
        where=tuple(at_termination(judgement.craft, termination.reference) for termination in missing),
        harm=harm.DRAWING,
    )


def _ends(found: NoReturn) -> list[str]:
    return [reference for link in found.links for reference in link]


def _matters(judgement: Judgement, found: NoReturn) -> bool:
    """Whether the missing ground is more than a note: there is none at all, or a fast signal goes without."""
    carried = [contact for link in found.links for joint in carriers(judgement, link) for contact in (joint.a, joint.b)]
    return return_severity(carried, path=found.path, perhaps=found.perhaps) is not Severity.NOTE


@check("view-unknown", severity=Severity.NOTE, may_be_accepted=False)
def view_unknown(judgement: Judgement) -> Iterator[Finding]:
    """The orientation of each board connector is known.  (Where `Signals` needed it: a warning.)

    Left and right of a plug in the hand cannot be told without it; cavities are then counted from the
    contact-1 mark.  Example: a connector without Entry, Tabs and Contact 1.

    Fix: look at the real part and write the three fields.
    Accept: it is a note, but where Seen from needs them.
    Passes: power plugs with soldered contacts, coaxial and USB plugs, which are never re-pinned.
    Notes: board connectors without Entry, Tabs or Contact 1, whose cavities can only be counted from the
    contact-1 mark.
    Source: logic.
    """
    missing = views_unknown(judgement)
    if missing:
        yield Finding(
            rule="view-unknown",
            severity=Severity.NOTE,
            message=f"Orientation not given for {counted(len(missing), 'connector')}:"
            f" {listed([termination_name(judgement.craft, termination.reference) for termination in missing], 3)}."
            " Count cavities from contact 1 as marked on the board.",
            fix="Look at the real parts, then fill in Entry, Tabs and Contact 1.",
            where=tuple(at_termination(judgement.craft, termination.reference) for termination in missing),
        )


@check("length-unknown", severity=Severity.NOTE, may_be_accepted=False)
def length_unknown(judgement: Judgement) -> Iterator[Finding]:
    """Every wire has a length: drawn, in the craft file, or from positions.

    A wire without a length is not in the cut list.  Example: two boards without positions, and no length on the
    wire.

    Fix: give lengths or positions in the craft file, or Length on the wire.
    Accept: it is a note.
    Notes: wires without one, for which the cut list gives none.
    Source: logic.
    """
    leads = judgement.craft.leads
    without = [lead for lead in leads if lead.length_mm is None]
    if without:
        references = list(dict.fromkeys(reference for lead in without for reference in lead.link))
        yield Finding(
            rule="length-unknown",
            severity=Severity.NOTE,
            message=f"{len(without)} of {counted(len(leads), 'wire')} have no length, so the cut list gives none.",
            fix="Give lengths per connection or positions of the boards in the craft file, or Length on the wires.",
            where=tuple(at_termination(judgement.craft, reference) for reference in references),
        )
