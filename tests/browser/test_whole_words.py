"""No word, and no figure with its unit, is split across two lines on any glass."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, Page

WIDTHS = (360, 600, 768, 820, 1024, 1180)  # px: phones, and tablets upright and across
# Web addresses, which have no place to break at, are let go; so is what is only heard.
SPLIT = r"""() => {
  const split = [], range = document.createRange();
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const text = texts.currentNode, box = text.parentElement;
    if (!box.checkVisibility()) { continue; }
    if (box.closest('.unseen, .for, .then, .contact, .credit, script, style')) { continue; }
    for (const word of text.data.matchAll(/[^ \t\n\-\u2010\u2013\u2014\/]+/g)) {
      range.setStart(text, word.index);
      range.setEnd(text, word.index + word[0].length);
      const tops = [...range.getClientRects()].filter(r => r.width > 0.5).map(r => r.top);
      if (Math.max(...tops) - Math.min(...tops) > 3) { split.push(word[0]); }
    }
  }
  return split;
}"""
SIDEWAYS = "document.documentElement.scrollWidth - window.innerWidth"


@pytest.fixture
def glass(browser: Browser) -> Iterator[Page]:
    """Give a page whose glass is made as wide as each test asks."""
    context = browser.new_context(offline=True)
    yield context.new_page()
    context.close()


def split(page: Page) -> dict[int, list[str]]:
    """Return the words that a page splits at each width [px] where it does."""
    found = {}
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate(SIDEWAYS) <= 0, width
        found[width] = page.evaluate(SPLIT)
    return {width: words for width, words in found.items() if words}


def test_every_word_of_every_recipe_stands_on_one_line(glass: Page, site: Path) -> None:
    for path in (site / "recipes").glob("*.html"):
        glass.goto(path.as_uri())
        assert split(glass) == {}, path.name


def test_the_longer_words_of_another_language_stand_on_one_line(glass: Page, spanish: Path) -> None:
    for path in (spanish / "recipes").glob("*.html"):
        glass.goto(path.as_uri())
        assert split(glass) == {}, path.name


@pytest.mark.parametrize("name", ["index.html", "recipes/turkey-under-mash.html"])
def test_a_long_word_of_a_title_stands_on_one_line(glass: Page, site: Path, name: str) -> None:
    glass.goto((site / name).as_uri())
    glass.evaluate("document.querySelector('h1').textContent = 'Our grandmother’s larder'")
    assert split(glass) == {}


def test_a_sum_of_two_measures_breaks_after_its_sign_only(glass: Page, site: Path) -> None:
    glass.goto((site / "recipes" / "turkey-under-mash.html").as_uri())
    sums = glass.locator(".water td > *, .camp td .figures > span, .pour dd, .mix .amount")
    told = [words for words in sums.all_text_contents() if "+" in words]
    assert told
    for words in told:
        assert " +" not in words, words
        assert not words.startswith("+ "), words
