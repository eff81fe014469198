"""Crimp contacts and the gauges that they take."""

from __future__ import annotations

import pytest

from tabside.facts.contacts import all_contacts, contact_amps, contact_parts


@pytest.mark.parametrize(
    ("family_id", "number", "thinnest", "thickest", "od_min_mm", "od_max_mm"),
    [
        ("jst_sh", "SSH-003T-P0.2-H", 32, 28, 0.4, 0.8),  # JST "SH CONNECTOR" datasheet (2024-10-04)
        ("jst_gh", "SSHL-002T-P0.2", 30, 26, 0.76, 1.0),  # JST GH product page, quoted
        ("jst_vh", "SVH-21T-P1.1", 22, 18, 1.7, 3.0),  # JST eVH pages 1-4, quoted
    ],
)
def test_a_contact_has_the_range_of_its_document(family_id, number, thinnest, thickest, od_min_mm, od_max_mm):
    contact = next(part for part in contact_parts(family_id) if part.number == number)
    assert (contact.thinnest_awg, contact.thickest_awg) == (thinnest, thickest)
    assert (contact.od_min_mm, contact.od_max_mm) == (od_min_mm, od_max_mm)


@pytest.mark.parametrize(
    ("gauge_awg", "takes"),
    [(26, False), (28, True), (30, True), (32, True), (34, False)],
)
def test_a_contact_takes_the_gauges_between_its_bounds(gauge_awg, takes):
    (contact,) = contact_parts("jst_sh")
    assert contact.takes(gauge_awg) is takes


def test_an_unknown_range_is_neither_yes_nor_no():
    assert {contact.takes(22) for contact in contact_parts("jst_sm")} == {None}


def test_the_contacts_for_a_gauge():
    # JST eXH, quoted: SXH-002T for AWG 30-26, SXH-001T for 28-22, SXH-001T-N for 26-22.
    made_for = {
        gauge: [contact.number for contact in contact_parts("jst_xh") if contact.takes(gauge)] for gauge in (30, 24)
    }
    assert made_for == {30: ["SXH-002T-P0.6"], 24: ["SXH-001T-P0.6N", "SXH-001T-P0.6"]}


def test_a_family_without_a_row_of_contacts_keeps_its_bare_numbers():
    assert "2759" in [contact.number for contact in contact_parts("molex_kk_254")]
    assert contact_parts("jst_ze") == ()


def test_awg_bounds_count_backwards():
    for contact in all_contacts():
        if contact.thinnest_awg is not None:
            assert contact.thickest_awg is not None
            assert contact.thickest_awg <= contact.thinnest_awg


@pytest.mark.parametrize(
    ("number", "family_id", "thinnest", "thickest", "od_max_mm"),
    [
        ("SVH-41T-P1.1", "jst_vh", 20, 16, None),  # JST eVH pages 1-3, quoted
        ("SXA-01T-P0.6", "jst_xa", 24, 20, None),  # J.S.T. UK crimp specification, quoted
        ("43030-0038", "molex_microfit_300", 18, 18, 1.85),  # Molex ATS-638280200, quoted
        ("43030-0010", "molex_microfit_300", 30, 26, 1.85),  # Molex PS-43045 rev M8 4.2 for the diameter
    ],
)
def test_contacts_that_were_added(number, family_id, thinnest, thickest, od_max_mm):
    part = next(part for part in contact_parts(family_id) if part.number == number)
    assert (part.thinnest_awg, part.thickest_awg, part.od_max_mm) == (thinnest, thickest, od_max_mm)


def test_pull_out_strip_and_tools_are_those_of_the_sheets():
    parts = {part.number: part for part in all_contacts()}
    # JST WC-110 sheet, quoted on a public page: SXH-001T-P0.6.
    assert parts["SXH-001T-P0.6"].pull_min_n == {22: 39.2, 24: 29.4, 26: 19.6, 28: 9.8}
    assert parts["SXH-001T-P0.6"].extraction_tool == "XJ-06"
    # UL 486A, quoted on the same page: 8 lbf (35.6 N) for 22 AWG; the maker asks for more.
    assert parts["SXH-001T-P0.6"].pull_min_n[22] > 8 * 4.4482
    # J.S.T. UK crimp specification SPH-002T-P0.5L, quoted.
    assert parts["SPH-002T-P0.5L"].pull_min_n == {24: 29.4, 26: 19.6, 28: 14.7}
    # Molex ATS-639018900-001, quoted.
    assert parts["43030-0001 / -0007"].strip_mm == (2.54, 2.92)
    assert parts["50079-8000"].strip_mm is None
    assert "63827-1400" in parts["50079-8000"].hand_tool


@pytest.mark.parametrize(
    ("family_id", "awg", "loaded", "amps"),
    [
        ("jst_vh", 16, 2, 10.0),  # JST eVH, quoted: 10 A at AWG 16, 7 A at AWG 18
        ("jst_vh", 18, 2, 7.0),
        ("jst_vh", 17, 2, 7.0),  # no row: that of the next thinner size
        # Molex PS-171856-0001 A2 section 3.2, one circuit.
        ("molex_kk_254", 22, 1, 4.00),
        ("molex_kk_254", 24, 1, 3.75),
        ("molex_kk_254", 26, 1, 3.50),
        ("molex_kk_254", 28, 1, 3.00),
        # AMP catalogue, Commercial MATE-N-LOK, all circuits energised: a rating falls by half when a plug is full.
        ("te_matenlok_093", 18, 2, 11.0),
        ("te_matenlok_093", 18, 15, 5.0),
        ("te_matenlok_093", 18, 3, 5.0),
    ],
)
def test_a_contact_carries_by_gauge_and_by_how_many_carry(family_id, awg, loaded, amps):
    found = contact_amps(family_id, awg, loaded)
    assert found is not None and found.value == amps and not found.below


def test_a_gauge_or_a_loading_beyond_the_rows_is_not_made_up():
    assert contact_amps("jst_sh", 28, 2) is None
    assert contact_amps("molex_kk_254", 22, 2) is None  # printed for one circuit alone
    assert contact_amps("te_matenlok_093", 18, 16) is None
    thinner = contact_amps("jst_vh", 22, 2)
    assert thinner is not None and thinner.below and thinner.value == 7.0
