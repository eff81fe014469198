"""Findings that the craft file accepts, with their reason."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from tabside.model.craft import Acceptance, ContactKey, Craft
from tabside.model.findings import Finding, Severity, Where
from tabside.words.contacts import listed, termination_name

ACCEPT_RULE = "accept"
LEAD_BY_LEAD = frozenset(("not-judged",))  # findings that gather leads, each of which is accepted by itself
OF_A_CONNECTION = frozenset(("no-return",))  # findings of a whole connection, for which any two of its contacts stand


def with_acceptances(craft: Craft, findings: Iterable[Finding]) -> list[Finding]:
    """Each acceptance in the craft file is for a finding that there is.

    A finding is accepted when the acceptances of its rule name all of its contacts: several pairs that one finding
    gathers need an acceptance each, or one with all of their contacts.  For a missing ground, which is of a whole
    connection, any two of its contacts will do.  One with a single contact matches only what
    names that contact alone, so that it does not hide a later fault there.  One that matches nothing is left over
    from an older drawing, or misspelt: then the finding that it was meant for still stands.  Example: an acceptance of
    two contacts that were since drawn elsewhere.

    Fix: take the acceptance out of the craft file, or give the rule and all contacts as the finding names them.
    Accept: it is a note.
    Passes: two acceptances of one pair each, for one finding that gathers both pairs.
    Notes: an acceptance without a finding; one that names some of a finding's contacts and not the others.
    Source: logic.
    """
    left = list(craft.settings.accept)
    used: set[int] = set()
    short: dict[int, set[ContactKey]] = {}  # contacts of a finding that an acceptance, and its like, do not name
    result = []
    for finding in findings:
        named = _contacts(finding)
        matching = {n: set(acceptance.at) for n, acceptance in enumerate(left) if _matches(acceptance, finding, named)}
        missing = set() if finding.rule in OF_A_CONNECTION else named.difference(*matching.values())
        if matching and not missing:
            used |= matching.keys()
            reasons = dict.fromkeys(left[n].reason for n in matching)
            finding = replace(finding, accepted="; ".join(reasons))
        short.update(dict.fromkeys(matching, missing))
        result.append(finding)
    return result + [
        _unused(craft, acceptance, short.get(n, set())) for n, acceptance in enumerate(left) if n not in used
    ]


def _contacts(finding: Finding) -> set[ContactKey]:
    return {(w.termination, w.contact) for w in finding.where if w.termination is not None and w.contact is not None}


def _matches(acceptance: Acceptance, finding: Finding, named: set[ContactKey]) -> bool:
    """Whether it speaks of this finding, though perhaps not of all of it."""
    if acceptance.rule != finding.rule or not acceptance.at:
        return False
    at = set(acceptance.at)
    return at == named if len(at) == 1 or acceptance.rule in LEAD_BY_LEAD else at <= named


def _unused(craft: Craft, acceptance: Acceptance, missing: set[ContactKey]) -> Finding:
    what = f"The craft file accepts {acceptance.rule} at {_places(craft, acceptance.at)}, and "
    if missing:
        what += (
            f"the finding there is of more contacts: it stands until {_places(craft, sorted(missing))} are named, too."
        )
        fix = "Fix what is wrong there, or name these contacts in the acceptance, too, if that is what you want."
    else:
        what += "there is no such finding."
        fix = "Take the acceptance out of the craft file, or give the rule and all contacts as the finding names them."
    return Finding(
        rule=ACCEPT_RULE,
        severity=Severity.NOTE,
        message=what,
        fix=fix,
        where=tuple(_where(craft, key) for key in acceptance.at),
    )


def _where(craft: Craft, key: ContactKey) -> Where:
    termination = craft.terminations.get(key[0])
    return Where(termination.board if termination else None, *key)


def _places(craft: Craft, keys: Sequence[ContactKey]) -> str:
    """As the craft file writes them, and all of them: they are to be copied."""
    names = {key[0]: termination_name(craft, key[0]) if key[0] in craft.terminations else key[0] for key in keys}
    return listed([f"{names[reference]}:{number}" for reference, number in keys], most=len(keys))
