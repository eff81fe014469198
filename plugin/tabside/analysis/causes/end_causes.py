"""One end drawn wrong, seen against the rest of its nets: for clashes that no single link shows as a whole.

Where supply, ground and buses run over shared nets, the leads of one connector go to several boards, and no link alone
holds both exchanged leads.  Each contact is then held against everything else on its net.
"""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.causes.clashes import Clashes
from tabside.analysis.causes.link_causes import Explained, row_of, single_row
from tabside.analysis.causes.order import single_causes
from tabside.analysis.joined.joints import Joint
from tabside.analysis.joined.wired import Link
from tabside.analysis.meeting.outcome import Agreement, Cause, not_judged
from tabside.analysis.meeting.signatures import signature
from tabside.model.craft import Contact, Termination

LEAST_CLASHING = 2  # contacts of the end: one alone tells nothing about the end


def explain_ends(clashes: Clashes, left: dict[Joint, Agreement]) -> Iterator[tuple[Link, Explained]]:
    """Ends that one slip explains, for the clashes left over by the links; each clash is explained once."""
    told: set[Joint] = set()
    for reference in _suspects(clashes, left):
        explained = _explain(clashes, clashes.craft.terminations[reference], left, told)
        if explained is not None:
            told.update(explained.joints)
            yield explained.joints[0].link, explained


def _suspects(clashes: Clashes, left: dict[Joint, Agreement]) -> list[str]:
    """Ends with clashes, most clashing contacts first."""
    contacts: dict[str, set[str]] = {}
    for joint in left:
        for contact in (joint.a, joint.b):
            contacts.setdefault(contact.termination, set()).add(contact.number)
    for a, b, _ in clashes.hidden_clashes:
        for contact in (a, b):
            contacts.setdefault(contact.termination, set()).add(contact.number)
    many = [reference for reference, numbers in contacts.items() if len(numbers) >= LEAST_CLASHING]
    return sorted(many, key=lambda reference: -len(contacts[reference]))


def _explain(clashes: Clashes, end: Termination, left: dict[Joint, Agreement], told: set[Joint]) -> Explained | None:
    own = [joint for joint in left if end.reference in joint.link and joint not in told]
    if not own or not single_row(end):
        return None
    contacts = dict(enumerate(end.contacts))
    if row_of(end) is not None:
        contacts = {int(contact.number): contact for contact in end.contacts}
    nets = {n: _rest(clashes, contact) for n, contact in contacts.items()}
    joined = [(n, n) for n, rest in nets.items() if rest]

    def judge(a: int, b: int) -> Agreement:
        return _fit(clashes, contacts[a], nets[b]) if a in contacts else not_judged("there is no such contact")

    drawn = [found for pair in joined if (found := judge(*pair)).clashes]
    if len(drawn) < LEAST_CLASHING or all(found.cause is Cause.CROSSING for found in drawn):
        return None
    causes = single_causes(joined, judge, (row_of(end), None))
    if not causes:
        return None
    swapped = tuple(contacts[joined[k][0]] for k in causes[0].exchanged) if causes[0].rule == "swapped-pair" else ()
    return Explained(causes[0], end.reference, (*own, *_deserted(clashes, end, left, own)), contacts=swapped)


def _deserted(clashes: Clashes, end: Termination, left: dict[Joint, Agreement], own: list[Joint]) -> Iterator[Joint]:
    """Listeners that nobody drives because the end that should is somewhere else."""
    runs = {clashes.solid_runs[contact.net_id] for contact in end.contacts}
    for joint, found in left.items():
        if found.nobody_drives and joint not in own and clashes.solid_runs[joint.a.net_id] in runs:
            yield joint


def _rest(clashes: Clashes, contact: Contact) -> list[Contact]:
    """One contact of each kind on the net, of other ends."""
    if contact.key not in clashes.joined:
        return []
    run = clashes.solid_members[clashes.solid_runs[contact.net_id]]
    kinds = {signature(other): other for other in run if other.termination != contact.termination}
    return list(kinds.values())


def _fit(clashes: Clashes, contact: Contact, rest: list[Contact]) -> Agreement:
    """The worst that a contact meets on a net; a listener among listeners is content when one of them drives."""
    found = [clashes.agree(contact, other) for other in rest]
    if any(outcome.agrees for outcome in found):
        found = [outcome for outcome in found if not outcome.nobody_drives]
    clashing = [outcome for outcome in found if outcome.clashes]
    if clashing:
        return max(clashing, key=lambda outcome: outcome.harm)
    return next((outcome for outcome in found if outcome.agrees), found[0])
