"""One export goes through each room once: it analyses the craft once, and works out once how leads are made."""

import pytest

from fixture_kit import FIXTURES
from tabside.analysis import judgement
from tabside.analysis.joined import lead_ends, wired
from tabside.cli import main

BOAT = FIXTURES / "survey_boat" / "rev_b" / "survey_boat.kicad_sch"
ROTOR = FIXTURES / "multirotor" / "flat" / "multirotor.kicad_sch"


@pytest.fixture
def counted(monkeypatch):
    """How often each is done, whoever asks for it."""
    times = {"analysed": 0, "leads made": 0}
    init, how = judgement.Judgement.__init__, lead_ends.how_leads_are_made

    def analysed(self, *arguments, **named):
        times["analysed"] += 1
        init(self, *arguments, **named)

    def made(craft):
        times["leads made"] += 1
        return how(craft)

    monkeypatch.setattr(judgement.Judgement, "__init__", analysed)
    monkeypatch.setattr(lead_ends, "how_leads_are_made", made)
    monkeypatch.setattr(wired, "how_leads_are_made", made)
    return times


@pytest.mark.parametrize("root", [BOAT, ROTOR], ids=lambda root: root.stem)
@pytest.mark.parametrize("arguments", [["export", "--to"], ["plan"]], ids=lambda arguments: arguments[0])
def test_a_command_analyses_the_craft_once(arguments, root, counted, tmp_path, capsys):
    where = [str(tmp_path / "out")] if "--to" in arguments else []
    main([arguments[0], str(root), *arguments[1:], *where])
    assert counted == {"analysed": 1, "leads made": 1}


def test_only_the_analysis_works_out_how_leads_are_made():
    """Whoever else wants to know is handed it: no other module may call the function."""
    folder = FIXTURES.parent / "plugin" / "tabside"
    asking = {
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*.py")
        if "how_leads_are_made(" in path.read_text(encoding="utf-8")
    }
    assert asking == {"analysis/joined/lead_ends.py", "analysis/joined/wired.py"}
