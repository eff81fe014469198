"""The manual: chapters in Markdown, pictures, and what is written from the code itself, as one page for the browser."""
