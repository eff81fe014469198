"""`tabside diagnose` as a person types it, on the demo boat."""

import json

import pytest

from fixture_kit import FIXTURES
from tabside.cli import main

BOAT = str(FIXTURES / "survey_boat/rev_b/survey_boat.kicad_sch")


@pytest.fixture(scope="module")
def rows():
    from tabside.craft_reading import craft_of
    from tabside.documents.build import build_plan
    from tabside.read import read_drawing
    from tabside.rules import check_craft

    craft = craft_of(read_drawing(BOAT), BOAT)
    return build_plan(craft, check_craft(craft)).proof


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
    assert "cavities 2 and 3 are swapped" in said and "Measure next" in said


def test_json_names_mistakes_places_and_rows(rows, capsys):
    first = step(rows, "J10", "2")
    assert main(["diagnose", BOAT, "--failed", rows.rows[first - 1].id, "--passed", str(first + 1), "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["format"] == "tabside/diagnose/1" and answer["measure_next"]
    best = answer["explains"][0]
    assert set(best) >= {"mistake", "kind", "at", "rows"} and best["rows"] == [rows.rows[first - 1].id]


def test_nothing_explains_a_failed_meter_with_all_else_passed(rows, capsys):
    passed = ",".join(str(n) for n in range(2, len(rows.rows) + 1))
    assert main(["diagnose", BOAT, "--failed", "1", "--passed", passed]) == 1
    assert "Nothing in the model explains" in capsys.readouterr().out


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


@pytest.mark.parametrize("several", ["2-4", "2 - 4", "2 3 4", "2..4", "2–4", "2;3, 4"])
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
        (["--failed", "3", "--passed", "3"], "is named as failed and as passed"),
        (["--failed", "3", "--sheet", "0123456789ab"], "readings of another drawing"),
    ],
)
def test_wrong_words_are_one_line_and_exit_2(arguments, message, capsys):
    assert main(["diagnose", BOAT, *arguments]) == 2
    streams = capsys.readouterr()
    assert message in streams.err and streams.err.count("\n") == 1 and not streams.out
