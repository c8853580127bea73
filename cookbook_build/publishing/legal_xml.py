"""The characters that XML 1.0 (section 2.2) lets stand in a document, however they are written."""

from __future__ import annotations

import re
from typing import Final

_NO_XML: Final = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def legal(text: str) -> str:
    """Return a text with what XML can't hold replaced by the sign for that."""
    return _NO_XML.sub("\N{REPLACEMENT CHARACTER}", text)
