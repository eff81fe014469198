"""Small schematic files as text, laid out as KiCad 9 does, for tests of reading."""

from __future__ import annotations

ROOT_UUID = "11111111-0000-4000-8000-000000000001"

LIBRARY = """\
	(lib_symbols
		(symbol "Conn:Two"
			(pin_names
				(offset 1.016)
				(hide yes)
			)
			(in_bom yes)
			(property "Reference" "J"
				(at 0 0 0)
				(effects
					(font
						(size 1.27 1.27)
					)
				)
			)
			(property "Value" "Two"
				(at 0 2.54 0)
			)
			(symbol "Two_0_1"
				(rectangle
					(start -1 -1)
					(end 1 1)
					(stroke
						(width 0)
					)
				)
			)
			(symbol "Two_1_1"
				(pin passive line
					(at -5.08 0 0)
					(length 3.81)
					(name "TX"
						(effects
							(font
								(size 1.27 1.27)
							)
						)
					)
					(number "1"
						(effects
							(font
								(size 1.27 1.27)
							)
						)
					)
					(alternate "GPIO" bidirectional line)
				)
				(pin power_in line
					(at -5.08 -2.54 0)
					(length 3.81)
					(hide yes)
					(name "~")
					(number "2")
				)
			)
		)
	)
"""

SYMBOL = f"""\
	(symbol
		(lib_id "Conn:Two")
		(at 50.8 40.64 90)
		(mirror x)
		(unit 1)
		(exclude_from_sim no)
		(in_bom no)
		(on_board yes)
		(dnp yes)
		(uuid "22222222-0000-4000-8000-000000000002")
		(property "Reference" "J1"
			(at 50.8 38.1 0)
			(effects
				(font
					(size 1.27 1.27)
				)
			)
		)
		(property "Value" "pilot (effects of \\"wind\\") \\\\ side"
			(at 50.8 43.18 0)
		)
		(property private "Board" "pilot"
			(at 50.8 43.18 0)
		)
		(pin "1"
			(uuid "33333333-0000-4000-8000-000000000001")
			(alternate "GPIO")
		)
		(pin "2"
			(uuid "33333333-0000-4000-8000-000000000002")
		)
		(instances
			(project "boat"
				(path "/{ROOT_UUID}"
					(reference "J7")
					(unit 1)
				)
			)
		)
	)
"""

WIRE = """\
	(wire
		(pts
			(xy 50.8 45.72) (xy 76.2 45.72)
		)
		(stroke
			(width 0)
			(type default)
		)
		(uuid "44444444-0000-4000-8000-000000000001")
	)
"""

LABELS = """\
	(label "TX (effects (font))"
		(at 60.96 45.72 0)
		(effects
			(font
				(size 1.27 1.27)
			)
			(justify left bottom)
		)
		(uuid "55555555-0000-4000-8000-000000000001")
	)
	(global_label "BAT+"
		(shape input)
		(at 76.2 45.72 0)
		(uuid "55555555-0000-4000-8000-000000000002")
		(property "Intersheetrefs" "${INTERSHEET_REFS}"
			(at 0 0 0)
		)
		(property "Gauge" "20"
			(at 0 0 0)
		)
	)
	(netclass_flag ""
		(length 2.54)
		(shape round)
		(at 66.04 45.72 0)
		(uuid "55555555-0000-4000-8000-000000000003")
		(property "Netclass" "power"
			(at 0 0 0)
		)
	)
"""

REST = """\
	(text "a note: (wire (pts (xy 1 1) (xy 2 2))) ("
		(at 10 10 0)
	)
	(junction
		(at 63.5 45.72)
		(diameter 0)
		(color 0 0 0 0)
		(uuid "66666666-0000-4000-8000-000000000001")
	)
	(no_connect
		(at 10 20)
		(uuid "66666666-0000-4000-8000-000000000002")
	)
	(bus
		(pts
			(xy 0 0) (xy 0 25.4)
		)
		(uuid "66666666-0000-4000-8000-000000000003")
	)
	(bus_entry
		(at 0 10.16)
		(size 2.54 -2.54)
		(uuid "66666666-0000-4000-8000-000000000004")
	)
	(bus_alias "LINK"
		(members "TX" "RX")
	)
"""


def sheet(name: str, file: str, uuid: str, *, at: tuple[float, float] = (100, 50), page: str = "2") -> str:
    """A sub-sheet of the root with one pin."""
    return f"""\
	(sheet
		(at {at[0]:g} {at[1]:g})
		(size 20.32 10.16)
		(exclude_from_sim no)
		(in_bom yes)
		(on_board yes)
		(dnp no)
		(uuid "{uuid}")
		(property "Sheetname" "{name}"
			(at 0 0 0)
		)
		(property "Sheetfile" "{file}"
			(at 0 0 0)
		)
		(property "Board" "power board"
			(at 0 0 0)
		)
		(pin "IN" input
			(at {at[0]:g} 55.88 180)
			(uuid "77777777-0000-4000-8000-000000000001")
		)
		(instances
			(project "boat"
				(path "/{ROOT_UUID}"
					(page "{page}")
				)
			)
		)
	)
"""


def schematic(*lists: str, version: int = 20250114, uuid: str = ROOT_UUID) -> str:
    """A whole file that holds these lists."""
    return f"""\
(kicad_sch
	(version {version})
	(generator "eeschema")
	(generator_version "9.0")
	(uuid "{uuid}")
	(paper "A4")
	(title_block
		(title "Pond skater")
		(rev "2")
		(comment 1 "first")
	)
{"".join(lists)}	(sheet_instances
		(path "/"
			(page "1")
		)
	)
	(embedded_fonts no)
)
"""


FULL = schematic(LIBRARY, REST, WIRE, LABELS, SYMBOL, sheet("power", "power.kicad_sch", "88888888"))
