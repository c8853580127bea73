"""Lines that stand as far left as the key that they belong to, or below one still a comment."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final, get_args, get_origin

from cookbook_build.findings import nearest
from cookbook_build.manuscript.group_mends import in_braces
from cookbook_build.manuscript.key_types import (
    annotation_at,
    fields_of,
    is_group,
    keys_at,
    without_none,
)
from cookbook_build.manuscript.nodes import Items, Keys, Node, Scalar
from cookbook_build.manuscript.slips import key_in_comment, still_a_comment

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Mapping

    from pydantic import BaseModel

    from cookbook_build.findings import Findings
    from cookbook_build.manuscript.key_types import Path

Pair = tuple[Scalar, Node]
A_SLIP: Final = 0.8  # how alike two keys are when one is a slip of the other
_IN_ONE_LINE: Final = 160


def take_in_keys(model: type[BaseModel], node: Node, findings: Findings) -> bool:
    """Put keys below the group that they were written beside, each with a finding; whether any."""
    return _take_in(model, node, findings)


def _take_in(kind: Any, node: Node, findings: Findings) -> bool:  # noqa: ANN401 - any annotation
    kind = without_none(kind)
    if isinstance(node, Items) and get_origin(kind) is tuple:
        moved = [_take_in(get_args(kind)[0], item, findings) for item in node.items]
        return any(moved)
    if not isinstance(node, Keys):
        return False
    if get_origin(kind) is dict:
        moved = [_take_in(get_args(kind)[1], value, findings) for _, value in node.pairs]
        return any(moved)
    if not is_group(kind):
        return False
    kinds = {name: without_none(info.annotation) for name, info in fields_of(kind)}

    def belongs(holder: Pair, pair: Pair) -> bool:
        if pair[0].text in kinds:
            return False
        likeness = 1.0 if nearest(pair[0].text, kinds, A_SLIP) else A_SLIP
        return _is_of(kinds.get(holder[0].text), holder[1], pair, likeness)

    moved = [take_in(node, belongs, findings), _under_comments(node, kinds, findings)]
    moved += [_take_in(kinds.get(key.text), value, findings) for key, value in node.pairs]
    return any(moved)


def take_in(node: Keys, belongs: Callable[[Pair, Pair], bool], findings: Findings) -> bool:
    """Put the keys that belong to the key above them below it; whether there are any.

    `belongs` says it of a key that holds others, or nothing yet, and one right under it.
    """
    kept: list[Pair] = []
    runs: dict[int, list[Pair]] = {}
    for pair in node.pairs:
        if kept and _lines_up(kept[-1], pair) and belongs(kept[-1], pair):
            runs.setdefault(len(kept) - 1, []).append(pair)
        else:
            kept.append(pair)
    for at, run in runs.items():
        holder, value = kept[at]
        held = value.pairs if isinstance(value, Keys) else []
        _tell(holder, held, run, findings)
        first = run[0][0]
        group = Keys(first.source, first.line, first.column, first.width, pairs=[*held, *run])
        kept[at] = (holder, group)
    node.pairs[:] = kept
    return bool(runs)


def _lines_up(holder: Pair, pair: Pair) -> bool:
    """Whether a key stands under another that holds nothing, or keys on lines of their own."""
    key, value = holder
    open_still = value.is_empty if isinstance(value, Scalar) else value.line > key.line
    return open_still and pair[0].line > key.line and pair[0].column == key.column


def _is_of(kind: Any, value: Node, pair: Pair, likeness: float) -> bool:  # noqa: ANN401 - any annotation
    """Whether a group, or a group of named groups that is empty yet, has such a key."""
    if is_group(kind):
        held = {key.text for key, _ in value.pairs} if isinstance(value, Keys) else set()
        return nearest(pair[0].text, _names(kind) - held, likeness) is not None
    if get_origin(kind) is dict and isinstance(value, Scalar) and isinstance(pair[1], Keys):
        return {key.text for key, _ in pair[1].pairs} <= _names(get_args(kind)[1])
    return False


def _names(kind: Any) -> set[str]:  # noqa: ANN401 - any annotation
    return set(keys_at(kind, ()))


def groups_with(model: type[BaseModel], path: Path, key: str) -> list[str]:
    """Return the groups beside a key, by their names, that have such a key."""
    found = annotation_at(model, path)
    fields = fields_of(found) if is_group(found) else []
    return [name for name, info in fields if key in _names(info.annotation)]


def _tell(holder: Scalar, held: Iterable[Pair], run: list[Pair], findings: Findings) -> None:
    names = [f'"{key.text}"' for key, _ in run]
    said = f"{', '.join(names[:-1])} and {names[-1]} belong" if len(names) > 1 else ""
    said = said or f"{names[0]} belongs"
    one = len(names) == 1
    line = f"{in_braces(holder.text)}: {in_braces(_data([*held, *run]))}"
    wide = next((key.column - holder.column for key, _ in held), 2)
    spaces = "two spaces" if wide == 2 else f"{wide} space{'s' * (wide != 1)}"
    findings.error(
        run[0][0].place,
        f'{said} below "{holder.text}", and begin{"s" * one} as far left as it does',
        f"put {spaces} before {'this line' if one else 'each of these lines'}"
        + f', or write it all on one line: "{line}".' * (len(line) <= _IN_ONE_LINE)
        + "." * (len(line) > _IN_ONE_LINE),
    )


def _data(pairs: Iterable[Pair]) -> dict[str, Any]:
    return {key.text: _value(value) for key, value in pairs if not _is_empty(value)}


def _value(node: Node) -> Any:  # noqa: ANN401 - text, list or dict
    if isinstance(node, Items):
        return [_value(item) for item in node.items]
    return _data(node.pairs) if isinstance(node, Keys) else getattr(node, "text", "")


def _is_empty(node: Node) -> bool:
    return isinstance(node, Scalar) and node.is_empty


def _under_comments(node: Keys, kinds: Mapping[str, Any], findings: Findings) -> bool:
    """Part keys from the group above them whose own key is a comment still; whether there are."""
    found = False
    taken = {key.text for key, _ in node.pairs}
    for at, (_, value) in reversed(list(enumerate(node.pairs))):
        cut = _cut(value, kinds, taken) if isinstance(value, Keys) else None
        if isinstance(value, Keys) and cut:
            line, name, first = cut
            own, value.pairs[first:] = value.pairs[first:], []
            findings.error(*still_a_comment(own[0][0].text, line, name, value.source))
            key = Scalar(value.source, line, 1, len(name), name)
            below = Keys(value.source, own[0][0].line, own[0][0].column, 1, pairs=own)
            node.pairs.insert(at + 1, (key, below))
            taken.add(name)
            found = True
    return found


def _cut(
    value: Keys, kinds: Mapping[str, Any], taken: Collection[str]
) -> tuple[int, str, int] | None:
    """Return the line and the name of a key that is a comment, and the first key it would hold."""
    for first, (key, _) in enumerate(value.pairs):
        commented = key_in_comment(value.source.lines, key.line)
        name = commented[1] if commented else ""
        if commented and name not in taken and key.text in _names(kinds.get(name)):
            return *commented, first
    return None
