"""The page to enter a pinout, in a real browser: what it draws and writes is held against the code that reads files.

Widths: 390 CSS pixels is a usual phone.
"""

import pytest

from tabside.boards.views import board_view
from tabside.read.craft.board_file import board_from_text
from tabside.wiring.board_plugs import held_board
from tabside.wiring.faces import tabs_reversed
from tabside_exporters.pages.entry_page import entry_page

pytestmark = [pytest.mark.browser, pytest.mark.slow]

PHONE = {"width": 390, "height": 844}
NAMES = ["5V", "TX", "RX", "GND"]
# How each picture is turned until its opening points to the reader: does its reading order (left to right, top to
# bottom) then run from right to left?  Derived by turning a drawn row by hand; a picture seen through the board is its
# mirror image.
TURNED = {"down": False, "up": True, "left": False, "right": True, "out": False}


@pytest.fixture
def opened(browser, tmp_path):
    """A function that opens the page and gives the browser's page; fails at the end on any complaint or request."""
    contexts, complaints, asked = [], [], []
    path = tmp_path / "board-entry.html"
    path.write_bytes(entry_page())

    def open_page(**more):
        context = browser.new_context(accept_downloads=True, **more)
        contexts.append(context)
        shown = context.new_page()
        shown.on("request", lambda request: asked.append(request.url))
        shown.on("console", lambda message: complaints.append(message.text))
        shown.on("pageerror", lambda error: complaints.append(str(error)))
        shown.goto(path.as_uri())
        return shown

    yield open_page
    for context in contexts:
        context.close()
    assert complaints == [] and {url for url in asked if not url.startswith("blob:")} == {path.as_uri()}


def enter(shown, *, opening="down", first="start", underside=False, tabs="", names=NAMES, name="TELEM"):
    shown.locator("#board-name").fill("pilot")
    shown.locator("#name").fill(name)
    shown.locator("#family").select_option("jst_gh")
    shown.locator("#ways").fill(str(len(names)))
    shown.locator(f"input[name=opening][value={opening}]").check()
    shown.locator("#underside").set_checked(underside)
    shown.locator(f'input[name=first][value="{first}"]').check()
    shown.locator("#tabs").select_option(tabs)
    for k, text in enumerate(names):
        shown.locator(f"#name-{k}").fill(text)


def drawn(shown, which):
    found = shown.locator(f"#{which}")
    return found.evaluate("node => JSON.parse(node.dataset.row)") if found.count() else None


def plug_of(shown):
    """What the file's text says, read by the product."""
    text = shown.locator("#text").input_value()
    return board_view(held_board(board_from_text(text.encode(), "pilot.board.toml"))).plugs[0]


@pytest.mark.parametrize("underside", [False, True])
@pytest.mark.parametrize("opening", TURNED)
def test_every_picture_gives_the_contacts_and_views_that_turning_it_gives(opened, opening, underside):
    shown = opened()
    for first in ("start", "end"):
        for tabs in ("near", "far") if opening == "out" else ("board", "away"):
            enter(shown, opening=opening, first=first, underside=underside, tabs=tabs)
            plug = plug_of(shown)
            backwards = TURNED[opening] != underside
            printed = tuple(NAMES[::-1] if backwards else NAMES)
            hand = printed[::-1] if tabs_reversed("top" if opening == "out" else "side", tabs) else printed
            assert plug.contacts[0] == ("1", NAMES[0] if first == "start" else NAMES[-1])
            assert plug.printed == printed == tuple(drawn(shown, "printed"))
            assert plug.in_hand == hand == tuple(drawn(shown, "in-hand"))
            assert drawn(shown, "pictured") == NAMES
            if not (opening == "out" and underside):
                assert shown.locator("#sentence").inner_text() == plug.sentence


def test_the_end_of_contact_1_is_clicked_in_the_picture(opened):
    shown = opened()
    enter(shown, first="")
    assert "Click the end where contact 1 is" in shown.locator("#sentence").inner_text()
    assert shown.locator("#save").is_disabled() and drawn(shown, "printed") is None
    shown.locator("#pictured .pick[data-end=end]").click()
    assert shown.locator("#sentence").inner_text() == (
        "Contact 1, at the right when the opening faces you, is GND; the other end is 5V."
    )
    assert shown.locator("#save").is_enabled()


def test_everything_is_drawn_again_at_every_change(opened):
    shown = opened()
    enter(shown)
    shown.locator("#name-1").fill("RX")
    assert drawn(shown, "printed")[1] == "RX"
    shown.locator("#ways").fill("6")
    assert len(drawn(shown, "pictured")) == 6 and "has no name" in shown.locator("#missing").inner_text()
    shown.locator("input[name=opening][value=left]").check()
    assert shown.locator("label[for=name-0]").inner_text() == "top end (contact 1)"


def test_a_row_is_pasted_in_one_go(opened):
    shown = opened()
    enter(shown, names=["", "", "", ""])
    shown.locator("#name-0").evaluate(
        """node => { const data = new DataTransfer(); data.setData("text", "5V | TX | RX | GND");
        node.dispatchEvent(new ClipboardEvent("paste", {clipboardData: data, cancelable: true, bubbles: true})); }"""
    )
    assert plug_of(shown).printed == ("5V", "TX", "RX", "GND")


def test_several_plugs_make_one_file_that_is_saved(opened, tmp_path):
    shown = opened()
    enter(shown)
    shown.locator("#add").click()
    enter(shown, name="CAN", names=["5V", "CAN_H", "CAN_L", "GND"], opening="up")
    shown.locator("#add").click()
    shown.locator("#name").fill("BAT")
    shown.locator("#kind").select_option("pad")
    shown.locator("#ways").fill("2")
    shown.locator("#name-0").fill("VBAT")
    shown.locator("#name-1").fill("GND")
    with shown.expect_download() as download:
        shown.locator("#save").click()
    assert download.value.suggested_filename == "pilot.board.toml"
    download.value.save_as(tmp_path / "saved.toml")
    board = board_from_text((tmp_path / "saved.toml").read_bytes(), "pilot.board.toml")
    assert [(plug.name, plug.ways) for plug in board.plugs] == [("TELEM", 4), ("CAN", 4), ("BAT", 2)]
    assert held_board(board).plugs[1].contact_1 == "right"


def test_what_is_not_complete_is_not_saved(opened):
    shown = opened()
    enter(shown)
    shown.locator("#add").click()
    assert shown.locator("#save").is_disabled()
    shown.get_by_role("button", name="TELEM").click()
    assert "Not complete: a plug without a name." in shown.locator("#missing").inner_text()


def test_two_rows_go_by_number(opened):
    shown = opened()
    shown.locator("#family").select_option("molex_minifitjr_420")
    assert not shown.locator("#picture-box").is_visible()
    assert shown.locator("label[for=name-0]").inner_text() == "contact 1"


def test_a_measured_row_finds_its_family(opened):
    shown = opened()
    shown.locator("#ways").fill("6")
    shown.locator("#gallery-box summary").click()
    shown.locator("#length").fill("6.25")  # six ways of 1.25 mm
    names = shown.locator("#gallery button").all_inner_texts()
    assert any("JST GH" in name for name in names) and not any("JST XH" in name for name in names)
    shown.get_by_role("button", name="JST GH").click()
    assert shown.locator("#family").input_value() == "jst_gh"
    assert "6.25 mm from the first contact to the last" in shown.locator("#true-size").inner_text()


def test_names_cannot_break_the_file(opened):
    shown = opened()
    enter(shown, names=['a"b', "</script>", "x\\y", "c,d"], name='T"E')
    plug = plug_of(shown)
    assert [signal for _, signal in plug.contacts] == ['a"b', "</script>", "x\\y", "c/d"] and plug.name == 'T"E'


def test_a_plug_is_entered_by_keyboard_alone(opened):
    shown = opened()
    press, write = shown.keyboard.press, shown.keyboard.type
    press("Tab")
    write("pilot")
    for _ in range(2):
        press("Tab")
    assert shown.evaluate("document.activeElement.id") == "board-source"
    while shown.evaluate("document.activeElement.id") != "name":
        press("Tab")
    write("TELEM")
    press("Tab")
    press("Tab")
    write("JST GH")
    press("Tab")
    assert shown.evaluate("document.activeElement.id") == "ways"
    while shown.evaluate("document.activeElement.name") != "opening":
        press("Tab")
    press("ArrowDown")  # up
    press("Tab")
    press("Space")  # the underside
    press("Space")
    press("Tab")
    assert shown.evaluate("document.activeElement.name") == "first"
    press("ArrowDown")  # from "not found yet" around to the first
    press("Tab")
    press("Tab")
    for name in NAMES:
        write(name)
        press("Enter")
    assert shown.evaluate("document.activeElement.id") == "add"
    assert shown.locator("#sentence").inner_text() == (
        "Contact 1, at the right when the opening faces you, is 5V; the other end is GND."
    )
    while shown.evaluate("document.activeElement.id") != "save":
        press("Tab")
    with shown.expect_download():
        press("Enter")


@pytest.mark.parametrize("opening", ["down", "left"])
def test_it_fits_a_phone(opened, opening):
    shown = opened(viewport=PHONE, has_touch=True)
    enter(shown, opening=opening, tabs="board", names=[f"SIGNAL NUMBER {n}" for n in range(1, 13)])
    assert shown.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    shown.locator("#pictured .pick[data-end=end]").tap()
    assert shown.locator("input[name=first][value=end]").is_checked()


def test_without_scripts_it_says_what_to_do(opened):
    shown = opened(java_script_enabled=False)
    assert shown.locator("noscript").count() == 1 and "tabside boards new" in shown.content()
