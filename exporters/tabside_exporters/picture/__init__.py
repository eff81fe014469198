"""The picture of the whole craft: boards, their plugs, and the cables between them."""
