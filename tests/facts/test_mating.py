"""Which plugs are stated to fit."""

from __future__ import annotations

import pytest

from tabside.facts.families import family_ids
from tabside.facts.mating import confusable, goes_into, look_alikes, mate


@pytest.mark.parametrize(
    ("plug", "receptacle", "fits"),
    [
        ("jst_gh", "jst_gh", True),
        ("jst_sr", "jst_sh", True),  # JST "SH CONNECTOR" datasheet: SH and SR receptacles share the SRSS headers
        ("jst_sh", "jst_sr", True),
        ("servo_254", "pinheader_254", True),  # common practice, no source
        ("jst_gh", "molex_picoblade", False),  # same pitch, other shell
        ("generic_mx125", "molex_picoblade", False),  # "may mate" is no statement
        ("jst_xh", "pinheader_254", False),
        ("jst_sh", "jst_nsh", False),
        ("jst_sh", "no such family", False),
    ],
)
def test_a_plug_fits_only_where_it_is_stated(plug, receptacle, fits):
    assert mate(plug, receptacle) is fits


def test_only_these_pairs_of_families_are_stated_to_mate():
    # Typed from the column mates_with of the table of families, read by eye.
    ids = family_ids()
    assert {(a, b) for a in ids for b in ids if a < b and mate(a, b)} == {
        ("jst_sh", "jst_sr"),
        ("pinheader_254", "servo_254"),
    }


def test_look_alikes_are_found_in_either_order():
    (found,) = confusable("molex_picoblade", "jst_gh")
    assert found.severity == "block"
    assert confusable("jst_gh", "molex_picoblade") == (found,)
    assert confusable("jst_gh", "jst_ph") == ()


def test_all_look_alikes_of_a_family_are_listed():
    others = {row.b if row.a == "jst_sh" else row.a for row in look_alikes() if "jst_sh" in (row.a, row.b)}
    assert others == {"hirose_df50", "jst_nsh", "jst_gh", "jst_zh"}


def test_no_pair_is_both_a_mate_and_blocked():
    for row in look_alikes():
        if row.severity == "block":
            assert not mate(row.a, row.b)


@pytest.mark.parametrize(
    ("plug", "header", "enters", "severity"),
    [
        # Public survey note and pull requests of a public user guide, grade B.
        ("molex_picoblade", "hirose_df13", "all", "hazard"),
        # Public board records from vendors' drawings, grade B.
        ("jst_sh", "jst_gh", "some", "warn"),
        ("jst_sh", "jst_zh", "some", "warn"),
        ("jst_zh", "jst_gh", "some", "warn"),
        ("jst_ph", "jst_pa", "all", "warn"),  # public note, grade B
        ("jst_xh", "pinheader_254", "all", "warn"),  # trade page, grade C
        ("jst_vh", "jst_vh", "shifted", "hazard"),  # public notes on JST connectors, grade B
    ],
)
def test_a_plug_that_enters_a_header_of_another_family_does_so_in_one_direction(plug, header, enters, severity):
    found = goes_into(plug, header)
    assert found is not None
    assert (found.enters, found.severity) == (enters, severity)
    if plug != header:
        assert goes_into(header, plug) is None


def test_what_sellers_only_call_alike_does_not_enter():
    assert goes_into("jst_gh", "molex_picoblade") is None
    assert goes_into("jst_gh", "jst_zh") is None
    two_or_three = goes_into("jst_xh", "pinheader_254")
    assert two_or_three is not None and two_or_three.ways == {2, 3}
