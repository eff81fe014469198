"""Clashes of one net gathered around the contact that does not belong there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec import Struct

from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Agreement
from tabside.analysis.meeting.signatures import signature
from tabside.model.craft import Contact, ContactKey
from tabside.model.natural import natural

Pair = tuple[Contact, Contact, Agreement, bool]  # and whether a lead joins them


class Group(Struct, frozen=True):
    odd: Contact  # belongs least on its net
    others: tuple[Contact, ...]  # that it clashes with
    worst: Agreement
    direct: bool  # at least one of them over a lead of its own

    @property
    def link(self) -> tuple[str, str] | None:
        """The link that it belongs to, when it is only one."""
        ends = {tuple(sorted((self.odd.termination, other.termination), key=natural)) for other in self.others}
        if len(ends) != 1:
            return None
        first, second = ends.pop()
        return (first, second)


def told_pairs(judgement: Judgement) -> list[Pair]:
    """Clashes that are told one by one: over a lead, or hidden in a net."""
    pairs: list[Pair] = [(joint.a, joint.b, found, True) for joint, found in judgement.single_clashes.items()]
    ends = {explained.end for _, explained in judgement.explained_ends}
    pairs += [
        (a, b, found, False) for a, b, found in judgement.hidden_clashes if not {a.termination, b.termination} & ends
    ]
    return pairs


def groups_of(judgement: Judgement, pairs: Iterable[Pair]) -> Iterator[Group]:
    """Each clash in one group, by net; the odd contact has most clashes, then is least like the rest of the net."""
    by_run: dict[int, list[Pair]] = {}
    for pair in pairs:
        by_run.setdefault(judgement.solid_runs[pair[0].net_id], []).append(pair)
    for run, left in by_run.items():
        likes: dict[object, int] = {}
        for contact in judgement.solid_members.get(run, ()):
            likes[signature(contact)[0].cls] = likes.get(signature(contact)[0].cls, 0) + 1
        while left:
            group, left = _take(left, likes)
            yield group


def _take(pairs: list[Pair], likes: dict[object, int]) -> tuple[Group, list[Pair]]:
    met: dict[ContactKey, list[Pair]] = {}
    contacts: dict[ContactKey, Contact] = {}
    for pair in pairs:
        for contact in pair[:2]:
            met.setdefault(contact.key, []).append(pair)
            contacts[contact.key] = contact

    def oddness(key: ContactKey) -> tuple[object, ...]:
        fewest = likes.get(contacts[key].role.cls, 0)
        return (-len(met[key]), fewest, -bool(contacts[key].takes), natural(key[0]), natural(key[1]))

    odd = min(met, key=oddness)
    own = met[odd]
    others = tuple(pair[1] if pair[0].key == odd else pair[0] for pair in own)
    worst = max((pair[2] for pair in own), key=lambda found: found.harm)
    group = Group(contacts[odd], others, worst, any(pair[3] for pair in own))
    return group, [pair for pair in pairs if pair not in own]
