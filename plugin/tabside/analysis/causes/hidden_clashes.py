"""Clashes on one net between contacts that no lead joins directly: a neighbour of unknown volts hides them."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.judging.judged_joints import JudgedJoints
from tabside.analysis.meeting.outcome import Agreement
from tabside.analysis.meeting.signatures import Signature, by_signature, signature
from tabside.model.craft import Contact

Told = dict[Signature, set[Signature]]  # contacts named by a clash over a lead, with those that they clash with


def hidden_clashes(judged: JudgedJoints) -> Iterator[tuple[Contact, Contact, Agreement]]:
    """One pair for each two kinds of contact that clash on a net and that no clash over a lead there tells of."""
    told: dict[int, Told] = {}
    for joint in judged.clashing:
        on_run = told.setdefault(judged.solid_runs[joint.a.net_id], {})
        on_run.setdefault(signature(joint.a), set()).add(signature(joint.b))
        on_run.setdefault(signature(joint.b), set()).add(signature(joint.a))
    for run, contacts in judged.solid_members.items():
        if len(contacts) > 1:
            yield from _on_run(judged, by_signature(contacts), told.get(run, {}))


def _on_run(
    judged: JudgedJoints, kinds: dict[Signature, list[Contact]], told: Told
) -> Iterator[tuple[Contact, Contact, Agreement]]:
    signatures = list(kinds)
    for k, first in enumerate(signatures):
        for second in signatures[k:]:
            a, b = kinds[first][0], kinds[second][-1]
            if a.key == b.key or _is_told(judged, first, second, kinds, told):
                continue
            met = judged.agree(a, b)
            if met.nobody_drives:
                met = judged.driven(a, met, {a.key, b.key})
            if met.clashes:
                yield a, b, met


def _is_told(
    judged: JudgedJoints, first: Signature, second: Signature, kinds: dict[Signature, list[Contact]], told: Told
) -> bool:
    """Whether both are named by clashes of this net, or one is, against contacts of the other's kind."""
    if first in told and second in told:
        return True
    for one, other in ((first, second), (second, first)):
        against = (kinds[kind][0] for kind in told.get(one, ()) if kind in kinds)
        if any(not judged.agree(contact, kinds[other][0]).clashes for contact in against):
            return True
    return False
