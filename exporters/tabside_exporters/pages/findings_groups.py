"""Findings gathered by link, as the findings page shows them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from tabside.model.craft import Craft
from tabside.model.findings import Finding, Severity, Verdict, Where
from tabside.model.natural import natural
from tabside.wiring.faces import contact_1_on_tabs
from tabside.words.contacts import link_name, listed, termination_name
from tabside.words.orientation import lies_in_words
from tabside_exporters.formats.cells import clean
from tabside_exporters.pages.findings_drawing import Drawing, LeadsAt, Mark, draw_link, leads_at

ACCEPTED = "accepted"
_SAID_OF_EVERY_LINK = "end-kind"
Numbered = tuple[int, Finding]


class Spot(Struct, frozen=True):
    """A termination that a finding names, and where to look for it."""

    name: str  # "camera/J22"
    reference: str  # to search for; "" for a board or net without a symbol
    sheet: str
    file: str
    contacts: tuple[str, ...]  # "contact 1 at 302.26, 170.18 mm, net +5V"


class Shown(Struct, frozen=True):
    """One finding on the page."""

    number: int
    kind: str  # severity, or "accepted"
    severity: str
    rule: str
    link: str
    message: str
    fix: str
    accepted: str
    folded: tuple[str, ...]
    spots: tuple[Spot, ...]
    boards: tuple[str, ...]

    @property
    def about(self) -> str:
        """Where it is, in a few words: the connection, else the first places that it names."""
        names = list(dict.fromkeys(spot.name for spot in self.spots if spot.name))
        return self.link or (listed(names, 3) if names else "")


class Group(Struct, frozen=True):
    """All findings of one link."""

    name: str
    findings: tuple[Shown, ...]
    drawing: Drawing | None
    quiet: bool  # nothing but how the link ends
    lies: tuple[str, ...] = ()  # where contact 1 of each plug is, in words


def groups_of(craft: Craft, verdict: Verdict) -> list[Group]:
    """Links in the order of their worst finding; the numbers of findings are the order to fix, over all links.

    What is accepted is no longer urgent: it comes after what is not, in its link and among links.
    """
    gathered: dict[tuple[str, str] | None, list[Numbered]] = {}
    for number, finding in numbered_findings(verdict):
        gathered.setdefault(finding.link, []).append((number, finding))
    loud = {link: found for link, found in gathered.items() if any(_says_more(finding) for _, finding in found)}
    quiet = {link: found for link, found in gathered.items() if link not in loud}
    leads = leads_at(craft)
    return [_group(craft, leads, link, found, link in quiet) for link, found in (*loud.items(), *quiet.items())]


def numbered_findings(verdict: Verdict) -> list[Numbered]:
    """All findings in the order to fix, with the numbers that the pages give them."""
    return list(enumerate(sorted(verdict.findings, key=_urgency), 1))


def _says_more(finding: Finding) -> bool:
    return finding.rule != _SAID_OF_EVERY_LINK


def _group(craft: Craft, leads: LeadsAt, link: tuple[str, str] | None, found: Sequence[Numbered], quiet: bool) -> Group:
    drawn = link is not None and all(reference in craft.terminations for reference in link)
    name = clean(link_name(craft, link)) if link is not None and drawn else "The craft as a whole"
    shown = tuple(_shown(craft, name if drawn else "", finding, n) for n, finding in found)
    marks = [mark for n, finding in found if _says_more(finding) for mark in _marks(finding, n)]
    drawing = draw_link(craft, leads, link, marks) if link is not None and drawn and not quiet else None
    lies = _lies(craft, link) if link is not None and drawn else ()
    return Group(name, shown, drawing, quiet, lies)


def _lies(craft: Craft, link: tuple[str, str]) -> tuple[str, ...]:
    ends = [craft.terminations[reference] for reference in dict.fromkeys(link)]
    said = [lies_in_words(craft, end, contact_1_on_tabs(end.entry, end.tabs, end.contact_1)) for end in ends]
    return tuple(clean(text) for text in said if text)


def _urgency(finding: Finding) -> int:
    return len(Severity) if finding.accepted is not None else finding.severity.rank


def _marks(finding: Finding, number: int) -> Iterator[Mark]:
    kind = finding.severity.value if finding.accepted is None else ACCEPTED
    places = [where for part in (finding, *finding.folded) for where in part.where]
    keys = dict.fromkeys((w.termination, w.contact) for w in places if w.termination and w.contact is not None)
    for reference, contact in keys:
        if reference is not None and contact is not None:
            yield Mark((reference, contact), kind, number)


def _shown(craft: Craft, link: str, finding: Finding, number: int) -> Shown:
    boards = {where.board for part in (finding, *finding.folded) for where in part.where if where.board}
    if finding.link is not None:
        boards |= {craft.terminations[ref].board for ref in finding.link if ref in craft.terminations}
    return Shown(
        number=number,
        kind=finding.severity.value if finding.accepted is None else ACCEPTED,
        severity=finding.severity.value,
        rule=finding.rule,
        link=link,
        message=clean(finding.message),
        fix=clean(finding.fix),
        accepted=clean(finding.accepted or ""),
        folded=tuple(clean(part.message) for part in finding.folded),
        spots=tuple(_spots(craft, finding)),
        boards=tuple(clean(board) for board in sorted(boards)),
    )


def _spots(craft: Craft, finding: Finding) -> Iterator[Spot]:
    """Places gathered by termination and sheet, in the order in which the finding names them."""
    gathered: dict[tuple[str, str, str, str], list[Where]] = {}
    for where in finding.where:
        place = where.place
        reference = where.termination or ""
        known = reference in craft.terminations
        name = termination_name(craft, reference) if known else reference or where.board or ""
        sheet, file = (place.sheet, place.file) if place else ("", "")
        gathered.setdefault((name, reference, sheet, file), []).append(where)
    for (name, reference, sheet, file), wheres in gathered.items():
        ordered = sorted(wheres, key=lambda where: natural(where.contact or ""))
        contacts = dict.fromkeys(clean(_contact(craft, where)) for where in ordered)
        yield Spot(clean(name), clean(reference), clean(sheet), clean(file), tuple(text for text in contacts if text))


def _contact(craft: Craft, where: Where) -> str:
    words = []
    if where.contact is not None:
        label = _label(craft, where)
        words.append(f"contact {where.contact}{f' ({label})' if label else ''}")
    if where.place is not None:
        words.append(f"at {where.place.at_mm[0]:g}, {where.place.at_mm[1]:g} mm")
    text = " ".join(words)
    return ", ".join(part for part in (text, f"net {where.net}" if where.net else "") if part)


def _label(craft: Craft, where: Where) -> str:
    termination = craft.terminations.get(where.termination or "")
    found = termination.contacts if termination is not None else ()
    return next((contact.label for contact in found if contact.number == where.contact), "")
