"""Links, cables, and the marks of leads and cables."""

from crafts.craft_kit import captive, craft, pads, plug, splice, two_pin


def cables(made):
    return {cable.mark: (cable.ends, cable.leads) for cable in made.cables}


def test_a_link_is_all_leads_between_two_terminations():
    made = craft(plug("J2", "a b c"), plug("J10", "c b a"), plug("J1", "d"), plug("J3", "d"))
    assert [link.ends for link in made.links] == [("J1", "J3"), ("J2", "J10")]
    assert [lead.a for lead in made.links[1].leads] == [("J2", "1"), ("J2", "2"), ("J2", "3")]


def test_leads_of_one_plug_are_one_cable_with_all_that_it_reaches():
    made = craft(
        plug("J1", "a b c"), plug("J2", "a"), plug("J3", "b x"), plug("J4", "x"), pads("J5", "c y"), plug("J6", "y")
    )
    assert [(cable.mark, cable.ends) for cable in made.cables] == [
        ("C1", ("J1", "J2", "J3", "J4", "J5")),
        ("C2", ("J5", "J6")),
    ]


def test_pads_splices_and_inline_parts_tie_nothing():
    made = craft(
        *(plug(f"J{k}", "a", signals="VBAT") for k in (1, 2, 3)),
        splice("X1", "a"),
        plug("J4", "b"),
        two_pin("F1", "b", "c"),
        plug("J5", "c"),
        pads("J6", "d e"),
        pads("J7", "d e"),
    )
    assert sorted(cable.ends for cable in made.cables) == [
        ("F1", "J4"),
        ("F1", "J5"),
        ("J1", "X1"),
        ("J2", "X1"),
        ("J3", "X1"),
    ]
    assert [lead.cable for lead in made.leads if lead.link == ("J6", "J7")] == [None, None]


def test_a_captive_plug_ties_and_bare_captive_leads_do_not():
    made = craft(
        captive("J1", "a b", family="MR30"), plug("J2", "a b", family="MR30"), captive("J3", "c d"), pads("J4", "c d")
    )
    assert [cable.ends for cable in made.cables] == [("J1", "J2")]


def test_marks_follow_the_natural_order_of_the_ends():
    made = craft(plug("J10", "a b"), plug("J2", "b a"), plug("J1", "c"), plug("J9", "c"))
    assert [(lead.mark, lead.a, lead.b) for lead in made.leads] == [
        ("W1", ("J1", "1"), ("J9", "1")),
        ("W2", ("J2", "1"), ("J10", "2")),
        ("W3", ("J2", "2"), ("J10", "1")),
    ]
    assert cables(made) == {"C1": (("J1", "J9"), ("W1",)), "C2": (("J2", "J10"), ("W2", "W3"))}


def test_stamped_marks_are_kept_and_the_others_are_numbered_on():
    made = craft(
        plug("J1", "a b c", lead_marks="1:W7 2:W1", cable_mark="C4"),
        plug("J2", "a b c", lead_marks="1:W7, 2:W1", cable_mark="C4"),
        plug("J3", "d"),
        plug("J4", "d"),
    )
    assert {":".join(lead.a): lead.mark for lead in made.leads} == {
        "J1:1": "W7",
        "J1:2": "W1",
        "J1:3": "W8",
        "J3:1": "W9",
    }
    assert [lead.mark for lead in made.leads] == ["W1", "W7", "W8", "W9"]
    assert [cable.mark for cable in made.cables] == ["C4", "C5"]


def test_a_stamp_at_one_end_counts_when_the_other_end_has_none():
    made = craft(plug("J1", "a", lead_marks="1:W9"), plug("J2", "a"))
    assert [lead.mark for lead in made.leads] == ["W9"]


def test_stamps_that_disagree_are_given_to_no_lead():
    made = craft(plug("J1", "a", lead_marks="1:W9"), plug("J2", "a", lead_marks="1:W8"))
    assert [lead.mark for lead in made.leads] == ["W10"]


def test_a_mark_that_stands_at_two_leads_is_neither_s():
    made = craft(plug("J1", "a b", lead_marks="1:W5 2:W5"), plug("J2", "a b"))
    assert {lead.a[1]: lead.mark for lead in made.leads} == {"1": "W6", "2": "W7"}


COPIED = {"lead_marks": "1:W1 2:W2", "cable_mark": "C1"}


def test_copies_of_stamped_plugs_on_their_own_leave_the_marks_where_they_are():
    made = craft(plug("J2", "a b", **COPIED), plug("J3", "a b", **COPIED), plug("J1", "- -", **COPIED))
    assert [(lead.mark, lead.link) for lead in made.leads] == [("W1", ("J2", "J3")), ("W2", ("J2", "J3"))]
    assert cables(made) == {"C1": (("J2", "J3"), ("W1", "W2"))}
    assert [each.message.split(":")[0] for each in made.oddities if each.what == "copied"] == [
        "W1 is stamped at J1",
        "W2 is stamped at J1",
    ]


def test_a_copied_cable_takes_no_mark_and_it_is_told():
    """Nobody can tell which of the two is the one on the bench."""
    made = craft(
        plug("J2", "a b", **COPIED),
        plug("J3", "a b", **COPIED),
        plug("J0", "c d", **COPIED),
        plug("J1", "c d", **COPIED),
    )
    assert not {"W1", "W2"} & {lead.mark for lead in made.leads}
    assert "C1" not in cables(made)
    assert any("C1 is stamped at plugs of 2 cables" in each.message for each in made.oddities)


def test_a_plug_that_was_copied_and_joined_elsewhere_takes_the_mark_with_it_nowhere():
    made = craft(
        plug("J2", "a b", **COPIED), plug("J3", "a b", **COPIED), plug("J1", "c d", **COPIED), plug("J6", "c d")
    )
    assert cables(made) == {"C1": (("J2", "J3"), ("W1", "W2")), "C2": (("J1", "J6"), ("W3", "W4"))}


def test_plugs_that_change_their_partners_lose_their_marks():
    one, two = {"cable_mark": "C1", "lead_marks": "1:W1"}, {"cable_mark": "C2", "lead_marks": "1:W2"}
    made = craft(plug("J2", "a", **one), plug("J4", "a", **two), plug("J3", "b", **one), plug("J5", "b", **two))
    assert cables(made) == {"C3": (("J2", "J4"), ("W3",)), "C4": (("J3", "J5"), ("W4",))}


def test_a_lead_that_goes_to_another_board_gets_another_mark():
    made = craft(plug("J2", "a", lead_marks="1:W1"), plug("J3", "-", lead_marks="1:W1"), plug("J6", "a"))
    assert [(lead.mark, lead.link) for lead in made.leads] == [("W2", ("J2", "J6"))]


def test_the_mark_of_a_lead_that_is_gone_is_not_given_away():
    made = craft(plug("J1", "a -", lead_marks="1:W2 2:W1"), plug("J2", "a"))
    assert [lead.mark for lead in made.leads] == ["W2"]
    made = craft(plug("J1", "a b -", lead_marks="1:W2 3:W1"), plug("J2", "a b"))
    assert [lead.mark for lead in made.leads] == ["W2", "W3"]


def test_leads_of_one_pad_are_told_apart_by_their_other_ends():
    made = craft(
        pads("J1", "GND", signals="GND", board="a", lead_marks="1:W5 1:W6"),
        plug("J2", "GND", signals="GND", board="b", lead_marks="1:W6"),
        plug("J3", "GND", signals="GND", board="c", lead_marks="1:W5"),
    )
    assert {lead.b[0]: lead.mark for lead in made.leads} == {"J2": "W6", "J3": "W5"}


def test_a_stamp_that_cannot_be_read_is_told():
    made = craft(plug("J1", "a", lead_marks="1-W5", cable_mark="cable 2"), plug("J2", "a"))
    assert [each.what for each in made.oddities] == ["field", "field"]
