"""The checks: what is wrong with a craft, and how much of it could be judged."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.joined.joints import Joint
from tabside.analysis.judgement import Judgement
from tabside.analysis.judging.power_carried import carries_power
from tabside.analysis.meeting.outcome import Agreement, Cause
from tabside.analysis.places import at_contact
from tabside.model.craft import Craft
from tabside.model.findings import Finding, Judged, NotJudged, Verdict
from tabside.model.natural import natural
from tabside.rules.acceptance import with_acceptances
from tabside.rules.annotation import annotation
from tabside.rules.board_differs import board_differs
from tabside.rules.bus_merged import bus_merged
from tabside.rules.cable_hazard import cable_hazard
from tabside.rules.crowded import crowded
from tabside.rules.end_kind import end_kind
from tabside.rules.fuse_missing import fuse_missing
from tabside.rules.fuse_size import fuse_size
from tabside.rules.i2c_bus import i2c_bus
from tabside.rules.kicad_differs import kicad_differs
from tabside.rules.lead_chosen import lead_chosen, named_together
from tabside.rules.level_mismatch import level_mismatch
from tabside.rules.look_alike import look_alike
from tabside.rules.lost_signal import lost_signal
from tabside.rules.net_name import net_name
from tabside.rules.no_return import no_return
from tabside.rules.no_source import no_source
from tabside.rules.not_connected import not_connected
from tabside.rules.not_judged import not_judged
from tabside.rules.output_fed import output_fed
from tabside.rules.outputs_by_name import outputs_by_name
from tabside.rules.over_budget import over_budget
from tabside.rules.over_current import over_current
from tabside.rules.over_rating import over_rating
from tabside.rules.own_plug import own_plug
from tabside.rules.pack_contradicts import pack_contradicts
from tabside.rules.pack_low import pack_low
from tabside.rules.pack_shorted import pack_shorted
from tabside.rules.part_overloaded import part_overloaded
from tabside.rules.part_reversed import part_reversed
from tabside.rules.part_unread import not_fitted, part_unread
from tabside.rules.part_volts import part_volts
from tabside.rules.passed_on import passed_on
from tabside.rules.phase_open import phase_open
from tabside.rules.resistor_in_line import resistor_in_line
from tabside.rules.role_clash import role_clash
from tabside.rules.rule import Check
from tabside.rules.shield_fed import shield_fed
from tabside.rules.single_cause import single_cause
from tabside.rules.slack import slack
from tabside.rules.split_phases import split_phases
from tabside.rules.switch_bypassed import switch_bypassed
from tabside.rules.terminator import terminator
from tabside.rules.two_sources import two_sources
from tabside.rules.uart_not_crossed import uart_not_crossed
from tabside.rules.unknown_facts import (
    board_unknown,
    boards_unknown,
    families_unknown,
    family_unknown,
    length_unknown,
    view_unknown,
    views_unknown,
)
from tabside.rules.voltage_drop import voltage_drop
from tabside.rules.ways_mismatch import ways_mismatch
from tabside.rules.wire_in_contact import wire_in_contact
from tabside.rules.wire_loose import wire_loose

__all__ = ["ALL_CHECKS", "check_craft", "check_judgement"]

# In report order, for findings of equal harm.
ALL_CHECKS: tuple[Check, ...] = (
    annotation,
    board_differs,
    kicad_differs,
    single_cause,
    role_clash,
    net_name,
    shield_fed,
    own_plug,
    split_phases,
    pack_shorted,
    phase_open,
    bus_merged,
    terminator,
    i2c_bus,
    uart_not_crossed,
    two_sources,
    output_fed,
    outputs_by_name,
    not_judged,
    part_reversed,
    part_overloaded,
    part_volts,
    passed_on,
    resistor_in_line,
    no_return,
    level_mismatch,
    over_current,
    over_rating,
    ways_mismatch,
    crowded,
    wire_in_contact,
    slack,
    fuse_missing,
    wire_loose,
    named_together,
    fuse_size,
    switch_bypassed,
    no_source,
    over_budget,
    voltage_drop,
    not_connected,
    lost_signal,
    part_unread,
    not_fitted,
    cable_hazard,
    look_alike,
    pack_contradicts,
    pack_low,
    family_unknown,
    board_unknown,
    view_unknown,
    length_unknown,
    lead_chosen,
    end_kind,
)


def check_craft(craft: Craft) -> Verdict:
    """All findings of a craft, most harmful first and those of one link together, and how much was judged."""
    return check_judgement(Judgement(craft))


def check_judgement(judgement: Judgement) -> Verdict:
    """The same, of a craft that has been analysed: what comes after the checks is handed the same analysis."""
    craft = judgement.craft
    findings = with_acceptances(craft, [finding for check_ in ALL_CHECKS for finding in check_(judgement)])
    return Verdict(
        findings=tuple(_in_order(findings)), judged=_judged(judgement), not_judged=tuple(_leads_not_judged(judgement))
    )


def _in_order(findings: list[Finding]) -> list[Finding]:
    """By severity, then by harm over all rules: the order to fix them in; findings of equal harm by their link."""

    def key(finding: Finding) -> tuple[object, ...]:
        return (finding.severity.rank, -finding.harm, [natural(end) for end in finding.link or ()])

    return sorted(findings, key=key)


def _leads_not_judged(judgement: Judgement) -> Iterator[NotJudged]:
    """The leads that nothing decides, in mark order; of several joints of one lead the first says why."""
    why: dict[str, str] = {}
    for joint, found in judgement.outcomes.items():
        for mark in joint.leads:
            if _is_decided(judgement, joint, found):
                why[mark] = ""
            else:
                why.setdefault(mark, found.reason)
    for lead in judgement.craft.leads:
        reason = why.get(lead.mark, "no board's contact is connected through it")
        if reason:
            a, b = (at_contact(judgement.craft, judgement.craft.contact(key)) for key in lead.ends)
            yield NotJudged(lead.mark, (a, b), reason)


def _is_decided(judgement: Judgement, joint: Joint, found: Agreement) -> bool:
    """Text that speaks against a lead of power is a warning, and leaves open what it is."""
    return found.judged and not (found.cause is Cause.TEXT and carries_power(judgement, joint))


def _judged(judgement: Judgement) -> Judged:
    decided = {
        mark
        for joint, found in judgement.outcomes.items()
        if _is_decided(judgement, joint, found)
        for mark in joint.leads
    }
    leads = len(judgement.craft.leads)
    return Judged(
        leads=len(decided),
        not_judged=leads - len(decided),
        boards_unknown=len(boards_unknown(judgement)),
        families_unknown=len(families_unknown(judgement)),
        views_unknown=len(views_unknown(judgement)),
        chosen=sum(1 for lead in judgement.craft.leads if lead.how == "chosen"),
    )
