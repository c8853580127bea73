"""How soon a large book in one file opens: an invented book, bound, and opened on a slow device.

The book has N meals in series of 25, each of a grain or root, two vegetables, something hearty and
two seasonings of a larder of 22 stores, in every size and by every method that the recipe allows,
and a drawing of its own of about 20 kB, as the demo's are. Its text is invented; so are its tests.

It is opened in Chromium with the processor slowed down (four times unless asked otherwise), the
first time in a fresh profile, from a file. Printed are

- the size of the file, and how many nodes the document has when all of it is read;
- first contentful paint, from the browser's trace: from the start of the navigation to the first
  words on the screen; the goal is 2 s;
- when all of the file was read (`DOMContentLoaded`);
- a page by a link: from the click to the frame in which its page is painted, for three pages;
- where the book has a finder, from a key press to its painted answer.

    python tests/studies/opening_study.py --meals 500
"""

from __future__ import annotations

import argparse
import json
import os
import random
import shutil
import sys
import tempfile
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import TYPE_CHECKING, Any, Final

sys.path.insert(0, str(Path(__file__).parents[2]))  # run as a script, it finds its neighbours

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.binding import bind_book
from cookbook_build.publishing.carrying import IN_ONE_FILE
from tests.benchmarks.invented_larder import FIRST, larder

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from playwright.sync_api import CDPSession, Page

GROUNDS: Final = FIRST[:5]
GARDEN: Final = FIRST[5:13]
HEARTY: Final = FIRST[13:17]
SEASONING: Final = FIRST[17:]
SERIES_LENGTH: Final = 25
TIMES: Final = (
    "before the ferry",
    "under the alders",
    "for a wet evening",
    "with the boat tied up",
)
FLAGS: Final = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"]
TRACED: Final = "loading,blink.user_timing,devtools.timeline"
A_PAGE: Final = """name => new Promise(done => {
  const link = [...document.querySelectorAll('a')].find(a => a.hash === '#' + name);
  const began = performance.now();
  link.click();
  requestAnimationFrame(() => {
    const after = new MessageChannel();  // its message comes after the frame was painted
    after.port1.onmessage = () => {
      const page = document.getElementById(name);
      done(page.offsetHeight > 0 ? performance.now() - began : NaN);
    };
    after.port2.postMessage(0);
  });
})"""
A_KEY: Final = """box => new Promise(done => {
  const began = performance.now();
  box.value += 'l';
  box.dispatchEvent(new Event('input', { bubbles: true }));
  requestAnimationFrame(() => {
    const after = new MessageChannel();
    after.port1.onmessage = () => done(performance.now() - began);
    after.port2.postMessage(0);
  });
})"""


def written_book(folder: Path, meals: int, seed: int) -> None:
    """Write an invented book into a folder."""
    chance = random.Random(seed)  # noqa: S311 - invented meals, no secret
    names = [f"Reach {number}" for number in range(1, 1 + -(-meals // SERIES_LENGTH))]
    lines = [f'  {name}: {{about: "Meals {TIMES[0]}."}}' for name in names]
    kit = "kit:\n  jar: {holds: 500 mL, label: 65 C after 6 h}\n  microwave: {power: 900 W}\n"
    files = {
        "book.yaml": "title: A long reach\naltitude: 310 m\n" + kit
        + "series:\n" + "\n".join(lines) + "\n",
        "larder.yaml": larder(FIRST),
    }  # fmt: skip
    for number in range(meals):
        series, part = names[number // SERIES_LENGTH], 1 + number % SERIES_LENGTH
        files[f"recipes/meal-{number + 1}.md"] = _meal(chance, number + 1, series, part)
        files[f"images/meal-{number + 1}.svg"] = _drawing(chance)
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")


def _meal(chance: random.Random, number: int, series: str, part: int) -> str:
    ground, hearty = chance.choice(GROUNDS), chance.choice(HEARTY)
    greens, spices = chance.sample(GARDEN, 2), chance.sample(SEASONING, 2)
    when = chance.choice(TIMES)
    water = chance.choice(("3/4 cup + 1 tbsp", "1 cup", "1 1/4 cups"))
    title = f"{ground.capitalize()}, {greens[0]} and {hearty} {when}"
    return f"""\
---
title: {title}
series: {series}
part: {part}
date: 2026-{1 + number % 12:02}-{1 + number % 28:02}
blurb: {ground.capitalize()} with {greens[0]} and {greens[1]}, eaten {when}.
picture: meal-{number}.svg
picture text: A bowl of {ground} on a flat stone.
consistency: {chance.choice(("scoopable", "stew", "soup"))}
ingredients:
  - 1/2 cup {ground}
  - 3 tbsp {greens[0]}
  - 2 tbsp {greens[1]}
  - 2 tbsp {hearty}
  - 1/8 tsp {spices[0]}
  - 1 tsp {spices[1]}
tested: {{method: kettle, water: {water}, rest: 12 min}}
---
1. Put the mix into the bowl and loosen it with a spoon.
2. Pour {{water}} of boiling water over it, stir, and cover it.
3. Wait {{rest}}, stir again, and add what you kept back by the spoon.

The {greens[1]} comes back last. Give it its time.
"""


def _drawing(chance: random.Random) -> str:
    lines = "".join(
        f'<path d="M{chance.random() * 800:.1f} {chance.random() * 600:.1f}'
        f'q{chance.random() * 90:.1f} {chance.random() * 90:.1f} 40 12" stroke-width="2"/>'
        for _ in range(300)
    )
    head = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 800 600">'
    return f'{head}<g fill="none" stroke="#344">{lines}</g></svg>'


def bound_book(meals: int, seed: int, folder: Path) -> Path:
    """Bind an invented book, and return its one file."""
    written_book(folder / "book", meals, seed)
    findings = Findings()
    book = read_book(folder / "book", findings)
    if book is None or findings.errors:
        sys.exit("\n".join(finding.cause for finding in findings))
    bind_book(reckoned(book, findings), folder / "site")
    (whole,) = (folder / "site").glob(f"a-long-reach{IN_ONE_FILE}")
    return whole


def opened(file: Path, slower: float) -> Iterator[str]:
    """Open a book in one file, and give what was measured."""
    from playwright.sync_api import sync_playwright  # noqa: PLC0415 - may be missing

    path = os.environ.get("COOKBOOK_CHROMIUM") or shutil.which("chromium")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=FLAGS)
        context = browser.new_context(viewport={"width": 800, "height": 1180}, offline=True)
        page = context.new_page()
        page.set_default_timeout(300_000)
        devtools = context.new_cdp_session(page)
        devtools.send("Emulation.setCPUThrottlingRate", {"rate": slower})
        devtools.send("Performance.enable")
        yield f"{'first contentful paint':<34}{_first_paint(page, devtools, file):>8.0f} ms"
        timing = page.evaluate("performance.getEntriesByType('navigation')[0].toJSON()")
        yield f"{'all of it read':<34}{timing['domContentLoadedEventEnd']:>8.0f} ms"
        yield f"{'nodes':<34}{_nodes(devtools):>8}"
        links = page.locator(".page .entry a")
        for at in (0, links.count() // 2, links.count() - 8):
            name = (links.nth(at).get_attribute("href") or "#").removeprefix("#")
            page.go_back() if at else None
            yield f"{'a page by a link':<34}{page.evaluate(A_PAGE, name):>8.0f} ms   {name}"
        yield from _found(page)
        browser.close()


def _first_paint(page: Page, devtools: CDPSession, file: Path) -> float:
    """Return the first contentful paint of a file after its navigation began [ms]."""
    events: list[dict[str, Any]] = []
    devtools.on("Tracing.dataCollected", lambda data: events.extend(data["value"]))
    ended: list[bool] = []
    devtools.on("Tracing.tracingComplete", lambda _: ended.append(True))
    devtools.send("Tracing.start", {"categories": TRACED, "transferMode": "ReportEvents"})
    page.goto(file.as_uri(), wait_until="load")
    page.wait_for_timeout(500)
    devtools.send("Tracing.end")
    while not ended:
        page.wait_for_timeout(50)
    painted = next(event for event in events if event["name"] == "firstContentfulPaint")
    began = painted["args"]["data"].get("navigationId")
    start = next(
        event["ts"]
        for event in events
        if event["name"] == "navigationStart"
        and event["args"].get("data", {}).get("navigationId") == began
    )
    return float(painted["ts"] - start) / 1000


def _nodes(devtools: CDPSession) -> int:
    metrics = devtools.send("Performance.getMetrics")["metrics"]
    return int(next(metric["value"] for metric in metrics if metric["name"] == "Nodes"))


def _found(page: Page) -> Iterator[str]:
    """Give how long the finder takes to answer a key press, where the book has one."""
    link = page.locator(".masthead a[href='#p-find']")
    if link.count():
        link.click()
        box = page.locator("#p-find input[type=search], #p-find input[type=text]").first
        taken = [box.evaluate(A_KEY) for _ in range(5)]
        yield f"{'a key press in the finder':<34}{median(taken):>8.1f} ms   {json.dumps(taken)}"


def main(arguments: Sequence[str] | None = None) -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description="How soon a book in one file opens.")
    parser.add_argument("--meals", type=int, default=500)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--slower", type=float, default=4)
    parser.add_argument("--file", type=Path, help="A book in one file that is bound already.")
    parser.add_argument("--keep", type=Path, help="Where to leave the book and its files.")
    given = parser.parse_args(arguments)
    with tempfile.TemporaryDirectory() as made:
        began = perf_counter()
        file = given.file or bound_book(given.meals, given.seed, given.keep or Path(made))
        if given.file is None:
            sys.stdout.write(f"{'bound in':<34}{perf_counter() - began:>8.0f} s\n")
        sys.stdout.write(f"{'size':<34}{file.stat().st_size / 1e6:>8.1f} MB\n")
        for line in opened(file, given.slower):
            sys.stdout.write(line + "\n")


if __name__ == "__main__":
    main()
