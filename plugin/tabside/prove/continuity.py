"""What to measure before power, cable by cable, in the order in which a person does it."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.lead_ends import EndKind, MadeLead, WireFrom
from tabside.analysis.meeting.part_plugs import brings_battery
from tabside.documents.build import Build
from tabside.facts.wire import gauge_text
from tabside.prove.landmarks import landmarks
from tabside.prove.limits import limit_of, reading_words
from tabside.prove.measurement import BARE, Bench, Measurement, Test
from tabside.prove.open_pairs import must_be_open
from tabside.prove.parts import before_the_battery, inline_parts, pack_volts
from tabside.words.contacts import link_name
from tabside.words.lengths import tenths_up

_METER = "The meter itself"


def continuity(build: Build) -> tuple[Measurement, ...]:
    """All measurements.

    The meter first; then each cable: its leads, what must be open, landmarks; then leads without a plug, in-line parts,
    and what comes last before the battery.
    """
    return tuple(_all(Bench(build.craft, {made.lead.mark: made for made in build.leads})))


def _all(bench: Bench) -> Iterator[Measurement]:
    yield Measurement(
        _METER, Test.METER, (), "one probe", "the other probe",
        "sounds; write the reading down", note="take this reading off each one below",
    )  # fmt: skip
    craft = bench.craft
    packs: set[str] = set()  # whose volts are measured already
    for cable in craft.cables:
        group = f"Cable {cable.mark}: {', '.join(bench.termination_name(end) for end in cable.ends)}"
        leads = [bench.made[mark] for mark in cable.leads]
        yield from _leads(bench, group, leads, packs)
        yield from must_be_open(bench, group, cable, leads)
        yield from landmarks(bench, group, cable)
    for link in craft.links:
        loose = [bench.made[lead.mark] for lead in link.leads if lead.cable is None]
        if loose:
            yield from _leads(bench, f"Leads {link_name(craft, link.ends)}", loose, packs)
    yield from inline_parts(bench)
    yield from before_the_battery(bench)


def _leads(bench: Bench, group: str, leads: list[MadeLead], packs: set[str]) -> Iterator[Measurement]:
    for made in leads:
        pack = next((ref for ref, _ in made.lead.ends if brings_battery(bench.craft.terminations[ref])), None)
        if pack is not None and pack not in packs:
            packs.add(pack)
            yield pack_volts(bench, group, pack)
        if made.wire_from is not WireFrom.CAPTIVE:
            yield _lead(bench, group, made)
        elif pack is None:
            yield _by_eye(bench, group, made)


def _lead(bench: Bench, group: str, made: MadeLead) -> Measurement:
    limit = limit_of(made)
    bare = sum(end.kind in BARE for end in made.ends)
    notes = ["before its bare end is soldered"] * (bare == 1) + ["before its bare ends are soldered"] * (bare == 2)
    if made.wire_from is WireFrom.MADE:
        notes.append("a ready-made cable: measure its shells or shields too")
    if limit.ohm is not None and made.lead.gauge_awg is not None:
        notes.insert(
            0, f"{gauge_text(made.lead.gauge_awg)} AWG, {tenths_up(made.lead.length_mm):g} mm"
        )  # what the limit rests on
    start, end = (bench.probe(made.lead.mark, key) for key in made.lead.ends)
    return Measurement(
        group, Test.LEAD, (made.lead.mark,), start, end, reading_words(limit.ohm),
        limit_ohm=limit.ohm, has_limit=True, note="; ".join((*notes, *limit.notes)),
    )  # fmt: skip


def _by_eye(bench: Bench, group: str, made: MadeLead) -> Measurement:
    """A lead that begins inside a part has no second end for a probe."""
    inside = [end.key for end in made.ends if end.kind is EndKind.OWN] or [made.lead.a]
    start = inside[0]
    end = made.lead.b if start == made.lead.a else made.lead.a
    return Measurement(
        group, Test.EYE, (made.lead.mark,), bench.name(start), bench.name(end),
        "this lead of the part sits there", note="begins inside the part: no end-to-end reading, no limit",
    )  # fmt: skip
