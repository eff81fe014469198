"""Signals and supplies between two boards need a ground between them."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.joined.joints import Joint
from tabside.analysis.joined.wired import Link
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.analysis.returns import CARRIERS, carriers, is_switched, missing_returns, return_severity
from tabside.model.craft import Contact, Craft
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import link_name, listed, name_of, role_words


@check("no-return", severity=Severity.ERROR)
def no_return(judgement: Judgement) -> Iterator[Finding]:
    """What goes to another board comes back over ground, best in the same cable.

    Current that goes out must come back. Without ground beside it, it comes back through other boards, or not at
    all: signals are then wrong, and a supply may return through a thin signal wire and burn it.  Example: 5 V, TX
    and RX between two boards that share no ground.

    Fix: add a ground wire in the same cable, beside the signal that it serves.
    Accept: a part wired between a supply and the contact that switches it.
    Passes: a cable with its ground; pads of two boards with a ground wire among them; motor phases.
    Fails: signals or supply between boards that no ground connects at all.
    Warns: ground only through other cables, and the signal is fast or analog.
    Notes: ground only through other cables, and the signal is slow; a buzzer that is switched in its return.
    Source: autopilot wiki on ESCs and motors (ground for each signal); the rest common practice, no source.
    """
    for found in missing_returns(judgement):
        yield _finding(judgement, list(found.links), path=found.path, perhaps=found.perhaps)


def _finding(judgement: Judgement, links: list[Link], *, path: bool, perhaps: bool) -> Finding:
    """One finding for a link, or for all links between two boards that share no ground."""
    craft, link = judgement.craft, links[0]
    carrying = [joint for run in links for joint in carriers(judgement, run)]
    contacts = [contact for joint in carrying for contact in (joint.a, joint.b)]
    severity = return_severity(contacts, path=path, perhaps=perhaps)
    what = listed(list(dict.fromkeys(role_words(_known(joint).role) for joint in carrying)), 4)
    name = listed([link_name(craft, run) for run in links], 3)
    if not path:
        message = f"{name}: {what} between two boards that share no ground."
        fix = f"Add a ground wire{_open_grounds(craft, link)}, in the same cable."
    else:
        message = f"{name}: {what}, and the two boards share ground only through other cables."
        fix = f"Run a ground wire in the same cable{_open_grounds(craft, link)}, beside the signal that it serves."
    if is_switched(contacts):
        message = (
            f"{name}: {what} and no ground: normal for a buzzer or lamp, whose current returns through the switched"
            " contact."
        )
        fix = (
            "Nothing to do if the part is wired between these two contacts: accept it in the craft file. If not, add a"
            " ground wire."
        )
    return Finding(
        rule="no-return",
        severity=severity,
        message=message,
        fix=fix,
        where=at_contacts(craft, contacts),
        link=link,
        harm=harm.NO_GROUND if severity is Severity.ERROR else harm.NOT_FED,
    )


def _known(joint: Joint) -> Contact:
    return joint.a if joint.a.role.cls in CARRIERS else joint.b


def _open_grounds(craft: Craft, link: tuple[str, str]) -> str:
    """The ground contacts of both ends, for the person who has to join them."""
    grounds = [
        next((contact for contact in craft.terminations[end].contacts if contact.role.is_ground), None) for end in link
    ]
    names = [name_of(craft, contact) for contact in grounds if contact is not None]
    return f" ({' to '.join(names)})" if len(names) == 2 else ""
