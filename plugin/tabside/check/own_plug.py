"""Plugs that parts bring along: they go in contact for contact, whatever the drawing joins crosswise."""

from __future__ import annotations

from collections.abc import Iterator

from ..facts import families, mating
from ..model.craft import Contact, Craft, Kind, Termination
from ..model.findings import Finding, Severity
from .judgement import Judgement
from .outcome import Agreement
from .places import at_contacts
from .role_words import link_name, name_of
from .rules import check


@check("role-clash", "straight-hazard", severity=Severity.ERROR)
def own_plug(judgement: Judgement) -> Iterator[Finding]:
    """The plug of a captive part that mates joins contact n to contact n.

    Passes: drawn contact for contact; motor phases in any order; a plug that does not fit there.
    Notes: drawn in another order, where the plug's contacts can be moved before it is plugged in.
    Fails: the same with a plug that is live or whose contacts cannot be moved: a pack drawn crosswise.
    Source: logic; a live battery lead is never re-pinned (common practice, no source).
    """
    craft = judgement.craft
    for link in craft.links:
        ends = [craft.terminations[reference] for reference in link.ends]
        for captive, there in (ends, ends[::-1]):
            if _goes_in(craft, captive, there) and not _is_told(judgement, captive, there):
                crosswise = any(a[1] != b[1] for a, b in (lead.ends for lead in link.leads))
                clashes = list(_clashes(judgement, captive, there)) if crosswise else []
                if clashes:
                    yield _finding(craft, captive, there, clashes)
                    break


def _goes_in(craft: Craft, captive: Termination, there: Termination) -> bool:
    """Whether the part's own plug mates there, and all of its leads go there."""
    if captive.kind is not Kind.CAPTIVE or captive.family is None or there.family is None or not there.takes_plug:
        return False
    fits = mating.mate(captive.family, there.family) and (
        captive.ways == there.ways or None in (captive.ways, there.ways)
    )
    leads = [lead for lead in craft.leads if captive.reference in lead.link]
    return fits and all(there.reference in lead.link for lead in leads)


def _is_told(judgement: Judgement, captive: Termination, there: Termination) -> bool:
    """Whether the leads as drawn clash already: then the drawing itself is wrong, and that is told."""
    pair = {captive.reference, there.reference}
    return any(set(joint.link) == pair for joint in judgement.clashing)


def _clashes(
    judgement: Judgement, captive: Termination, there: Termination
) -> Iterator[tuple[Contact, Contact, Agreement]]:
    facing = {contact.number: contact for contact in there.contacts}
    for contact in captive.contacts:
        if contact.number in facing:
            found = judgement.agree(contact, facing[contact.number])
            if found.clashes:
                yield contact, facing[contact.number], found


def _finding(
    craft: Craft, captive: Termination, there: Termination, clashes: list[tuple[Contact, Contact, Agreement]]
) -> Finding:
    a, b, worst = max(clashes, key=lambda found: found[2].harm)
    stays = _stays_as_it_is(craft, captive)
    what = (
        f"{link_name(craft, (captive.reference, there.reference))}: the plug of {captive.board} goes in contact for"
        f" contact and joins {name_of(craft, a)} to {name_of(craft, b)}: {worst.reason}."
    )
    return Finding(
        rule="role-clash" if stays else "straight-hazard",
        severity=Severity.ERROR if stays else Severity.NOTE,
        message=f"{what} The drawing joins them in another order." if stays else what,
        fix=(
            f"Do not plug it in. Look at the plug and at {name_of(craft, b)}, correct the numbers in the drawing, or "
            "put another receptacle there; never re-pin a live plug."
            if stays
            else "Re-pin the part's plug before it is plugged in, and check it with a meter."
        ),
        where=at_contacts(craft, (a, b)),
        link=(captive.reference, there.reference),
        harm=worst.harm,
    )


def _stays_as_it_is(craft: Craft, captive: Termination) -> bool:
    """Live, or of a family whose contacts do not come out."""
    on_board = [
        each for each in craft.terminations.values() if each.board == captive.board and each.kind is Kind.CAPTIVE
    ]
    live = any(
        any(rail.battery for rail in contact.gives) or (contact.role.battery and not contact.takes)
        for each in on_board
        if not each.takes
        for contact in each.contacts
    )
    return live or captive.family is None or not families.family(captive.family).has_faces
