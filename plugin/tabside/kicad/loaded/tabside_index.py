"""The button of KiCad's schematic editor: open the page that lists all documents; made first where there are none."""

import sys

import tabside_actions

if __name__ == "__main__":
    sys.exit(tabside_actions.press("index"))
