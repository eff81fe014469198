"""Step 3 of a net's leads: terminations that are joined already join their contacts of this net as well."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from tabside.model.craft import Contact, ContactKey, Kind, Termination
from tabside.wiring.leads.lead_tree import LeadEnds, Order, Pair, contact_order, ends_of, lead_order, pair_of

_Rank = tuple[bool, tuple[Order, Order]]  # (carries no signal, its first lead)


class Room:
    """How many leads each contact has, and how many it can still take."""

    def __init__(self, contacts: Mapping[ContactKey, Contact]) -> None:
        self.contacts = contacts
        self.used: dict[ContactKey, int] = {}

    def left(self, key: ContactKey) -> int | None:
        """None: any number."""
        most = self.contacts[key].leads_max
        return None if most is None else most - self.used.get(key, 0)

    def has(self, key: ContactKey) -> bool:
        left = self.left(key)
        return left is None or left > 0

    def take(self, ends: LeadEnds, times: int = 1) -> None:
        for key in ends:
            self.used[key] = self.used.get(key, 0) + times


class Partners:
    """Pairs of terminations that leads of steps 1 and 2, or a captive plug, join; those that carry signals first.

    In-line parts split a run in two, so that the terminations at its ends are joined by it too.
    """

    def __init__(
        self, leads: Iterable[tuple[LeadEnds, bool]], captive: Iterable[Pair], terminations: Mapping[str, Termination]
    ) -> None:
        """`leads`: ends, and whether the lead carries a signal."""
        ranks: dict[Pair, _Rank] = {}
        leads = list(leads)
        joints = [(ends[0][0], ends[1][0], (not signal, lead_order(ends))) for ends, signal in leads]
        for a, b, rank in [*joints, *_through_inline_parts(leads, terminations)]:
            # What a board joins inside needs no lead beside a loop from one of its plugs to another.
            if a != b and terminations[a].board != terminations[b].board:
                pair = pair_of(a, b)
                ranks[pair] = min(ranks.get(pair, rank), rank)
        for pair in captive:
            ranks.setdefault(pair, (True, lead_order(((pair[0], ""), (pair[1], "")))))
        self._ranks = ranks
        self.mating = {pair for pair in ranks if _goes_into(terminations[pair[0]], terminations[pair[1]])}
        self._of: dict[str, list[str]] = {}
        for a, b in ranks:
            self._of.setdefault(a, []).append(b)

    def __contains__(self, pair: Pair) -> bool:
        return pair in self._ranks

    def among(self, references: Iterable[str], *, mating: bool) -> list[Pair]:
        """The pairs whose both ends are among these, in the order in which they are served.

        `mating`: only those of a captive plug and what it goes into.
        """
        present = set(references)
        found = [(a, b) for a in present for b in self._of.get(a, ()) if b in present]
        return sorted((pair for pair in found if not mating or pair in self.mating), key=self._ranks.__getitem__)


def _through_inline_parts(
    leads: Iterable[tuple[LeadEnds, bool]], terminations: Mapping[str, Termination]
) -> Iterator[tuple[str, str, _Rank]]:
    """The ends of runs that in-line parts split, with the rank of the first lead of the run."""
    reached: dict[ContactKey, list[tuple[ContactKey, _Rank]]] = {}  # contact of an in-line part -> what leads reach
    for ends, signal in leads:
        for near, far in (ends, ends[::-1]):
            if terminations[near[0]].kind is Kind.INLINE:
                reached.setdefault(near, []).append((far, (not signal, lead_order(ends))))
    for near, found in reached.items():
        for start, rank in found:
            if terminations[start[0]].kind is Kind.INLINE:
                continue
            inside, passed = [near], {near[0]}
            while inside:
                part = inside.pop()
                for number in terminations[part[0]].beyond(part[1]):
                    for end, _ in reached.get((part[0], number), ()):
                        if terminations[end[0]].kind is not Kind.INLINE:
                            yield start[0], end[0], rank
                        elif end[0] not in passed:
                            passed.add(end[0])
                            inside.append(end)


def leads_beside(
    contacts: Sequence[Contact], partners: Partners, room: Room, laid: Iterable[LeadEnds], *, mating: bool = False
) -> list[LeadEnds]:
    """One to one in contact order: first one lead for each pair that has none on this net, then the second, and so on.

    `laid`: leads that the net has already; `room` is taken.  A pair without room, or whose contacts both have leads,
    goes without.  `mating`: only for captive plugs and what they go into.
    """
    by_termination: dict[str, list[ContactKey]] = {}
    for contact in contacts:
        by_termination.setdefault(contact.termination, []).append(contact.key)
    pairs = partners.among(by_termination, mating=mating)
    done: dict[Pair, list[LeadEnds]] = {pair: [] for pair in pairs}
    for ends in laid:
        pair = pair_of(ends[0][0], ends[1][0])
        if pair in done:
            done[pair].append(ends)
    leads = []
    for times in range(max((len(keys) for keys in by_termination.values()), default=0)):
        for pair in pairs:
            if len(done[pair]) > times:
                continue
            busy = {key for ends in done[pair] for key in ends}
            a, b = (_next_contact(by_termination[reference], busy, room) for reference in pair)
            if a is not None and b is not None and not (room.used.get(a) and room.used.get(b)):
                ends = ends_of(a, b)
                room.take(ends)
                done[pair].append(ends)
                leads.append(ends)
    return leads


def _next_contact(keys: Sequence[ContactKey], busy: set[ContactKey], room: Room) -> ContactKey | None:
    """The least used contact that has room and no lead to the same partner yet; in contact order."""
    free = [key for key in keys if key not in busy and room.has(key)]
    return min(free, key=lambda key: (room.used.get(key, 0), contact_order(key)), default=None)


def captive_partners(
    terminations: Mapping[str, Termination], joined: Iterable[Pair], shared: Mapping[int, int]
) -> Iterator[Pair]:
    """Where captive plugs go that no lead of steps 1 and 2 shows: a free receptacle of their family on all their nets.

    `shared`: net -> how many contacts it has.  In natural order of the plugs; contacts of equal number first.
    """
    taken: set[str] = set()
    settled: set[str] = set()
    for a, b in joined:
        if _mates(terminations[a], terminations[b]):
            taken.update((a, b))
            settled.update((a, b))
    for reference in sorted(terminations, key=lambda name: contact_order((name, ""))):
        plug = terminations[reference]
        if plug.kind is not Kind.CAPTIVE or plug.family is None or reference in settled:
            continue
        wired = {contact.number: contact.net_id for contact in plug.contacts if shared[contact.net_id] > 1}
        if not wired:
            continue
        found = [other for other in terminations.values() if other.reference not in taken and _fits(plug, wired, other)]
        if found:
            best = min(found, key=lambda other: (-_aligned(wired, other), contact_order((other.reference, ""))))
            taken.update((reference, best.reference))
            yield pair_of(reference, best.reference)


def _mates(a: Termination, b: Termination) -> bool:
    """Whether two terminations are a captive plug and what it goes into."""
    return Kind.CAPTIVE in (a.kind, b.kind) and a.family is not None and a.family == b.family and a.board != b.board


def _goes_into(a: Termination, b: Termination) -> bool:
    """Whether one is the other's plug; two captive plugs on one net alone (packs in parallel) go each elsewhere."""
    if not _mates(a, b) or not a.kind is b.kind is Kind.CAPTIVE:
        return _mates(a, b)
    near, far = ({contact.net_id for contact in termination.contacts} for termination in (a, b))
    return near <= far or far <= near


def _fits(plug: Termination, wired: Mapping[str, int], other: Termination) -> bool:
    nets = {contact.net_id for contact in other.contacts}
    return other.takes_plug and _mates(plug, other) and set(wired.values()) <= nets


def _aligned(wired: Mapping[str, int], other: Termination) -> int:
    return sum(1 for contact in other.contacts if wired.get(contact.number) == contact.net_id)
