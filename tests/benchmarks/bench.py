"""The benchmark: how long the program takes for books of several sizes, in floors.

For each size a synthetic book is made and proofed; then are measured, each in a process of its own
and with its start included, the floor (see `floor.py`), binding with nothing there (the folder of
pages alone, then every edition), binding again with nothing changed, with one recipe, the larder or
the theme edited, and in one preview the time from an edit until its page is loaded again. A table
of ratios is printed; no figure of it ends the benchmark as failed.

With `--check`, what stands after each edit is compared with a clean binding of the edited book,
byte for byte; a difference is named, and the exit code is 1.

    python tests/benchmarks/bench.py --recipes 100 1000 --json ratios.json

The cache is a fresh folder where XDG_CACHE_HOME is heeded (not on Windows or macOS).
"""

from __future__ import annotations

import argparse
import json
import os
import shutil
import subprocess
import sys
import tempfile
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Final

sys.path.insert(0, str(Path(__file__).parents[2]))  # run as a script, it finds its neighbours

from tests.benchmarks.edits import EDITS, recipes_of
from tests.benchmarks.measuring import Cost, Costs, cost_of
from tests.benchmarks.previewing import edit_to_reload
from tests.benchmarks.ratios import ROWS, Size, growth, table
from tests.folders import differing, held

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

HERE: Final = Path(__file__).parent
PROGRAM: Final = (sys.executable, "-m", "cookbook_build")
MOST_REPEATED: Final = 1_000
"""Books up to this size are measured several times unless asked otherwise."""


@dataclass
class Bench:
    """One synthetic book in a folder of its own, and what is made of it."""

    root: Path
    recipes: int
    runs: int
    checked: bool
    unlike: dict[str, list[str]] = field(default_factory=dict)

    @property
    def book(self) -> Path:
        """The book's own folder."""
        return self.root / "book"

    def environment(self, cache: str = "cache") -> dict[str, str]:
        """Return the environment of a child, with a cache of ours; output is UTF-8 everywhere."""
        return {**os.environ, "XDG_CACHE_HOME": str(self.root / cache), "PYTHONUTF8": "1"}

    def make(self, seed: int, *, pictures: bool) -> None:
        """Write the book and see that nothing in it is an error."""
        size = ["--recipes", str(self.recipes), "--seed", str(seed)]
        script = [sys.executable, str(HERE / "synthetic_book.py"), str(self.book), *size]
        subprocess.run([*script, *["--pictures"] * pictures], check=True)  # noqa: S603 - our own
        proof = [*PROGRAM, "proof", str(self.book), "--json"]
        found = subprocess.run(  # noqa: S603
            proof, capture_output=True, encoding="utf-8", env=self.environment(), check=False
        )
        if found.returncode:
            sys.exit(f"The synthetic book has errors:\n{found.stdout[-4000:]}{found.stderr}")

    def floor(self) -> Cost:
        """Make pages as large as those of the program, whose folder was bound before."""
        plan, bound = self.root / "plan.json", self.root / "folder"
        sources = [(file, f"recipes/{file.stem}.html") for file in recipes_of(self.book)]
        sources.append((self.book / "larder.yaml", "larder.html"))
        with self.fresh("floor") as out:
            pages = [(str(one), str(out / to), (bound / to).stat().st_size) for one, to in sources]
            plan.write_text(json.dumps(pages), encoding="utf-8", newline="\n")
            return cost_of([sys.executable, str(HERE / "floor.py"), str(plan)], self.environment())

    def folder(self) -> Cost:
        """Bind the folder of pages alone, with nothing there; the last one stays, for the floor."""
        with self.fresh("folder", stays=True) as out:
            command = [sys.executable, str(HERE / "folder_alone.py"), str(self.book), str(out)]
            return cost_of(command, self.environment("cache-of-folder"))

    def all_editions(self) -> Cost:
        """Bind every edition, with nothing there; the last one stays, to be bound again."""
        with self.fresh("site", stays=True) as out:
            return self.bind(out)

    def bind(self, out: Path) -> Cost:
        """Bind every edition."""
        command = [*PROGRAM, "bind", str(self.book), "--out", str(out)]
        return cost_of(command, self.environment(f"cache-of-{out.name}"))

    def again(self, edited: str) -> Cost:
        """Bind where the book was bound before, after an edit or without one."""
        site = self.root / "site"
        if not site.exists():
            self.all_editions()
        before = held(site) if self.checked else {}
        if edited in EDITS:
            EDITS[edited](self.book)
        cost = self.bind(site)
        if self.checked:
            wanted = self.clean() if edited in EDITS else before
            self.unlike.setdefault(edited, []).extend(differing(held(site), wanted))
        return cost

    def clean(self) -> Mapping[str, bytes]:
        """Return the files of the book as it is now, bound with nothing there."""
        with self.fresh("clean") as out:
            self.bind(out)
            return held(out)

    @contextmanager
    def fresh(self, name: str, *, stays: bool = False) -> Iterator[Path]:
        """Give the path of a folder that is not there, nor is a cache of its making."""
        for one in (name, f"cache-of-{name}"):
            shutil.rmtree(self.root / one, ignore_errors=True)
        yield self.root / name
        if not stays:
            shutil.rmtree(self.root / name)

    def measured(self, only: Sequence[str], edits: int) -> Size:
        """Measure what is asked for, in its order."""
        making: dict[str, Callable[[], Cost]] = {
            "cold-folder": self.folder,
            "floor": self.floor,
            "cold-all": self.all_editions,
            **{word: lambda word=word: self.again(word) for word in ("unchanged", *EDITS)},  # type: ignore[misc]
        }
        taken: dict[str, Costs] = {}
        for word, make in making.items():
            if word in only or word == "cold-folder":  # whose pages the floor is as large as
                sys.stderr.write(f"  {self.recipes:,} recipes: {word}\n")
                taken[word] = Costs(tuple(make() for _ in range(self.repeats(word))))
        if "preview" in only:
            sys.stderr.write(f"  {self.recipes:,} recipes: preview\n")
            taken["preview"] = edit_to_reload(self.book, edits, self.environment())
        return Size(
            self.recipes, {what: taken[word] for what, word in ROWS.items() if word in taken}
        )

    def repeats(self, word: str) -> int:
        """Return how often a row is measured; the floor is quick, and all hangs on it."""
        return max(3, self.runs) if word == "floor" and self.recipes <= MOST_REPEATED else self.runs


def main() -> None:
    """Measure each size and print the table."""
    given = _arguments().parse_args()
    sizes, unlike = [], {}
    for recipes in given.recipes:
        with tempfile.TemporaryDirectory(dir=given.within) as root:
            runs = given.runs or (3 if recipes <= MOST_REPEATED else 1)
            bench = Bench(Path(root), recipes, runs, given.check)
            bench.make(given.seed, pictures=given.pictures)
            sizes.append(bench.measured(given.only, given.edits))
            unlike[str(recipes)] = bench.unlike
        sys.stdout.write("\n".join([*table(sizes[-1]), "", ""]))
        sys.stdout.flush()
    sys.stdout.write("".join(f"{line}\n" for line in growth(sizes)))
    if given.json:
        kept = {"sizes": [size.as_json() for size in sizes], "unlike": unlike}
        given.json.write_text(json.dumps(kept, indent=2) + "\n", encoding="utf-8", newline="\n")
    for recipes, found in unlike.items():
        for edited, names in found.items():
            for name in names:
                sys.stderr.write(f"{recipes} recipes, {edited}: {name} is not as bound anew.\n")
    sys.exit(any(names for found in unlike.values() for names in found.values()))


def _arguments() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(description="How long binding takes, in floors.")
    parser.add_argument("--recipes", type=int, nargs="+", default=[100, 1_000])
    parser.add_argument("--runs", type=int, help="How often; 3 up to 1,000 recipes, else once.")
    parser.add_argument("--edits", type=int, default=20, help="How many edits in the preview.")
    parser.add_argument(
        "--only", nargs="+", choices=list(ROWS.values()), default=list(ROWS.values())
    )
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--pictures", action="store_true", help="One for every five recipes.")
    parser.add_argument("--check", action="store_true", help="Compare with clean bindings.")
    parser.add_argument("--json", type=Path, help="Where to write the figures as well.")
    parser.add_argument("--within", type=Path, help="The folder for what is made meanwhile.")
    return parser


if __name__ == "__main__":
    main()
