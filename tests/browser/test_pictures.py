"""Photographs on a real page: the width that the screen needs, and nothing that jumps."""

from __future__ import annotations

import io
import re
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser, Page

BOOK = {
    "book.yaml": """\
title: A book with photographs
cover: landing.jpg
cover text: The landing at dusk.
series:
  Bowls: {picture: landing.jpg, picture text: The landing again.}
""",
    "larder.yaml": "lentils: {food: lentils cooked, dried: freeze, cooked first: true}\n",
    "recipes/bowls/lentil-bowl.md": """\
---
title: Lentil bowl
series: Bowls
picture: landing.jpg
picture text: The landing at dusk.
ingredients:
  - 1 cup lentils
---
Pour {water}.

![The landing](landing.jpg)

Then wait, and look at a leaf: ![A leaf](leaf.png)

""" + "Wait.\n\n" * 30,
    "pages/about.md": """\
---
title: About
picture: landing.jpg
picture text: The landing.
---
Us.
""",
}  # fmt: skip
SHIFTS = """() => new Promise(done => {
  let sum = 0;
  new PerformanceObserver(list => list.getEntries().forEach(e => sum += e.value))
    .observe({type: 'layout-shift', buffered: true});
  setTimeout(() => done(sum), 400);
})"""
LOADED = """async () => {
  for (const image of document.images) { image.loading = 'eager'; await image.decode(); }
}"""
SAID = """image => {
  const said = image.sizes.split(', ').find(one => {
    const when = one.slice(0, one.indexOf(')') + 1);
    return !when || matchMedia(when).matches;
  }).split(' ').pop();
  return parseFloat(said) * (said.endsWith('rem') ? 16 : innerWidth / 100);
}"""
CHOSEN = "() => [...document.images].map(image => image.currentSrc.split('/').pop())"
HEIGHTS = "() => [...document.images].map(image => image.getBoundingClientRect().height)"


@pytest.fixture(scope="session")
def pictured(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the bound folder of a book with a large photograph and a tiny one."""
    folder = tmp_path_factory.mktemp("pictured")
    for name, text in BOOK.items():
        path = folder / "book" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    images = folder / "book/images"
    images.mkdir()
    slope = Image.linear_gradient("L").resize((2400, 1800))
    Image.merge("RGB", [slope, slope.rotate(180), slope.rotate(90)]).save(images / "landing.jpg")
    leaf = Image.new("RGBA", (60, 40))  # black on nothing
    leaf.paste((0, 0, 0, 255), (20, 10, 40, 30))
    leaf.save(images / "leaf.png")
    findings = Findings()
    book = read_book(folder / "book", findings)
    assert book is not None
    bind_book(reckoned(book, findings), folder / "site")
    return folder / "site"


def opened(browser: Browser, path: Path, width: int, density: float) -> Page:
    """Return a page on a screen of some width and density."""
    context = browser.new_context(
        viewport={"width": width, "height": 800}, device_scale_factor=density, offline=True
    )
    page = context.new_page()
    page.goto(path.as_uri())
    page.evaluate(LOADED)
    return page


# CSS px of the picture's box times the screen's density, and the next of 480, 960 and 1600 above
@pytest.mark.parametrize(
    ("name", "width", "density", "chosen"),
    [
        ("recipes/lentil-bowl.html", 360, 2, 960),
        ("recipes/lentil-bowl.html", 390, 2, 960),
        ("recipes/lentil-bowl.html", 390, 1, 480),
        ("recipes/lentil-bowl.html", 390, 3, 1600),
        ("recipes/lentil-bowl.html", 1280, 1, 480),
        ("recipes/lentil-bowl.html", 1280, 2, 960),
        ("pages/about.html", 820, 1, 960),
        ("pages/about.html", 1280, 2, 1600),
        ("index.html", 390, 2, 960),
    ],
)
def test_a_screen_loads_the_webp_that_it_needs_and_no_wider(
    browser: Browser, pictured: Path, name: str, width: int, density: float, chosen: int
) -> None:
    page = opened(browser, pictured / name, width, density)
    assert page.evaluate(CHOSEN)[0] == f"landing-{chosen}.webp"
    page.context.close()


@pytest.mark.parametrize("width", [360, 820, 1280])
@pytest.mark.parametrize("name", ["index.html", "recipes/lentil-bowl.html", "pages/about.html"])
def test_sizes_say_how_wide_the_style_makes_each_picture(
    browser: Browser, pictured: Path, width: int, name: str
) -> None:
    page = opened(browser, pictured / name, width, 1)
    for image in page.locator("img[sizes]").all():
        box = image.bounding_box()
        assert box is not None
        said = image.evaluate(SAID)
        if box["width"] > 60:  # the leaf is narrower than any column
            assert 0.99 * box["width"] <= said <= 1.3 * box["width"], box
    page.context.close()


@pytest.mark.parametrize("name", ["index.html", "recipes/lentil-bowl.html"])
def test_nothing_jumps_when_pictures_arrive(browser: Browser, pictured: Path, name: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 2400}, offline=True)
    page = context.new_page()
    held: list[str] = []
    page.route(re.compile(r"\.(webp|jpg|png)$"), lambda route: held.append(route.request.url))
    page.goto((pictured / name).as_uri(), wait_until="domcontentloaded")
    before = page.evaluate(HEIGHTS)
    assert all(height > 20 for height in before)
    page.unroute_all()
    page.goto((pictured / name).as_uri())
    page.evaluate(LOADED)
    after = page.evaluate(HEIGHTS)
    assert held
    assert after == pytest.approx(before, abs=1)
    assert page.evaluate(SHIFTS) < 0.001
    context.close()


def test_a_tiny_picture_in_a_text_is_not_blown_up(browser: Browser, pictured: Path) -> None:
    page = opened(browser, pictured / "recipes/lentil-bowl.html", 390, 2)
    box = page.locator("img[alt='A leaf']").bounding_box()
    assert box is not None
    assert (box["width"], box["height"]) == (60, 40)
    page.context.close()


@pytest.mark.parametrize("look", ["dark", "red"])
def test_at_night_no_picture_is_bright_and_none_is_lost(
    browser: Browser, pictured: Path, look: str
) -> None:
    page = opened(browser, pictured / "recipes/lentil-bowl.html", 390, 1)
    page.evaluate(f"document.documentElement.dataset.look = '{look}'")
    for image in page.locator("picture").all():
        shot = Image.open(io.BytesIO(image.screenshot())).convert("RGB")
        light = shot.convert("L").getextrema()  # ITU-R 601-2: pure red is 76
        assert light[1] < (215 if look == "dark" else 40), light  # type: ignore[operator]
        assert light[1] - light[0] > 10, "it can be made out"  # type: ignore[operator]
    page.context.close()
