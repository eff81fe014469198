"""The button of KiCad's schematic editor: make all documents beside the project, and open the findings."""

import sys

import tabside_actions

if __name__ == "__main__":
    sys.exit(tabside_actions.press("documents"))
