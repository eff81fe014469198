"""The verdict and the export, for a person at a terminal of 80 columns, without colour."""

from __future__ import annotations

from collections.abc import Sequence

from tabside.cli.printing.paragraphs import filled
from tabside.model.craft import Craft, Kind
from tabside.model.findings import Finding, Severity, Verdict, Where
from tabside.words.contacts import counted
from tabside.words.verdict import judged_line, last_line, not_judged_lines
from tabside.words.visible_text import visible

FOLDED_SHOWN = 6
LINK_ENDS = "end-kind"


def print_verdict(craft: Craft, verdict: Verdict) -> None:
    """All findings, the most harmful first, then how much was judged, then what to do next."""
    print(_title(craft))
    for severity in Severity:
        found = [f for f in verdict.findings if f.severity is severity and f.accepted is None]
        if severity is Severity.NOTE:
            _print_notes(found)
        else:
            for finding in found:
                print_finding(finding)
    _print_accepted([f for f in verdict.findings if f.accepted is not None])
    print()
    print(filled(judged_line(verdict.judged)))
    _print_not_judged(not_judged_lines(verdict))
    print(filled(last_line(verdict)))


NOT_JUDGED_SHOWN = 6


def _print_not_judged(lines: Sequence[str]) -> None:
    """Which wires were not checked; `--json` has all of them."""
    for line in lines[:NOT_JUDGED_SHOWN]:
        print(filled(line, "  ", "    "))
    if len(lines) > NOT_JUDGED_SHOWN:
        print(f"  and {len(lines) - NOT_JUDGED_SHOWN} more, all of them with --json")


def print_export(craft: Craft, verdict: Verdict, files: Sequence[str], to: str) -> None:
    print(_title(craft))
    print(f"\nWritten to {visible(to)}:")
    for file in files:
        print(f"  {file}")
    print()
    print(filled(judged_line(verdict.judged)))
    print(filled(last_line(verdict)))


def _title(craft: Craft) -> str:
    revision = f", revision {craft.revision}" if craft.revision else ""
    boards = len({t.board for t in craft.terminations.values() if t.kind not in (Kind.INLINE, Kind.SPLICE)})
    return filled(
        f"{craft.name}{revision} ({craft.drawing_hash}): {counted(boards, 'board')}, "
        f"{counted(len(craft.leads), 'wire')}, {counted(len(craft.cables), 'cable')}"
    )


def print_finding(finding: Finding) -> None:
    print()
    link = f"  {' - '.join(finding.link)}" if finding.link else ""
    print(filled(f"{finding.severity.upper()}  {finding.rule}{link}"))
    print(filled(finding.message, "  "))
    for folded in finding.folded[:FOLDED_SHOWN]:
        print(filled(folded.message, "    - ", "      "))
    if len(finding.folded) > FOLDED_SHOWN:
        print(f"    - and {len(finding.folded) - FOLDED_SHOWN} more")
    for line in _places(finding.where):
        print(filled(line, "  at ", "     "))
    if finding.fix:
        print(filled(finding.fix, "  fix ", "      "))


def _print_notes(notes: Sequence[Finding]) -> None:
    if not notes:
        return
    print()
    print("Notes")
    by_rule: dict[str, list[Finding]] = {}
    for note in notes:
        by_rule.setdefault(note.rule, []).append(note)
    for rule, found in by_rule.items():
        if rule != LINK_ENDS:
            more = f" And {len(found) - 1} more (--json lists all)." if len(found) > 1 else ""
            print(filled(f"{rule}: {found[0].message}{more}", "  ", "    "))
    links = by_rule.get(LINK_ENDS, [])
    if links:
        kinds = "; ".join(f"{kind}: {counted(len(ended), 'connection')}" for kind, ended in _by_kind(links).items())
        print(filled(f"How each connection is made: {kinds}.", "  ", "    "))


def _by_kind(links: Sequence[Finding]) -> dict[str, list[Finding]]:
    found: dict[str, list[Finding]] = {}
    for note in links:
        if note.short is not None:
            found.setdefault(note.short[0], []).append(note)
    return dict(sorted(found.items()))


def _print_accepted(accepted: Sequence[Finding]) -> None:
    if not accepted:
        return
    print()
    print("Accepted by the craft file")
    for finding in accepted:
        print(filled(f"{finding.rule}: {finding.message} Reason: {finding.accepted}", "  ", "    "))


def _places(where: Sequence[Where]) -> list[str]:
    """Each place once: contact, net, sheet and the spot on it."""
    lines = []
    for at in where:
        contact = f":{at.contact}" if at.contact is not None else ""
        words = ["/".join(word for word in (at.board, at.termination and f"{at.termination}{contact}") if word)]
        if at.net:
            words.append(f"net {at.net}")
        if at.place is not None:
            words.append(f"sheet {at.place.sheet} at {at.place.at_mm[0]:g}, {at.place.at_mm[1]:g} mm")
        lines.append(", ".join(word for word in words if word))
    return list(dict.fromkeys(lines))
