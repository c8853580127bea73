"""What trials teach a small book, and what a change of its lines does to the water."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.next_trials import next_trials
from cookbook_build.planning.reckoning import Reckoning, reckoned
from cookbook_build.planning.whatif import Changes, WhatIfError, changed

if TYPE_CHECKING:
    from pathlib import Path

LARDER = """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
onions: {food: onions raw, dried: freeze, form: chopped}
yogurt powder: {food: yogurt plain whole milk, dried: freeze, form: powder, weighs: 96 g per cup}
rice: {food: white rice dry, dried: bought}
turkey mince: {food: ground turkey raw, dried: freeze, raw: true, weighs: 60 g per cup}
salt: {food: salt, dried: bought}
"""
BOWL = """\
---
title: Lentil bowl
consistency: stew
ingredients: [1 cup lentils, 2 tbsp leeks, 1 tbsp yogurt powder (optional), 1/8 tsp salt]
tested: {method: kettle, water: 1 cup + 1 tbsp, rest: 12 min}
---
"""
SOUP = """\
---
title: Lentil stew for many
consistency: stew
ingredients: [3/4 cup lentils, 1/4 cup onions]
---
"""
RIGHT = "trials: [{date: 2026-03-02, method: kettle, water: 1 cup + 1 tbsp, verdict: right}]"
DRY_TRIALS = """\
trials:
  - {date: 2026-03-02, method: kettle, servings: 1, water: 1 cup, verdict: thick, added: 3 tbsp}
  - {date: 2026-03-09, method: kettle, servings: 2, water: 2 1/3 cups, verdict: right}
"""


def book(folder: Path, bowl: str = BOWL, soup: str = SOUP) -> tuple[Reckoning, Findings]:
    (folder / "recipes").mkdir(exist_ok=True)
    for name, text in (
        ("book.yaml", "title: A book\naltitude: 310 m\n"),
        ("larder.yaml", LARDER),
        ("recipes/bowl.md", bowl),
        ("recipes/soup.md", soup),
    ):
        (folder / name).write_text(text, encoding="utf-8")
    findings = Findings()
    read = read_book(folder, findings)
    assert read is not None
    return reckoned(read, findings), findings


def with_trials(text: str) -> str:
    return BOWL.replace("---\n", f"---\n{text.rstrip()}\n", 1)


def total(found: Reckoning, address: str, servings: int = 1) -> float:
    return found.dishes[address].waters(servings, "kettle")[0].total_ml


def test_a_tested_dish_without_trials_keeps_its_tested_water(tmp_path: Path) -> None:
    found, findings = book(tmp_path)
    assert not len(findings)
    assert total(found, "bowl") == pytest.approx(17 * 14.78676478125)
    assert found.dishes["bowl"].parts[0].trials == 0


def test_trials_of_its_own_move_it_off_its_test(tmp_path: Path) -> None:
    found, _ = book(tmp_path, with_trials(DRY_TRIALS))
    part = found.dishes["bowl"].parts[0]
    assert part.trials == 2
    assert total(found, "bowl") > 17 * 14.78676478125 + 2
    water = found.dishes["bowl"].waters(1, "kettle")[0]
    assert water.start_ml == pytest.approx(water.total_ml - water.sd_ml)
    assert water.hold_back_ml == pytest.approx(max(2 * water.sd_ml, 5.0))


def test_what_one_dish_learned_reaches_another_with_the_same_store(tmp_path: Path) -> None:
    before = total(book(tmp_path)[0], "soup")
    after = total(book(tmp_path, with_trials(DRY_TRIALS))[0], "soup")
    assert after > before
    narrower = book(tmp_path, with_trials(DRY_TRIALS))[0].dishes["soup"].waters(1, "kettle")[0]
    wider = book(tmp_path, BOWL.replace("tested:", "blurb: no test\n#"))[0]
    assert narrower.sd_ml < wider.dishes["soup"].waters(1, "kettle")[0].sd_ml


def test_a_trial_that_is_the_test_counts_once(tmp_path: Path) -> None:
    found, _ = book(tmp_path, with_trials(RIGHT))
    assert len(found.lessons.records) == 1


def test_lessons_of_a_component_and_a_store_are_found_as_by_looking_at_each(tmp_path: Path) -> None:
    soup = SOUP.replace("1/4 cup onions", "1/4 cup onions, 1/8 cup onions")
    own = "trials: [{date: 2026-03-09, method: kettle, water: 1 cup, verdict: right}]"
    soup = soup.replace("---\n", f"---\n{own}\n", 1)
    lessons = book(tmp_path, with_trials(DRY_TRIALS), soup)[0].lessons
    assert len(lessons.records) == 4
    for name in {record.name for record in lessons.records}:
        expected = [record for record in lessons.records if record.name == name]
        assert sorted(lessons.all_of(name), key=id) == sorted(expected, key=id)
        assert [lessons.records[at] for at in lessons.places_of(name)] == expected
    for store in ("lentils", "leeks", "onions", "salt", "rice"):
        assert lessons.of_store(store) == tuple(
            record
            for record in lessons.records
            if store in {name for name, _ in record.equation.full_ml}
        )
    assert len(lessons.of_store("onions")) == 1
    assert lessons.all_of("nobody's") == lessons.of_store("nothing") == ()


def test_a_slip_is_reported_at_its_water_and_teaches_nothing(tmp_path: Path) -> None:
    slip = (
        "trials: [{date: 2026-03-02, method: kettle, water: 1 tbsp, verdict: right},"
        " {date: 2026-03-03, method: kettle, water: 1 cup + 2 tbsp, verdict: right}]"
    )
    found, findings = book(tmp_path, with_trials(slip))
    (finding,) = findings
    assert finding.place.path == "recipes/bowl.md"
    assert (finding.place.line, finding.place.width) == (2, len("1 tbsp"))
    assert "far less than" in finding.cause
    assert found.dishes["bowl"].parts[0].trials == 1
    alone, _ = book(
        tmp_path,
        with_trials(
            slip.replace("{date: 2026-03-02, method: kettle, water: 1 tbsp, verdict: right},", "")
        ),
    )
    assert total(found, "bowl") == pytest.approx(total(alone, "bowl"))


def test_a_trial_as_the_test_outweighs_one_that_is_absurd(tmp_path: Path) -> None:
    slips = RIGHT.replace(
        "]", ", {date: 2026-03-03, method: kettle, water: 1 tbsp, verdict: right}]"
    )
    found, findings = book(tmp_path, with_trials(slips))
    (finding,) = findings
    left_out = [record for record in found.lessons.records if record.left_out]
    assert [record.trial.water_ml for record in left_out] == [pytest.approx(14.7868, abs=1e-3)]
    says, expects = map(int, re.findall(r"(\d+) mL", finding.cause))
    assert says == 15
    assert expects == pytest.approx(total(found, "bowl"), abs=3)  # so little water loses less
    assert "the other trials and its ingredients" in finding.cause


REPLY = """\
Recipe: bowl
Date: 2026-07-14
Method: kettle
Servings: 1
Water poured: {water}
It was: right
Name: {name}
"""


def replied(folder: Path, **waters: str) -> tuple[Reckoning, Findings]:
    """Return the small book with what readers sent."""
    (folder / "replies").mkdir()
    for name, water in waters.items():
        (folder / f"replies/{name}.txt").write_text(REPLY.format(name=name, water=water))
    return book(folder)


def test_one_reader_does_not_outvote_the_author_s_test(tmp_path: Path) -> None:
    found, findings = replied(tmp_path, osk="2 cups")
    (finding,) = findings
    assert (finding.place.path, finding.place.line) == ("replies/osk.txt", 5)
    assert total(found, "bowl") == pytest.approx(17 * 14.78676478125)


def test_a_reader_who_found_the_test_right_counts_beside_it(tmp_path: Path) -> None:
    found, _ = replied(tmp_path, osk="1 cup + 1 tbsp")
    part = found.dishes["bowl"].parts[0]
    assert (part.trials, part.tests) == (1, 1)
    band = found.dishes["bowl"].waters(1, "kettle")[0].sd_ml
    (tmp_path / "replies/osk.txt").write_text(
        REPLY.format(name="osk", water="252 mL"), encoding="utf-8"
    )
    near = book(tmp_path)[0].dishes["bowl"].waters(1, "kettle")[0].sd_ml
    assert band == pytest.approx(near, rel=0.02)


def test_a_slip_s_figure_is_reckoned_with_its_own_rest(tmp_path: Path) -> None:
    text = "trials: [{date: 2026-03-03, method: stove, water: 3/4 cup, verdict: right, rest: 10 h}]"
    found, findings = book(tmp_path, with_trials(text))
    record = next(record for record in found.lessons.records if record.left_out)
    (finding,) = findings
    says, expects = map(int, re.findall(r"(\d+) mL", finding.cause))
    assert says == 177
    lost_ml = record.trial.right_ml - record.equation.stays_ml
    assert expects > total(found, "bowl") + lost_ml / 2  # ten hours of steam are counted
    assert "rest, altitude" in finding.mend


def test_a_lone_trial_is_held_against_its_ingredients(tmp_path: Path) -> None:
    bare = BOWL.replace("tested:", "# tested:")
    slip = "trials: [{date: 2026-03-03, method: kettle, water: 1 tbsp, verdict: right}]"
    found, findings = book(tmp_path, bare.replace("---\n", f"---\n{slip}\n", 1))
    (finding,) = findings
    says, expects = map(int, re.findall(r"(\d+) mL", finding.cause))
    assert says == 15
    assert expects == pytest.approx(total(found, "bowl"), abs=3)
    assert finding.cause.endswith("that its ingredients let expect")


SCOOPED = """\
---
title: Lentils to scoop
ingredients: [{lentils} lentils, 2 tbsp leeks]
trials: [{{date: 2026-03-02, servings: 2, water: 1 1/2 cups, {verdict}}}]
---
"""


@pytest.mark.parametrize("verdict", ["verdict: right", "verdict: thick, added: 2 tbsp"])
def test_a_trial_far_from_all_else_is_told_whatever_its_verdict(
    tmp_path: Path, verdict: str
) -> None:
    _, findings = book(tmp_path, soup=SCOOPED.format(lentils="1/2 cup", verdict=verdict))
    (finding,) = findings
    assert "far more than" in finding.cause
    assert "teaches nothing" in finding.mend


def test_what_was_too_thick_is_within_reach_of_what_is_held_back(tmp_path: Path) -> None:
    thick = SCOOPED.format(lentils="9/16 cup", verdict="verdict: thick, added: 2 tbsp")
    found, findings = book(tmp_path, soup=thick)
    assert not len(findings)
    water = found.dishes["soup"].waters(2, "kettle")[0]
    too_thick_ml = 1.5 * 236.588  # a US customary cup: NIST Handbook 44, appendix C
    assert water.total_ml + water.sd_ml < too_thick_ml  # what all together let expect
    assert water.start_ml + water.hold_back_ml >= too_thick_ml - 0.5


def test_what_is_changed_more_is_less_sure(tmp_path: Path) -> None:
    found, _ = book(tmp_path)
    dish = found.dishes["bowl"]
    as_written = dish.waters(1, "kettle")[0]
    sds = []
    for add in ("1 tbsp onions", "1/2 cup onions", "2 cups onions"):
        water = changed(dish, found, Changes(adds=(add,))).waters(1, "kettle")[0]
        sds.append(water.sd_ml / water.total_ml)
        assert water.start_ml <= water.total_ml - water.sd_ml + 1e-9
        assert water.start_ml + water.hold_back_ml >= water.total_ml
    assert sds == sorted(sds)
    assert sds[-1] > 2 * as_written.sd_ml / as_written.total_ml
    onions = found.stores["onions"]
    assert onions.grams_per_cup
    # the added store's own uptake alone is unsure by this much, whatever the test said
    alone_ml = 0.12 * onions.full_ml(2 * onions.grams_per_cup) * (1 + as_written.phi)
    most = changed(dish, found, Changes(adds=("2 cups onions",))).waters(1, "kettle")[0]
    assert most.sd_ml >= 0.9 * alone_ml


def test_weighings_that_contradict_the_others_are_told_and_left_out(tmp_path: Path) -> None:
    book(tmp_path)
    kept = "weighings: [15 g per cup, 16 g per cup]"
    spoilt = "weighings: [15 g per cup, 160 g per cup, 16 g per cup], weighs: 45 g per cup"
    weights = {}
    for name, words in (("kept", kept), ("spoilt", spoilt)):
        text = LARDER.replace("sliced}", f"sliced, {words}}}")
        (tmp_path / "larder.yaml").write_text(text, encoding="utf-8")
        findings = Findings()
        read = read_book(tmp_path, findings)
        assert read is not None
        leeks = reckoned(read, findings).stores["leeks"]
        weights[name] = (leeks.grams_per_cup, leeks.cup_weighings)
        told = [(f.place.line, f.place.excerpt[f.place.column - 1 :][: f.place.width], f.cause)
                for f in findings]  # fmt: skip
        if name == "kept":
            assert not told
    assert [(line, words) for line, words, _ in told] == [(2, "160 g per cup"), (2, "45 g per cup")]
    assert all("far more than the" in cause for _, _, cause in told)
    assert weights["spoilt"][1] == 2
    assert weights["spoilt"][0] == pytest.approx(weights["kept"][0] or 0)


@pytest.mark.parametrize(
    ("words", "grams", "told"),
    [
        ("weighings: [160 g per cup]", (140, 165), ["160 g per cup"]),
        ("weighings: [160 g per cup, 170 g per cup]", (150, 170), ["160 g per cup"]),
        ("weighs: 160 g per cup", (160, 160), ["160 g per cup"]),
        ("weighings: [12 g per cup]", (12, 13), []),
    ],
)
def test_weighings_that_agree_count_though_the_table_says_otherwise(
    tmp_path: Path, words: str, grams: tuple[float, float], told: list[str]
) -> None:
    book(tmp_path)  # its leeks weigh 15.6 g a cup by the table
    (tmp_path / "recipes/soup.md").unlink()
    (tmp_path / "recipes/bowl.md").write_text(BOWL.replace("tested:", "# tested:"))
    text = LARDER.replace("sliced}", f"sliced, {words}}}")
    (tmp_path / "larder.yaml").write_text(text, encoding="utf-8")
    findings = Findings()
    read = read_book(tmp_path, findings)
    assert read is not None
    leeks = reckoned(read, findings).stores["leeks"]
    assert leeks.grams_per_cup
    assert grams[0] <= leeks.grams_per_cup <= grams[1]
    found = [f.place.excerpt[f.place.column - 1 :][: f.place.width] for f in findings]
    assert found == told
    assert all("that its food lets expect" in f.cause for f in findings)


def test_the_next_trial_is_of_a_dish_that_nobody_tested(tmp_path: Path) -> None:
    found, _ = book(tmp_path, with_trials(DRY_TRIALS))
    best = next_trials(found)[0]
    assert best.dish.recipe.address == "soup"
    assert best.drop > next_trials(found)[1].drop > 0


def test_leaving_out_what_is_optional_equals_the_table_without_it(tmp_path: Path) -> None:
    for trials in (BOWL, with_trials(DRY_TRIALS)):
        found, _ = book(tmp_path, trials)
        dish = found.dishes["bowl"]
        spared = changed(dish, found, Changes(without=("yogurt powder",)))
        bare = dish.waters(2, "stove", without_optional=True)[0]
        water = spared.waters(2, "stove")[0]
        assert water.total_ml == pytest.approx(bare.total_ml)
        assert water.start_ml == pytest.approx(bare.start_ml)
        assert water.rest_s == pytest.approx(bare.rest_s)


def test_a_swap_takes_the_same_measure_of_the_other_store(tmp_path: Path) -> None:
    found, _ = book(tmp_path)
    made = changed(found.dishes["bowl"], found, Changes(swaps=(("leeks", "onions"),)))
    line = next(line for line in made.parts[0].lines if line.store.name == "onions")
    onions = found.stores["onions"]
    assert onions.grams_per_cup is not None
    assert line.grams == pytest.approx(onions.grams_per_cup / 8)
    assert all(line.store.name != "leeks" for line in made.parts[0].lines)


def test_a_line_more_wants_its_uptake_and_its_share_of_free_water(tmp_path: Path) -> None:
    found, _ = book(tmp_path)
    dish = found.dishes["bowl"]
    made = changed(dish, found, Changes(adds=("2 tbsp onions",)))
    more = made.waters(1, "jar")[0].total_ml - dish.waters(1, "jar")[0].total_ml
    onions = next(p for p in made.parts[0].mix.portions if p.store == "onions")
    phi = dish.waters(1, "jar")[0].phi
    assert more == pytest.approx(onions.uptake_ml + phi * (onions.dry_g + onions.uptake_ml))


def test_swapping_there_and_back_changes_nothing(tmp_path: Path) -> None:
    found, _ = book(tmp_path)
    there = changed(found.dishes["bowl"], found, Changes(swaps=(("leeks", "onions"),)))
    back = changed(there, found, Changes(swaps=(("onions", "leeks"),)))
    assert back.waters(3, "stove")[0].total_ml == pytest.approx(
        found.dishes["bowl"].waters(3, "stove")[0].total_ml
    )


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (Changes(without=("leaks",)), 'did you mean "leeks"'),
        (Changes(without=("onions",)), 'this recipe has no "onions"'),
        (Changes(swaps=(("leeks", "unions"),)), 'did you mean "onions"'),
        (Changes(adds=("2 tbsp unions",)), 'there is no store called "unions"'),
        (Changes(adds=("2 tbps onions",)), "is not a unit"),
        (Changes(adds=("2 tbsp rice",)), "cook"),
        (Changes(without=("lentils", "leeks", "yogurt powder", "salt")), "nothing dry is left"),
    ],
)
def test_what_can_not_be_is_said(tmp_path: Path, changes: Changes, said: str) -> None:
    found, _ = book(tmp_path)
    with pytest.raises(WhatIfError, match=said):
        changed(found.dishes["bowl"], found, changes)


def test_a_raw_store_swapped_in_forbids_poured_water(tmp_path: Path) -> None:
    found, _ = book(tmp_path)
    made = changed(found.dishes["bowl"], found, Changes(swaps=(("leeks", "turkey mince"),)))
    assert set(made.methods) == {"microwave", "stove"}
    assert made.raw_stores == ("turkey mince",)


def test_weighings_teach_what_a_cup_weighs(tmp_path: Path) -> None:
    plain, _ = book(tmp_path)
    derived = plain.stores["leeks"].grams_per_cup
    (tmp_path / "larder.yaml").write_text(
        LARDER.replace("form: sliced}", "form: sliced, weighings: [9 g per cup, 10 g per cup]}"),
        encoding="utf-8",
    )
    findings = Findings()
    read = read_book(tmp_path, findings)
    assert read is not None
    leeks = reckoned(read, findings).stores["leeks"]
    assert not len(findings)
    assert derived is not None
    assert leeks.grams_per_cup == pytest.approx(9.5, abs=0.2)
    assert leeks.cup_weighings == 2
    assert leeks.cup_sd_g == pytest.approx(9.5 * 0.05 / 2**0.5, rel=0.05)


@pytest.mark.parametrize(
    "trial",
    [
        "{date: 2026-05-02, water: 1 1/2 cups, verdict: thick}",
        "{date: 2026-05-02, water: 1 3/4 cups + 1 tsp, verdict: right}",
    ],
)
def test_a_test_far_from_the_usual_counts_beside_its_own_trials(tmp_path: Path, trial: str) -> None:
    """It is far more than a stew of this mix takes, and warned of; a trial does not unsay it."""
    far = BOWL.replace("water: 1 cup + 1 tbsp", "water: 1 3/4 cups")
    alone, findings = book(tmp_path, far)
    assert len(findings)
    assert total(alone, "bowl") == pytest.approx(414.0, abs=0.1)
    found, _ = book(tmp_path, far.replace("tested:", f"trials: [{trial}]\ntested:"))
    part = found.dishes["bowl"].parts[0]
    assert (part.trials, part.tests, part.left_out) == (1, 1, 0)
    assert 385 < total(found, "bowl") < 425
