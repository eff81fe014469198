"""What both craft files state: the pack, limits, protections, and what findings they accept.

Two builds of the same leads are not the same build where one of these differs: a pack of six cells burns what stood
on four.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from tabside.compare.changes.change import ADDED, CHANGED, REMOVED, Change, changed_fact
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import Side
from tabside.model.craft import ContactKey, Limits
from tabside.model.findings import Finding

_KEY_OF_LIMIT = {  # in the craft file, where it is not in its table of limits
    "ampacity": "wire.ampacity",
    "ampacity_factor": "wire.ampacity_factor",
    "wire_c": "wire.temperature_c",
    "insulation_mm": "wire.insulation_od_mm",
}
_PACK = "Another pack: check that each board and part on it stands what it reaches, before it is plugged in."
_PACK_STATED = "Stated for the first time: see that it is the pack you have."
_PACK_NOT_STATED = "No longer stated: what its volts reach is not checked any more."


def changes_of_craft_files(rebuild: Rebuild) -> Iterator[Change]:
    """What both craft files state of the pack, limits and protections."""
    old, new = rebuild.old, rebuild.new
    settings = old.craft.settings, new.craft.settings
    packs = [stated.battery_text or str(stated.battery or "") for stated in settings]
    if settings[0].battery != settings[1].battery:
        known = all(stated.battery is not None for stated in settings)
        bench = _PACK if known else _PACK_STATED if settings[1].battery is not None else _PACK_NOT_STATED
        if packs[0] == packs[1]:  # its volts are stated otherwise
            packs = [f"{words}, {stated.battery}" for words, stated in zip(packs, settings, strict=True)]
        yield changed_fact("battery", packs[0], packs[1], bench)
    for name in Limits.__struct_fields__:
        before, after = (getattr(stated.limits, name) for stated in settings)
        if before != after:
            words = "What numbers are held against: check the craft again."
            yield changed_fact(
                _KEY_OF_LIMIT.get(name, f"limits.{name}"), _limit_words(before), _limit_words(after), words
            )
    yield from _changes_of_protections(rebuild)


def _limit_words(stated: str | float | Mapping[int, float]) -> str:
    """ "80", "handbook_chassis", "28 AWG 0.9 mm, 30 AWG 0.7 mm"; "" for nothing."""
    match stated:
        case str():
            return stated
        case Mapping():
            return ", ".join(f"{gauge} AWG {od_mm:g} mm" for gauge, od_mm in sorted(stated.items()))
        case _:
            return f"{stated:g}"


def changes_of_acceptances(rebuild: Rebuild, findings: Iterable[Finding]) -> Iterator[Change]:
    """Acceptances of the craft file that came, went, or give another reason; `findings`: of the new drawing."""
    old, new, matching = rebuild
    accepting = set(_accepted(findings))
    known_new = _keys(new)
    before = {
        (acceptance.rule, frozenset(matching.key(key) or key for key in acceptance.at)): acceptance
        for acceptance in old.craft.settings.accept
    }
    after = {(acceptance.rule, frozenset(acceptance.at)): acceptance for acceptance in new.craft.settings.accept}
    for key, acceptance in before.items():
        name = f"{acceptance.rule} at {_places(old, acceptance.at)}"
        now = after.get(key)
        if now is None:
            bench = "Withdrawn: what it accepted counts again; look at the findings."
            yield Change(REMOVED, "acceptance", name, acceptance.reason, None, bench)
        elif set(acceptance.at) <= _keys(old) and not set(now.at) <= known_new:
            bench = "Withdrawn: a contact that it names is no longer there; take it out of the craft file."
            yield Change(REMOVED, "acceptance", name, acceptance.reason, None, bench)
        elif now.reason != acceptance.reason:
            bench = "The same finding for another reason: read it."
            yield Change(CHANGED, "acceptance", name, acceptance.reason, now.reason, bench)
    for key, acceptance in after.items():
        if key not in before:
            there = set(acceptance.at) <= known_new
            bench = "Accepted now: read the reason before you build on it."
            if not there:
                bench = "It accepts nothing: a contact that it names is not there."
            elif (acceptance.rule, acceptance.reason) not in accepting:
                bench = "It accepts nothing: there is no such finding at exactly these contacts."
            name = f"{acceptance.rule} at {_places(new, acceptance.at)}"
            yield Change(ADDED, "acceptance", name, None, acceptance.reason, bench)


def _accepted(findings: Iterable[Finding]) -> Iterator[tuple[str, str]]:
    """Rule and reason of each that is accepted, those within another one too."""
    for finding in findings:
        if finding.accepted is not None:
            yield finding.rule, finding.accepted
        yield from _accepted(finding.folded)


def _places(side: Side, keys: Iterable[ContactKey]) -> str:
    known = _keys(side)
    return " and ".join(side.contact_name(key) if key in known else ":".join(key) for key in keys)


def _changes_of_protections(rebuild: Rebuild) -> Iterator[Change]:
    old, new, matching = rebuild
    before = {
        (matching.key(protection.at) or protection.at, protection.what): protection
        for protection in old.craft.settings.protections
    }
    after = {(protection.at, protection.what): protection for protection in new.craft.settings.protections}
    for key, protection in before.items():
        if key not in after:
            yield Change(
                REMOVED,
                "fact",
                f"protection at {':'.join(protection.at)}",
                protection.what,
                None,
                "No longer stated: the wires behind it are protected by nothing else than what is drawn.",
            )
    for key, protection in after.items():
        if key not in before:
            bench = "Fit it, or see that it is there, before power."
            yield Change(ADDED, "fact", f"protection at {':'.join(protection.at)}", None, protection.what, bench)


def _keys(side: Side) -> set[ContactKey]:
    return {contact.key for termination in side.terminations.values() for contact in termination.contacts}
