"""Parts of the drawing in a person's words: "C1" is a cable as well as a capacitor."""

from __future__ import annotations

from tabside.model.craft import Kind

_KINDS = {
    "C": "capacitor",
    "CP": "capacitor",
    "D": "diode",
    "LED": "LED",
    "R": "resistor",
    "L": "coil",
    "FB": "ferrite bead",
}


_PLACES = {
    Kind.RECEPTACLE: "board connector",
    Kind.PAD: "solder pads",
    Kind.CAPTIVE: "leads of its own",
    Kind.SPLICE: "splice",
    Kind.INLINE: "in-line part",
}


def kind_words(kind: Kind) -> str:
    """What wires end on."""
    return _PLACES[kind]


def part_name(reference: str) -> str:
    """ "capacitor C1 (drawing)"."""
    return f"{_KINDS.get(reference.rstrip('0123456789'), 'part')} {reference} (drawing)"


def told_apart(reference: str) -> str:
    """The same where a cable or a wire could carry the reference, "C1", "W1"; else the reference alone."""
    return part_name(reference) if reference.rstrip("0123456789") in ("C", "W") else reference


def sheet_name(label: str, mark: str | None) -> str:
    """ "cable C1", "W14 W15"."""
    return f"cable {label}" if mark is not None else label
