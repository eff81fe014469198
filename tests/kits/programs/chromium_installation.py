"""Where a Chromium of the system is, for tests that look at pages in a browser.

The environment variable TABSIDE_CHROMIUM names it where it is not in a usual place.
"""

from __future__ import annotations

import os
import shutil
from importlib.util import find_spec

CHROMIUM_VARIABLE = "TABSIDE_CHROMIUM"
_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
_USUAL = (
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
)


def chromium_path() -> str | None:
    """The browser's program, None where there is none."""
    named = os.environ.get(CHROMIUM_VARIABLE)
    if named:
        return named if os.path.exists(named) else None
    found = (shutil.which(name) for name in _NAMES)
    return next((path for path in (*found, *_USUAL) if path and os.path.exists(path)), None)


def browser_missing() -> str | None:
    """Why no browser can be driven; None when one can."""
    if find_spec("playwright") is None:
        return "Playwright is not installed (the extra `test` has it)"
    if chromium_path() is None:
        return f"no Chromium found (install it, or name it in {CHROMIUM_VARIABLE})"
    return None
