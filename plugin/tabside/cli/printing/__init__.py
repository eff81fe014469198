"""What the commands print: paragraphs that fit the terminal, verdicts, plans, lists."""
