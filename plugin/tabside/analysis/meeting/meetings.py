"""What any two contacts of a craft are to each other as they are wired: packs add up, some things meet on purpose."""

from __future__ import annotations

from functools import cached_property

from tabside.analysis.joined.joints import Joint
from tabside.analysis.joined.wired import Wired
from tabside.analysis.meeting.agreement import Agreement, agree
from tabside.analysis.meeting.on_purpose import meant_pairs, shunts_of
from tabside.analysis.meeting.outcome import agreed
from tabside.analysis.meeting.packs import Packs
from tabside.analysis.meeting.rail_names import rail_names_of
from tabside.analysis.meeting.signatures import Signature, signature
from tabside.model.craft import Contact, ContactKey, Craft
from tabside.model.roles import Volts


class Meetings(Wired):
    """A wired craft with what its contacts are to each other."""

    def __init__(self, craft: Craft) -> None:
        super().__init__(craft)
        self._known: dict[tuple[Signature, Signature, Volts | None], Agreement] = {}

    def agree(self, a: Contact, b: Contact) -> Agreement:
        """`agree` of the two contacts as they are wired, remembered: large nets repeat the same few contacts."""
        if self._meant and (meant := self._meant.get(frozenset((a.key, b.key)))) is not None:
            return agreed(meant)
        a, b = self.packs.as_wired(a), self.packs.as_wired(b)
        pack = self._pack_at(a, b)
        key = (signature(a), signature(b), pack)
        if key not in self._known:
            self._known[key] = self._known[key[1], key[0], pack] = agree(a, b, pack)
        return self._known[key]

    @cached_property
    def packs(self) -> Packs:
        """The packs, and what the runs that they feed reach."""
        return Packs(self)

    @cached_property
    def shunts(self) -> tuple[tuple[Contact, Contact], ...]:
        """Plus and minus of shunts on the high side: the rail runs on through them."""
        return tuple(shunts_of(self))

    @cached_property
    def _meant(self) -> dict[frozenset[ContactKey], str]:
        return meant_pairs(self, self.packs, self.shunts)

    def is_meant(self, joint: Joint) -> bool:
        """Whether its two contacts meet on purpose: a motor on its bridge, packs in series, a strap, a shunt."""
        return frozenset((joint.a.key, joint.b.key)) in self._meant

    @cached_property
    def meant_contacts(self) -> frozenset[ContactKey]:
        """Contacts that meet something on purpose that would clash elsewhere."""
        return frozenset(key for pair in self._meant for key in pair)

    @cached_property
    def pack(self) -> Volts | None:
        """What the battery can reach: the craft file says it, or the packs of the drawing agree on it."""
        if self.craft.settings.battery is not None:
            return self.craft.settings.battery
        stated = {
            rail.volts
            for termination in self.craft.terminations.values()
            for contact in termination.contacts
            for rail in contact.gives
            if rail.battery and rail.volts is not None
        }
        stated |= {pack.volts for pack in self.packs.leads if pack.volts is not None}
        return stated.pop() if len(stated) == 1 else None

    def _pack_at(self, a: Contact, b: Contact) -> Volts | None:
        """What the battery reaches where these two meet: the packs that feed them, else the craft file's."""
        if not (a.role.is_supply and b.role.is_supply):
            return None
        if any(self.rail_of(contact) in self.packs.unsaid for contact in (a, b) if contact.net_id in self.whole_runs):
            return None
        return self.packs.reach_of(a) or self.packs.reach_of(b) or self.pack

    @cached_property
    def rail_names(self) -> dict[int, tuple[Contact, ...]]:
        """Net -> the rails that power symbols and labels write on it."""
        return rail_names_of(self.craft)
