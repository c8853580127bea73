"""What becomes of a file's bytes: lost, doubled and swapped ones, and pieces that broke readers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    import random
    from collections.abc import Sequence

PIECES: Final = (
    b"", b"\x00", b"\xff\xfe", b"\xc3", b"\xed\xa0\x80", b"\xf4\x90\x80\x80", b"\r", b"\t", b"\x85",
    "\u2028".encode(), "\u202e".encode(), "\u200b\u200d\ufeff".encode(), "\U0001fad6".encode(),
    b": ", b"- ", b"? ", b"&a [*a, *a]", b"*a", b"!!python/object:os.system ", b"<<: ", b"%YAML 9",
    b"---\n", b"...\n", b"{" * 40, b"[" * 400, b"- " * 300, b"> " * 300, b"(" * 500, b"a" * 9000,
    b"1e400", b"10" * 300, b"-1", b"NaN", b".inf", b"0x7f", b"1/0", b"1 1/2/3",
    b"9" * 40 + b" cups",
    b"1_000,5", "½⅓".encode(), "٣ cups".encode(), b"0 g", b"-273.16 C", b"1 parsec", b"2026-02-30",
    b"0000-00-00", b"99999-01-01", b"25:61", b"{{ 7 * 7 }}", b"{% include 'x' %}", b"{water}",
    b"{water", b"${PATH}", b"=1+1", b"@SUM(A1)", b'"', b"'", b"|\n", b"`" * 7, b"](javascript:x)",
    b"<script>x</script>", b"<svg onload=x>", b"<!--", b"]]>", b"&lt;&#0;&#xd800;", b"../" * 9,
    b"html: yes\n", b"<u>", b"</q><br>",
    b"/etc/hostname", b"C:\\x", b"con.md", b"file:///x", b"//x.example", b"\\N{DASH}", b"\n\n\n",
)  # fmt: skip


def mutated(data: bytes, others: Sequence[bytes], chance: random.Random) -> bytes:
    """Return some bytes after one to four changes of several kinds."""
    for _ in range(chance.choice([1, 1, 1, 2, 2, 3, 4])):
        if chance.random() < 0.35:
            data = _by_lines(data, chance)
        else:
            data = _by_bytes(data, others, chance)
    return data


def _by_bytes(data: bytes, others: Sequence[bytes], chance: random.Random) -> bytes:
    at = chance.randrange(len(data) + 1)
    before, after = data[:at], data[at:]
    match chance.choice(["byte", "gone", "piece", "piece", "piece instead", "other", "cut"]):
        case "byte":
            return before + bytes([chance.randrange(256)]) + after[1:]
        case "gone":
            return before + after[chance.randrange(1, 30) :]
        case "piece":
            return before + chance.choice(PIECES) + after
        case "piece instead":
            return before + chance.choice(PIECES) + after[chance.randrange(1, 12) :]
        case "other":
            other = chance.choice(others)
            start = chance.randrange(len(other) + 1)
            return before + other[start : start + chance.randrange(400)] + after
    return before


def _by_lines(data: bytes, chance: random.Random) -> bytes:
    lines = data.splitlines(keepends=True) or [b""]
    line, other = (chance.randrange(len(lines)) for _ in range(2))
    match chance.choice(["gone", "twice", "swapped", "indented"]):
        case "gone":
            del lines[line]
        case "twice":
            lines.insert(line, lines[line])
        case "swapped":
            lines[line], lines[other] = lines[other], lines[line]
        case "indented":
            lines[line] = b" " * chance.randrange(9) + lines[line].lstrip(b" ")
    return b"".join(lines)
