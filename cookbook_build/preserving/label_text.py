"""The plain text inside a label's QR code: readable with no signal, by any reader.

Limit: version 18 at level M holds 560 bytes (ISO/IEC 18004, from memory; a test asks the encoder).
A version 18 code has 89 modules a side and prints well at 34 mm; most labels take much less.
"""

from __future__ import annotations

import unicodedata
from typing import Final

QR_VERSION: Final = 18
QR_LEVEL: Final = "M"
QR_BYTES: Final = 560
"""Bytes that this version and level hold; ISO/IEC 18004, from memory."""

LEAST_TITLE_BYTES: Final = 24
"""A title is cut to no less than this before a line is left out; our choice."""

PLAINER: Final = str.maketrans(
    {
        "×": "x", "·": ".", "°": "", "–": "-", "—": "-", "−": "-", "‑": "-", "‐": "-",
        "‘": "'", "’": "'", "“": '"', "”": '"', "…": "...", "⁄": "/", "≥": ">=", "≤": "<=",
        "µ": "u", "μ": "u",
    }
)  # fmt: skip


def plain_text(words: str) -> str:
    """Return words with the signs that readers garble spelt out, on one line.

    Assumes that letters of any language are wanted as they are.

    Parameters
    ----------
    words : str
        One line. [-]

    Returns
    -------
    str
        The same with `1 1/2` for 1½, `x` for ×, `74 C` for 74 °C, and plain dashes and quotes;
        unseen characters are dropped. [-]

    Notes
    -----
    Vulgar fractions are those that Unicode decomposes as such.

    References
    ----------
    .. [1] The Unicode Character Database, decomposition type `fraction`.

    Examples
    --------
    >>> plain_text("Pour 1½ cups (95 °C) – stir")
    'Pour 1 1/2 cups (95 C) - stir'
    """
    spelt = ""
    for sign in words:
        if unicodedata.decomposition(sign).startswith("<fraction>"):
            spelt += (" " if spelt[-1:].isdigit() else "") + unicodedata.normalize("NFKC", sign)
        elif sign.isspace():
            spelt += " "
        elif unicodedata.category(sign)[0] != "C":
            spelt += sign
    return " ".join(spelt.translate(PLAINER).split())


def size_bytes(text: str) -> int:
    """Return what a text takes in a QR code.

    Assumes the byte mode with UTF-8, the widest that an encoder may choose.

    Parameters
    ----------
    text : str
        Any text. [-]

    Returns
    -------
    int
        Bytes. [-]

    Notes
    -----
    Capitals and digits alone would take less.

    References
    ----------
    .. [1] ISO/IEC 18004, byte mode.

    Examples
    --------
    >>> size_bytes("Purée")
    6
    """
    return len(text.encode("utf-8"))


def cut(text: str, most_bytes: int) -> str:
    """Return a text, shortened with three dots if it takes more than some bytes.

    Assumes room for the dots.

    Parameters
    ----------
    text : str
        Any text. [-]
    most_bytes : int
        Bytes it may take. [-]

    Returns
    -------
    str
        The text or its beginning, no letter halved. [-]

    Notes
    -----
    A word may be cut.

    References
    ----------
    .. [1] UTF-8 (RFC 3629).

    Examples
    --------
    >>> cut("Barley and leek supper", 13)
    'Barley and...'
    """
    if size_bytes(text) <= most_bytes:
        return text
    # the three dots take 3 bytes: exact
    kept = text.encode("utf-8")[: max(most_bytes - 3, 0)].decode("utf-8", "ignore")
    return kept.rstrip() + "..."


def qr_text(title: str, lines: list[str] | tuple[str, ...]) -> str:
    """Return the text of a label's QR code: the title, then a line for each thing to know.

    Assumes that the lines come in the order of their weight: a warning about raw food first,
    then allergens, water, rest, its share, dates, lot, and what only helps.

    Parameters
    ----------
    title : str
        Of the meal. [-]
    lines : list or tuple of str
        What the cook must know. [-]

    Returns
    -------
    str
        At most 560 bytes: a version 18 code at level M. [-]

    Notes
    -----
    If it is too long, the title is cut, to 24 bytes at least; then whole lines are left out from
    the end, for half an amount of water is worse than none; a first line too long alone is cut.

    References
    ----------
    .. [1] ISO/IEC 18004.

    Examples
    --------
    >>> print(qr_text("Barley supper", ["Water 1½ cups", "Rest 12 min", ""]))
    Barley supper
    Water 1 1/2 cups
    Rest 12 min
    """
    heading = plain_text(title)
    told = [line for line in map(plain_text, lines) if line]
    least = min(size_bytes(heading), LEAST_TITLE_BYTES)
    while len(told) > 1 and least + size_bytes("\n" + "\n".join(told)) > QR_BYTES:
        told.pop()
    if told and least + size_bytes("\n" + told[0]) > QR_BYTES:
        told = [cut(told[0], QR_BYTES - least - 1)]
    rest = size_bytes("\n" + "\n".join(told)) if told else 0
    return "\n".join(filter(None, [cut(heading, QR_BYTES - rest), *told]))
