"""`tabside diagnose` as a person types it, on the demo boat."""

import json
import re

import pytest

from fixture_kit import FIXTURES
from slow_cases import slow
from tabside.cli import main
from tabside.prove.diagnosis import Diagnoser

BOAT = str(FIXTURES / "survey_boat/rev_b/survey_boat.kicad_sch")


@pytest.fixture(scope="module")
def rows():
    from tabside.craft_reading import craft_of
    from tabside.documents.build import craft_build
    from tabside.read import read_drawing
    from tabside.rules import check_craft

    craft = craft_of(read_drawing(BOAT), BOAT)
    return craft_build(craft, check_craft(craft)).proof


def step(proof, termination, contact):
    """Step of the loose row with its fixed probe there."""
    return next(
        n
        for n, row in enumerate(proof.rows, 1)
        if (row.where.termination, row.where.contact, row.when.value) == (termination, contact, "loose")
    )


def test_two_rows_of_one_cable_mean_swapped_contacts_or_a_bridge(rows, capsys):
    failed = f"{step(rows, 'J10', '2')},{step(rows, 'J10', '3')}"
    assert main(["diagnose", BOAT, "--failed", failed]) == 0
    said = capsys.readouterr().out
    assert "cavities 2 and 3 are swapped" in said and "Next: Look at pilot/J10: wire by wire" in said
    assert "\n--failed or --passed" in said or "added to --failed or --passed" in " ".join(said.split())


def test_json_names_mistakes_places_and_rows(rows, capsys):
    first = step(rows, "J10", "2")
    assert main(["diagnose", BOAT, "--failed", rows.rows[first - 1].id, "--passed", str(first + 1), "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["format"] == "tabside/diagnose/1" and answer["measure_next"]
    best = answer["explains"][0]
    assert set(best) >= {"mistake", "kind", "at", "rows"} and best["rows"] == [rows.rows[first - 1].id]


def test_nothing_explains_a_failed_wire_with_all_else_passed(rows, capsys):
    """Rows that the sheet does without, too: they measure the same wire from its other end."""
    first = rows.rows[step(rows, "J10", "1") - 1].id
    passed = ",".join(id for id in Diagnoser(rows).rows if id != first)
    assert main(["diagnose", BOAT, "--failed", first, "--passed", passed]) == 1
    assert "Nothing in the model explains" in capsys.readouterr().out


def test_a_failed_meter_is_the_meter_s_own(capsys):
    assert main(["diagnose", BOAT, "--failed", "1"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert said.startswith("Step 1 is the meter itself") and "Likeliest" not in said


@pytest.mark.parametrize("first", [1, *slow(range(2, 9))])
def test_what_is_measured_next_is_told_first_and_an_id_only_as_what_is_typed(first, rows, capsys):
    for n, row in list(enumerate(rows.rows, 1))[first - 1 :: 8]:
        main(["diagnose", BOAT, "--failed", str(n)])
        said = " ".join(capsys.readouterr().out.split())
        for found in re.finditer(r"m[0-9a-f]{10}", said):
            assert said[: found.start()].endswith("Then run it again with "), (n, row.words)


def test_two_contacts_of_one_rail_that_are_swapped_do_no_harm_and_are_not_called_missing(rows, capsys):
    """Both wires lie between the same two rails: logic."""
    first = step(rows, "J3", "1")
    assert main(["diagnose", BOAT, "--failed", f"{first},{first + 1}"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "1. cable plug for power/J3: the contacts in cavities 1 and 2 are swapped; both are 5V: no harm" in said
    assert "missing" not in said


def test_one_wire_left_open_says_what_the_other_probe_tells(rows, capsys):
    main(["diagnose", BOAT, "--failed", str(step(rows, "J10", "1"))])
    said = " ".join(capsys.readouterr().out.split())
    assert (
        "go along position/J16 once more. Another contact beeps and the right one does not: the two are swapped" in said
    )


def test_a_short_is_looked_for_by_taking_out_one_plug_after_the_other(rows, capsys):
    short = next(n for n, row in enumerate(rows.rows, 1) if row.test.value == "no short")
    main(["diagnose", BOAT, "--failed", str(short)])
    said = " ".join(capsys.readouterr().out.split())
    assert "the pack away: take out one plug after the other and measure again after each" in said
    assert "no harm" not in said


def test_three_mistakes_in_three_cables_are_told_cable_by_cable(rows, capsys):
    steps = [step(rows, *place) for place in (("J3", "3"), ("J10", "2"), ("J12", "2"))]
    assert main(["diagnose", BOAT, "--failed", ",".join(map(str, steps))]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert said.startswith("No two mistakes explain all of it: each cable is told for itself.")
    assert all(f"% of step {n})" in said for n in steps)


def test_wires_soldered_into_a_plug_are_not_told_to_be_moved_like_contacts(rows, capsys):
    volts = next(n for n, row in enumerate(rows.rows, 1) if row.kind.value == "volts")
    main(["diagnose", BOAT, "--failed", str(volts)])
    said = " ".join(capsys.readouterr().out.split())
    assert "REVERSED POLARITY: cable plug for power/J2: the wires in its cups 1 and 2 are swapped: unsolder" in said
    assert "a minus sign is REVERSED POLARITY: do not plug it in" in said


def of_parts(rows):
    """Steps that look at a part or measure it by itself: a capacitor's legs, a fuse, a switch, a part's own leads."""
    finders = {id for ids in rows.found_by.values() for id in ids}
    looks = [row for row in rows.rows if row.kind.value == "look" or row.when.value == "part"]
    return [rows.step_of[row.id] for row in looks if row.id not in finders]


def test_a_failed_row_about_a_part_is_told_of_itself_and_no_wire_is_blamed(rows, capsys):
    """What the row names is what is wrong: common practice, no source."""
    steps = of_parts(rows)
    assert len(steps) >= 4
    for step_of_part in steps:
        assert main(["diagnose", BOAT, "--failed", str(step_of_part)]) == 0
        said = " ".join(capsys.readouterr().out.split())
        assert said.startswith(f"Step {step_of_part} is about what it names") and "Likeliest" not in said
        assert " ".join(rows.rows[step_of_part - 1].words.split())[:30] in said
    main(["diagnose", BOAT, "--failed", str(steps[0]), "--json"])
    assert f"Step {steps[0]} is about" in json.loads(capsys.readouterr().out)["message"]


def test_a_failed_part_does_not_hide_a_swap_of_wires(rows, capsys):
    swapped = f"{step(rows, 'J10', '2')},{step(rows, 'J10', '3')}"
    main(["diagnose", BOAT, "--failed", f"{of_parts(rows)[0]},{swapped}"])
    said = capsys.readouterr().out
    assert f"Step {of_parts(rows)[0]} is about" in said and "cavities 2 and 3 are swapped" in said


def test_what_is_put_right_on_a_packs_own_wires_is_called_live(rows, capsys):
    short = next(n for n, row in enumerate(rows.rows, 1) if row.kind.value == "volts")
    main(["diagnose", BOAT, "--failed", str(short)])
    said = " ".join(capsys.readouterr().out.split())
    assert "LIVE, the pack's own wires are there: its plug off every board, fuse out" in said


@pytest.mark.parametrize("several", ["2-4", "2–4", *slow(["2 - 4", "2 3 4", "2..4", "2;3, 4"])])
def test_rows_may_be_named_as_a_range_or_parted_by_blanks(several, capsys):
    answers = []
    for passed in ("2,3,4", several):
        main(["diagnose", BOAT, "--failed", "1", "--passed", passed, "--json"])
        answers.append(capsys.readouterr().out)
    assert answers[0] == answers[1] and '"format"' in answers[0]


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["--failed", "999"], "step 999 is not on the continuity sheet of this drawing"),
        (["--failed", ""], "no failed row is named"),
        (["--failed", "3", "--passed", ""], "argument --passed is empty"),
        (["--failed", "3-999"], "the steps 3-999 are not on the continuity sheet of this drawing: it has 1 to"),
        (["--failed", "3-99999999999999999999"], "are not on the continuity sheet"),
        (["--failed", "5-3"], "run backwards; write 3-5"),
        (["--failed", "1-0"], "the steps 1-0 run backwards; the sheet has steps 1 to"),
        (["--failed", "3", "--passed", "3"], "step 3 is named as failed and as passed"),
        (["--failed", "2-5", "--passed", "1,4"], "step 4 is named as failed and as passed"),
        (["--failed", "2,,3"], "a step is missing beside a comma in --failed 2,,3"),
        (["--failed", "2,"], "a step is missing beside a comma in --failed 2,"),
        (["--failed", "3", "--passed", "4,,5"], "a step is missing beside a comma in --passed 4,,5"),
        (["--failed", "8,8"], "step 8 is named twice in --failed"),
        (["--failed", "8-10,9"], "step 9 is named twice in --failed"),
        (["--failed", "5-"], '"5-" in --failed is no step and no id of the continuity sheet'),
        (["--failed", "8.5"], '"8.5" in --failed is no step and no id'),
        (["--failed", "abc"], '"abc" in --failed is no step and no id'),
        (["--failed", "m0123456789"], 'the row "m0123456789" is not on the continuity sheet of this drawing'),
        (["--failed", "3", "--sheet", "0123456789ab"], "readings of another drawing"),
    ],
)
def test_wrong_words_are_one_line_and_exit_2(arguments, message, capsys):
    assert main(["diagnose", BOAT, *arguments]) == 2
    streams = capsys.readouterr()
    assert message in streams.err and streams.err.count("\n") == 1 and not streams.out
