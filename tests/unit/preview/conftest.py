"""The demo book, to read and never to write to."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture
def demo_folder() -> Path:
    """Return the folder of the demo book."""
    return Path(__file__).parents[3] / "content_demo"
