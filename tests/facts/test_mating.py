"""Which plugs are stated to fit."""

from __future__ import annotations

import pytest

from tabside.facts.families import family_ids
from tabside.facts.mating import confusable, confusables_of, look_alikes, mate


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
    others = {row.b if row.a == "jst_sh" else row.a for row in confusables_of("jst_sh")}
    assert others == {"hirose_df50", "jst_nsh", "jst_gh"}


def test_no_pair_is_both_a_mate_and_blocked():
    for row in look_alikes():
        if row.severity == "block":
            assert not mate(row.a, row.b)
