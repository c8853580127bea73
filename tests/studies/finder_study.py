"""How long the finder takes from a key press to the painted answer, in a book of many meals.

The page is the demo's, with its index replaced by that of an invented book: N meals (500) with
titles, blurbs and stores put together from a word list of this file (2000 distinct words, more
than so small a book would use), 60 stores of which a meal
holds 4 to 10, one to five ways each. It is opened in Chromium with the processor slowed four
times by the DevTools protocol (Emulation.setCPUThrottlingRate), a phone's screen. Words are typed
letter by letter, boxes ticked, and for each of these events two times are taken:

- `script`: performance.now before and after the event's handlers, by the clock on the wall;
- `frame`: what the page's main thread did from the event until the next frame was painted, by a
  trace: script, style, layout, paint. It is the thread's processor time, so that other programs
  of a busy machine don't count; what is rastered and composed on other threads is not in it.

Printed are median, 90th percentile and worst, beside the 16.7 ms of a frame, and how long the page
took from its request until it was loaded and the finder stood ready. A tick is measured while the
list of boxes is open: they are laid out and painted anew with it.
"""

from __future__ import annotations

import argparse
import os
import random
import shutil
import statistics
import sys
import tempfile
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.findings import Findings
from cookbook_build.kitchen.conditions import METHODS
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.desk import Link
from cookbook_build.publishing.finder import MealLine, StoreLine, WayTime
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.theme import STYLES, environment, theme_folder
from cookbook_build.publishing.wording import METHOD_NAMES, METHODS_WITHIN, clock

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from playwright.sync_api import CDPSession, Page

DEMO: Final = Path(__file__).parents[2] / "content_demo"
FRAME_MS: Final = 1000 / 60
FLAGS: Final = ["--no-sandbox", "--disable-gpu", "--disable-quic"]
WORDS: Final = """
alder apple arbour ashen autumn barley basket beech beetroot berry birch bowl bramble branch
bread breeze bridge brook brown bucket burdock butter cabbage camp canoe caraway carrot celery
chestnut chives cider clover cold copper corn couscous cress crumb damson dawn dew dill duck
dusk early ember evening fennel fern ferry field flint ford frost garden garlic ginger grass
gravel green grove harvest hazel heather hedge honey island ivory juniper kale kettle lantern
leek lentil lichen linden loft lovage marrow marsh meadow millet mint mist moss mushroom mustard
nettle noon nutmeg oat onion orchard osier oven oyster paddle parsley parsnip pasture pear
pebble pepper plum poplar porridge potato pumpkin quarry quince rain raspberry reed rice ridge
river rosehip rowan rush rye sage sedge shallow shingle shore sloe smoke sorrel spruce squash
stone stream summer supper sweet thicket thistle thyme timber tomato trout turkey turnip valley
walnut water weir wheat willow winter wood yarrow
""".split()  # noqa: SIM905 - read more easily than a hundred quotes
TICKED: Final = 12
LOADED: Final = "performance.getEntriesByType('navigation')[0].loadEventEnd"
TYPED: Final = ("mushrom", "s", "barley lek", "rivre stone", "pumkin", "a")


def invented(meals: int, seed: int) -> dict[str, Any]:
    """Return the finder's view of an invented book."""
    chance = random.Random(seed)  # noqa: S311 - no secret
    said = [*WORDS, *(f"{a}{b}" for a in WORDS[::3] for b in WORDS[1::4])]
    stores = [" ".join(chance.sample(WORDS, 2)) for _ in range(60)]
    named = {name: name.replace(" ", "-") for name in stores}
    lines, holding = [], {name: [] for name in stores}  # type: ignore[var-annotated]
    for number in range(meals):
        title = " ".join(chance.sample(WORDS, chance.randint(2, 5))).capitalize()
        held = sorted(chance.sample(stores, chance.randint(4, 10)))
        ways = sorted(chance.sample(METHODS, chance.randint(1, 5)), key=METHODS.index)
        times = [(way, chance.randint(4, 90)) for way in ways]
        href = f"recipes/{number}.html"
        kcal = chance.randint(300, 550)
        lines.append(
            MealLine(
                title,
                href,
                "",
                f"Series {chance.choice(WORDS)}",
                f"{' '.join(chance.choices(said, k=18)).capitalize()}.",
                tuple(
                    WayTime(way, METHOD_NAMES[way], METHODS_WITHIN[way], n, clock(n))
                    for way, n in times
                ),
                kcal,
                f"{kcal} kcal",
                " ".join(named[name] for name in held),
                " ".join(named[name] for name in held[1:]),
                chance.choice(["", "milk", "milk eggs", "nuts"]),
            )
        )
        for name in held:
            holding[name].append(Link(title, href))
    lines.sort(key=lambda line: line.title)
    return {
        "title": "Index",
        "meals": lines,
        "ways": list(_by_way(lines)),
        "stores": [
            StoreLine(name, named[name], f"larder/{named[name]}.html", (), tuple(holding[name]))
            for name in sorted(stores)
        ],
        "shelves": [
            {"name": "Freeze-dried", "stores": [{"name": n, "anchor": named[n]} for n in stores]}
        ],
        "allergens": {"milk": "milk", "eggs": "eggs", "nuts": "nuts"},
        "law": "an invented law",
    }


def _by_way(lines: Iterable[MealLine]) -> Iterable[dict[str, Any]]:
    for method in METHODS:
        timed = [(line, way) for line in lines for way in line.ways if way.method == method]
        timed.sort(key=lambda one: one[1].minutes)
        yield {"method": method, "name": METHOD_NAMES[method], "meals": timed}


def write_page(folder: Path, meals: int, seed: int) -> Path:
    """Write the page with its styles and scripts, and return it."""
    findings = Findings()
    book = read_book(DEMO, findings)
    if book is None:
        raise SystemExit(1)
    pages = Pages(reckoned(book, findings), environment(theme_folder()))
    named = {name: text for name, text in pages.render() if name == "choices.css"}
    shared = pages.text._shared("find.html")  # noqa: SLF001 - what every page is given
    view = {**shared, "web": None, "ask": None, **invented(meals, seed)}
    page = folder / "find.html"
    page.write_text(pages.templates.get_template("find.html").render(view), "utf-8")
    (folder / "choices.css").write_text(named["choices.css"], "utf-8")
    for name in STYLES:
        shutil.copy(theme_folder() / name, folder / name)
    return page


TIMED = """() => {
  window.timed = []
  const form = document.querySelector('.wishes')
  for (const name of ['input', 'click']) {
    let began
    window.addEventListener(name, () => { began = performance.now() }, true)
    window.addEventListener(name, () => { timed.push(performance.now() - began) })
  }
}"""
WORKS: Final = {
    "EventDispatch": "events",
    "UpdateLayoutTree": "style",
    "Layout": "layout",
    "PrePaint": "before paint",
    "Paint": "paint",
    "Layerize": "layers",
}


def works_ms(events: Sequence[dict[str, Any]]) -> dict[str, float]:
    """Return the main thread's own time [ms] in the first frame after an event, by kind of work.

    It is the thread's processor time, which leaves out what other programs took from it; within
    an event only the outermost counts. The frame ends with its layers handed on (`Layerize`).
    """
    asked = [
        event
        for event in events
        if event["name"] == "EventDispatch"
        and event.get("args", {}).get("data", {}).get("type") in {"input", "click"}
    ]
    if not asked:
        return {}
    began, thread = asked[0]["ts"], (asked[0]["pid"], asked[0]["tid"])
    own = sorted(
        (e for e in events if (e["pid"], e["tid"]) == thread and e["name"] in WORKS and "dur" in e),
        key=lambda event: (event["ts"], -event["dur"]),
    )
    spent: dict[str, float] = {}
    until = began
    for event in own:
        if event["ts"] < until:
            continue
        until = event["ts"] + event["dur"]
        name = event["name"]
        spent[name] = spent.get(name, 0.0) + event.get("tdur", event["dur"]) / 1000
        if name == "Layerize":
            break
    return spent


def traced(page: Page, session: CDPSession, act: Callable[[], None]) -> dict[str, float]:
    """Do something under a trace, and return the works of its frame [ms]."""
    found: list[dict[str, Any]] = []
    done: list[bool] = []
    session.on("Tracing.dataCollected", lambda data: found.extend(data["value"]))
    session.on("Tracing.tracingComplete", lambda _: done.append(True))
    session.send("Tracing.start", {"traceConfig": {"includedCategories": ["devtools.timeline"]}})
    act()
    page.evaluate("() => new Promise(go => requestAnimationFrame(() => requestAnimationFrame(go)))")
    session.send("Tracing.end")
    while not done:
        page.wait_for_timeout(20)
    return works_ms(found)


class Times:
    """What was measured [ms], by name."""

    def __init__(self) -> None:
        self.found: dict[str, list[float]] = {}

    def add(self, name: str, *values: float) -> None:
        """Note some times."""
        self.found.setdefault(name, []).extend(values)

    def add_frame(self, what: str, works: dict[str, float]) -> None:
        """Note the works of a frame, and all of them together."""
        if works:
            self.add(f"{what}, frame", sum(works.values()))
            for name, spent in works.items():
                self.add(f"{what}, {WORKS[name]}", spent)


def measured(path: Path, slower: int, times: int) -> dict[str, list[float]]:
    """Return script and frame times of typing and ticking [ms]."""
    from playwright.sync_api import sync_playwright  # noqa: PLC0415 - may be missing

    chromium = os.environ.get("COOKBOOK_CHROMIUM") or shutil.which("chromium")
    found = Times()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=FLAGS)
        for _ in range(times):
            context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
            page = context.new_page()
            session = context.new_cdp_session(page)
            session.send("Emulation.setCPUThrottlingRate", {"rate": slower})
            page.goto(path.as_uri())
            page.evaluate(TIMED)
            found.add("page, until loaded", page.evaluate(LOADED))
            page.locator("[name=words]").focus()
            _type(page, session, found)
            _tick(page, session, found)
            context.close()
        browser.close()
    return found.found


def _type(page: Page, session: CDPSession, found: Times) -> None:
    for words in TYPED:
        for letter in words:
            found.add_frame("letter", traced(page, session, partial(page.keyboard.type, letter)))
        page.locator("[name=words]").evaluate("field => { field.value = '' }")
    found.add("letter, script", *page.evaluate("() => timed.splice(0)"))


def _tick(page: Page, session: CDPSession, found: Times) -> None:
    page.locator('.tab[data-drawer="shelf"]').click()
    page.locator('[data-tick="all"]').click()
    page.evaluate("() => timed.splice(0)")
    for box in page.locator(".have:has([name^=have])").all()[:TICKED]:
        found.add_frame("tick", traced(page, session, box.click))
    found.add("tick, script", *page.evaluate("() => timed.splice(0)"))


def report(found: dict[str, list[float]], meals: int, slower: int) -> str:
    """Return the figures as a table."""
    lines = [f"{meals} meals, processor slowed {slower} times; ms, a frame is {FRAME_MS:.1f}", ""]
    lines.append(f"{'':<24}{'median':>8}{'90 %':>8}{'worst':>8}{'over a frame':>14}")
    for name, values in found.items():
        ordered = sorted(values)
        ninth = ordered[int(0.9 * (len(ordered) - 1))]
        over = sum(value > FRAME_MS for value in ordered) / len(ordered)
        lines.append(
            f"{name:<24}{statistics.median(ordered):>8.1f}{ninth:>8.1f}{ordered[-1]:>8.1f}"
            f"{over:>13.0%}"
        )
    return "\n".join(lines)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("--meals", type=int, default=500)
    parser.add_argument("--slower", type=int, default=4)
    parser.add_argument("--times", type=int, default=3)
    parser.add_argument("--seed", type=int, default=1)
    told = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        path = write_page(Path(folder), told.meals, told.seed)
        size = path.stat().st_size
        found = measured(path, told.slower, told.times)
    sys.stdout.write(f"{report(found, told.meals, told.slower)}\n\nthe page: {size / 1e6:.2f} MB\n")


if __name__ == "__main__":
    main()
