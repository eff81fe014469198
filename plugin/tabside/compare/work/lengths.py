"""To what length a wire that stays is shortened: the cut length of the plan, and from where it is measured."""

from __future__ import annotations

import math

from tabside.analysis.joined.lead_ends import EndKind, MadeLead
from tabside.facts import families
from tabside.make.needs.allowances import allowance_mm
from tabside.model.craft import ContactKey
from tabside.model.stock import Cutting


def shorten_words(made: MadeLead, at: ContactKey, cutting: Cutting) -> str:
    """ "shorten it at this end to 90 mm, tip to tip": what is bare at its ends is in it, as in the cut list."""
    length = cut_to_mm(made, at, cutting)
    other = next(end for end in made.ends if end.key != at)
    match other.kind:
        case EndKind.OWN:
            start = "from where it leaves the part"
        case EndKind.CONTACT:
            family = f"{families.family(other.family).title} " if other.family else ""
            start = f"measured from the {family}contact that stays on"
        case _:
            start = "from tip to tip, what is bare and in the other joint included"
    return f"shorten it at this end to {length:g} mm, {start}; its label is slid back first, or written again"


def cut_to_mm(made: MadeLead, at: ContactKey, cutting: Cutting) -> int:
    """By the ruler."""
    other = next(end for end in made.ends if end.key != at)
    ready = other.family if other.kind is EndKind.CONTACT else None
    return math.ceil((made.lead.length_mm or 0.0) + allowance_mm(made, ready, cutting) - 1e-6)
