"""What a part that only passes its supply on lets through to boards made for less."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import product

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Cause
from tabside.analysis.places import at_contacts
from tabside.analysis.supplies import IN_NAME, LOAD_NAME, OUT_NAME, board_of
from tabside.facts.labels.text import clean_label
from tabside.model.craft import Contact, Kind
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import name_of

# Words of a board's name or Value that say that it changes no volts.  Common practice, no source.
_PASSES_ON = re.compile(
    r"\bideal|\bor-?ing|diode|anti-?spark|\bspark|\bfuse|breaker|switch|\brelay|\bbms\b|protect|\bfilter|\bmeter|shunt"
    r"|power.?module|current.?sens|distribut|\bpdb\b",
    re.IGNORECASE,
)
_PROTECTION = ({"B+", "B-"}, {"P+", "P-"})  # of a pack's protection: the pack, and what it feeds
_PACK = r"V?BAT(?:T(?:ERY)?)?[+]?|B[+]"  # of a charge controller, whose loads get the pack's volts
_CONVERTS = re.compile(r"\bbec|buck|boost|convert|regul|step", re.IGNORECASE)


@check("over-voltage", "under-voltage", severity=Severity.WARNING)
def passed_on(judgement: Judgement) -> Iterator[Finding]:
    """What goes into a switch, a protection or an ideal diode comes out of it with the same volts.

    Such a part states nothing, so that no volts are known behind it: a pack of too many cells would burn what it feeds.
    Example: a pack of 12S into an ideal diode, and a load of 10-17V at its OUT+.

    Fix: feed it from a pack that the loads behind it stand, or state Gives and Takes where the part changes the volts.
    Accept: a part that makes other volts than it gets.
    Passes: a part that states Gives or Takes; converters; loads that stand what goes in.
    Warns: a source on B+ of a protection, or on IN of a part called a switch, fuse, diode, filter or meter, that would
    clash with what stands on its P+ or OUT; a pack on BAT of a charge controller, with what stands on its LOAD.  The
    verdict is then "not decided".
    Source: logic; the names are common practice, no source.
    """
    for board, ends in judgement.terminations_of_board.items():
        contacts = [c for end in ends if end.kind is not Kind.SPLICE for c in end.contacts if c.key in judgement.joined]
        if any(contact.gives or contact.takes or contact.either for contact in contacts if contact.role.is_supply):
            continue
        words = " ".join((board, *(end.value for end in ends)))
        for way_in, way_out in _ways_through(contacts, words):
            yield from _let_through(judgement, board, way_in, way_out)


def _ways_through(contacts: Sequence[Contact], words: str) -> Iterator[tuple[Contact, Contact]]:
    """Each supply contact that is an input, with each that only passes it on."""
    names = {contact.key: clean_label(contact.label).plain for contact in contacts}
    ways = [(_PACK, LOAD_NAME)]
    if all(pair & set(names.values()) for pair in _PROTECTION):
        ways.append(("B[+]", "P[+]"))
    if _PASSES_ON.search(words) and not _CONVERTS.search(words):
        ways.append((IN_NAME, OUT_NAME))
    supplies = [contact for contact in contacts if contact.role.is_supply]
    found = {
        (way_in.key, way_out.key): (way_in, way_out)
        for called_in, called_out in ways
        for way_in, way_out in product(
            *([c for c in supplies if re.fullmatch(called, names[c.key])] for called in (called_in, called_out))
        )
    }
    yield from found.values()


def _let_through(judgement: Judgement, board: str, way_in: Contact, way_out: Contact) -> Iterator[Finding]:
    craft, runs, members = judgement.craft, judgement.whole_runs, judgement.whole_members
    before, behind = (
        [c for c in members[runs[way.net_id]] if board_of(craft, c) != board and c.role.is_supply]
        for way in (way_in, way_out)
    )
    for source in before:
        for met in behind if source.gives or source.role.battery else ():
            found = judgement.agree(source, met)
            if found.clashes:
                yield Finding(
                    rule="under-voltage" if found.cause is Cause.UNDER else "over-voltage",
                    severity=Severity.WARNING,
                    message=f"{name_of(craft, source)} comes through {name_of(craft, way_in)} and"
                    f" {name_of(craft, way_out)} to {name_of(craft, met)}: {found.reason}.",
                    fix=f"Feed {board} from what {name_of(craft, met)} stands, or state Gives at"
                    f" {name_of(craft, way_out)} where it makes other volts.",
                    where=at_contacts(craft, [source, way_in, way_out, met]),
                    harm=harm.TOO_MANY_VOLTS,
                    undecided=1,
                )
