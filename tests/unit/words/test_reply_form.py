"""The reply form in another language, on its way out and back."""

from __future__ import annotations

import gettext
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.kitchen.conditions import METHODS
from cookbook_build.manuscript import reply_form, reply_languages, reply_lines, reply_words
from cookbook_build.manuscript.collection import read_book
from cookbook_build.manuscript.replies import read_replies
from cookbook_build.publishing.reply_block import method_words, reply_block
from cookbook_build.words import languages, speech, spoken

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.manuscript.replies import Reply

DEMO = Path(__file__).parents[3] / "content_demo"
BOOK = read_book(DEMO, Findings())
READERS = (reply_languages, reply_form, reply_lines, reply_words)
SPANISH = {
    "Recipe": "Receta", "Date": "Fecha", "Method": "Método", "Servings": "Raciones",
    "Part": "Parte", "Water poured": "Agua vertida", "Water added": "Agua añadida",
    "It was": "Quedó", "Altitude": "Altitud", "Note": "Nota", "Name": "Nombre",
    "Main bowl": "Cuenco principal",
    "(such as 2026-07-14)": "(por ejemplo 2026-07-14)",
    "(in all, such as 1 cup + 2 tbsp)": "(en total, por ejemplo 1 taza + 2 cdas)",
    "(right, too thick or too thin)": "(en su punto, demasiado espeso o demasiado líquido)",
    "kettle": "hervidor", "cold": "frío",
    "kettle|bowl|boiling water|boiled water|hot water|boiled water in a bowl|boiling water in a "
    "bowl|boiling water into a bowl|kettle and bowl|bowl and kettle": "hervidor|cuenco",
    "cold|cold soak|cold soaked|soaked cold|cold water|soaked in cold water": "frío",
    "plus|and": "más|y", "a|an": "un|una",
    "half|half a": "medio|media", "of|of the": "de|del", "for|served": "para",
    "about|around|roughly|approx|approx.|ca|ca.": "unos|unas",
    "water|boiling water|boiled water|hot water|warm water|cold water": "agua|agua hirviendo",
    "serving|servings|portion|portions|people|person|persons|of us": "raciones|personas",
    "one|two|three|four|five|six|seven|eight|nine|ten": "uno|dos|tres|cuatro|cinco",
    "on|in|with|by|from": "en|con", "the|a|an|my|our": "el|la",
    "none|nothing|no|0|-|–|—|n/a|?|unknown|nil": "nada",
    "too|over": "demasiado", "thick|stiff|dry": "espeso|espesa", "thin|runny|watery|wet": "aguado",
    "a little|a bit|a touch|slightly|rather|much|far|way": "un poco",
    "it was|it came out": "quedó|salió", "right|just right|about right|perfect": "en su punto",
    "sea level|at sea level": "a nivel del mar",
    "from|to|cc|sent|subject|reply-to|date": "de|para|asunto|fecha",
    "january|february|march|april|may|june|july|august|september|october|november|december":
        "enero|febrero|marzo|abril|mayo|junio|julio|agosto|septiembre|octubre|noviembre|diciembre",
}  # fmt: skip


class _Spanish(gettext.NullTranslations):
    def gettext(self, message: str) -> str:
        return SPANISH.get(message, message)


def _forget() -> None:
    for module in READERS:
        for thing in vars(module).values():
            if hasattr(thing, "cache_clear"):
                thing.cache_clear()


@pytest.fixture
def spanish(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Have one other language, of a few words."""
    words = {"en": gettext.NullTranslations(), "es": _Spanish()}
    monkeypatch.setattr(speech, "catalogue", lambda tag: words[tag])
    monkeypatch.setattr(speech, "languages", lambda: ("en", "es"))
    _forget()
    yield
    _forget()


def read(folder: Path, letter: str) -> tuple[tuple[Reply, ...], list[str]]:
    """Return what the demo book makes of a letter, and the causes of the findings."""
    (folder / "replies").mkdir(exist_ok=True)
    (folder / "replies" / "a.txt").write_bytes(letter.encode())
    findings = Findings()
    assert BOOK
    replies = read_replies(folder, BOOK.recipes, BOOK.larder, (), findings)
    return replies, [found.cause for found in findings]


def form(parts: tuple[str, ...] = ("Beetroot soup",), address: str = "beetroot-soup") -> str:
    """Return the form of a recipe in the language being spoken."""
    return reply_block(address, parts)


@pytest.mark.usefixtures("spanish")
def test_a_form_speaks_the_language_of_the_book_and_is_blank_when_it_comes_back(
    tmp_path: Path,
) -> None:
    with spoken("es"):
        words = form(("Cuenco principal", "Pear relish"), "barley-and-leek-supper")
    assert words.startswith("Receta: barley-and-leek-supper\nFecha: (por ejemplo 2026-07-14)\n")
    assert "Parte: Cuenco principal\nAgua vertida: (en total" in words
    assert read(tmp_path, words) == ((), ["this reply is not filled in"])


@pytest.mark.usefixtures("spanish")
@pytest.mark.parametrize(
    "letter",
    [
        ("Receta: beetroot-soup\nFecha: 2026-07-14\nMétodo: hervidor\nRaciones: 2\n"
        "Agua vertida: 3 cups + 1 tbsp\nAgua añadida: 1 tbsp\nQuedó: demasiado espeso\n"
        "Altitud: 0 m\nNombre: Inés\n"),
        # in words, without accents or capitals, quoted, and with hints left
        ("> receta: beetroot-soup\n> fecha: martes, 14 de julio de 2026 (por ejemplo 2026-07-14)\n"
        "> metodo: en el cuenco\n> raciones: para dos personas\n> agua vertida: unas 3 cups\n"
        "> y una tbsp de agua hirviendo\n> agua anadida: una tbsp\n> quedo: Un poco espesa.\n"
        "> altitud: a nivel del mar\n> nombre: Inés\n"),
        # below the headers of a letter, one of which is a key of the form
        ("De: Inés\nFecha: 2026-07-15\nAsunto: una prueba\n\nReceta: beetroot-soup\n"
        "Fecha: 14/07/2026\nMétodo: con el hervidor\nRaciones: 2\nAgua vertida: 3 cups más 1 tbsp\n"
        "Agua añadida: 1 tbsp\nQuedó: salió demasiado espeso\nAltitud: 0 m\nNombre: Inés\n"),
        # half in the one language, half in the other
        ("Recipe: beetroot-soup\nFecha: 14 July 2026\nMethod: hervidor\nServings: dos\n"
        "Agua vertida: 3 cups and 1 tbsp\nWater added: 1 tbsp\nIt was: espeso\n"
        "Altitude: sea level\nNombre: Inés\n"),
    ],
)  # fmt: skip
def test_what_is_written_in_another_language_is_the_same_trial(tmp_path: Path, letter: str) -> None:
    (reply,), causes = read(tmp_path, letter)
    trial = reply.trial
    assert not causes
    assert (trial.date.isoformat(), trial.method, trial.servings) == ("2026-07-14", "kettle", 2)
    assert (str(trial.water), str(trial.added)) == ("3\u00a0cups + 1\u00a0tbsp", "1\u00a0tbsp")
    assert trial.altitude
    assert (trial.verdict, trial.altitude.si, trial.by) == ("thick", 0.0, "Inés")


@pytest.mark.usefixtures("spanish")
def test_other_words_for_right_thin_nothing_and_half(tmp_path: Path) -> None:
    letter = (
        "Receta: beetroot-soup\nFecha: 2 ene 2026\nMétodo: frío\nRaciones: 2\n"
        "Agua vertida: media cup\nAgua añadida: nada\nQuedó: {}\n"
    )
    for said, verdict in (("en su punto", "right"), ("quedó demasiado aguado", "thin")):
        (reply,), causes = read(tmp_path, letter.format(said))
        assert not causes
        assert (reply.trial.verdict, reply.trial.method) == (verdict, "cold")
        assert (str(reply.trial.water), reply.trial.added) == ("½\u00a0cup", None)


def test_a_day_in_figures_is_read_as_its_language_has_it(tmp_path: Path) -> None:
    letter = (
        "Receta: beetroot-soup\n{}: 10/05/2026\nMétodo: {}\nRaciones: 2\n"
        "Agua vertida: {}\nQuedó: {}\nAltitud: 1200 metros\n"
    )
    replies, causes = read(
        tmp_path, letter.format("Fecha", "vitrocerámica", "taza y media", "pastosa")
    )
    assert causes == []
    (reply,) = replies
    assert reply.trial.date.isoformat() == "2026-05-10"
    assert (str(reply.trial.water), reply.trial.verdict) == ("1½\N{NO-BREAK SPACE}cups", "thick")
    assert reply.trial.method == "stove"
    assert reply.trial.altitude
    assert reply.trial.altitude.si == 1200
    assert read(tmp_path, letter.format("Date", "hervidor", "1 taza", "espesa")) == (
        (), ['"10/05/2026" can be read two ways'],
    )  # fmt: skip


@pytest.mark.usefixtures("spanish")
def test_a_slip_in_another_language_is_found_as_in_english(tmp_path: Path) -> None:
    letter = "Receta: beetroot-soup\nFecha 2026-07-14\nMétodo: hervidor\nRaciones: 2\n"
    assert read(tmp_path, letter + "Agua vertida: 3 cups\nQuedó: espeso\n") == (
        (), ['a colon is missing after "Fecha"'],
    )  # fmt: skip
    assert read(tmp_path, "Agua vertida: 3 cups\n")[1] == ["this water belongs to no recipe"]


@pytest.mark.usefixtures("spanish")
def test_the_main_component_may_be_named_in_each_language(tmp_path: Path) -> None:
    letter = (
        "Receta: barley-and-leek-supper\nFecha: 2026-07-14\nMétodo: hervidor\nRaciones: 2\n"
        "Parte: {}\nAgua vertida: 2 cups\nQuedó: espeso\n"
    )
    for name in ("Cuenco principal", "Main bowl", "cuenco principal"):
        (reply,), causes = read(tmp_path, letter.format(name))
        assert (causes, reply.part) == ([], None)


@pytest.mark.parametrize("tag", languages())
def test_the_form_of_each_catalogue_comes_back_as_it_was_filled_in(
    tmp_path: Path, tag: str
) -> None:
    with spoken(tag):
        blank, methods = form(), method_words()
        hints = [line.split(": ", 1)[1] for line in blank.splitlines()]
        names = [line.split(": ", 1)[0] for line in blank.splitlines()]
    assert max(map(len, blank.splitlines())) <= 72  # mail breaks longer ones: RFC 3676, section 4.2
    assert list(methods) == list(METHODS)
    for method, word in methods.items():
        answers = ["beetroot-soup", "2026-07-14", word, "2", "3 cups", "", "", "", "", ""]
        at = names.index(next(n for n, hint in zip(names, hints, strict=True) if "1 " in hint))
        assert at == 4, "the water is the fifth line"
        verdicts = hints[6].strip("()")
        answers[6] = verdicts.split(",")[0]
        lines = [f"{name}: {answer}" for name, answer in zip(names, answers, strict=True)]
        replies, causes = read(tmp_path, "\n".join(lines))
        assert not causes
        assert [(r.trial.method, r.trial.verdict) for r in replies] == [(method, "right")]
