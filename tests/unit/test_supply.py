"""What the program stands on: ranges, the versions that CI takes, and licences.

Licences are those that the packages themselves declare in their metadata.
"""

from __future__ import annotations

import re
import tomllib
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

if TYPE_CHECKING:
    from collections.abc import Iterable

ROOT: Final = Path(__file__).parents[2]
PROJECT: Final = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
LOCK: Final = ROOT / ".ci" / "lock.txt"
LICENCES: Final = {
    "annotated-types": "MIT", "babel": "BSD", "click": "BSD", "colorama": "BSD",
    "filelock": "MIT", "flexcache": "BSD", "flexparser": "BSD", "jinja2": "BSD",
    "livereload": "BSD", "lxml": "BSD", "markdown-it-py": "MIT", "markupsafe": "BSD",
    "mdurl": "MIT", "numpy": "BSD", "pillow": "MIT", "pint": "BSD", "platformdirs": "MIT",
    "pydantic": "MIT", "pydantic-core": "MIT", "pygments": "BSD", "pyyaml": "MIT", "rich": "MIT",
    "segno": "BSD", "tinycss2": "BSD", "tornado": "Apache", "typing-extensions": "PSF",
    "typing-inspection": "MIT", "webencodings": "BSD",
}  # fmt: skip
"""Of all that a household installs with the program: every one lets it be used and passed on. What
only tests use is installed by contributors, and part of nothing that we pass on."""


def written(group: Iterable[str]) -> list[Requirement]:
    """Return requirements as they are written, without those on ourselves."""
    found = map(Requirement, group)
    return [one for one in found if canonicalize_name(one.name) != PROJECT["name"]]


def everything() -> list[Requirement]:
    """Return every requirement of the project."""
    groups = [PROJECT["dependencies"], *PROJECT["optional-dependencies"].values()]
    return [one for group in groups for one in written(group)]


def locked() -> dict[str, str]:
    """Return the version that CI takes of each package."""
    lines = LOCK.read_text(encoding="utf-8").splitlines()
    pairs = [line.split("==") for line in lines if line and not line.startswith("#")]
    return {canonicalize_name(name): version for name, version in pairs}


def installed(names: Iterable[str]) -> dict[str, Distribution]:
    """Return some packages and all that they need here, by name."""
    found: dict[str, Distribution] = {}
    todo = [(canonicalize_name(name), frozenset({""})) for name in names]
    while todo:
        name, extras = todo.pop()
        if name in found:
            continue
        try:
            found[name] = distribution(name)
        except PackageNotFoundError:
            pytest.fail(f"{name} is not installed")
        for needed in map(Requirement, found[name].requires or ()):
            marker = needed.marker
            if marker is None or any(marker.evaluate({"extra": one}) for one in extras):
                todo.append((canonicalize_name(needed.name), frozenset({"", *needed.extras})))
    return found


def licence(of: Distribution) -> str:
    """Return the family of a package's licence."""
    keys = ("License-Expression", "License", "Classifier")
    told = [text for key in keys for text in of.metadata.get_all(key) or ()]
    said = " ".join(text.split("\n")[0] for text in told if "::" not in text)
    said += " ".join(text for text in told if text.startswith("License ::"))
    families = ("BSD", "Apache", "MIT", "PSF", "GPL", "Mozilla")
    return next((family for family in families if re.search(family, said)), said)


@pytest.mark.parametrize("needed", everything(), ids=str)
def test_each_requirement_is_a_range_and_the_lock_lies_within(needed: Requirement) -> None:
    operators = {one.operator for one in needed.specifier}
    assert operators == {">=", "<"}, "from the oldest that it runs with to the next large change"
    assert needed.specifier.contains(locked()[canonicalize_name(needed.name)])


def test_ci_takes_the_versions_of_the_lock_and_the_lock_names_all_that_is_needed() -> None:
    text = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert "PIP_CONSTRAINT" in text
    assert LOCK.name in text
    tested = [*PROJECT["dependencies"], *PROJECT["optional-dependencies"]["test"]]
    needed = installed(one.name for one in written(tested))  # what lints need not be here
    assert set(needed) <= set(locked()), "see DEVELOPERS.md for how it is written anew"


def test_the_licence_of_each_package_that_a_household_installs_is_known() -> None:
    found = installed(one.name for one in written(PROJECT["dependencies"]))
    told = {name: licence(of) for name, of in found.items()}
    assert told == {name: LICENCES.get(name) for name in told}
    direct = {canonicalize_name(one.name) for one in written(PROJECT["dependencies"])}
    assert direct <= set(LICENCES)


def test_a_public_host_runs_what_we_run() -> None:
    text = (ROOT / ".github/workflows/check.yml").read_text(encoding="utf-8")
    assert "run: .ci/run" in text
    assert re.search(r"permissions:\s*\n\s+contents: read\n", text)
