"""Which symbols are terminations, and which may be in-line parts."""

from __future__ import annotations

from tabside.facts.footprints import is_pad_footprint, match_footprint
from tabside.model.craft import Kind
from tabside.wiring.terminations.fields import KIND, TERMINATION_FIELDS, Fields, text_of
from tabside.wiring.terminations.part_kinds import SPLIT_ALWAYS, SPLIT_UNLESS_BETWEEN_RAILS
from tabside.wiring.terminations.symbols import Gathered

CONNECTOR_LETTERS = frozenset(("J", "P", "X", "CN", "CON"))


def may_be_inline(part: Gathered) -> bool:
    """Exactly two pins and the letters of a part that splits a run; `Kind` on a passive part says otherwise."""
    if len(part.pins) != 2 or part.letters not in SPLIT_ALWAYS | SPLIT_UNLESS_BETWEEN_RAILS:
        return False
    kind = text_of(part.fields, KIND).lower()
    return kind != Kind.SPLICE and (part.letters in SPLIT_ALWAYS or not kind)


def is_termination(part: Gathered) -> bool:
    """Leads meet a board or part there: by a field, by the footprint, or by the letters of a connector."""
    if not part.pins:
        return False
    return (
        part.letters in CONNECTOR_LETTERS
        or Fields(part.fields).has_any(TERMINATION_FIELDS)
        or match_footprint(part.first.footprint) is not None
        or is_pad_footprint(part.first.footprint)
    )
