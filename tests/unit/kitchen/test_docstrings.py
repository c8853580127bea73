"""Every number that enters or leaves says its unit, every law its source."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from typing import TYPE_CHECKING

import pytest
from numpydoc.docscrape import FunctionDoc
from numpydoc.validate import validate

from cookbook_build import kitchen, preserving

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from types import ModuleType

UNITS = {
    "kcal", "mg", "month",
    "-", "g", "mL", "°C", "°C s", "K", "s", "h", "m", "m²", "Pa", "W", "J", "W/K", "J/K", "kJ/mol",
    "kJ/kg", "kJ/(kg K)", "g/mL", "g/s", "g/h", "m/s", "kg/(m² s)",
}  # fmt: skip
OFF = {"PR09", "RT05", "ES01", "SA01", "GL08"}


def modules() -> Iterator[ModuleType]:
    for room in (kitchen, preserving):
        for found in pkgutil.iter_modules(room.__path__, f"{room.__name__}."):
            yield importlib.import_module(found.name)


def functions() -> dict[str, Callable[..., object]]:
    named = {}
    for module in modules():
        for name, thing in vars(module).items():
            own = getattr(thing, "__module__", None) == module.__name__
            if own and not name.startswith("_") and callable(thing) and not inspect.isclass(thing):
                named[f"{module.__name__}.{name}"] = thing
    for helper in ("require_positive", "followed_s", "stayed_ml", "stays_sd_ml"):
        named.pop(f"cookbook_build.kitchen.component.{helper}")
    return named


FUNCTIONS = functions()


def test_the_walk_finds_the_package() -> None:
    assert len(FUNCTIONS) > 30


@pytest.mark.parametrize("name", FUNCTIONS)
def test_numpydoc_finds_nothing_to_mend(name: str) -> None:
    assert [error for error in validate(name)["errors"] if error[0] not in OFF] == []


@pytest.mark.parametrize("name", FUNCTIONS)
def test_each_parameter_and_return_ends_in_its_unit(name: str) -> None:
    doc = FunctionDoc(inspect.unwrap(FUNCTIONS[name]))
    for section in ("Parameters", "Returns"):
        assert doc[section]
        for field in doc[section]:
            unit = re.search(r"\[([^\]]+)\]$", " ".join(field.desc).strip())
            assert unit, f"{name}: {field.name or field.type} says no unit"
            assert unit[1] in UNITS


@pytest.mark.parametrize("name", FUNCTIONS)
def test_each_law_shows_equation_source_and_example(name: str) -> None:
    doc = FunctionDoc(inspect.unwrap(FUNCTIONS[name]))
    assert doc["Notes"]
    assert any(".. [1]" in line for line in doc["References"])
    assert any(">>>" in line for line in doc["Examples"])
