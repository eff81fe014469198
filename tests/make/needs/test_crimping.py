"""The contact that a wire of a gauge takes.

Numbers, gauges and strip lengths: makers' catalogues and public pages as the table of contacts cites them.  JST ZH:
SZH-002T-P0.5 for 26 to 28 AWG, SZH-003T-P0.5 for 28 to 32.  JST PH: SPH-002T-P0.5S for 24 to 30, strip 2.5 mm (from
memory), SPH-004T-P0.5S for 28 to 32, strip 1.9 to 2.5 mm.  Molex PicoBlade: 50079 for 26 to 28, 50058 for 28 to 32.
"""

import pytest

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd
from tabside.make.needs.crimping import crimp_of, strip_text
from tabside.model.stock import Cutting


@pytest.mark.parametrize(
    ("family", "gauge_awg", "contact"),
    [
        ("jst_zh", 26, "SZH-002T-P0.5"),
        ("jst_zh", 30, "SZH-003T-P0.5"),
        ("jst_zh", 28, ""),  # both take it
        ("jst_zh", None, ""),
        ("jst_ph", 32, "SPH-004T-P0.5S"),
        ("molex_picoblade", 26, "50079-8000"),
        ("molex_picoblade", 32, "50058-8000"),
    ],
)
def test_the_one_contact_that_takes_the_gauge_is_named(family, gauge_awg, contact):
    assert crimp_of(family, gauge_awg).contact == contact


def test_a_tool_is_named_where_all_contacts_that_fit_have_it():
    assert crimp_of("molex_picoblade", 28).tool == "63827-1400 (Molex 0638271400)"
    assert crimp_of("jst_xh", 24).tool == ""  # three contacts, of which two name other tools


@pytest.mark.parametrize(("gauge_awg", "text"), [(32, "1.9 to 2.5"), (26, "2.5")])
def test_the_strip_length_is_that_of_the_contact(gauge_awg, text):
    end = LeadEnd(("J1", "1"), EndKind.CONTACT, "jst_ph", 2)
    assert strip_text(end, gauge_awg, Cutting()) == text
