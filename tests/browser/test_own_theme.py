"""What a book's own theme adds stands where the guide says that it does."""

from __future__ import annotations

import re
import shutil
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book

if TYPE_CHECKING:
    from playwright.sync_api import Page

ROOT: Final = Path(__file__).parents[2]
SHEET_PX: Final = int((210 - 32) / 25.4 * 96)  # A4 within the style sheet's margins
BOXES: Final = """() => Object.fromEntries([
  'h1', '.winter', 'figure.picture', '.choose', '.answers']
  .map(name => [name, document.querySelector('main ' + name)?.getBoundingClientRect().toJSON()]))"""


@pytest.fixture(scope="module")
def meals(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """Return the page of the guide's meal, with a picture, without and with its theme."""
    guide = (ROOT / "content_demo/pages/guide/more.md").read_text(encoding="utf-8")
    blocks = re.findall(r"```(?:yaml|markdown)\n(.*?)```", guide, re.DOTALL)
    theme = re.findall(r"```(?:css|jinja)\n(.*?)```", guide, re.DOTALL)
    names = ("book.yaml", "larder.yaml", "recipes/suppers/lentil-bowl.md")
    pages = []
    for kind in ("plain", "own"):
        book = tmp_path_factory.mktemp(kind) / "book"
        files = dict(zip(names, blocks, strict=False))
        if kind == "own":
            files |= {re.search(r"theme/\S+", block)[0]: block for block in theme}  # type: ignore[index]
        for name, text in files.items():
            (book / name).parent.mkdir(parents=True, exist_ok=True)
            shown = text.replace(
                "title: Lentil bowl", "title: Lentil bowl\npicture: a.svg\npicture text: A bowl"
            )
            (book / name).write_text(shown, encoding="utf-8")
        (book / "images").mkdir()
        shutil.copy(ROOT / "content_demo/images/beetroot-soup.svg", book / "images" / "a.svg")
        findings = Findings()
        read = read_book(book, findings)
        assert read is not None
        bind_book(reckoned(read, findings), book.parent / "site")
        pages.append(book.parent / "site/recipes/lentil-bowl.html")
    return pages[0], pages[1]


def boxes(page: Page, path: Path, width: int, media: Any) -> dict[str, Any]:  # noqa: ANN401 - playwright's own
    """Return where the pieces of a page stand."""
    page.set_viewport_size({"width": width, "height": 900})
    page.emulate_media(media=media)
    page.goto(path.as_uri())
    page.evaluate("document.querySelectorAll('img').forEach(img => { img.loading = 'eager' })")
    found: dict[str, Any] = page.evaluate(BOXES)
    return found


@pytest.mark.parametrize(
    ("width", "media"), [(400, "screen"), (820, "screen"), (1000, "screen"), (SHEET_PX, "print")]
)
def test_the_guide_s_line_stands_under_the_title_and_moves_nothing_else(
    page: Page, meals: tuple[Path, Path], width: int, media: str
) -> None:
    plain, own = (boxes(page, path, width, media) for path in meals)
    title, line, picture = own["h1"], own[".winter"], own["figure.picture"]
    assert 0 <= line["top"] - title["bottom"] < 40
    assert line["left"] == title["left"]
    apart = (
        line["right"] <= picture["left"]
        or line["bottom"] <= picture["top"]
        or picture["bottom"] <= line["top"]
    )
    assert apart
    if width >= 700 and media == "screen":  # the picture stays at the head, beside the title
        assert picture["top"] == plain["figure.picture"]["top"]
        assert picture["left"] > title["right"] - 1
    # all that follows goes down by no more than the line and its margin
    for name in ("figure.picture", ".choose", ".answers"):
        if plain[name]["width"]:
            assert -1 <= own[name]["top"] - plain[name]["top"] <= line["height"] + 20
