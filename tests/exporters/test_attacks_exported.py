"""Whatever is wrong with a drawing, its documents are made: crafts of the attack suite, every sixth of them.  Logic."""

from __future__ import annotations

import pytest

from attacks import ALL
from attacks.attack_kit import craft_of
from tabside.analysis.judgement import Judgement
from tabside.documents.build import craft_build
from tabside.documents.writing.export import export_documents
from tabside.rules import check_judgement

ALWAYS = ("net tie between rails", "hexacopter two ESCs, one BEC pulled")  # broke off, or never ended
TRIED = [each for n, each in enumerate(ALL) if n % 6 == 0 or each.name in ALWAYS]


@pytest.mark.slow
@pytest.mark.parametrize("attack", TRIED, ids=lambda attack: attack.name)
def test_the_documents_of_any_drawing_are_made(attack, tmp_path):
    judgement = Judgement(craft_of(attack))
    build = craft_build(judgement.craft, check_judgement(judgement), judgement=judgement)
    assert export_documents(build, tmp_path / "out", formats=["json", "html"]).files
