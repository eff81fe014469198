"""Under what licences the packages come that an installation brings along.

Source: each package's own metadata (core metadata specification of the packaging authority: `License-Expression`,
`License`, classifiers).  The lists below are common practice, no source; they are no legal advice.
"""

from __future__ import annotations

import re
from importlib import metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement

FREE_TO_COMBINE = re.compile(r"MIT|BSD|Apache|PSF|Python Software Foundation|0BSD|Zlib|CC0|ISC|HPND|Unlicense", re.I)
SHARE_ALIKE = re.compile(r"\bA?L?GPL|General Public Licen[cs]e", re.I)
# Used unchanged as libraries that the user can replace, which their licences allow (grandalf leaves the choice between
# GPL 2 and EPL 1.0; Tabside takes the latter); the README says so.
AS_A_LIBRARY = {"kicad-skip": "LGPL", "grandalf": "EPL"}


def brought_along():
    """Names of the packages that `pip install tabside` brings along, without extras."""
    found, waiting = set(), ["tabside"]
    while waiting:
        name = re.sub(r"[-_.]+", "-", waiting.pop()).lower()
        if name in found:
            continue
        found.add(name)
        for required in metadata.requires(name) or []:
            wanted, _, marker = required.partition(";")
            plain = re.match(r"[\w.-]+", wanted)[0]
            if "extra" not in marker and (not marker or _is_installed(plain)):
                waiting.append(plain)
    return sorted(found - {"tabside"})


def _is_installed(name):
    try:
        return bool(metadata.version(name))
    except metadata.PackageNotFoundError:
        return False


def licence(name):
    said = metadata.metadata(name)
    classifiers = [c for c in said.get_all("Classifier") or [] if c.startswith("License")]
    return " ".join([said.get("License-Expression") or "", *classifiers, (said.get("License") or "")[:200]]).strip()


@pytest.mark.parametrize("name", brought_along())
def test_each_package_may_be_combined_with_ours(name):
    said = licence(name)
    assert said, f"{name} does not say its licence"
    if name in AS_A_LIBRARY:
        assert AS_A_LIBRARY[name] in said
    else:
        assert FREE_TO_COMBINE.search(said) and not SHARE_ALIKE.search(said), said


@pytest.mark.parametrize("name", ["sexpdata", "kicad-skip", "pandas", "msgspec", "highspy"])
def test_packages_whose_words_or_shapes_are_relied_on_have_an_upper_bound(name):
    """Error messages of msgspec are taken apart, and what kicad-skip and sexpdata parse is walked through."""
    required = [wanted for wanted in metadata.requires("tabside") if "extra" not in wanted]
    (bounds,) = [wanted for wanted in required if re.match(rf"{name}\b", wanted, re.I)]
    assert "<" in bounds


def test_the_versions_that_ci_installs_are_those_that_the_bounds_allow():
    lines = (Path(__file__).parents[1] / ".ci" / "constraints.txt").read_text("utf-8").splitlines()
    locked = dict(line.lower().replace("_", "-").split("==") for line in lines if not line.startswith("#"))
    for wanted in map(Requirement, metadata.requires("tabside")):
        if wanted.name != "tabside" and wanted.marker is None:
            assert wanted.specifier.contains(locked[wanted.name.lower()]), wanted


def test_the_readme_names_what_is_share_alike():
    readme = (Path(__file__).parents[1] / "README.md").read_text(encoding="utf-8")
    words = " ".join(readme.split())
    assert all(f"{name} is under the {licence}" in words for name, licence in AS_A_LIBRARY.items())
