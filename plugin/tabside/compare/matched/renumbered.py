"""A craft whose contacts are counted otherwise: the same build, in the numbers of another drawing."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from tabside.model.craft import Contact, ContactKey, Craft, CraftSettings, Lead, Termination
from tabside.model.natural import natural
from tabside.model.roles import Rail

Numbers = dict[ContactKey, ContactKey]  # a contact as it is called -> as it is to be called


def renumbered(craft: Craft, numbers: Numbers) -> Craft:
    """The same craft; all that is not among the numbers keeps its own."""
    new = _New(numbers)
    return replace(
        craft,
        terminations={reference: new.termination(one) for reference, one in craft.terminations.items()},
        leads=tuple(map(new.lead, craft.leads)),
        links=tuple(replace(link, leads=tuple(map(new.lead, link.leads))) for link in craft.links),
        crowded=tuple(
            replace(crowding, contacts=new.keys(crowding.contacts), islands=tuple(map(new.keys, crowding.islands)))
            for crowding in craft.crowded
        ),
        named_together=tuple(
            replace(names, rails=tuple(map(new.keys, names.rails)), leads=new.pairs(names.leads))
            for names in craft.named_together
        ),
        settings=new.settings(craft.settings),
    )


class _New:
    """Each part of a craft with the new numbers in it."""

    def __init__(self, numbers: Numbers) -> None:
        self._numbers = numbers

    def key(self, key: ContactKey) -> ContactKey:
        return self._numbers.get(key, key)

    def keys(self, keys: Iterable[ContactKey]) -> tuple[ContactKey, ...]:
        return tuple(map(self.key, keys))

    def pairs(self, pairs: Iterable[tuple[ContactKey, ContactKey]]) -> tuple[tuple[ContactKey, ContactKey], ...]:
        return tuple((self.key(a), self.key(b)) for a, b in pairs)

    def lead(self, lead: Lead) -> Lead:
        return replace(lead, a=self.key(lead.a), b=self.key(lead.b), others=self.pairs(lead.others))

    def termination(self, one: Termination) -> Termination:
        if not any(contact.key in self._numbers for contact in one.contacts):
            return one
        contacts = [self._contact(one, contact) for contact in one.contacts]
        return replace(
            one,
            contacts=tuple(sorted(contacts, key=lambda contact: natural(contact.number))),
            gives=self._rails(one, one.gives),
            takes=self._rails(one, one.takes),
        )

    def _contact(self, one: Termination, contact: Contact) -> Contact:
        number = self.key(contact.key)[1]
        gives, takes = self._rails(one, contact.gives), self._rails(one, contact.takes)
        return replace(contact, number=number, gives=gives, takes=takes)

    def _rails(self, one: Termination, rails: Iterable[Rail]) -> tuple[Rail, ...]:
        """A rail of one contact begins with the contact's number, in its text as well."""
        found = []
        for rail in rails:
            was = rail.contact or ""
            number = self._numbers.get((one.reference, was), ("", was))[1]
            text = rail.text if number == was else f"{number}:{rail.text.partition(':')[2]}"
            found.append(replace(rail, contact=number or None, text=text))
        return tuple(found)

    def settings(self, settings: CraftSettings) -> CraftSettings:
        return replace(
            settings,
            accept=tuple(replace(acceptance, at=self.keys(acceptance.at)) for acceptance in settings.accept),
            protections=tuple(replace(protection, at=self.key(protection.at)) for protection in settings.protections),
        )
