"""Words: what a reader sees, in the book's language. A leaf that any room may use.

English is written where it is used and is its own key; other languages are gettext catalogues
beside this file (`es.po`), in plain text.

`_("Read the packs yourself.")` is the text in the language being spoken. A text with a gap is
filled after it was looked up, `_("Makes {amount}.").format(amount=...)`, so never an f-string;
one that changes with a number is `ngettext("{n} serving", "{n} servings", n).format(n=n)`; one
that means two things has a context, `pgettext("a verb", "Rest")`. `N_` marks what is looked up
later, such as a constant of a module; `everywhere` gives a text in all languages, to read what
readers sent in theirs. `numeral` gives a written number its decimal mark, and
`listed` joins with commas and "and".

Nothing is looked up when a module is imported; only while `spoken` says which language.
"""

from cookbook_build.words.catalogues import ENGLISH, has_words, languages, mark_of
from cookbook_build.words.speech import (
    N_,
    _,
    decimal_mark,
    everywhere,
    listed,
    ngettext,
    npgettext,
    numeral,
    pgettext,
    spoken,
)

__all__ = [
    "ENGLISH",
    "N_",
    "_",
    "decimal_mark",
    "everywhere",
    "has_words",
    "languages",
    "listed",
    "mark_of",
    "ngettext",
    "npgettext",
    "numeral",
    "pgettext",
    "spoken",
]
