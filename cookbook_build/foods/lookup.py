"""Names of foods as people write them: when two are the same, and which ones are near."""

from __future__ import annotations

import functools
import re
import unicodedata
from difflib import SequenceMatcher, get_close_matches
from math import fsum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

# Plurals, English and Spanish, that the endings below don't reach.
PLURALS = {
    "chilies": "chilli",
    "chillies": "chilli",
    "halves": "half",
    "leaves": "leaf",
    "loaves": "loaf",
    "nueces": "nuez",
    "raices": "raiz",
}
# One word for one thing, where two spellings or two ways to say it mean the same food.
SAME = {
    "boiled": "cooked",
    "chile": "chilli",
    "chili": "chilli",
    "dried": "dry",
    "tinned": "canned",
    "uncooked": "raw",
    "yoghurt": "yogurt",
} | {
    "alubia": "judia",
    "arveja": "guisante",
    "betabel": "remolacha",
    "boniato": "batata",
    "camaron": "gamba",
    "camote": "batata",
    "chicharo": "guisante",
    "durazno": "melocoton",
    "frijol": "judia",
    "habichuela": "judia",
    "hervido": "cooked",
    "jitomate": "tomate",
    "jugo": "zumo",
    "mani": "cacahuete",
    "palta": "aguacate",
    "papa": "patata",
    "poroto": "judia",
}  # words of Spanish kitchens on both shores
# Spanish words for the state of a food, in each of their endings.
SAME |= {
    stem + ending: state
    for stem, state in {
        "asad": "roasted",
        "cocid": "cooked",
        "congelad": "frozen",
        "crud": "raw",
        "fresc": "fresh",
        "liofilizad": "freeze",
        "sec": "dry",
    }.items()
    for ending in "oa"
}
# Names that mean a whole kind, whose kinds bear other names: near, and not the same.
KINDS = {
    "hongo": ("champinon", "seta"),
    "mince": ("ground",),
    "res": ("vacuno",),
    "seta": ("champinon",),
    "ternera": ("vacuno",),
}
# Words for the state of a food: they tell two rows apart, but not what the food is.
STATES = {"baked", "canned", "cooked", "dry", "freeze", "fresh", "frozen", "raw", "roasted"}
IDLE = {"a", "an", "and", "in", "of", "the", "with"}
IDLE |= {"al", "con", "de", "del", "el", "en", "la", "las", "los", "y"}

_APOSTROPHE = re.compile(r"['’]")
_WORD = re.compile(r"[^\W_]+")
_ACCENTS = re.compile("[\u0300-\u036f]")
_IDLE_E = re.compile(r"(?<=[aeiou][lnr])e$")  # `limones` is one `limon`: so is a `sardine` for us
_KIND = 0.8  # how well one of a kind answers the name of the kind
_NEAR_WORD = 0.72  # how alike two words are when one is taken for a slip of the other
_NEAR_NAME = 0.3  # below this share of the words, a name is no help
_STATE_WEIGHT = 0.3  # what the state counts beside a word that names the food
_LIKENESS_WEIGHT = 0.3  # what the likeness of whole names counts beside the share of words


def singular(word: str) -> str:
    """Return one lower-case word without its plural ending."""
    if word in PLURALS:
        return PLURALS[word]
    if len(word) < 4 or word.endswith(("ss", "us", "is")) or not word.endswith("s"):
        return word
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("oes", "ches", "shes", "sses", "xes", "zes")):
        return word[:-2]
    return word[:-1]


@functools.lru_cache(maxsize=10_000)
def name_words(name: str) -> tuple[str, ...]:
    """Return the words of a name, singular and spelt one way, in their order."""
    words = _WORD.findall(_without_accents(_APOSTROPHE.sub("", name).casefold()))
    return tuple(_one_spelling(singular(word)) for word in words if word not in IDLE)


def _one_spelling(word: str) -> str:
    bare = _IDLE_E.sub("", word)
    return SAME.get(word) or SAME.get(bare, bare)


def _without_accents(text: str) -> str:
    """Return a text without the marks above and below Latin letters, which many leave out."""
    return unicodedata.normalize("NFC", _ACCENTS.sub("", unicodedata.normalize("NFD", text)))


def normalised(name: str) -> str:
    """Return what is left of a name when case, plurals, marks and word order are taken away."""
    return " ".join(sorted(name_words(name)))


def fresh_or_raw(name: str) -> str:
    """Return a normalised name with `raw` for `fresh`, or the other way about.

    They mean the same of a leek or an egg, but fresh milk is seldom raw: so this is tried only
    when the name as written finds nothing.
    """
    swap = {"fresh": "raw", "raw": "fresh"}
    return " ".join(sorted(swap.get(word, word) for word in name.split()))


def nearest_names(words: str, names: Iterable[str]) -> Sequence[tuple[float, str]]:
    """Return the names near to some words, best first; whole words count before likeness."""
    known = {name: name_words(name) for name in names}
    asked = _answers(name_words(words), {word for parts in known.values() for word in parts})
    total = fsum(_weight(word) for word in asked)
    ranked = []
    for name, parts in known.items():
        hits = fsum(
            _weight(word) * max((near.get(part, 0.0) for part in parts), default=0.0)
            for word, near in asked.items()
        )
        if total and hits / total >= _NEAR_NAME:
            likeness = _LIKENESS_WEIGHT * _likeness(tuple(asked), parts)
            ranked.append((hits / total + likeness, name))
    return sorted(ranked, key=lambda pair: (-pair[0], len(pair[1]), pair[1]))


def _answers(asked: Iterable[str], vocabulary: set[str]) -> dict[str, dict[str, float]]:
    """Return, for each word asked, the words of the table that answer it, and how well."""
    answers: dict[str, dict[str, float]] = {}
    for word in asked:
        if word in vocabulary:
            answers[word] = {**dict.fromkeys(KINDS.get(word, ()), _KIND), word: 1.0}
        elif word in KINDS:
            answers[word] = dict.fromkeys(KINDS[word], _KIND)
        else:
            near = get_close_matches(word, vocabulary, n=8, cutoff=_NEAR_WORD)
            answers[word] = {other: _ratio(word, other) ** 2 for other in near}
    return answers


def _likeness(asked: tuple[str, ...], parts: tuple[str, ...]) -> float:
    """Return how alike two names are, leaving out a state that was not asked for."""
    told = [part for part in parts if part in asked or part not in STATES]
    return _ratio(" ".join(asked), " ".join(told or parts))


def _ratio(one: str, other: str) -> float:
    return SequenceMatcher(None, one, other).ratio()


def _weight(word: str) -> float:
    return _STATE_WEIGHT if word in STATES else 1.0
