"""Crimp contacts and the gauges that they take."""

from __future__ import annotations

import pytest

from tabside.facts.contacts import all_contacts, contact_parts, contacts_for


@pytest.mark.parametrize(
    ("family_id", "number", "thinnest", "thickest", "od_min_mm", "od_max_mm"),
    [
        ("jst_sh", "SSH-003T-P0.2-H", 32, 28, 0.4, 0.8),  # JST "SH CONNECTOR" datasheet (2024-10-04)
        ("jst_gh", "SSHL-002T-P0.2", 30, 26, 0.76, 1.0),  # JST GH product page, quoted
        ("jst_vh", "SVH-21T-P1.1", 22, 18, 1.7, 3.0),  # JST eVH pages 1-4, quoted
    ],
)
def test_a_contact_has_the_range_of_its_document(family_id, number, thinnest, thickest, od_min_mm, od_max_mm):
    (contact,) = contact_parts(family_id)
    assert contact.number == number
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
    assert [contact.number for contact in contacts_for("jst_xh", 30)] == ["SXH-002T-P0.6"]
    assert [contact.number for contact in contacts_for("jst_xh", 24)] == ["SXH-001T-P0.6N", "SXH-001T-P0.6"]


def test_a_family_without_a_row_of_contacts_keeps_its_bare_numbers():
    assert "2759" in [contact.number for contact in contact_parts("molex_kk_254")]
    assert contact_parts("jst_ze") == ()


def test_awg_bounds_count_backwards():
    for contact in all_contacts():
        if contact.thinnest_awg is not None:
            assert contact.thickest_awg is not None
            assert contact.thickest_awg <= contact.thinnest_awg
