"""What contacts are called, for those that no table decides: their text, and the pole or letter at its end."""

from __future__ import annotations

import re

from tabside.analysis.joined.wired import Wired
from tabside.facts.labels.text import clean_label
from tabside.model.craft import Contact, ContactKey

# Whose cathode and anode are no matter of text: names of roles.
LEGS = {"anode": "+", "cathode": "-"}
_POLE = r"(?P<name>.*\S)\s*(?P<sign>[+-])"
# A and B, P and N of a line in pairs, as makers print them: TXD_A, TDB, RX_P, NMEA_OUT_A.  Common practice, no source.
_OF_A_PAIR = re.compile(
    r"(?:(?:RS)?-?4(?:22|85)[ _-]?|NMEA[ _-]?(?:0?183)?[ _-]?)?(?P<name>TXD?|RXD?|TD|RD|OUT|IN)[ _-]?(?P<sign>[ABPN])"
)
_OTHER = {"A": "B", "B": "A", "P": "N", "N": "P"}
_FOUR = {"Y": ("TX", "A"), "Z": ("TX", "B"), "A": ("RX", "A"), "B": ("RX", "B")}  # of a transceiver with four wires

Pole = tuple[str, str]  # a name, and + or -, A or B, P or N; ("", "") where a contact has no sign
NO_POLE: Pole = ("", "")


def text_of(contact: Contact) -> str:
    return clean_label(contact.label).plain


class ContactTexts:
    """Each contact's text, worked out once."""

    def __init__(self, wired: Wired) -> None:
        self._terminations = wired.craft.terminations
        self._names: dict[ContactKey, str] = {}
        self._poles: dict[ContactKey, Pole] = {}
        self._letters: dict[ContactKey, Pole] = {}
        self._on: dict[str, frozenset[str]] = {}
        self._numbered: dict[str, bool] = {}

    def name(self, contact: Contact) -> str:
        """Its text; digits alone are a name where those of its termination are not the contacts' own numbers."""
        key = contact.key
        if key not in self._names:
            self._names[key] = self._name(contact)
        return self._names[key]

    def pole(self, contact: Contact) -> Pole:
        key = contact.key
        if key not in self._poles:
            self._poles[key] = self._pole(contact)
        return self._poles[key]

    def letter(self, contact: Contact) -> Pole:
        """TX and A of TXD_A where TXD_B stands beside it, of Y where Y, Z, A and B do."""
        key = contact.key
        if key not in self._letters:
            self._letters[key] = self._letter(contact)
        return self._letters[key]

    def _name(self, contact: Contact) -> str:
        label = contact.label.strip()
        if not label.isdecimal():
            return " ".join(self.letter(contact)).strip() or text_of(contact)
        return label if self._has_numbers_of_its_own(contact.termination) else ""

    def _has_numbers_of_its_own(self, reference: str) -> bool:
        if reference not in self._numbered:
            others = self._terminations[reference].contacts
            self._numbered[reference] = any(
                other.label.strip().isdecimal() and other.label.strip() != other.number for other in others
            )
        return self._numbered[reference]

    def _pole(self, contact: Contact) -> Pole:
        if contact.role.name in LEGS:
            return "", LEGS[contact.role.name]
        found = re.fullmatch(_POLE, text_of(contact))
        return (found["name"], found["sign"]) if found is not None else self.letter(contact)

    def _letter(self, contact: Contact) -> Pole:
        text = text_of(contact)
        if text in _FOUR:
            return _FOUR[text] if _FOUR.keys() <= self._beside(contact) else NO_POLE
        found = _OF_A_PAIR.fullmatch(text)
        if found is None:
            return NO_POLE
        other = text[:-1] + _OTHER[found["sign"]]
        return (found["name"], found["sign"]) if other in self._beside(contact) else NO_POLE

    def _beside(self, contact: Contact) -> frozenset[str]:
        reference = contact.termination
        if reference not in self._on:
            self._on[reference] = frozenset(map(text_of, self._terminations[reference].contacts))
        return self._on[reference]
