"""What KiCad would drop or merge in silence is told."""

from crafts.craft_kit import craft, lead_ends, plug, power


def told(made):
    return [(each.what, each.reference) for each in made.oddities]


def test_a_symbol_that_is_not_annotated_is_told_and_left_out():
    made = craft(plug("J?", "a b", annotated=False), plug("J1", "a b"))
    assert told(made) == [("not-annotated", "J?")] and list(made.terminations) == ["J1"]


def test_each_symbol_that_is_not_annotated_is_told():
    made = craft(plug("J?", "a"), plug("J?", "b"), plug("R?", "a b", annotated=False))
    assert told(made) == [("not-annotated", "J?"), ("not-annotated", "J?"), ("not-annotated", "R?")]


def test_a_reference_that_counts_as_not_annotated_is_told_and_kept():
    made = craft(plug("J1", "a", annotated=False), plug("J2", "a"))
    assert told(made) == [("not-annotated", "J1")] and lead_ends(made) == {"J1:1 - J2:1"}


def test_two_symbols_of_one_reference_are_told():
    made = craft(plug("J1", "a", value="x"), plug("J1", "a", value="x"))
    assert told(made) == [("reference-duplicate", "J1")]


def test_the_same_unit_twice_is_told():
    made = craft(
        plug("J1", {1: "a"}, unit=1, unit_count=2, value="x"), plug("J1", {2: "b"}, unit=1, unit_count=2, value="x")
    )
    assert told(made) == [("reference-duplicate", "J1")] and "unit 1" in made.oddities[0].message


def test_two_parts_of_one_reference_are_told():
    made = craft(plug("J1", {1: "a"}, unit=1, unit_count=2, value="x"), plug("J1", {2: "b"}, unit=2, value="y"))
    assert told(made) == [("reference-duplicate", "J1")] and "x and y" in made.oddities[0].message


def test_a_duplicate_of_parts_that_are_no_terminations_is_told():
    made = craft(plug("C1", "a b", value="100n"), plug("C1", "a b", value="1u"))
    assert told(made) == [("reference-duplicate", "C1")]


def test_units_of_one_part_are_quiet():
    made = craft(
        plug("J1", {1: "a", 9: "GND"}, unit=1, unit_count=2, value="x"),
        plug("J1", {2: "b", 9: "GND"}, unit=2, unit_count=2, value="x"),  # a pin that every unit has
    )
    assert not made.oddities


def test_one_contact_on_two_nets_is_told():
    made = craft(
        plug("J1", {1: "a", 9: "x"}, unit=1, unit_count=2, value="x"),
        plug("J1", {2: "b", 9: "y"}, unit=2, unit_count=2, value="x"),
    )
    assert told(made) == [("reference-duplicate", "J1")] and "J1:9" in made.oddities[0].message


def test_power_symbols_may_be_many():
    assert not craft(power("GND"), power("GND"), power("GND", reference="#PWR?"), plug("J1", "GND")).oddities


def test_a_flagged_contact_that_is_wired_is_told():
    made = craft(plug("J1", "a b", flagged=[1]), plug("J2", "a b"))
    assert told(made) == [("field", "J1")] and "J2:1" in made.oddities[0].message
    assert lead_ends(made) == {"J1:1 - J2:1", "J1:2 - J2:2"}


def test_a_flagged_contact_on_a_net_of_its_own_is_quiet():
    made = craft(plug("J1", "a -", flagged=[2]))
    assert not made.oddities and [each.flagged_empty for each in made.terminations["J1"].contacts] == [False, True]


def test_a_lead_between_contacts_that_nothing_uses_is_quiet():
    made = craft(plug("J1", "a b", signals="TX nc"), plug("J2", "a b", signals="RX nc"))
    assert not made.oddities and len(made.leads) == 2


def test_units_that_say_different_things_in_one_field_are_told():
    def made(first, second):
        return craft(
            plug("J1", {1: "a"}, unit=1, unit_count=2, value="x", board=first),
            plug("J1", {2: "b"}, unit=2, unit_count=2, value="x", board=second),
        )

    (oddity,) = made("hub", "deck").oddities
    assert oddity.what == "field" and 'Board "hub" and "deck"' in oddity.message
    assert not made("hub", "hub").oddities
    assert not made("hub", "").oddities
    assert not made("", "deck").oddities
