"""What all tests share: the rule for tests that need KiCad, and where it is."""

from __future__ import annotations

import gc
import os
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import hypothesis
import pytest

from programs.chromium_installation import browser_missing, chromium_path
from programs.kicad_installation import (
    NEED_VARIABLE,
    kicad_cli_path,
    kicad_demo_roots,
    kicad_footprint_folder,
    missing,
)

QUICK = {"seed": 8, "start": 1}  # so many cases of a long random series are quick ones, by the parameter's name
FIXTURE_NEEDS = {"kicad_cli": "cli", "kicad_demos": "demos", "kicad_footprints": "footprints"}


def pytest_configure() -> None:
    """As the command itself does: to look through all that is there for circles was a tenth of the tests' time."""
    gc.set_threshold(200_000, 50, 50)
    # A busy machine is no fault of the code: how long an example takes is for the benchmarks.
    hypothesis.settings.register_profile(
        "tests", deadline=None, suppress_health_check=[hypothesis.HealthCheck.too_slow]
    )
    hypothesis.settings.load_profile("tests")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """A test that asks for one of KiCad's fixtures carries the marker even if its author forgot it.

    Of series of random cases only the first belong to the quick tests; what reads all of KiCad's demos does not.
    """
    series: Counter[tuple[str, str]] = Counter()
    for item in items:
        parameters = item.callspec.params if hasattr(item, "callspec") else {}
        for name in QUICK.keys() & parameters.keys():
            of_series = (item.nodeid.partition("[")[0], name)
            series[of_series] += 1
            if series[of_series] > QUICK[name]:
                item.add_marker(pytest.mark.slow)
        for fixture, need in FIXTURE_NEEDS.items():
            if fixture in getattr(item, "fixturenames", ()):
                item.add_marker(pytest.mark.kicad(need))
        if "kicad_demos" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.slow)


def pytest_runtest_setup(item: pytest.Item) -> None:
    """Skip, or fail where KiCad must be there, a test of the markers `kicad` and `browser`.

    The marker's arguments say what is needed: "cli" (also when there are none), "demos", "footprints".
    """
    needs = {need for mark in item.iter_markers("kicad") for need in (mark.args or ("cli",))}
    reasons = [reason for need in sorted(needs) if (reason := missing(need)) is not None]
    if item.get_closest_marker("browser") is not None and (reason := browser_missing()) is not None:
        reasons.append(reason)
    if reasons and os.environ.get(NEED_VARIABLE) == "1":
        pytest.fail(f"{NEED_VARIABLE}=1, but {'; '.join(reasons)}", pytrace=False)
    if reasons:
        pytest.skip("; ".join(reasons))


@pytest.fixture(autouse=True, scope="session")
def no_waiting_for_the_disk() -> Iterator[None]:
    """What tests write need not outlive a power cut; waiting for the disk was a quarter of their time by the clock."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "fsync", lambda descriptor: None)
        yield


@pytest.fixture(scope="session")
def kicad_cli() -> Path:
    """KiCad's command-line program."""
    found = kicad_cli_path()
    assert found is not None
    return found


@pytest.fixture(scope="session")
def kicad_demos() -> tuple[Path, ...]:
    """Root schematics of all demo projects on this machine."""
    return kicad_demo_roots()


@pytest.fixture(scope="session")
def kicad_footprints() -> Path:
    """The folder of KiCad's footprint libraries."""
    found = kicad_footprint_folder()
    assert found is not None
    return found


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """A headless Chromium of the system, driven by Playwright."""
    from playwright.sync_api import sync_playwright  # not there for everybody

    with sync_playwright() as driver:
        # Without its sandbox, which containers do not let it have; it opens our own files only.
        started = driver.chromium.launch(executable_path=chromium_path(), args=["--no-sandbox"])
        yield started
        started.close()
