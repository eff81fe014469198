"""The explanations are whole, and the acceptance that they show is taken by the craft file's reader."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tabside.craft_reading import read_craft
from tabside.documents.explanation import acceptance_in_toml, explain_json, explained, explanations
from tabside.errors import TabsideError
from tabside.model.findings import Severity
from tabside.rules import ALL_CHECKS, check_craft

FIXTURES = Path(__file__).parents[2] / "fixtures"
EVERY = explanations()


@pytest.mark.parametrize("each", EVERY, ids=["/".join(each.rules) for each in EVERY])
def test_nothing_of_an_explanation_is_missing_and_every_label_is_taken(each):
    assert all((each.what, each.why, each.example, each.fix, each.accept, each.source)), each
    assert each.cases
    said = [each.what, each.why, each.example, each.fix, each.accept, each.source, *(words for _, words in each.cases)]
    for label in ("Example:", "Fix:", "Accept:", "Source:", "Passes:", "Fails:", "Warns:", "Notes:", "Quiet:"):
        assert not [words for words in said if label in words], label


@pytest.mark.parametrize("each", EVERY, ids=["/".join(each.rules) for each in EVERY])
def test_what_is_said_of_accepting_is_what_the_check_says(each):
    assert each.may_be_accepted != each.accept.startswith(("never:", "it is a note"))


def test_each_label_stands_once_in_a_docstring():
    for each in ALL_CHECKS:
        for label in ("Example:", "Fix:", "Accept:", "Source:"):
            assert each.__doc__.count(label) == 1, f"{each.rules[0]} says {label} more than once"


@pytest.mark.parametrize("drawn", sorted(FIXTURES.rglob("*.craft.toml")), ids=lambda path: path.stem)
def test_every_finding_of_the_demo_crafts_is_explained(drawn):
    root = drawn.with_name(drawn.name.replace(".craft.toml", ".kicad_sch"))
    for finding in check_craft(read_craft(root)).findings:
        worst = min(each.severity.rank for each in explained(finding.rule))
        assert worst <= finding.severity.rank, finding.rule


def test_the_most_severe_meaning_of_a_name_comes_first():
    ranks = [each.severity.rank for each in explained("view-unknown")]
    assert ranks == sorted(ranks) and ranks[0] == Severity.ERROR.rank and ranks[-1] == Severity.NOTE.rank


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ("role_clash", 'did you mean "role-clash"?'),
        ("Role Clash", 'did you mean "role-clash"?'),
        ("voltage-dorp", 'did you mean "voltage-drop"?'),
        ("", "`tabside explain` lists them"),
        ("zzz", "`tabside explain` lists them"),
    ],
)
def test_a_name_that_is_no_rule_is_one_line_with_the_nearest(wrong, said):
    with pytest.raises(TabsideError) as refused:
        explained(wrong)
    assert str(refused.value).endswith(said)


def test_json_of_one_rule_and_of_all():
    one = explain_json("uart-not-crossed")
    assert (one["format"], one["rule"]) == ("tabside/explain/1", "uart-not-crossed")
    assert [each["severity"] for each in one["explanations"]] == ["error"]
    assert one["explanations"][0]["example"].startswith("TX on TX")
    every = {rule for each in explain_json(None)["explanations"] for rule in each["rules"]}
    assert every == {rule for each in ALL_CHECKS for rule in each.rules} | {"accept"}


def test_the_acceptance_that_is_shown_accepts_the_finding(tmp_path):
    drawn = FIXTURES / "survey_boat" / "rev_a"
    shutil.copytree(drawn, tmp_path / "boat")
    root = tmp_path / "boat" / "survey_boat.kicad_sch"
    errors = [each for each in check_craft(read_craft(root)).findings if each.severity is Severity.ERROR]
    finding = next(each for each in errors if len({(w.termination, w.contact) for w in each.where if w.contact}) >= 2)
    at = tuple(dict.fromkeys(f"{w.board}/{w.termination}:{w.contact}" for w in finding.where if w.contact))[:2]
    with root.with_name("survey_boat.craft.toml").open("a") as craft_file:
        craft_file.write("\n" + acceptance_in_toml(finding.rule, at, "looked up in both manuals"))
    after = check_craft(read_craft(root)).findings
    assert [each.accepted for each in after if each.message == finding.message] == ["looked up in both manuals"]
    assert "accept" not in {each.rule for each in after}


def test_explaining_loads_neither_numbers_nor_the_solver():
    code = (
        "import sys; from tabside.cli import main; main(['explain']); main(['explain', 'slack', '--json']);"
        "sys.exit(repr({'numpy', 'pandas', 'highspy', 'jinja2', 'tabulate'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False, timeout=60)
    assert done.stderr.strip() == "set()"
