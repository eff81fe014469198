"""From readings back to the mistake, over all mistakes of random crafts, read by a bench that knows no model."""

import random

import pytest

from benches.model_bench import ModelBench, key_of
from crafts.craft_kit import captive, pads, plug, power
from crafts.small_craft import RADIO, small_craft
from dice.random_harness import random_craft
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.analysis.judgement import Judgement
from tabside.documents.as_json.proof import proof_json, row_json
from tabside.errors import TabsideError
from tabside.prove.bench.mistakes import MistakeKind
from tabside.prove.bench.reading import Bench
from tabside.prove.continuity import prove_craft
from tabside.prove.diagnosis import Diagnoser, can_short, together
from tabside.prove.measurement import RowKind, Section
from tabside.prove.measurement import Test as MeterTest

SEEDS = range(1, 25)


def diagnoser_of(*symbols, **more):
    made = small_craft(*symbols, **more)
    return Diagnoser(prove_craft(made, how_leads_are_made(made), Judgement(made).pack))


def named(diagnosis, most=3):
    """Ids of the first explanations, the same at the other end of the cable included."""
    return [
        " and ".join(mistake.id for mistake in mistakes)
        for explanation in diagnosis.explanations[:most]
        for mistakes in (explanation.mistakes, *explanation.elsewhere)
    ]


class Person:
    """Reads rows on a bench with one mistake in it."""

    def __init__(self, bench, diagnoser, deed):
        self._bench, self._deed = bench, deed
        self._rows = {id: row_json(row, None) for id, row in diagnoser.rows.items()}

    def passes(self, id):
        row = self._rows[id]
        if row["kind"] == "look":
            return row["from"]["termination"] not in {reference for reference, _ in self._deed.at}
        return self._bench.passes(row, self._deed.hardware, random.Random(1), kind_boards=True)


def test_the_true_mistake_is_among_the_first_three_and_first_after_at_most_two_further_measurements():
    tried = among_three = first = 0
    for seed in SEEDS:
        craft = random_craft(seed)
        leads = how_leads_are_made(craft)
        proof, bench = prove_craft(craft, leads, Judgement(craft).pack), ModelBench(craft, leads)
        diagnoser = Diagnoser(proof)
        listed = {key_of(mistake): mistake for mistake in proof_json(proof)["mistakes"]}
        for deed in bench.deeds():
            mistake = listed.get((deed.kind, deed.at, deed.leads))
            if mistake is None or mistake["by_eye"]:
                continue
            person = Person(bench, diagnoser, deed)
            rows = [row.id for row in proof.rows if row.kind is not RowKind.LOOK]
            passed = [id for id in rows if person.passes(id)]
            failed = [id for id in rows if id not in passed]
            diagnosis = diagnoser.diagnose(failed, passed)
            tried += 1
            among_three += mistake["id"] in named(diagnosis)
            for _ in range(2):
                if diagnosis.measure_next is not None:
                    id = diagnosis.measure_next.id
                    (passed if person.passes(id) else failed).append(id)
                    diagnosis = diagnoser.diagnose(failed, passed)
            first += mistake["id"] == diagnosis.explanations[0].id
    assert tried > 500
    assert among_three >= 0.95 * tried and first >= 0.80 * tried


def readings(diagnoser, mistakes):
    """(failed, passed) of the sheet's rows with these mistakes made together, as the model sees them."""
    proof = diagnoser.proof
    bench = Bench(proof.world, together(proof.world, [mistake.change for mistake in mistakes]))
    rows = [row for row in proof.rows if row.kind is not RowKind.LOOK]
    failed = [row.id for row in rows if bench.fails(row)]
    return failed, [row.id for row in rows if row.id not in failed]


def test_two_mistakes_at_once_where_one_does_not_explain_it():
    diagnoser = diagnoser_of(*RADIO, power("GND"))
    by_id = {mistake.id: mistake for mistake in diagnoser.proof.mistakes}
    both = [by_id["swapped-contacts@J1.1+J1.2"], by_id["wire-left-out@J1.4+J3.4"]]
    diagnosis = diagnoser.diagnose(*readings(diagnoser, both))
    assert any(set(id.split(" and ")) >= {"wire-left-out@J1.4+J3.4"} for id in named(diagnosis))
    assert all(len(explanation.mistakes) == 2 for explanation in diagnosis.explanations)


def test_three_contacts_in_a_ring_are_two_swaps():
    nets = "A B C D"
    diagnoser = diagnoser_of(
        plug("J1", nets, board="hub", family="JST GH", signals="TX, RX, SDA, SCL"),
        plug("J2", nets, board="radio", family="JST GH", signals="RX, TX, SDA, SCL"),
    )
    by_id = {mistake.id: mistake for mistake in diagnoser.proof.mistakes}
    both = [by_id["swapped-contacts@J1.1+J1.2"], by_id["swapped-contacts@J1.2+J1.3"]]
    diagnosis = diagnoser.diagnose(*readings(diagnoser, both))
    swaps = [{mistake.kind for mistake in explanation.mistakes} for explanation in diagnosis.explanations]
    assert diagnosis.explanations and {both[0].kind} in swaps


def test_two_mistakes_in_two_cables():
    symbols = []
    for n in (1, 3):
        for end, board in ((n, "hub"), (n + 1, f"radio{n}")):
            names = "5V, TX, RX, GND" if board == "hub" else "5V, RX, TX, GND"
            nets = ["V", f"A{n}", f"B{n}", "GND"]
            symbols.append(plug(f"J{end}", nets, board=board, family="JST GH", signals=names))
    diagnoser = diagnoser_of(*symbols, power("GND"))
    by_id = {mistake.id: mistake for mistake in diagnoser.proof.mistakes}
    both = [by_id["wire-left-out@J1.2+J2.2"], by_id["wire-left-out@J3.3+J4.3"]]
    diagnosis = diagnoser.diagnose(*readings(diagnoser, both))
    assert {frozenset(id.split(" and ")) for id in named(diagnosis)} & {frozenset(mistake.id for mistake in both)}


def test_it_says_so_when_nothing_explains_the_readings():
    diagnoser = diagnoser_of(*RADIO, power("GND"))
    rows = diagnoser.proof.rows
    diagnosis = diagnoser.diagnose([rows[0].id], [row.id for row in rows[1:]])
    assert not diagnosis.explanations and diagnosis.measure_next is None


def test_steps_and_ids_name_the_same_rows():
    diagnoser = diagnoser_of(*RADIO)
    id = diagnoser.proof.rows[2].id
    assert diagnoser.row_ids(["3", id]) == [id, id]


def test_a_label_beside_another_name_is_a_plug_in_the_wrong_connector_and_no_missing_wire():
    port = "V {0} {1} GND"
    diagnoser = diagnoser_of(
        plug("J1", port.format("A", "B"), board="hub", family="JST GH", signals="5V, TX, RX, GND"),
        plug("J2", port.format("A", "B"), board="radio", family="JST SH", signals="5V, RX, TX, GND"),
        plug("J3", port.format("C", "D"), board="hub", family="JST GH", signals="5V, SDA, SCL, GND"),
        plug("J4", port.format("C", "D"), board="compass", family="JST SH", signals="5V, SDA, SCL, GND"),
        power("GND"),
    )
    (look,) = [row for row in diagnoser.proof.rows if row.group is Section.PLUGGING and row.where.termination == "J1"]
    kinds = {mistake.kind for each in diagnoser.diagnose([look.id], []).explanations for mistake in each.mistakes}
    assert kinds == {MistakeKind.LOOK_ALIKE}


def test_solder_between_the_pads_that_are_measured_is_a_short():
    """The pads of a pack that is soldered on last: they may touch before its plus is there."""
    diagnoser = diagnoser_of(
        captive("X1", ["PLUS", "GND"], board="pack", signals="BAT+, BAT-", gives="9-13V 30A"),
        pads("P1", ["PLUS", "GND"], board="hub", signals="BAT+, BAT-", takes="9-26V 9A"),
        power("GND"),
    )
    short = next(row for row in diagnoser.proof.rows if row.test is MeterTest.SHORT)
    assert "pad-bridge@P1.1+P1.2" in named(diagnoser.diagnose([short.id], []))


@pytest.mark.parametrize("name", ["0", "99", "m0123456789"])
def test_a_row_of_another_drawing_is_refused(name):
    with pytest.raises(TabsideError, match="readings of another drawing say nothing"):
        diagnoser_of(*RADIO).row_ids([name])


def test_crossed_supplies_are_called_reversed_polarity():
    diagnoser = diagnoser_of(
        pads("P1", "V GND", board="hub", signals="5V, GND", gives="5V 1A"),
        pads("P2", "V GND", board="radio", signals="5V, GND", fields={}),
        plug("J1", "A GND", board="radio", family="JST GH", signals="TX, GND"),
        plug("J2", "A GND", board="hub", family="JST GH", signals="RX, GND"),
        power("GND"),
    )
    by_id = {mistake.id: mistake for mistake in diagnoser.proof.mistakes}
    diagnosis = diagnoser.diagnose(*readings(diagnoser, [by_id["crossed-supply@P2.1+P2.2"]]))
    assert any("REVERSED POLARITY" in words for words in diagnosis.what_to_do)


@pytest.mark.parametrize("seed", range(30, 42))
def test_a_row_that_no_mistake_is_near_shows_what_it_always_shows(seed):
    """The short cut of the readings against every row read in full on every broken craft."""
    craft = random_craft(seed)
    proof = prove_craft(craft, how_leads_are_made(craft), Judgement(craft).pack)
    diagnoser = Diagnoser(proof)
    rows = [row for row in diagnoser.rows.values() if row.kind is not RowKind.LOOK]
    for mistake in proof.mistakes:
        bench = Bench(proof.world, mistake.change)
        for row in rows:
            read = bench.fails(row) if row.test is not MeterTest.SHORT or can_short([mistake], row) else False
            assert diagnoser.fails(mistake, row) is read, (mistake.id, row.words)


@pytest.mark.parametrize("seed", range(30, 42))
def test_no_missing_wire_and_no_loose_plug_is_blamed_for_a_short(seed):
    craft = random_craft(seed)
    proof = prove_craft(craft, how_leads_are_made(craft), Judgement(craft).pack)
    diagnoser = Diagnoser(proof)
    shorts = [row for row in proof.rows if row.test is MeterTest.SHORT]
    for row in shorts:
        for explanation in diagnoser.diagnose([row.id], []).explanations:
            for mistakes in (explanation.mistakes, *explanation.elsewhere):
                assert any(mistake.kind is not MistakeKind.LEFT_OUT for mistake in mistakes)
                pads = {place for each in mistakes if each.kind is MistakeKind.PAD_BRIDGE for place, _ in each.at}
                places = {place for mistake in mistakes for place, _ in mistake.at}
                assert places & set(row.plugged) or row.where.termination in pads
