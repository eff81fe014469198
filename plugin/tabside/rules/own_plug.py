"""Plugs that parts bring along: they go in contact for contact, whatever the drawing joins crosswise."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from msgspec import Struct

from tabside.analysis import harm
from tabside.analysis.joined.part_plugs import goes_in, is_live
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Agreement, Cause, clash
from tabside.analysis.places import at_contacts
from tabside.facts import families
from tabside.model.craft import Contact, ContactKey, Craft, Termination
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import link_name, name_of

Clash = tuple[Contact, Contact, Agreement]  # of the part's plug, of what it meets, and what joining them means
_POWER = (Cause.CLASSES, Cause.OVER, Cause.UNDER)  # with a supply or a ground in it


class _Plugged(Struct, frozen=True):
    """A part's own plug where it goes in, and the worst that this puts together."""

    captive: Termination
    there: Termination
    worst: Clash
    stays: bool  # live, or of a family whose contacts do not come out

    def finding(self, craft: Craft, rule: str, severity: Severity, more: str, fix: str) -> Finding:
        """`more`: what is said behind what the plug joins."""
        a, b, found = self.worst
        link = (self.captive.reference, self.there.reference)
        message = (
            f"{link_name(craft, link)}: the plug of {self.captive.board} goes in pin-for-pin and connects "
            f"{name_of(craft, a)} to {name_of(craft, b)}: {found.reason}.{more}"
        )
        where = at_contacts(craft, (a, b))
        return Finding(rule=rule, severity=severity, message=message, fix=fix, where=where, link=link, harm=found.harm)


@check("role-clash", "straight-hazard", severity=Severity.ERROR)
def own_plug(judgement: Judgement) -> Iterator[Finding]:
    """Where a part's own plug goes in, the wires are drawn pin-for-pin.

    The plug goes in straight, whatever the drawing connects: what it puts together there is what will happen.
    Example: a battery plug whose plus goes to the board's minus, drawn crosswise.

    Fix: use another connector, or re-pin the plug before it is plugged in; never a live one.
    Accept: never where a supply meets ground.
    Passes: drawn pin-for-pin; motor phases in any order; a plug that does not fit there.
    Warns: two outputs that meet at contacts which are not drawn.
    Notes: drawn in another order, where the plug's contacts can be moved before it is plugged in; a second
    regulator's supply that is flagged no-connect at both ends, to be taken out of the plug.
    Fails: the same with a plug that is live or whose contacts cannot be moved: a pack drawn crosswise; contacts that
    are not drawn, but that the plug connects all the same.
    Source: logic; a live battery lead is never re-pinned (common practice, no source).
    """
    craft = judgement.craft
    for link in craft.links:
        ends = [craft.terminations[reference] for reference in link.ends]
        for captive, there in (ends, ends[::-1]):
            if not _goes_in(craft, captive, there):
                continue
            crosswise = any(a[1] != b[1] for a, b in (lead.ends for lead in link.leads))
            found = list(_clashes(judgement, captive, there))
            drawn = {key for lead in link.leads for key in lead.ends}
            undrawn = [*_harming(found, drawn), *_two_supplies(captive, there, drawn)]
            if undrawn:  # whatever else is wrong, or accepted, on this link
                yield _not_drawn(craft, _plugged(craft, captive, there, undrawn), undrawn)
            meant = [pair for pair in found if pair[0].key in drawn]
            if crosswise and meant and not _is_told(judgement, captive, there):
                yield _crosswise(craft, _plugged(craft, captive, there, meant))
            if undrawn or (crosswise and meant):
                break


def _harming(found: list[Clash], drawn: Collection[ContactKey]) -> Iterator[Clash]:
    """Contacts that no lead is drawn to, and that harm all the same; a link that nobody wants may stay dead."""
    for a, b, agreement in found:
        if a.key not in drawn and (agreement.harm > harm.DEAD_LINK or agreement.cause in _POWER):
            yield a, b, agreement


def _two_supplies(captive: Termination, there: Termination, drawn: Collection[ContactKey]) -> Iterator[Clash]:
    """Both feed the rail at a contact that is not drawn."""
    facing = {contact.number: contact for contact in there.contacts}
    for a in captive.contacts:
        b = facing.get(a.number)
        if a.key not in drawn and b is not None and a.gives and b.gives and not (a.either or b.either):
            yield a, b, clash("two supplies feed one rail", harm.TWO_REGULATORS, Cause.BOTH_DRIVE)


def _goes_in(craft: Craft, captive: Termination, there: Termination) -> bool:
    """Whether the part's own plug mates there, and all of its leads go there."""
    return goes_in(captive, there) and all(
        there.reference in lead.link for lead in craft.leads if captive.reference in lead.link
    )


def _is_told(judgement: Judgement, captive: Termination, there: Termination) -> bool:
    """Whether the leads as drawn clash already: then the drawing itself is wrong, and that is told."""
    pair = {captive.reference, there.reference}
    return any(set(joint.link) == pair for joint in judgement.clashing)


def _clashes(judgement: Judgement, captive: Termination, there: Termination) -> Iterator[Clash]:
    facing = {contact.number: contact for contact in there.contacts}
    for contact in captive.contacts:
        if contact.number in facing:
            found = judgement.agree(contact, facing[contact.number])
            if found.clashes:
                yield contact, facing[contact.number], found


def _crosswise(craft: Craft, plugged: _Plugged) -> Finding:
    if not plugged.stays:
        fix = "Re-pin the part's plug before it is plugged in, and check it with a meter."
        return plugged.finding(craft, "straight-hazard", Severity.NOTE, "", fix)
    fix = (
        f"Do not plug it in. Look at the plug and at {name_of(craft, plugged.worst[1])}, correct the numbers in the "
        "drawing, or put another connector there. Never re-pin a live plug."
    )
    more = " The drawing connects them in another order."
    return plugged.finding(craft, "role-clash", Severity.ERROR, more, fix)


def _not_drawn(craft: Craft, plugged: _Plugged, clashes: list[Clash]) -> Finding:
    if not plugged.stays and all(map(_pulled_out, clashes)):
        fix = "Take that contact out of the part's plug before it is plugged in, and insulate it."
        more = " The drawing leaves that contact out."
        return plugged.finding(craft, "straight-hazard", Severity.NOTE, more, fix)
    severity = Severity.ERROR if any(_burns(found) for _, _, found in clashes) else Severity.WARNING
    fix = (
        "Do not plug it in: put another connector there, or correct the names."
        if is_live(craft, plugged.captive)
        else "Take that contact out of the part's plug before it is plugged in, and write nc for it in the part's "
        "Signals; or put another connector there."
    )
    more = " The drawing connects nothing there, the plug does."
    return plugged.finding(craft, "role-clash", severity, more, fix)


def _pulled_out(clash: Clash) -> bool:
    """A second regulator's supply under a no-connect flag at both contacts: it is meant to be taken out."""
    a, b, found = clash
    return found.harm == harm.TWO_REGULATORS and a.flagged_empty and b.flagged_empty


def _burns(found: Agreement) -> bool:
    return found.harm > harm.TWO_OUTPUTS or found.cause in _POWER


def _plugged(craft: Craft, captive: Termination, there: Termination, clashes: list[Clash]) -> _Plugged:
    worst = max(clashes, key=lambda found: found[2].harm)
    return _Plugged(captive, there, worst, _stays_as_it_is(craft, captive))


def _stays_as_it_is(craft: Craft, captive: Termination) -> bool:
    """Live, or of a family whose contacts do not come out."""
    return is_live(craft, captive) or captive.family is None or not families.family(captive.family).has_faces
