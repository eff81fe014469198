"""What keeps the work from being begun: a new drawing with errors, or one of which nobody knows where power comes."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.compare.comparison import Comparison, cleared_words
from tabside.compare.fates.cable_fate import CableFate
from tabside.model.craft import ContactKey
from tabside.model.findings import Finding, Severity

NOT_YET = "Not yet"
_NOTHING = (
    "Nothing of this list is to be done yet: it is what would follow from the drawing as it stands, and it changes "
    "when the drawing is fixed. Leave the craft as it is."
)


def not_yet(found: Comparison) -> str:
    """Why nothing is to be done yet; "" where the work may begin, or where there is none."""
    return "" if found.cleared or found.same else _NOTHING


def why_not_yet(found: Comparison) -> str:
    """The same after what stands in the way of building; that alone where there is no work."""
    return " ".join(filter(None, (cleared_words(found), not_yet(found))))


def held_prefix(found: Comparison) -> str:
    """Before what is not to be done yet."""
    return f"{NOT_YET}: " if not_yet(found) else ""


def title_of(found: Comparison, title: str) -> str:
    """Of a list of things to do."""
    prefix = held_prefix(found)
    return f"{prefix}{title[0].lower()}{title[1:]}" if prefix else title


def errors_at(found: Comparison, fate: CableFate) -> tuple[Finding, ...]:
    """The errors of the new drawing that touch a cable, by their contacts and what these are joined with."""
    if not not_yet(found):
        return ()
    mine = set(_contacts(found, fate))
    return tuple(
        finding
        for finding in found.verdict.findings
        if finding.severity is Severity.ERROR and finding.accepted is None and mine & set(_reached(found, finding))
    )


def held_words(found: Comparison, fate: CableFate) -> tuple[str, ...]:
    """For the cable's sheet."""
    if not not_yet(found):
        return ()
    errors = errors_at(found, fate)
    if not errors:
        return (f"{NOT_YET}: nothing on this sheet is to be done before the new drawing is cleared.",)
    return tuple(f"{NOT_YET}: an error touches this cable. {finding.rule}: {finding.message}" for finding in errors)


def _contacts(found: Comparison, fate: CableFate) -> Iterator[ContactKey]:
    """In words of the new drawing."""
    if fate.new is not None:
        for mark in fate.new.leads:
            yield from found.new.by_mark[mark].ends
    if fate.old is not None:
        for mark in fate.old.leads:
            for key in found.old.by_mark[mark].ends:
                now = found.matching.key(key)
                if now is not None:
                    yield now


def _reached(found: Comparison, finding: Finding) -> Iterator[ContactKey]:
    """Its contacts, of a whole connector all, and what is on the same nets; ground is everywhere, and says nothing."""
    for at in finding.where:
        own = found.new.terminations.get(at.termination or "")
        for contact in own.contacts if own is not None else ():
            if at.contact in (None, contact.number):
                yield contact.key
                if at.contact is not None and not contact.role.is_ground:
                    yield from found.new.nets[contact.net_id]
