"""How contacts of a family are released and seated, when one may be used again, and what to look at afterwards."""

from __future__ import annotations

from tabside.facts import families
from tabside.make.sheets.cable_plan import Handling

_SEAT = {
    "housing_lance": "press the lance back into its place, push the contact in until it clicks, tug gently",
    "lance_or_tang": "look first which of the two it is: press a plastic lance back, or re-form a metal tang; push the "
    "contact in until it clicks, tug gently",
    "contact_tang": "re-form the tang, push the contact in until it clicks, tug gently",
}
_REUSE = {
    "housing_lance": "The lance is part of the housing: when it does not spring back, take a new housing. After two "
    "extractions fit a new contact (common practice, no source).",
    "lance_or_tang": "A lance is part of the housing, a tang part of the contact: a new one of what does not "
    "spring back. After two extractions fit a new contact (common practice, no source).",
    "contact_tang": "Re-form the locking tang before the contact goes back (car makers' service manuals, grade C). "
    "After two extractions fit a new contact (common practice, no source).",
}
_SEATED = (
    "Push, click and a gentle pull on every contact; one push test for each insertion (NASA-STD-8739.4 13.8.2, read "
    "in the document; the click: common practice, no source).",
    "Never pull harder than 80 % of what the crimp must hold: 13.4 N is the least for 26 AWG (TE 114-2157), so at most "
    "10.7 N; less for thinner wire (NASA-STD-8739.4, page 70).",
    "Empty cavities stay empty and are marked, or plugged (common practice, no source).",
)
_CRIMPED = (
    "Conductor flush with the end of the conductor crimp, or beyond it by at most one wire diameter; insulation ends "
    "midway between the two crimps (NASA workmanship pages, read in the document).",
    "A damaged contact is cut off and replaced, never crimped again (TE 114-2157, read in the document).",
    "Stranded wire only: neither solid nor tinned strands are crimped (NASA-STD-8739.4 4.3.4, read in the document).",
)
SOLDERED = (
    "Insulation not in the solder, and its gap less than two wire diameters; the wire's contour shows through "
    "(NASA-STD-8739.3, read in the document).",
    "Tie or glue the lead next to the pad: a pad is no mechanical anchor (common practice, no source).",
)


def handling_of(family: str, *, crimped: bool) -> Handling:
    """What the facts say about a family; `crimped`: contacts are crimped on here, too."""
    known = families.family(family)
    said = known.retention in _SEAT
    release = known.extraction if said and known.extraction else "how its contacts are released is not known"
    return Handling(
        family=family,
        release=release,
        seat=_SEAT.get(known.retention, "push the contact in until it clicks, tug gently"),
        reuse=_REUSE.get(known.retention, "Not known: take new parts."),
        source=f"{known.retention_source.text} ({known.retention_source.grade.words})",
        inspect=(*(_CRIMPED if crimped else ()), *_SEATED),
    )
