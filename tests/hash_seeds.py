"""What a script prints under several hash seeds, each in a process of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path


def printed(script: str) -> set[str]:
    """Return all that is printed, whichever seed orders the sets; one text if none matters."""
    return {
        subprocess.run(  # noqa: S603 - our own
            [sys.executable, "-c", script],
            cwd=Path(__file__).parents[1],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            encoding="utf-8",
            check=True,
        ).stdout
        for seed in ("1", "2", "3")
    }
