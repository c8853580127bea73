"""Binds the folder of pages alone, by the command itself: `folder_alone.py BOOK OUT`.

The program has no switch for one edition, so the others are taken out of its dict first. Reading,
checking, computing, the pictures and the swap are those of `bind`.
"""

from __future__ import annotations

import sys
from unittest.mock import patch

from cookbook_build.cli import main as commands
from cookbook_build.publishing import binding


def main() -> None:
    """Bind it."""
    book, out = sys.argv[1:3]
    with patch.object(binding, "EDITIONS", {"folder": binding.EDITIONS["folder"]}):
        commands(["bind", book, "--out", out], prog_name="cookbook-build")


if __name__ == "__main__":
    main()
