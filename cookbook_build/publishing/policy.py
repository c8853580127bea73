"""The policy of a page: what a browser may load and run there, and that is the book's own alone.

It stands in each page before anything else is named there. Should a stranger's text ever get past
all that keeps it text, no script of it would run, and nothing would leave the device.
"""

from __future__ import annotations

import base64
import hashlib
from typing import Final

from markupsafe import Markup

NOWHERE: Final = Markup("default-src 'none'; base-uri 'none'; form-action 'none'")
"""How the policy of each page begins."""
IN_THE_FOLDER: Final = NOWHERE + Markup(
    "; connect-src 'self'; font-src 'self' file: data:; img-src 'self' file: data:; "
    "manifest-src 'self'; script-src 'self' file:; style-src 'self' file:; worker-src 'self'"
)
"""Of a page with its files beside it, on the web or on a disk, where each file is an origin."""


def in_one_file(style: str, script: str) -> Markup:
    """Return the policy of a file that holds all it needs, its one style and its one script.

    Parameters
    ----------
    style, script : str
        What stands between the tags, to the character.

    Returns
    -------
    Markup
        The policy, as the `content` of its element.

    References
    ----------
    .. [1] W3C, Content Security Policy Level 3, 6.7.3: an inline element's digest is that of its
       text in UTF-8.

    Examples
    --------
    >>> in_one_file("", "").rpartition("; ")[2]
    Markup("style-src 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='")
    """
    sources = (f"script-src {_digest(script)}", f"style-src {_digest(style)}")
    return Markup("; ".join((NOWHERE, "font-src data:", "img-src data:", *sources)))  # noqa: S704 - ours


def _digest(text: str) -> str:
    digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode("ascii")
    return f"'sha256-{digest}'"
