"""How places are counted in words."""

import pytest

from tabside.make.sheets.step_list import ordinal

SPOKEN = {1: "1st", 2: "2nd", 3: "3rd", 4: "4th", 10: "10th", 11: "11th", 12: "12th", 13: "13th", 20: "20th"}
SPOKEN |= {21: "21st", 22: "22nd", 33: "33rd", 101: "101st", 111: "111th", 112: "112th"}


@pytest.mark.parametrize(("number", "words"), SPOKEN.items())
def test_the_place_of_a_cavity_as_it_is_spoken(number, words):
    assert ordinal(number) == words
