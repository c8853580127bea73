"""Addresses on the web as people write them: whole, or refused; other letters made plain."""

from __future__ import annotations

import re
from typing import Final
from urllib.parse import SplitResult, quote, urlsplit

_WHOLE: Final = re.compile(r"(?i)https?://[^\s<>\"\\^`{|}]+")
_LABEL: Final = re.compile(r"[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?")
_BARE_PERCENT: Final = re.compile(r"%(?![0-9A-Fa-f]{2})")
_MAIL_BOX: Final = re.compile(r"[^\s@<>(),;:\"\[\]\\]{1,64}@[^\s@<>(),;:\"\[\]\\]+\.[^\W\d_]{2,}")
_PAGE: Final = re.compile(r"(?i).+\.(html?|xml|php)")
# RFC 3986, section 3.3 and 3.4: what may stand unencoded in a path and in a query
_OPEN_IN_PATH: Final = "/%:@!$&'()*+,;=~"
_OPEN_IN_QUERY: Final = _OPEN_IN_PATH + "?"


def web_address(text: str) -> str | None:
    """Return an absolute http or https address as RFC 3986 writes it, or None if it is none.

    Letters beyond ASCII become what browsers send: the host by IDNA, the rest by percent signs.
    """
    parts = _parts(text.strip())
    if parts is None:
        return None
    host, port = _host(parts), _port(parts)
    if host is None or port is None or parts.username is not None:
        return None
    path = _quoted(parts.path, _OPEN_IN_PATH)
    query = f"?{_quoted(parts.query, _OPEN_IN_QUERY)}" if parts.query else ""
    fragment = f"#{_quoted(parts.fragment, _OPEN_IN_QUERY)}" if parts.fragment else ""
    return f"{parts.scheme}://{host}{port}{path}{query}{fragment}"


def mail_box(text: str) -> str | None:
    """Return the name of a box that letters go to (RFC 5322, section 3.4.1), or None if it is none.

    Of the forms there, only a plain name at a host with a dot is one: no quotes, no brackets.
    """
    return text.strip() if _MAIL_BOX.fullmatch(text.strip()) else None


def folder_address(address: str) -> str | None:
    """Return the address of the folder that a whole address names, no slash at its end.

    None comes back where it names a page, asks a question, or climbs up.
    """
    parts = urlsplit(address)
    steps = parts.path.split("/")
    if parts.query or parts.fragment or {".", ".."} & set(steps) or _PAGE.fullmatch(steps[-1]):
        return None
    return address.rstrip("/")


def _parts(text: str) -> SplitResult | None:
    if not _WHOLE.fullmatch(text):
        return None
    try:
        return urlsplit(text)
    except ValueError:  # brackets that hold no address
        return None


def _host(parts: SplitResult) -> str | None:
    try:
        host = (parts.hostname or "").removesuffix(".").encode("idna").decode("ascii")
    except UnicodeError:  # a label that is empty, too long or no name
        return None
    labels = host.split(".")
    return host if all(_LABEL.fullmatch(label) for label in labels) else None


def _port(parts: SplitResult) -> str | None:
    try:
        return "" if parts.port is None else f":{parts.port}"
    except ValueError:  # no number, or too large a one
        return None


def _quoted(text: str, also_open: str) -> str:
    return quote(_BARE_PERCENT.sub("%25", text), safe=also_open)
