"""How contacts of a family are released and seated, when one may be used again, and what to look at afterwards."""

from __future__ import annotations

from collections.abc import Iterable

from tabside.facts import families
from tabside.make.needs.crimping import crimp_lines
from tabside.make.sheets.cable_plan import Action, CablePlan, Handling

_SEAT = {
    "housing_lance": "bend the plastic lance back into its place, push the contact in until it clicks, tug gently",
    "lance_or_tang": "look first which of the two it is: press a plastic lance back, or re-form a metal tang; push the "
    "contact in until it clicks, tug gently",
    "contact_tang": "re-form the tang, push the contact in until it clicks, tug gently",
}
_REUSE = {
    "housing_lance": "The lance is part of the housing: when it does not spring back, take a new housing. After two "
    "extractions fit a new contact (common practice, no source).",
    "lance_or_tang": "A lance is part of the housing, a tang part of the contact: a new one of what does not "
    "spring back. After two extractions fit a new contact (common practice, no source).",
    "contact_tang": "Re-form the locking tang before the contact goes back (car makers' manuals by trade pages). "
    "After two extractions fit a new contact (common practice, no source).",
}
EVERY_CONTACT = (
    "Push, click and a gentle pull on every contact; one push test for each insertion (NASA-STD-8739.4 13.8.2, read "
    "in the document; the click: common practice, no source).",
    "Pull-test a spare crimp to destruction; tug a good one gently, at most 10.7 N for 26 AWG, less for thinner wire "
    "(80 % of the least that a crimp must hold: NASA-STD-8739.4, page 70; TE 114-2157).",
    "Leave unused cavities empty (common practice, no source).",
)
EVERY_CRIMP = (
    "Conductor flush with the end of the conductor crimp, or beyond it by at most one wire diameter; insulation ends "
    "midway between the two crimps (NASA workmanship pages, read in the document).",
    "A damaged contact is cut off and replaced, never crimped again (TE 114-2157, read in the document).",
    "Stranded wire only: neither solid nor tinned strands are crimped (NASA-STD-8739.4 4.3.4, read in the document).",
)
EVERY_JOINT = (
    "Insulation not in the solder, and its gap less than two wire diameters; the wire's contour shows through "
    "(NASA-STD-8739.3, read in the document).",
    "Tie or glue the wire next to the pad: a pad is no mechanical anchor (common practice, no source).",
)
RELEASE_NOT_KNOWN = "how its contacts are released is not known"


def handling_of(family: str) -> Handling:
    """What the facts say about a family."""
    known = families.family(family)
    said = known.retention in _SEAT
    release = known.extraction if said and known.extraction else RELEASE_NOT_KNOWN
    return Handling(
        family=family,
        title=known.title,
        release="; ".join([release, *_where_released(family)]),
        crimp=tuple(crimp_lines(family)),
        seat=_SEAT.get(known.retention, "push the contact in until it clicks, tug gently"),
        reuse=_REUSE.get(known.retention, "Not known: take new parts."),
        source=known.retention_source.words,
    )


def _where_released(family: str) -> list[str]:
    """By which face, and what to look at first, where the tables say so."""
    face = families.release_face(family)
    if face is None:
        return []
    said = [f"released through {face.face} ({face.source.grade.words})"] if face.face else []
    looks = face.look and face.look_when == "release" and families.family(family).retention != "lance_or_tang"
    return [*said, face.look] if looks else said


def workmanship(cables: Iterable[CablePlan]) -> tuple[str, ...]:
    """What to look at in all finished work of these kinds, once for all sheets; each with its source."""
    actions = {step.action for cable in cables for step in cable.steps}
    said: list[str] = []
    if Action.CRIMP in actions:
        said += EVERY_CRIMP
    if Action.PUT_IN in actions:
        said += EVERY_CONTACT
    if Action.SOLDER in actions:
        said += EVERY_JOINT
    return tuple(said)
