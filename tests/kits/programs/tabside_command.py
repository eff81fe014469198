"""The command: in this process where only its answer matters, in one of its own where the process itself does."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from collections.abc import Mapping
from contextlib import chdir, redirect_stderr, redirect_stdout
from pathlib import Path
from unittest.mock import patch

from tabside.cli import main

# The words that start it in a process of its own.
TABSIDE = [sys.executable, "-c", "import sys; from tabside.starting import main; sys.exit(main())"]


def answered(
    *words: object, cwd: Path | None = None, environment: Mapping[str, str] | None = None
) -> subprocess.CompletedProcess[str]:
    """What it prints and ends with; as a process it would do the same, and Python's own start would take longest."""
    here = dict(os.environ if environment is None else environment)
    out, complaints = (io.TextIOWrapper(io.BytesIO(), "utf-8", write_through=True) for _ in range(2))
    with (
        patch.dict(os.environ, here, clear=True),
        chdir(cwd or Path.cwd()),
        redirect_stdout(out),
        redirect_stderr(complaints),
    ):
        status = main([str(word) for word in words])
    texts = [stream.buffer.getvalue().decode() for stream in (out, complaints)]
    return subprocess.CompletedProcess(words, status, *texts)


def process_answered(*words: object, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """The same of a process of its own."""
    return subprocess.run([*TABSIDE, *map(str, words)], capture_output=True, text=True, cwd=cwd, check=False)
