"""The button of KiCad's schematic editor: compare the saved schematic with the last committed revision."""

import sys

import tabside_actions

if __name__ == "__main__":
    sys.exit(tabside_actions.press("compare"))
