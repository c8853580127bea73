"""An author's text as HTML: what stands on a page is markup of ours, and no style of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from click.testing import CliRunner

from cookbook_build.cli import main

if TYPE_CHECKING:
    from pathlib import Path

TABLE = "\n| store | jars | g |\n| :-- | :-: | --: |\n| leeks | 3 | 240 |\n"


def test_the_columns_of_a_table_are_aligned_by_class(small_book: Path, tmp_path: Path) -> None:
    page = small_book / "pages/the-shelf.md"
    page.write_text(page.read_text(encoding="utf-8") + TABLE, encoding="utf-8")
    ran = CliRunner().invoke(main, ["bind", str(small_book), "--out", str(tmp_path / "site")])
    assert ran.exit_code == 0, ran.output
    text = (tmp_path / "site/pages/the-shelf.html").read_text(encoding="utf-8")
    for tag in ("th", "td"):
        for side in ("left", "center", "right"):
            assert f'<{tag} class="to-{side}">' in text
    assert "style=" not in text
    style = (tmp_path / "site/style.css").read_text(encoding="utf-8")
    assert "td.to-right { text-align: right; }" in style
