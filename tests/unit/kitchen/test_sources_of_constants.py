"""Every number of the kitchen says where it is from.

A constant says so in a comment, in the string after it, or in the module's docstring; a number
inside a function stands in a docstring or under a comment that names its source; a default of a
dataclass is covered by its parameter's words.
"""

from __future__ import annotations

import ast
import io
import math
import re
import tokenize
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from cookbook_build import kitchen, preserving

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOMS = (kitchen, preserving)
MODULES = [path for room in ROOMS for path in sorted(Path(str(room.__file__)).parent.glob("*.py"))]

OWN_WORDS = ["from memory", "common practice, no source", "our choice", "exact", "definition"]
PUBLICATIONS = [
    "ISO", "IAPWS", "IF97", "ICAO", "ASHRAE", "EN 12546", "IEC", "USDA", "FSIS", "FDA", "SR28",
    "CODATA", "CFR", "U.S. Standard Atmosphere", "Extension", "NCHFP",
    "Choi and Okos", "Singh", "Kell", "McAdams", "J. Food Eng.", "J. Sci. Food",
    "supplier's chart", "stove maker's literature", "spirit-burner test",
]  # fmt: skip
SOURCE = re.compile(
    rf"\b(?:{'|'.join(re.escape(words) for words in PUBLICATIONS)})(?!\w)"
    rf"|(?i:\b(?:{'|'.join(re.escape(words) for words in OWN_WORDS)})\b)"
)
# Nothing, one, a pair, a half; then per cent, kilo and mega, and the parts of an hour.
STRUCTURAL: Final = frozenset({0, 1, 2, 0.5, 100, 1000, 1e6, 60, 3600})
UNITS: Final = frozenset({"kj", "per", "kg", "ml", "pa", "mol", "mj"})

FIGURE = re.compile(
    r"\d(?:[\d,]|\s(?=\d{3}\b))*\.?\d*(?:e[+-]?\d+|·10\^\{?-?\d+\}?)?", re.IGNORECASE
)
FRACTION = re.compile(r"(\d+)/(\d+)")
EXAMPLES = re.compile(r"\nExamples\n-{8}.*", re.DOTALL)


def docstring(node: ast.Module | ast.ClassDef | ast.FunctionDef) -> str:
    """Return a docstring without its examples: what comes out is not where it came from."""
    return EXAMPLES.sub("", ast.get_docstring(node) or "")


def names_a_source(words: str) -> bool:
    return SOURCE.search(" ".join(words.split())) is not None


def figures(words: str) -> set[float]:
    """Return the numbers that a text prints; 6 % is 0.06 too, and 1/4 is 0.25."""
    words = re.sub(r"\.\. \[\d+\]", " ", words)
    found = {int(top) / int(low) for top, low in FRACTION.findall(words) if int(low)}
    for match in FIGURE.finditer(words):
        plain = re.sub(r"[,\s]", "", match[0].replace("·10^", "e")).strip("}").replace("{", "")
        found.add(float(plain))
        if re.match(r"\s*(?:%|per cent)", words[match.end() :]):
            found.add(float(plain) / 100)
    return found


def printed(number: float, words: str) -> bool:
    return any(math.isclose(abs(number), figure, rel_tol=1e-12) for figure in figures(words))


def numbers(node: ast.AST) -> Iterator[tuple[int, float]]:
    for part in ast.walk(node):
        if isinstance(part, ast.Constant) and type(part.value) in {int, float}:
            yield part.lineno, part.value  # type: ignore[misc]  # the type was just asked for


class Module:
    """A module's tree, its comments by line, and the words that belong to a statement."""

    def __init__(self, path: Path) -> None:
        text = path.read_text(encoding="utf-8")
        self.name, self.tree = path.name, ast.parse(text)
        self.words = docstring(self.tree)
        tokens = tokenize.generate_tokens(io.StringIO(text).readline)
        self.comments = {
            token.start[0]: token.string for token in tokens if token.type == tokenize.COMMENT
        }
        self.alone = {
            line for line in self.comments if text.splitlines()[line - 1].strip()[0] == "#"
        }

    def comment(self, first: int, last: int) -> str:
        """Return the comments on some lines, and the block of comments right above them."""
        while first - 1 in self.alone:
            first -= 1
        return " ".join(self.comments.get(line, "") for line in range(first, last + 1))

    def constants(self) -> Iterator[tuple[ast.stmt, str]]:
        """Give each assignment with the words about its run: assignments with no gap between."""
        run: list[ast.stmt] = []
        for node in [*self.tree.body, ast.Pass(lineno=10**9, end_lineno=10**9)]:
            first = node.lineno
            while first - 1 in self.alone:
                first -= 1
            touches = bool(run) and first == (run[-1].end_lineno or 0) + 1
            if isinstance(node, ast.Assign | ast.AnnAssign) and (touches or not run):
                run.append(node)
                continue
            if run:
                after = ast.unparse(node) if touches and isinstance(node, ast.Expr) else ""
                words = self.comment(run[0].lineno, run[-1].end_lineno or 0) + after
                yield from ((statement, words) for statement in run)
            run = [node] if isinstance(node, ast.Assign | ast.AnnAssign) else []

    def class_words(self, node: ast.AST) -> str:
        """Return the docstrings of this module's classes that a value is made of."""
        made = {part.id for part in ast.walk(node) if isinstance(part, ast.Name)}
        classes = (one for one in self.tree.body if isinstance(one, ast.ClassDef))
        return " ".join(docstring(one) for one in classes if one.name in made)


@pytest.fixture(params=MODULES, ids=lambda path: path.stem)
def module(request: pytest.FixtureRequest) -> Module:
    return Module(request.param)


def kinds(node: ast.stmt) -> list[str]:
    """Return the words of a constant's name, units left out."""
    targets = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
    named = [
        part.id for one in targets if one for part in ast.walk(one) if isinstance(part, ast.Name)
    ]
    words = (word.lower() for name in named for word in name.split("_"))
    return [word for word in words if len(word) > 2 and word not in UNITS]


def test_every_constant_names_its_source(module: Module) -> None:
    offenders = []
    for node, words in module.constants():
        found = [number for _, number in numbers(node)]
        told = module.words if any(kind in module.words.lower() for kind in kinds(node)) else ""
        if any(printed(number, module.words) for number in found):
            told = module.words
        if found and not names_a_source(f"{words} {module.class_words(node)} {told}"):
            offenders.append(f"{module.name}:{node.lineno}: {ast.unparse(node)[:60]}: no source")
    assert not offenders, "\n".join(offenders)


def docstrings(tree: ast.Module) -> Iterator[tuple[ast.FunctionDef, str]]:
    """Give each outermost function with its own docstring and its class's."""
    for node in tree.body:
        own = docstring(node) if isinstance(node, ast.ClassDef) else ""
        for part in node.body if isinstance(node, ast.ClassDef) else [node]:
            if isinstance(part, ast.FunctionDef):
                yield part, f"{own}\n{docstring(part)}"


def statements(node: ast.AST) -> Iterator[ast.stmt]:
    """Give the statements of a function, the innermost last, so that it tells its lines."""
    yield from (part for part in ast.walk(node) if isinstance(part, ast.stmt) and part is not node)


def untold(function: ast.FunctionDef) -> list[tuple[int, float]]:
    """Return the numbers of a function's body and defaults that call for words."""
    parts = [function.args, *function.body]
    return sorted(
        {found for part in parts for found in numbers(part) if found[1] not in STRUCTURAL}
    )


def test_every_number_in_a_function_stands_in_its_docstring_or_names_its_source(
    module: Module,
) -> None:
    offenders = []
    for function, words in docstrings(module.tree):
        lines = {
            line: (part.lineno, part.end_lineno or part.lineno)
            for part in statements(function)
            if not hasattr(part, "body")
            for line in range(part.lineno, (part.end_lineno or part.lineno) + 1)
        }
        for line, number in untold(function):
            said = f"{module.words}\n{words}"
            if not printed(number, said) and not names_a_source(
                module.comment(*lines.get(line, (line, line)))
            ):
                offenders.append(f"{module.name}:{line}: {number} in {function.name}: not told")
    assert not offenders, "\n".join(offenders)


def entry(words: str, name: str) -> str:
    """Return the words about one parameter of a numpydoc docstring."""
    found = re.search(rf"^[\w, ]*\b{name}\b[\w, ]* : .*\n(?:[ ]{{4}}.*\n?)+", words, re.MULTILINE)
    return found[0] if found else ""


def test_every_default_of_a_dataclass_is_told_with_its_source(module: Module) -> None:
    offenders = []
    for node in module.tree.body:
        if not isinstance(node, ast.ClassDef):
            continue
        words = docstring(node)
        prose = re.sub(r"Parameters\n-+\n.*?(?=\n\n\w+\n---|\Z)", "", words, flags=re.DOTALL)
        rest = f"{prose}\n{module.words}"
        for field in node.body:
            if not isinstance(field, ast.AnnAssign) or not isinstance(field.target, ast.Name):
                continue
            for line, number in numbers(field.value) if field.value else ():
                own = entry(words, field.target.id) + module.comment(line, line)
                told = names_a_source(own) or (printed(number, rest) and names_a_source(rest))
                if number and not told:
                    offenders.append(
                        f"{module.name}:{line}: {field.target.id} = {number}: no source"
                    )
    assert not offenders, "\n".join(offenders)


def test_the_test_knows_a_source_from_none() -> None:
    assert names_a_source("Of glazed ceramic; from\nmemory.")
    assert names_a_source("IAPWS R7-97 (2012), equation 31")
    assert not names_a_source("an isolated, exacting visor")
    assert printed(6.3405e-4, r"h = 2500.95 + 6.3405·10^{-4} t^2")
    assert printed(0.06, "the larger of 5 mL and 6 % of it")
    assert printed(6356766.0, "r = 6 356 766 m")
    assert not printed(1.0, ".. [1] Energy balance.")
