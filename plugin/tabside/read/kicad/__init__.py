"""KiCad's text: from files to sheets."""
