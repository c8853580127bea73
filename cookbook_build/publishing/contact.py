"""Where readers write to: a letter that is begun for them, a page on the web, or words."""

from __future__ import annotations

from typing import Final
from urllib.parse import quote

from cookbook_build.manuscript.web_addresses import mail_box, web_address

# RFC 6068, section 2: what may stand unencoded in a local part, beside unreserved characters
_OPEN_IN_ADDRESS: Final = "@!$'*+"


def letter(contact: str | None, subject: str, body: str = "") -> str:
    """Return a `mailto:` address (RFC 6068) with a subject and a text, or nothing without a box."""
    box = mail_box(contact or "")
    if not box:
        return ""
    fields = {"subject": subject, "body": body.replace("\n", "\r\n")}
    query = "&".join(f"{name}={quote(text, safe='')}" for name, text in fields.items() if text)
    return f"mailto:{quote(box, safe=_OPEN_IN_ADDRESS)}?{query}"


def ask_link(contact: str | None, title: str) -> str:
    """Return the link of "Ask the author" on a page; nothing where the contact is mere words."""
    return letter(contact, title) or web_address(contact or "") or ""
