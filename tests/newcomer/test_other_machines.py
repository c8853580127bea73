"""What a Windows or a macOS machine would meet, as far as it can be tried here.

Code pages are those of Python's own codecs, which follow Microsoft's tables: 437 and 1252.
"""

from __future__ import annotations

import ast
import os
import subprocess
import sys
from pathlib import Path

import pytest

import cookbook_build
from cookbook_build.commands.console import plainly

PACKAGE = Path(cookbook_build.__file__).parent
DEMO = PACKAGE.parent / "content_demo"
POSIX_ONLY = {
    "fcntl", "pwd", "grp", "resource", "termios", "tty", "pty", "posix", "syslog", "crypt",
    "readline",
}  # fmt: skip
POSIX_CALLS = {
    "fork", "forkpty", "getuid", "geteuid", "getgid", "setuid", "chown", "lchown", "mkfifo",
    "mknod", "uname", "getpgid", "setsid", "killpg", "nice", "chroot", "SIGKILL", "SIGHUP",
    "SIGUSR1", "SIGALRM", "alarm",
}  # fmt: skip
"""Names that the Python library reference marks "Availability: Unix"."""
MODULES = sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_nothing_is_called_that_only_posix_has(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    modules, names = set(), set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            modules |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            modules.add(node.module.split(".")[0])
        elif (
            isinstance(node, ast.Attribute)
            and isinstance(node.value, ast.Name)
            and node.value.id in {"os", "signal"}
        ):
            names.add(node.attr)
    assert not modules & POSIX_ONLY
    assert not names & POSIX_CALLS


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_text_is_read_and_written_in_one_encoding_with_one_line_end(path: Path) -> None:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Attribute):
            continue
        named = {keyword.arg for keyword in node.keywords}
        if node.func.attr in {"read_text", "write_text"}:
            assert "encoding" in named, f"line {node.lineno}"
        if node.func.attr == "write_text":
            assert "newline" in named, f"line {node.lineno}"


def printed(code_page: str, *arguments: str) -> tuple[int, str]:
    """Run a command whose output is of a code page; return its exit code and what it printed."""
    run = subprocess.run(  # noqa: S603 - our own program
        [sys.executable, "-m", "cookbook_build", *arguments],
        capture_output=True,
        check=False,
        env={**os.environ, "PYTHONIOENCODING": code_page, "PYTHONUTF8": "0"},
    )
    return run.returncode, run.stdout.decode(code_page) + run.stderr.decode(code_page)


@pytest.mark.parametrize("code_page", ["cp437", "cp1252"])
def test_an_answer_is_whole_on_a_console_of_few_letters(code_page: str) -> None:
    arguments = ("water", "barley-and-leek-supper", "--book", str(DEMO), "--servings", "3")
    _, whole = printed("utf-8", *arguments)
    code, said = printed(code_page, *arguments)
    assert code == 0, said
    assert "?" not in said.replace("?", "", whole.count("?"))
    assert "⅓" in whole or "⅔" in whole or "¼" in whole
    assert len(said.splitlines()) == len(whole.splitlines())


@pytest.mark.parametrize(
    ("text", "code_page", "plain"),
    [
        ("1⅔ cups", "cp1252", "1 2/3 cups"),
        ("⅔ cup", "cp437", "2/3 cup"),
        ("1½ cups", "cp1252", "1½ cups"),
        ("1½ cups – 2 × 3 mL …", "ascii", "1 1/2 cups - 2 x 3 mL ..."),
        ("65 °C", "ascii", "65 C"),
        ("crème brûlée", "ascii", "creme brulee"),
        ("日", "ascii", "?"),
    ],
)
def test_a_letter_that_is_lacking_is_spelt(text: str, code_page: str, plain: str) -> None:
    import codecs  # noqa: PLC0415 - only here

    codecs.register_error("plainly-here", plainly)
    assert text.encode(code_page, "plainly-here").decode(code_page) == plain


def test_findings_with_windows_paths_and_line_ends_name_their_line(tmp_path: Path) -> None:
    book = tmp_path / "Our book, 2026"
    (book / "recipes" / "suppers").mkdir(parents=True)
    for name, text in {
        "book.yaml": "title: Ours\nmeasures: us-cups\n",
        "larder.yaml": "lentils: {food: lentils cooked, dried: freeze, cooked first: true}\n",
        "recipes/suppers/bowl.md": "---\ntitle: Bowl\ningredients:\n  - 1 cup lentls\n---\nPour.\n",
    }.items():
        (book / name).write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    code, said = printed("cp1252", "proof", str(book))
    assert code == 1, said
    assert "recipes/suppers/bowl.md:4:11: error" in said
    assert "\r\r" not in said
