"""What is chosen is said.  Which other wires would do: by trying them, see tests/wiring/leads/test_alternatives.py."""

from __future__ import annotations

from crafts.craft_kit import craft, lead_ends, pads, plug, power
from crafts.finding_kit import all_findings, findings_of
from tabside.documents.as_json.verdict import verdict_json
from tabside.model.findings import Severity
from tabside.rules import check_craft
from tabside.rules.lead_chosen import lead_chosen, named_together


def board(reference, nets, signals, name, kind=plug):
    return kind(reference, nets, signals=signals, board=name)


STAR = [
    board("J1", "GND GND", "GND GND", "hub"),
    board("J2", "GND", "GND", "a"),
    board("J3", "GND", "GND", "b"),
    power("GND"),
]


def test_what_is_chosen_is_one_note_with_what_would_do_as_well():
    (found,) = findings_of(lead_chosen, *STAR)
    assert found.severity is Severity.NOTE
    assert "2 wires of 2 are chosen" in found.message and "hub/J1:2 (GND) - a/J2:1 (GND)" in found.message


def test_nothing_is_said_where_there_is_no_choice():
    hub = pads("J1", "GND", signals="GND", board="hub")
    assert not findings_of(lead_chosen, hub, *STAR[1:3], runs=[("J1:1", "J2:1"), ("J1:1", "J3:1")])
    assert not findings_of(lead_chosen, STAR[1], STAR[2])


def test_the_alternatives_are_in_the_json():
    made = craft(*STAR)
    chosen = verdict_json(made, check_craft(made))["chosen"]
    assert [each["lead"] for each in chosen] == ["W1", "W2"]
    first = [tuple((end["termination"], end["contact"]) for end in ends) for ends in chosen[0]["others"]]
    assert (("J1", 2), ("J2", 1)) in first


def test_a_craft_with_a_power_symbol_at_each_contact_has_no_warning():
    assert all(each.severity is Severity.NOTE for each in all_findings(*STAR) if each.rule != "board-unknown")


def test_two_rails_that_only_a_name_joins():
    boards = [
        board("J1", "GND", "GND", "a", pads),
        board("J2", "GND", "GND", "b", pads),
        board("J3", "GND", "GND", "c", pads),
        board("J4", "GND", "GND", "d", pads),
    ]
    runs = [("J1:1", "J2:1"), ("J3:1", "J4:1")]
    (found,) = findings_of(named_together, *boards, runs=runs)
    assert found.severity is Severity.WARNING and "J1:1 (GND) - c/J3:1 (GND)" in found.message
    assert lead_ends(craft(*boards, runs=runs)) == {"J1:1 - J2:1", "J3:1 - J4:1", "J1:1 - J3:1"}


def test_rails_that_a_board_joins_are_not_joined_by_name_alone():
    boards = [
        board("J1", "GND", "GND", "a"),
        board("J2", "GND", "GND", "b"),
        board("J3", "GND", "GND", "a"),
        board("J4", "GND", "GND", "c"),
    ]
    assert not findings_of(named_together, *boards, runs=[("J1:1", "J2:1"), ("J3:1", "J4:1")])


def test_two_grounds_of_a_plug_wired_together_are_no_rail():
    boards = [
        board("J1", "GND GND", "GND GND", "a"),
        board("J2", "GND GND", "GND GND", "b"),
        board("J3", "GND GND", "GND GND", "c"),
    ]
    assert not findings_of(named_together, *boards, runs=[("J1:1", "J1:2"), ("J2:1", "J2:2"), ("J3:1", "J3:2")])


def test_a_can_chain_by_labels_alone_has_its_three_cables():
    # Both plugs of four boards; CAN, ground and supply by name.  Chains of boards: common practice, no source.
    names = "5V CAN_H CAN_L GND"
    boards = [plug(f"J{2 * n + k}", "V H L GND", signals=names, board=f"board {n}") for n in range(4) for k in (1, 2)]
    supply = [
        pads("J20", "V GND", signals="5V GND", board="supply", leads_max=8),
        *(pads(f"J{20 + n}", "V GND", signals="5V GND", board=f"board {n - 1}") for n in range(1, 5)),
    ]
    for more, runs in ((), ()), (supply, [(f"J20:{k}", f"J{20 + n}:{k}") for n in range(1, 5) for k in (1, 2)]):
        made = craft(*boards, *more, power("GND"), runs=runs)
        assert not made.crowded
        links = {link.ends: len(link.leads) for link in made.links if "J20" not in link.ends}
        assert len(links) == 3 and set(links.values()) == {4}
    assert len({board for ends in links for board in ends}) == 6
