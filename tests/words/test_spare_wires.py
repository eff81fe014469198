"""Wires that the drawing does not use, as a sheet and as a narrow box of the terminal call them."""

from tabside.words.spare_wires import narrow, spare_name


def test_a_spare_wire_is_told_in_full_and_in_a_box():
    assert spare_name("3") == "spare 3" and narrow(spare_name("3")) == "s3"


def test_a_wire_of_the_list_keeps_its_name_whatever_it_is_called():
    assert narrow("W12") == "W12" and narrow("spare 3") == "spare 3"
