"""Which contacts each stretch of drawn wire joins, once it is known which symbols have contacts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from tabside.model.craft import ContactKey
from tabside.model.drawing import Drawing, PinKey
from tabside.model.groups import Groups
from tabside.wiring.leads.lead_tree import contact_order

Point = tuple[PinKey, ...]


class Stretches:
    """The contacts of each stretch, by net; a point without a contact (a capacitor, a part not fitted) cuts nothing."""

    def __init__(self, drawing: Drawing, contact_of_pin: Mapping[PinKey, ContactKey]) -> None:
        self._contact_of_pin = contact_of_pin
        self._groups = Groups(range(len(drawing.stretches)))
        self._through: dict[PinKey, int] = {}  # pin that cuts nothing -> a stretch
        for number, stretch in enumerate(drawing.stretches):
            for point in stretch.points:
                if not self._ends_at(point):
                    for pin in point:
                        self._groups.join(number, self._through.setdefault(pin, number))
        self._contacts: dict[int, dict[ContactKey, int]] = {}  # root -> contact -> its net
        for number, stretch in enumerate(drawing.stretches):
            contacts = self._contacts.setdefault(self._groups.root(number), {})
            for point in stretch.points:
                for pin in self._ends_at(point):
                    contacts.setdefault(self._contact_of_pin[pin], drawing.pin(pin).net)
        self.by_net = self._by_net()

    def _by_net(self) -> dict[int, list[tuple[ContactKey, ...]]]:
        """Net -> its stretches of two contacts and more, each once, in natural order."""
        found: dict[int, set[tuple[ContactKey, ...]]] = {}
        for contacts in self._contacts.values():
            for net in set(contacts.values()):
                on_net = sorted((key for key, its_net in contacts.items() if its_net == net), key=contact_order)
                if len(on_net) > 1:
                    found.setdefault(net, set()).add(tuple(on_net))
        return {net: sorted(pairs, key=lambda keys: list(map(contact_order, keys))) for net, pairs in found.items()}

    def contacts_from(self, pins: Sequence[PinKey]) -> frozenset[ContactKey]:
        """The contacts among these pins, and those behind the ones that cut nothing."""
        found = {self._contact_of_pin[pin] for pin in pins if pin in self._contact_of_pin}
        roots = {self._groups.root(self._through[pin]) for pin in pins if pin in self._through}
        return frozenset(found.union(*(self._contacts.get(root, ()) for root in roots)))

    def _ends_at(self, point: Point) -> list[PinKey]:
        """The pins of a point that are contacts: of stacked pins of one symbol the first, which stands for them all."""
        firsts: dict[str, PinKey] = {}
        for pin in point:
            if pin in self._contact_of_pin:
                reference, _ = self._contact_of_pin[pin]
                known = firsts.setdefault(reference, pin)
                firsts[reference] = min(known, pin, key=lambda pin_key: contact_order(self._contact_of_pin[pin_key]))
        return list(firsts.values())
