"""What was computed of a book before: plain data, by a digest of all that it was computed from."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from cookbook_build.digests import Digests
from cookbook_build.findings import Finding, Findings
from cookbook_build.kept import NOTHING_KEPT
from cookbook_build.planning.telling import STANDS_FOR
from cookbook_build.program import program

if TYPE_CHECKING:
    from collections.abc import Callable

    from cookbook_build.kept import Kept


class Known:
    """Computes what is not known yet, and keeps it."""

    def __init__(self, kept: Kept = NOTHING_KEPT) -> None:
        self._kept, self._digests = kept, Digests(STANDS_FOR)
        self._found: dict[str, Any] = {}

    def anew(self) -> Known:
        """Return what knows the same, for another reading of the book."""
        other = Known(self._kept)
        other._found = self._found
        return other

    def of(self, what: str, told: tuple[Any, ...], compute: Callable[[], Any]) -> Any:  # noqa: ANN401
        """Return plain data that hangs on some values and on nothing else."""
        if self._kept.root is None:
            return compute()
        key = f"{what}-{self._digests.of(program(), *told)}"
        if key not in self._found:
            kept = self._kept.made(key, lambda: json.dumps(compute()).encode())
            self._found[key] = json.loads(kept)
        return self._found[key]

    def judge(
        self, what: str, told: tuple[Any, ...], judge: Callable[[Findings], None], into: Findings
    ) -> None:
        """Add the findings of a judgement that hangs on some values and on nothing else."""

        def judged() -> list[dict[str, Any]]:
            found = Findings()
            judge(found)
            return [finding.as_json() for finding in found.gathered]

        into.gathered.extend(map(Finding.of_json, self.of(what, told, judged)))
