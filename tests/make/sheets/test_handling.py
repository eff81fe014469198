"""How contacts are handled, family by family: what the tables say, and what they do not know."""

from __future__ import annotations

import pytest

from tabside.make.sheets.handling import handling_of


@pytest.mark.parametrize(
    ("family", "said"),
    [
        # Public notes on JST connectors, grade B; the look-outs are rows of the table of release faces.
        ("jst_xh", "released through the face with the trapezoid windows, opposite the two guide ribs"),
        ("jst_ph", "do not tell left from right by the lance face"),
        ("molex_microfit_300", "its retainer (172953) comes out first"),
        ("jst_zh", "look first: a plastic lance in the housing, or a metal tang on the contact"),
    ],
)
def test_the_release_says_the_face_or_what_to_look_at_first(family, said):
    assert said in handling_of(family).release


def test_no_face_is_told_where_none_was_found():
    for family in ("jst_sh", "jst_gh", "molex_picoblade", "hirose_df13"):
        assert "released through" not in handling_of(family).release
