"""How each cable of a craft is made, from drawing to steps.  What is expected is worked out by hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crafts.craft_kit import captive, pads, plug
from crafts.small_craft import small_craft
from tabside.documents.about import about_build
from tabside.documents.as_json.plan import plan_json
from tabside.documents.build import craft_build
from tabside.make.method import Method
from tabside.make.sheets.cable_plan import Action
from tabside.model.craft import CraftSettings
from tabside.model.findings import Severity
from tabside.model.stock import Costs, Cutting, StockCable, StockHousing, StockLead, StockWire
from tabside.rules import check_craft

EIGHT = tuple(f"S{n}" for n in range(1, 9))
KNOWN = {"entry": "side", "tabs": "away", "contact_1": "left"}


NOTHING_MORE = Cutting(strip_mm=0.0, again_mm=0.0)


def two_plugs(order, *, a="JST SH", b="JST SH", **more):
    """A cable of which contact n of J1 goes to contact order[n-1] of J2; 0: to nothing."""
    first = [f"S{n}" if goes else "-" for n, goes in enumerate(order, 1)]
    second = ["-"] * len(order)
    for n, goes in enumerate(order, 1):
        if goes:
            second[goes - 1] = f"S{n}"
    return (
        plug("J1", first, board="pilot", family=a, **more),
        plug("J2", second, board="radio", family=b, **more),
    )


def cable(
    ends=("jst_sh", "jst_sh"), ways=4, *, pairs=None, length_mm=120.0, count=1, repinnable=True, name="left over"
):
    pairs = pairs or [(n, n) for n in range(1, ways + 1)]
    return StockCable(name, ((ends[0], ways), (ends[1], ways)), tuple(pairs), "map", length_mm, count, repinnable)


def made(*symbols, length_mm=100.0, **stock):
    facts = {"*": {"length_mm": length_mm, "gauge_awg": 28}}
    craft = small_craft(*symbols, settings=CraftSettings(**stock), leads=facts)
    return craft_build(craft, check_craft(craft)).plan


def only(plan):
    (one,) = plan.cables
    return one


def by_hand(sheet):
    """Its steps but for labels and tests."""
    return [step for step in sheet.steps if step.action not in (Action.LABEL, Action.TEST)]


def carried_out(sheet):
    """What each plug holds after the steps, carried out on a model of the starting cable."""
    rows = {
        f"{row.board}/{row.termination}": {int(c.number): c.lead for c in row.before if c.lead} for row in sheet.rows
    }
    out = []
    old = {}
    for step in sheet.steps:
        if step.housing and step.end not in old:  # an empty housing takes its place
            old[step.end], rows[step.end] = rows[step.end], {}
        row = old[step.end] if step.housing == "old" else rows[step.end]
        if step.action is Action.PUT_IN:
            assert int(step.cavity) not in row, "into a full cavity"
            row[int(step.cavity)] = step.lead
            if step.lead in out:
                out.remove(step.lead)
        elif step.action in (Action.TAKE_OUT, Action.LEAVE_OUT):
            assert row.pop(int(step.cavity)) == step.lead
            if step.action is Action.TAKE_OUT:
                out.append(step.lead)
        assert len(out) <= 2
        if sheet.method in (Method.RE_PIN, Method.RE_HOUSE) and step.action not in (Action.LABEL, Action.TEST):
            assert dict(enumerate(step.occupancy, 1)) == {n: row.get(n) for n in range(1, len(step.occupancy) + 1)}
        if step.housing:
            assert f"of the {step.housing} housing" in step.words and step.parked is None
    assert not out and not any(old.values())
    return rows


def as_drawn(order):
    """Marks are given in the order of J1's contacts."""
    used = [(n, goes) for n, goes in enumerate(order, 1) if goes]
    marks = {n: f"W{k}" for k, (n, _) in enumerate(used, 1)}
    return {
        "pilot/J1": {n: marks[n] for n, _ in used},
        "radio/J2": {goes: marks[n] for n, goes in used},
    }


def test_a_stock_cable_of_the_drawn_order_is_plugged_in():
    sheet = only(made(*two_plugs([1, 2, 3, 4]), stock_cables=(cable(),)))
    assert (sheet.method, sheet.start_from, by_hand(sheet), sheet.cost) == (Method.PLUG_IN, "stock:left over", [], 0)


def test_a_reversed_stock_cable_is_plugged_in_where_reversed_is_drawn():
    stock = cable(pairs=[(1, 4), (2, 3), (3, 2), (4, 1)])
    assert only(made(*two_plugs([4, 3, 2, 1]), stock_cables=(stock,))).method is Method.PLUG_IN


def test_without_a_craft_file_straight_cables_are_taken_to_be_on_sale_and_the_plan_says_so():
    plan = made(*two_plugs([1, 2, 3, 4]))
    assert (only(plan).method, only(plan).start_from) == (Method.PLUG_IN, "straight")
    assert any("available to buy" in text for text in plan.assumptions)


def test_one_cycle_is_two_moves_with_one_contact_parked():
    sheet = only(made(*two_plugs([2, 1, 3, 4]), stock_cables=(cable(),)))
    assert (sheet.method, sheet.moves, len(by_hand(sheet))) == (Method.RE_PIN, 2, 4)
    assert carried_out(sheet) == as_drawn([2, 1, 3, 4])


def test_two_cycles_are_four_moves():
    costs = Costs(buy_ready=False)  # nothing else to choose: assembling from bought leads would cost less
    sheet = only(made(*two_plugs([2, 1, 4, 3]), stock_cables=(cable(),), costs=costs))
    assert (sheet.method, sheet.moves) == (Method.RE_PIN, 4)
    assert carried_out(sheet) == as_drawn([2, 1, 4, 3])


def test_leads_that_the_drawing_does_not_use_are_left_out_at_both_ends():
    sheet = only(made(*two_plugs([1, 2, 0, 4]), stock_cables=(cable(),)))
    left = [(step.end, step.cavity, step.listed) for step in sheet.steps if step.action is Action.LEAVE_OUT]
    assert sheet.method is Method.RE_PIN
    assert left == [("pilot/J1", "3", False), ("radio/J2", "3", False)]
    assert carried_out(sheet) == as_drawn([1, 2, 0, 4])
    assert "remove the wire, or insulate and tie back both its ends" in by_hand(sheet)[1].words


@settings(deadline=None, max_examples=60)
@given(st.integers(1, 15).flatmap(lambda n: st.permutations(range(1, n + 1))), st.data())
def test_the_steps_make_the_drawn_cable(order, data):
    keep = data.draw(st.sets(st.sampled_from(range(len(order))), min_size=1))
    order = [goes if n in keep else 0 for n, goes in enumerate(order)]
    ways = len(order)
    stock = cable(ways=ways, name="any")
    housing = StockHousing("jst_sh", ways, data.draw(st.integers(0, 1)))
    costs = Costs(buy_ready=False, move_minutes=0.1, leave_out_minutes=0.1, move_risk=0)
    sheet = only(made(*two_plugs(order, ways=ways), stock_cables=(stock,), stock_housings=(housing,), costs=costs))
    assert sheet.method in (Method.PLUG_IN, Method.RE_PIN, Method.RE_HOUSE)
    if by_hand(sheet):
        assert carried_out(sheet) == as_drawn(order)
        for row in sheet.rows:
            got = {int(c.number): c.lead for c in row.after if c.lead}
            assert got == as_drawn(order)[f"{row.board}/{row.termination}"]


def test_three_moves_go_into_an_empty_housing_that_is_there():
    order = [2, 3, 1, 4]
    without = only(made(*two_plugs(order), stock_cables=(cable(),), costs=Costs(buy_ready=False)))
    housing = StockHousing("jst_sh", 4, 1)
    sheet = only(
        made(*two_plugs(order), stock_cables=(cable(),), stock_housings=(housing,), costs=Costs(buy_ready=False))
    )
    assert (without.method, sheet.method) == (Method.RE_PIN, Method.RE_HOUSE)


def test_two_moves_stay_in_their_housing():
    housing = StockHousing("jst_sh", 4, 1)
    sheet = only(made(*two_plugs([2, 1, 3, 4]), stock_cables=(cable(),), stock_housings=(housing,)))
    assert sheet.method is Method.RE_PIN


def test_a_cable_that_cannot_be_re_pinned_is_not():
    stock = (cable(repinnable=False),)
    assert only(made(*two_plugs([2, 1, 3, 4]), stock_cables=stock)).start_from == "straight"
    nothing_sold = Costs(buy_ready=False)
    assert only(made(*two_plugs([2, 1, 3, 4]), stock_cables=stock, costs=nothing_sold)).method is Method.CRIMP


def test_pre_crimped_leads_are_assembled_when_every_contact_would_move():
    assert only(made(*two_plugs([2, 3, 4, 1]))).method is Method.ASSEMBLE


@pytest.mark.parametrize(("length_mm", "used"), [(99.0, False), (100.0, True), (250.0, True), (251.0, False)])
def test_a_stock_cable_is_as_long_as_the_path_and_not_far_longer(length_mm, used):
    """Path 100 mm, slack at most 150 mm."""
    plan = made(*two_plugs([1, 2, 3, 4]), stock_cables=(cable(length_mm=length_mm),))
    assert (only(plan).start_from == "stock:left over") is used
    assert [finding.rule for finding in plan.findings] == ([] if used else ["slack"])


def test_a_look_alike_is_no_substitute():
    """JST GH and Molex PicoBlade: same pitch, do not mate (facts, confusable)."""
    stock = cable(("molex_picoblade", "molex_picoblade"))
    sheet = only(made(*two_plugs([1, 2, 3, 4], a="JST GH", b="JST GH"), stock_cables=(stock,)))
    assert sheet.start_from == "straight"


def test_one_stock_cable_serves_one_place():
    second = (
        plug("J3", "A B C D", board="x", family="JST SH"),
        plug("J4", "A B C D", board="y", family="JST SH"),
    )
    plan = made(*two_plugs([1, 2, 3, 4]), *second, stock_cables=(cable(),))
    assert sorted(str(sheet.start_from) for sheet in plan.cables) == ["stock:left over", "straight"]


def test_a_plug_and_pads_take_tails_and_one_lead_gives_two():
    """Three tails of 60 mm: one lead of 150 mm gives two, a second one the third."""
    lead = StockLead(("jst_sh", "jst_sh"), 150.0, 28, "BK", 5)
    symbols = (plug("J1", "A B C", board="pilot", family="JST SH"), pads("P1", "A B C", board="light"))
    plan = made(*symbols, length_mm=60.0, stock_leads=(lead,))
    assert only(plan).method is Method.TAIL
    assert sorted(len(cut.pieces) for cut in plan.stock_cuts) == [1, 2]
    (line,) = [each for each in plan.purchases if each.item == "pre-crimped lead"]
    assert (line.quantity, line.to_buy) == (2, 0)


def test_pads_are_soldered_on_both_ends():
    sheet = only(made(pads("P1", "A B", board="a"), pads("P2", "A B", board="b")))
    assert sheet.method is Method.SOLDER
    assert [step.action for step in sheet.steps].count(Action.SOLDER) == 4


def test_plugs_of_two_families_are_crimped_on_one_end():
    """No lead with two families is on sale: a tail of one family gets the other's contact by hand."""
    plan = made(*two_plugs([1, 2, 3, 4], b="JST GH"))
    assert only(plan).method is Method.CRIMP
    assert (plan.crimps, plan.by_hand.crimps) == (4, 8)


def test_a_plug_whose_family_is_not_stated_is_fitted_as_its_maker_says():
    symbols = two_plugs([1, 2])
    unknown = plug("J2", ["S1", "S2"], board="radio")
    steps = [step for step in only(made(symbols[0], unknown)).steps if step.termination == "J2" and step.cavity]
    assert [(step.action, step.cavity) for step in steps] == [
        (Action.CRIMP, "1"),
        (Action.PUT_IN, "1"),
        (Action.CRIMP, "2"),
        (Action.PUT_IN, "2"),
    ]
    assert "fit the contact of the plug for radio/J2, as its maker says" in steps[0].words


def test_a_lead_of_both_families_in_stock_needs_no_crimping():
    lead = StockLead(("jst_gh", "jst_sh"), 150.0, 28, None, 4)
    plan = made(*two_plugs([1, 2, 3, 4], b="JST GH"), stock_leads=(lead,))
    assert (only(plan).method, plan.crimps) == (Method.ASSEMBLE, 0)


def test_a_captive_plug_that_mates_is_direct():
    symbols = (
        captive("J1", "A B C", board="camera", family="JST GH"),
        plug("J2", "A B C", board="pilot", family="JST GH"),
    )
    assert only(made(*symbols)).method is Method.DIRECT


def test_a_captive_plug_in_another_order_is_re_pinned():
    symbols = (
        captive("J1", "A B C", board="camera", family="JST GH"),
        plug("J2", "B A C", board="pilot", family="JST GH"),
    )
    sheet = only(made(*symbols))
    assert (sheet.method, sheet.moves, sheet.start_from) == (Method.RE_PIN, 2, None)


@pytest.mark.parametrize("family", ["JST XH", "XT60"])
def test_the_plug_of_a_pack_is_never_re_pinned(family):
    symbols = (
        captive("J1", "A B", board="pack", family=family, signals="BAT+, BAT-", gives="VBAT 10A"),
        plug("J2", "B A", board="power", family=family, signals="BAT-, BAT+"),
    )
    sheet = only(made(*symbols))
    assert sheet.stopped and sheet.steps == () and "live" in sheet.stopped


@pytest.mark.parametrize(
    ("family", "reversed_", "cleared"),
    [
        pytest.param("XT60", True, False, id="pack the other way round"),
        pytest.param("XT60", False, True, id="pack as drawn"),
        pytest.param("JST XH", True, False, id="small pack the other way round"),
    ],
)
def test_a_pack_whose_plug_would_join_the_wrong_poles_is_not_cleared(family, reversed_, cleared):
    """Every lead of the drawing agrees, but the plug goes in, and then battery meets ground."""
    there = ("B A", "BAT-, BAT+") if reversed_ else ("A B", "BAT+, BAT-")
    craft = small_craft(
        captive("J1", "A B", board="pack", family=family, signals="BAT+, BAT-", gives="VBAT 10A"),
        plug("J2", there[0], board="power", family=family, signals=there[1]),
    )
    verdict = check_craft(craft)
    build = craft_build(craft, verdict)
    assert build.cleared is cleared
    assert bool(about_build(build).not_cleared) is not cleared
    assert [f.rule for f in verdict.findings if f.severity is Severity.ERROR] == ([] if cleared else ["role-clash"])


def test_a_camera_plug_in_another_order_is_re_pinned_and_cleared():
    craft = small_craft(
        captive("J1", "A B C", board="camera", family="JST GH"),
        plug("J2", "B A C", board="pilot", family="JST GH"),
    )
    assert craft_build(craft, check_craft(craft)).cleared


PACK = (
    captive("J1", "A B", board="pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 10A"),
    plug("J2", "A B", board="power", family="XT60", signals="BAT+, BAT-"),
)
BALANCE = captive("J3", "C D E", board="pack", family="JST XH", signals="a, b, c")


def test_a_balance_plug_is_never_cut_off_and_gets_a_mate_that_is_made_away_from_the_pack():
    plan = made(*PACK, BALANCE, pads("P4", "C D E", board="monitor"))
    sheet = next(cable for cable in plan.cables if any(end.termination == "J3" for end in cable.ends))
    assert all("own lead" not in step.words for step in sheet.steps)
    at_pack = [step for step in by_hand(sheet) if step.end == "pack/J3" and step.action is not Action.CUT]
    assert {step.action for step in at_pack} == {Action.STRIP, Action.CRIMP, Action.PUT_IN}
    assert all("loose mating connector, never on the part's own" in step.words for step in at_pack)
    assert any("plug that mates with the part's own (JST XH)" in text for text in sheet.needs_one_look)


def test_the_mate_of_a_plug_with_cups_is_soldered():
    """XT60: solder cups (facts, retention)."""
    symbols = (PACK[0], pads("P1", "A B", board="power", signals="BAT+, BAT-"))
    sheet = only(made(*symbols))
    assert sheet.method is Method.SOLDER
    soldered = sorted((step.end, step.cavity) for step in sheet.steps if step.action is Action.SOLDER)
    assert soldered == [("pack/J1", "1"), ("pack/J1", "2"), ("power/P1", "1"), ("power/P1", "2")]
    assert all("LIVE" not in step.words for step in sheet.steps)  # new wire, with no pack on it


def test_bare_leads_of_a_pack_are_live_while_hands_work_on_them():
    bare = captive("J1", "A B", board="pack", signals="BAT+, BAT-", gives="VBAT 10A")
    sheet = only(made(bare, pads("P1", "A B", board="power", signals="BAT+, BAT-")))
    cut_to_cover = by_hand(sheet)
    assert {step.action for step in cut_to_cover} >= {Action.CUT, Action.STRIP, Action.SOLDER, Action.INSULATE}
    assert all(step.live and "LIVE" in step.words for step in cut_to_cover)


@pytest.mark.parametrize(
    "symbols",
    [
        pytest.param(two_plugs([1, 2, 3, 4]), id="straight cable"),
        pytest.param(two_plugs([2, 3, 4, 1]), id="pre-crimped leads"),
        pytest.param((plug("J1", "A B", board="a", family="JST SH"), pads("P1", "A B", board="b")), id="tails"),
    ],
)
def test_nothing_is_bought_that_cannot_exist(symbols):
    """JST SH contacts take 28 to 32 AWG (datasheet 2024-10-04): nobody sells SH cables or leads of 22 AWG."""
    facts = {"*": {"length_mm": 100.0, "gauge_awg": 22}}
    craft = small_craft(*symbols, leads=facts)
    plan = craft_build(craft, check_craft(craft)).plan
    assert "gauge" in only(plan).stopped and only(plan).steps == ()
    assert not [each.item for each in plan.purchases if "lead" in each.item or "cable" in each.item]


def test_coax_is_as_bought():
    symbols = (plug("J1", "A B", board="a", family="U.FL"), plug("J2", "A B", board="b", family="U.FL"))
    assert only(made(*symbols)).method is Method.AS_BOUGHT


def test_insulation_displacing_plugs_are_never_re_pinned():
    straight = only(made(*two_plugs([1, 2, 3, 4], a="jst_sr", b="jst_sr")))
    crossed = only(made(*two_plugs([2, 1, 3, 4], a="jst_sr", b="jst_sr")))
    assert straight.method is Method.PLUG_IN
    assert crossed.stopped and crossed.steps == ()


def test_a_gauge_that_no_contact_takes_stops_its_cable_only():
    """JST SH contacts take 28 to 32 AWG (datasheet 2024-10-04)."""
    symbols = (*two_plugs([1, 2, 3, 4]), pads("P1", "X", board="a"), pads("P2", "X", board="b"))
    facts = {"*": {"length_mm": 100.0, "gauge_awg": 22}}
    craft = small_craft(*symbols, settings=CraftSettings(costs=Costs(buy_ready=False)), leads=facts)
    first, second = craft_build(craft, check_craft(craft)).plan.cables
    assert "gauge" in first.stopped and not second.stopped


def test_places_are_counted_from_the_mark_and_from_the_left_as_the_plug_is_held():
    """Side entry, contact 1 left in the picture.  Release side to the board: the row is reversed in the hand."""
    away = only(made(*two_plugs([2, 1, 3, 4], **KNOWN), stock_cables=(cable(),)))
    board = only(made(*two_plugs([2, 1, 3, 4], **(KNOWN | {"tabs": "board"})), stock_cables=(cable(),)))
    assert {(step.from_mark, step.from_left) for step in by_hand(away)} == {(1, 1), (2, 2)}
    assert {(step.from_mark, step.from_left) for step in by_hand(board)} == {(1, 4), (2, 3)}


def test_no_left_is_guessed():
    sheet = only(made(*two_plugs([2, 1, 3, 4]), stock_cables=(cable(),)))
    assert {step.from_left for step in sheet.steps} == {None}
    assert {step.from_mark for step in by_hand(sheet)} == {1, 2}
    assert any("Contact 1, Entry and Tabs not stated" in text for text in sheet.needs_one_look)


def test_the_end_that_no_hand_works_on_is_told_too():
    """Its cavities are counted with the meter's probe."""
    sheet = only(made(*two_plugs([2, 1, 3, 4]), stock_cables=(cable(),)))
    for end in sheet.ends:
        assert [text for text in sheet.needs_one_look if text.startswith(f"{end.name}: Contact 1, Entry and Tabs")]
    known = only(made(*two_plugs([2, 1, 3, 4], **KNOWN), stock_cables=(cable(),)))
    assert not [text for text in known.needs_one_look if "not stated" in text]


def test_receptacles_that_show_one_housing_two_ways_round_give_no_face():
    """One housing has one order in the hand: the drawing must be wrong at one of them."""
    first, second = two_plugs([2, 1, 3, 4], **KNOWN)
    second = plug("J2", "S2 S1 S3 S4", board="radio", family="JST SH", **(KNOWN | {"tabs": "board"}))
    sheet = only(made(first, second, stock_cables=(cable(),)))
    assert {step.from_left for step in sheet.steps} == {None}
    assert any("which way round" in text for text in sheet.needs_one_look)


def test_the_end_whose_contacts_release_more_easily_is_worked_on():
    """GH holds contacts by a lance, PicoBlade by a tang of the contact (facts, retention)."""
    stock = cable(("jst_gh", "molex_picoblade"))
    sheet = only(made(*two_plugs([2, 1, 3, 4], a="JST GH", b="Molex PicoBlade"), stock_cables=(stock,)))
    assert {step.end for step in by_hand(sheet)} == {"pilot/J1"}
    turned = cable(("molex_picoblade", "jst_gh"))
    sheet = only(made(*two_plugs([2, 1, 3, 4], a="Molex PicoBlade", b="JST GH"), stock_cables=(turned,)))
    assert {step.end for step in by_hand(sheet)} == {"radio/J2"}


def test_the_mass_is_copper_and_insulation():
    """28 AWG: 0.0810 mm2 (ASTM B258).  2 m of it: 0.0810 x 2 x 8.96 = 1.4515 g."""
    symbols = (pads("P1", "A B", board="a"), pads("P2", "A B", board="b"))
    plan = made(*symbols, length_mm=1000.0)
    assert plan.mass.copper_g == pytest.approx(1.4515, abs=0.002)
    assert plan.mass.insulation_g == 0 and plan.mass.insulation_unknown == 2
    wire = StockWire(28, None, 3000.0, 1, od_mm=1.0)
    assert made(*symbols, length_mm=1000.0, stock_wire=(wire,)).mass.insulation_g > 1.5


def test_contacts_to_buy_are_multiplied_for_spoiled_ones():
    """1.0 mm pitch: three contacts for each good crimp; four leads, both ends: 24."""
    plan = made(*two_plugs([1, 2, 3, 4]), costs=Costs(buy_ready=False))
    (line,) = [each for each in plan.purchases if each.item == "contact"]
    assert (line.quantity, plan.crimps) == (24, 8)


def test_the_sum_of_all_cables_is_the_craft_s():
    plan = made(*two_plugs([2, 1, 3, 4], b="JST GH"), pads("P1", "X", board="a"), pads("P2", "X", board="b"))
    assert plan.cost == pytest.approx(sum(sheet.cost for sheet in plan.cables))
    assert plan.minutes == pytest.approx(sum(sheet.minutes for sheet in plan.cables))


def test_json_has_its_keys():
    plan = made(*two_plugs([1, 2, 0, 4]), stock_cables=(cable(),))
    answer = plan_json(plan.cables, cleared=True)
    assert (answer["format"], answer["cleared"]) == ("tabside/plan/1", True)
    (one,) = answer["cables"]
    assert list(one) == [
        "mark",
        "ends",
        "method",
        "start_from",
        "start",
        "same_as",
        "steps",
        "needs_one_look",
        "minutes",
        "cost",
        "why",
        "cautions",
    ]
    assert (one["start"], one["same_as"]) == ([[1, 1], [2, 2], [3, 3], [4, 4]], None)
    assert one["ends"][0] == {"board": "pilot", "termination": "J1", "family": "jst_sh", "ways": 4}
    assert [step["action"] for step in one["steps"][:3]] == ["test", "label", "label"]
    step = one["steps"][3]
    words = "pilot/J1: take spare 3 out of cavity 3, 3rd from the contact-1 mark and leave it out: the drawing does not"
    assert step.pop("words").startswith(words)
    assert step == {
        "step": 4,
        "action": "leave out",
        "end": "pilot/J1",
        "cavity": 3,
        "from_mark": 3,
        "from_left": None,
        "lead": None,
        "colour": None,
        "signal": None,
        "live": False,
        "rows": None,
    }


def test_rolls_of_wire_are_cut_into_the_fewest_pieces():
    """Six leads of 400 mm from rolls of 1000 mm, two a roll: three rolls; 200 mm stay of each."""
    symbols = (pads("P1", "A B C D E F", board="a"), pads("P2", "A B C D E F", board="b"))
    plan = made(*symbols, length_mm=400.0, stock_wire=(StockWire(28, None, 1000.0, 9),), cutting=NOTHING_MORE)
    assert [(len(cut.pieces), cut.offcut_mm) for cut in plan.stock_cuts] == [(2, 200.0)] * 3


def test_the_least_is_left_over():
    """A tail of 90 mm from leads of 100 and of 300 mm: 10 mm over, not 210 mm."""
    leads = (StockLead(("jst_sh", "jst_sh"), 300.0, 28, None, 1), StockLead(("jst_sh", "jst_sh"), 100.0, 28, None, 1))
    symbols = (plug("J1", "A", board="pilot", family="JST SH"), pads("P1", "A", board="light"))
    (cut,) = made(*symbols, length_mm=90.0, stock_leads=leads, cutting=NOTHING_MORE).stock_cuts
    assert (cut.length_mm, cut.offcut_mm) == (100.0, 10.0)


def test_the_end_that_is_crimped_here_is_stripped_and_the_one_that_has_its_contact_is_not():
    """Tails of GH leads into a JST PH plug: only PH is stripped, by J.S.T. crimp sheets as quoted."""
    lead = StockLead(("jst_gh", "jst_gh"), 150.0, 28, None, 4)
    plan = made(*two_plugs([1, 2], a="JST GH", b="JST PH"), stock_leads=(lead,), costs=Costs(buy_ready=False))
    assert only(plan).method is Method.CRIMP
    assert {(cut.strip_from, cut.strip_to) for cut in plan.cuts} == {("none", "2.3 to 2.5")}


def test_a_step_names_the_signal_that_its_wire_will_carry_wherever_it_sits_now():
    """A straight cable for TX to RX and back: the wire in J2's cavity 1 belongs into 2, and becomes J2's RX line."""
    plan = made(
        plug("J1", "A B G", board="pilot", family="JST SH", signals="TX, RX, GND"),
        plug("J2", "B A G", board="radio", family="JST SH", signals="TX, RX, GND"),
        stock_cables=(cable(ways=3),),
    )
    labels = {"J1": {"W1": "TX", "W2": "RX", "W3": "GND"}, "J2": {"W1": "RX", "W2": "TX", "W3": "GND"}}
    moves = [step for step in by_hand(only(plan)) if step.lead]
    assert only(plan).method is Method.RE_PIN and {step.action for step in moves} == {Action.TAKE_OUT, Action.PUT_IN}
    assert all(step.signal == labels[step.termination][step.lead] for step in moves)
    assert all(f"{step.lead} ({labels[step.termination][step.lead]}" in step.full for step in moves)
