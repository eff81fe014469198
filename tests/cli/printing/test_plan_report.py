"""What `tabside plan` prints of the shopping: boards and parts with their own leads are what is wired, not bought."""

from crafts.small_craft import CAMERA, GROUND, small_craft
from tabside.cli.printing.plan_report import print_plan
from tabside.documents.build import craft_build
from tabside.rules import check_craft


def test_boards_and_parts_with_their_own_leads_are_not_among_what_is_bought(capsys):
    craft = small_craft(*CAMERA, *GROUND)
    build = craft_build(craft, check_craft(craft))
    print_plan(build, build.plan.cables)
    shopping = capsys.readouterr().out.partition("To buy")[2]
    assert "housing" in shopping
    assert "own leads: camera" not in shopping and "board power" not in shopping
