"""Which leads a net has, step by step.  Circuits are common practice, no source."""

from crafts.craft_kit import captive, changed, craft, drawing, how, lead_ends, pads, plug, power, splice, two_pin
from tabside.model.craft import CraftSettings
from tabside.wiring import build_craft

GH = {"family": "JST GH"}


def _ends(lead):
    return " - ".join(f"{reference}:{number}" for reference, number in lead.ends)


def crowded(made):
    return [(each.net, each.contacts) for each in made.crowded]


# Steps 1 and 2: drawn leads, nets of two contacts.


def test_a_net_of_two_contacts_is_one_lead():
    made = craft(plug("J1", "a - c"), plug("J2", "a b -"))
    assert how(made) == {"J1:1 - J2:1": "two contacts"}


def test_leads_are_the_drawn_ones_where_they_are_drawn():
    made = craft(
        plug("J1", "a"),
        plug("J2", {1: "a", 2: "a"}, signals="CAN_H CAN_H"),
        plug("J3", "a"),
        runs=[("J1:1", "J2:1"), ("J3:1", "J2:2")],
    )
    assert how(made)["J1:1 - J2:1"] == how(made)["J2:2 - J3:1"] == "drawn"


def test_a_drawn_lead_between_two_contacts_says_so():
    assert how(craft(plug("J1", "a"), plug("J2", "a"), runs=[("J2:1", "J1:1")])) == {"J1:1 - J2:1": "drawn"}


def test_a_part_without_leads_cuts_no_wire():
    made = craft(plug("J1", "a"), plug("J2", "a"), plug("C1", "a b"), runs=[("J1:1", "C1:1"), ("C1:1", "J2:1")])
    assert how(made) == {"J1:1 - J2:1": "drawn"}


def test_two_grounds_of_one_board_need_no_lead():
    made = craft(plug("J1", "GND", signals="GND", board="pilot"), plug("J2", "GND", signals="GND", board="pilot"))
    assert not made.leads


def test_two_signals_of_one_board_do():
    made = craft(plug("J1", "a", signals="TX", board="pilot"), plug("J2", "a", signals="RX", board="pilot"))
    assert lead_ends(made) == {"J1:1 - J2:1"}


def test_a_wire_with_more_ends_joins_those_and_only_those():
    made = craft(
        pads("J1", "GND", signals="GND", board="power"),
        plug("J2", "GND", signals="GND", board="a"),
        plug("J3", "GND", signals="GND", board="b"),
        plug("J4", "GND GND", signals="GND GND", board="c"),
        runs=[("J1:1", "J2:1", "J3:1"), ("J4:1", "J4:2")],
    )
    assert how(made) == {"J1:1 - J2:1": "drawn together", "J1:1 - J3:1": "drawn together", "J1:1 - J4:1": "chosen"}


def test_two_contacts_that_two_stretches_of_wire_join_get_one_lead():
    three = (
        pads("J1", "GND", signals="GND", board="power"),
        pads("J2", "GND", signals="GND", board="a"),
        pads("J3", "GND", signals="GND", board="b"),
    )
    made = craft(*three, runs=[("J1:1", "J2:1"), ("J1:1", "J2:1", "J3:1")])
    assert sorted(map(_ends, made.leads)) == ["J1:1 - J2:1", "J1:1 - J3:1"]
    four = (*three, pads("J4", "GND", signals="GND", board="c"))
    made = craft(*four, runs=[("J1:1", "J2:1", "J3:1"), ("J1:1", "J2:1", "J4:1")])
    assert sorted(map(_ends, made.leads)) == ["J1:1 - J2:1", "J1:1 - J3:1", "J1:1 - J4:1"]


def test_every_end_of_a_wire_with_more_ends_gets_a_lead():
    made = craft(
        plug("J1", "GND GND", signals="GND GND", board="a"),
        pads("J2", "GND", signals="GND", board="b"),
        runs=[("J1:1", "J1:2", "J2:1")],
    )
    assert lead_ends(made) == {"J1:1 - J2:1", "J1:2 - J2:1"}


def test_two_wires_into_one_cavity_by_a_junction_are_crowded():
    made = craft(
        plug("J1", "GND GND", signals="GND GND", board="a"),
        plug("J2", "GND", signals="GND", board="b"),
        runs=[("J1:1", "J1:2", "J2:1")],
    )
    assert crowded(made) == [("GND", (("J1", "1"), ("J2", "1")))] and "splice" in made.crowded[0].cure


def test_grounds_that_a_board_joins_get_no_lead_from_a_drawn_wire():
    made = craft(
        plug("J1", "GND GND", signals="GND GND", board="a"),
        plug("J2", "GND", signals="GND", board="b"),
        runs=[("J1:1", "J1:2")],
    )
    assert lead_ends(made) == {"J1:1 - J2:1"}


# Step 3: beside leads that are there already.


def test_ground_and_supply_run_beside_the_signals_that_they_serve():
    made = craft(
        plug("J1", "5 A GND", signals="5V TX GND", board="pilot"),
        plug("J2", "5 B GND", signals="5V TX GND", board="pilot"),
        plug("J11", "5 B GND", signals="5V RX GND", board="radio"),
        plug("J12", "5 A GND", signals="5V RX GND", board="position"),
        power("GND"),
    )
    assert lead_ends(made, "GND") == {"J1:3 - J12:3", "J2:3 - J11:3"}
    assert lead_ends(made, "5") == {"J1:1 - J12:1", "J2:1 - J11:1"}
    assert {each for ends, each in how(made).items() if ends.endswith(":3")} == {"beside"}


def test_doubled_contacts_keep_doubled_leads():
    # Source: DS-009, POWER: 1 VCC, 2 VCC, 3 CURRENT, 4 VOLTAGE, 5 GND, 6 GND.
    signals = "VCC VCC CURRENT VOLTAGE GND GND"
    made = craft(
        plug("J1", "5 5 I U GND GND", signals=signals, board="pilot"),
        plug("J2", "5 5 I U GND GND", signals=signals, board="power"),
        plug("J3", "5 - - - GND -", signals=signals, board="pilot"),
        plug("J4", "- - - - GND -", signals=signals, board="lamp"),
    )
    assert {"J1:1 - J2:1", "J1:2 - J2:2", "J1:5 - J2:5", "J1:6 - J2:6"} <= lead_ends(made)
    assert lead_ends(made, "GND") == {"J1:5 - J2:5", "J1:6 - J2:6", "J3:5 - J4:5"}


def test_contacts_are_joined_one_to_one():
    made = craft(
        pads("J1", "A GND", signals="TX GND", board="pilot"),
        plug("J2", "A GND GND", signals="RX GND GND", board="radio"),
        pads("J3", "GND", signals="GND", board="pilot"),
    )
    assert lead_ends(made, "GND") == {"J1:2 - J2:2"}


def test_each_pair_gets_its_first_lead_before_any_gets_a_second():
    made = craft(
        plug("J1", "A B GND GND", signals="TX RX GND GND", board="pilot"),
        plug("J2", "A GND GND", signals="RX GND GND", board="radio"),
        plug("J3", "B GND", signals="TX GND", board="position"),
    )
    assert lead_ends(made, "GND") == {"J1:3 - J2:2", "J1:4 - J3:2"}


def test_pads_of_one_name_are_used_evenly():
    made = craft(
        pads("J1", "A B C GND GND", signals="M1 M2 M3 GND GND", board="pilot"),
        *(
            plug(f"J{k}", f"{net} GND", signals="M1 GND", board=f"drive {k}")
            for k, net in ((2, "A"), (3, "B"), (4, "C"))
        ),
    )
    assert lead_ends(made, "GND") == {"J1:4 - J2:2", "J1:5 - J3:2", "J1:4 - J4:2"}


def test_a_captive_plug_goes_into_one_receptacle():
    made = craft(
        pads("J1", "V GND", signals="VBAT GND", board="power"),
        plug("J2", "V GND", signals="VBAT GND", board="power", family="XT60"),
        captive("J3", "V GND", signals="VBAT GND", board="pack", family="XT60"),
        pads("J4", "V GND", signals="VBAT GND", board="drive"),
    )
    assert lead_ends(made) == {"J2:1 - J3:1", "J2:2 - J3:2", "J1:1 - J4:1", "J1:2 - J4:2"}
    assert how(made)["J2:2 - J3:2"] == "beside"


def test_a_captive_plug_never_gives_way():
    made = craft(
        pads("J1", "V GND", signals="VBAT GND", board="other"),
        plug("J2", "V GND", signals="VBAT GND", board="power", family="XT60"),
        captive("J3", "V GND", signals="VBAT GND", board="pack", family="XT60"),
    )
    assert lead_ends(made) == {"J2:1 - J3:1", "J2:2 - J3:2"}
    assert [net for net, _ in crowded(made)] == ["V", "GND"]


def test_two_captive_plugs_go_into_two_receptacles():
    made = craft(
        plug("J1", "V GND", signals="VBAT GND", board="power", family="XT60"),
        plug("J2", "V GND", signals="VBAT GND", board="power", family="XT60"),
        captive("J3", "V GND", signals="VBAT GND", board="pack 1", family="XT60"),
        captive("J4", "V GND", signals="VBAT GND", board="pack 2", family="XT60"),
    )
    assert lead_ends(made) == {"J1:1 - J3:1", "J1:2 - J3:2", "J2:1 - J4:1", "J2:2 - J4:2"}


# Step 4: what is left.


def test_islands_are_connected_once():
    made = craft(
        plug("J1", "GND GND", signals="GND GND", board="power"),
        plug("J2", "GND GND", signals="GND GND", board="pilot"),
        plug("J3", "GND", signals="GND", board="lamp"),
        power("GND"),
    )
    assert lead_ends(made) == {"J1:1 - J2:1", "J1:2 - J3:1"}
    assert set(how(made).values()) == {"chosen"}


def test_the_only_way_is_not_called_chosen():
    made = craft(
        pads("J1", "GND", signals="GND", board="power"),
        plug("J2", "GND", signals="GND", board="pilot"),
        plug("J3", "GND", signals="GND", board="lamp"),
    )
    assert how(made) == {"J1:1 - J2:1": "joined", "J1:1 - J3:1": "joined"}


def test_a_board_is_one_island_for_ground_and_for_each_supply():
    made = craft(
        plug("J1", "GND", signals="GND", board="pilot"),
        plug("J2", "GND", signals="GND", board="pilot"),
        plug("J3", "GND", signals="GND", board="a"),
        plug("J4", "GND", signals="GND", board="b"),
    )
    assert lead_ends(made) == {"J1:1 - J3:1", "J2:1 - J4:1"}


def test_signals_of_a_board_are_not_joined_inside_but_for_the_lines_of_a_bus():
    for name, joined in (("PWM", False), ("CAN_H", True), ("SDA", True), ("SCK", True), ("RS485_A", True)):
        made = craft(
            plug("J1", "H", signals=name, board="pilot"),
            plug("J2", "H", signals=name, board="pilot"),
            plug("J3", "H", signals=name, board="a"),
            plug("J4", "H", signals=name, board="b"),
        )
        assert bool(crowded(made)) is not joined


def test_an_isolated_place_has_a_ground_of_its_own():
    for isolated, joined in (("no", True), ("yes", False)):
        made = craft(
            plug("J1", "GND", signals="GND", board="pilot", isolated=isolated),
            plug("J2", "GND", signals="GND", board="pilot"),
            plug("J3", "GND", signals="GND", board="a"),
            plug("J4", "GND", signals="GND", board="b"),
        )
        assert bool(crowded(made)) is not joined


def test_vcc_beside_5v_of_the_same_board_is_that_rail_but_vin_is_not():
    for name, joined in (("VCC", True), ("VIN", False)):
        made = craft(
            plug("J1", "V", signals="5V", board="pilot"),
            plug("J2", "V", signals=name, board="pilot"),
            plug("J3", "V", signals="5V", board="a"),
            plug("J4", "V", signals="5V", board="b"),
        )
        assert bool(crowded(made)) is not joined


def test_two_supplies_of_different_role_are_two_islands():
    made = craft(
        plug("J1", "V", signals="5V", board="pilot"),
        plug("J2", "V", signals="9V", board="pilot"),
        pads("J3", "V", signals="5V", board="a"),
    )
    assert lead_ends(made) == {"J1:1 - J3:1", "J2:1 - J3:1"}


def test_path_lengths_decide_before_natural_order():
    boards = [
        pads("J1", "GND", signals="GND", board="a"),
        pads("J2", "GND", signals="GND", board="b"),
        pads("J3", "GND", signals="GND", board="c"),
    ]
    at_mm = {"a": (0.0, 0.0, 0.0), "b": (100.0, 0.0, 0.0), "c": (50.0, 0.0, 0.0)}
    assert lead_ends(craft(*boards)) == {"J1:1 - J2:1", "J1:1 - J3:1"}
    assert lead_ends(craft(*boards, settings=CraftSettings(at_mm=at_mm))) == {"J1:1 - J3:1", "J2:1 - J3:1"}
    said = CraftSettings(lengths_mm={("J1", "J2"): 10.0, ("J2", "J3"): 10.0, ("J1", "J3"): 30.0})
    assert lead_ends(craft(*boards, settings=said)) == {"J1:1 - J2:1", "J2:1 - J3:1"}


def test_what_runs_beside_gives_way_when_the_net_could_not_be_connected_else():
    made = craft(
        plug("J1", "A GND", signals="TX GND", board="pilot"),
        plug("J2", "A GND", signals="RX GND", board="radio"),
        pads("J3", "GND", signals="GND", board="power"),
    )
    assert lead_ends(made, "GND") == {"J1:2 - J3:1", "J2:2 - J3:1"} and not made.crowded
    assert all(lead.notes for lead in made.leads if lead.net == "GND")


def test_a_pair_that_carries_a_signal_gets_its_ground_first():
    made = craft(
        plug("J1", "V B C GND GND", signals="VBAT TX RX GND GND", board="pilot"),
        plug("J2", "V GND", signals="VBAT GND", board="lamp"),
        plug("J3", "B GND", signals="RX GND", board="radio"),
        plug("J4", "C GND", signals="TX GND", board="position"),
        pads("J5", "GND", signals="GND", board="power"),
    )
    assert lead_ends(made, "GND") == {"J1:4 - J3:2", "J1:5 - J5:1", "J2:2 - J5:1", "J4:2 - J5:1"}


# No solution.


def test_three_single_cavities_cannot_be_joined():
    made = craft(*(plug(f"J{k}", "GND", signals="GND", board=f"board {k}") for k in (1, 2, 3)))
    assert not made.leads
    (found,) = made.crowded
    assert found.islands == ((("J1", "1"),), (("J2", "1"),), (("J3", "1"),))
    assert "splice" in found.cure and "second contact" in found.cure


def test_the_contacts_that_no_further_lead_can_reach_are_named():
    made = craft(
        plug("J1", "A GND", signals="TX GND", board="pilot"),
        plug("J2", "A GND", signals="RX GND", board="radio"),
        plug("J3", "GND", signals="GND", board="lamp"),
    )
    assert lead_ends(made, "GND") == {"J1:2 - J2:2"}
    (found,) = made.crowded
    assert found.contacts == (("J1", "2"), ("J2", "2"))
    assert found.islands == ((("J1", "2"), ("J2", "2")), (("J3", "1"),))


def test_the_splice_of_the_cure_cures():
    boards = [plug(f"J{k}", "GND", signals="GND", board=f"board {k}") for k in (1, 2, 3)]
    made = craft(*boards, splice("X1", "GND"))
    assert not made.crowded
    assert lead_ends(made) == {"J1:1 - X1:1", "J2:1 - X1:1", "J3:1 - X1:1"}


def test_the_second_contact_of_the_cure_cures():
    made = craft(
        plug("J1", "GND GND", signals="GND GND", board="board 1"),
        *(plug(f"J{k}", "GND", signals="GND", board=f"board {k}") for k in (2, 3)),
    )
    assert not made.crowded and lead_ends(made) == {"J1:1 - J2:1", "J1:2 - J3:1"}


def test_two_drawn_leads_in_one_cavity_are_crowded():
    made = craft(plug("J1", "a"), plug("J2", "a"), plug("J3", "a"), runs=[("J1:1", "J2:1"), ("J2:1", "J3:1")])
    assert lead_ends(made) == {"J1:1 - J2:1", "J2:1 - J3:1"}
    assert crowded(made) == [("a", (("J2", "1"),))]
    assert "splice" in made.crowded[0].cure


def test_a_pad_takes_as_many_as_it_says():
    boards = [plug(f"J{k}", "GND", signals="GND", board=f"board {k}") for k in range(2, 7)]
    assert not craft(pads("J1", "GND", signals="GND", leads_max=5), *boards).crowded
    assert craft(pads("J1", "GND", signals="GND"), *boards).crowded  # four: common practice, no source
    assert craft(pads("J1", "GND", signals="GND", leads_max=2), *boards).crowded


def test_no_lead_is_added_in_silence_on_a_crowded_net():
    made = craft(
        *(plug(f"J{k}", "GND", signals="GND", board=f"board {k}") for k in (1, 2, 3)),
        plug("J8", "a"),
        plug("J9", "a"),
    )
    assert lead_ends(made) == {"J8:1 - J9:1"}


def test_nets_of_one_name_stay_apart():
    # Two nets may show the same name; KiCad keeps them apart.
    drawn = drawing(plug("J1", "a b"), plug("J2", "a b"))
    drawn = changed(drawn, nets=tuple(changed(net, name="X") for net in drawn.nets))
    assert lead_ends(build_craft(drawn)) == {"J1:1 - J2:1", "J1:2 - J2:2"}


def test_thirty_contacts_of_twelve_boards_on_one_ground_are_connected_without_a_double():
    boards = []
    for k in range(12):
        contacts = 4 if k == 0 else 2 if k % 2 else 3
        boards.append(plug(f"J{k + 1}", ["GND"] * contacts, signals=" ".join(["GND"] * contacts), board=f"board {k}"))
    made = craft(*boards, power("GND"))
    assert len(made.leads) == 11 and not made.crowded
    met = {made.terminations[ref].board for lead in made.leads for ref, _ in lead.ends}
    assert len(met) == 12
    uses = [end for lead in made.leads for end in lead.ends]
    assert len(uses) == len(set(uses))


def test_a_batterys_minus_goes_where_its_plus_goes_over_a_fuse():
    made = craft(
        captive("X1", "bp GND", board="pack", signals="BAT+, BAT-"),
        two_pin("F1", "bp", "vb"),
        pads("TP1", "vb GND", board="hub", signals="VBAT, GND"),
        plug("J1", "a GND", board="hub", signals="TX, GND"),
        plug("J2", "a GND", board="radio", signals="RX, GND"),
        plug("J0", "b GND", board="light", signals="IN, GND"),
        power("GND"),
    )
    assert "TP1:2 - X1:2" in lead_ends(made)
