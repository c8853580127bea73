"""A mix in its pouches: its shares, its absorber, its age."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings, described
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned

if TYPE_CHECKING:
    from pathlib import Path

    from cookbook_build.planning.packs import Pack

BOOK = """\
title: A book
kit:
  pouches: [{name: small, width: 13 cm, height: 18 cm}]
  absorbers: [100 mL, 300 mL]
"""
LARDER = """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
beef mince: {food: ground beef raw, dried: freeze, raw: true, weighs: 60 g per cup}
raisins: {food: raisins, dried: bought}
"""
BOWL = """\
---
title: Lentil bowl
ingredients: [1 cup lentils, 2 tbsp leeks]
tested: {method: kettle, water: 1 cup, rest: 12 min}
components:
  - {name: Leek relish, ingredients: [3 tbsp leeks]}
---
"""
MENU = """\
title: Nights
people: 4
packed: 2026-05-31
meals: [{day: 1, meal: supper, recipe: bowl, method: METHOD}]
"""


def packed(folder: Path, method: str = "stove", bowl: str = BOWL, **more: str) -> tuple[Pack, ...]:
    """Return the packs of a small book's only menu."""
    files = {
        "book.yaml": BOOK,
        "larder.yaml": LARDER,
        "recipes/bowl.md": bowl,
        "menus/nights.yaml": MENU.replace("METHOD", method),
    } | {name.replace("__", "/"): text for name, text in more.items()}
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    findings = Findings()
    book = read_book(folder, findings)
    assert book is not None, [described(finding) for finding in findings]
    (provision,) = reckoned(book, findings).provisions
    return provision.packs


def test_the_shares_of_a_mix_make_the_whole(tmp_path: Path) -> None:
    main, relish = packed(tmp_path)
    assert main.count > 1
    assert relish.count == 1
    assert main.share_servings * main.count == pytest.approx(4)
    assert main.share_g * main.count == pytest.approx(main.dry_g)
    assert relish.share_water is relish.water


def test_a_share_alone_takes_the_water_of_so_many_servings(tmp_path: Path) -> None:
    main, _ = packed(tmp_path)
    dish = main.plate.dish
    alone = dish.waters(4 / main.count, "stove")[0]
    assert main.share_water == alone
    # what boils off a pot does not halve with what is in it
    assert alone.total_ml > main.water.total_ml / main.count
    assert alone.total_ml < main.water.total_ml


def test_beside_a_jar_a_component_is_soaked_cold(tmp_path: Path) -> None:
    jar = BOOK + "  jar: {holds: 500 mL, label: 65 C after 6 h}\n"
    main, relish = packed(tmp_path, "jar", **{"book.yaml": jar})
    assert (main.method, relish.method) == ("jar", "cold")


def test_a_mix_too_damp_by_its_stores_has_no_absorber(tmp_path: Path) -> None:
    # raisins: 15.43 % water, USDA SR28 09298
    damp = BOWL.replace("1 cup lentils", "1 cup raisins, 1 tbsp lentils")
    main, relish = packed(tmp_path, "kettle", damp)
    assert main.sealing.sealing == "refused"
    assert main.sealing.moisture == pytest.approx(0.15, abs=0.01)
    assert main.packing is not None
    assert main.packing.absorbers is None
    assert relish.packing is not None
    assert relish.packing.absorbers is not None


def test_a_mix_is_at_its_best_no_longer_than_its_oldest_lot(tmp_path: Path) -> None:
    stock = "store,lot,packed on,container,grams\nlentils,LEN-1,2025-06-01,jar,{}\n"
    fresh, _ = packed(tmp_path, "kettle")
    old, relish = packed(tmp_path, "kettle", **{"stock.csv": stock.format(500)})
    assert fresh.best_by is not None
    assert old.best_by is not None
    assert old.best_by < fresh.best_by
    assert relish.best_by is not None
    assert relish.best_by > old.best_by


def test_the_heat_of_raw_meat_is_that_of_its_kind(tmp_path: Path) -> None:
    minced, _ = packed(tmp_path, bowl=BOWL.replace("1 cup lentils", "1 cup beef mince"))
    assert minced.cook_to_c == 71.1  # USDA FSIS: ground meat 160 °F
    assert not minced.cook_and_rest
