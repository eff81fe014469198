"""The button of KiCad's schematic editor: check the wiring, and open the findings in the browser."""

import sys

import tabside_actions

if __name__ == "__main__":
    sys.exit(tabside_actions.press("check"))
