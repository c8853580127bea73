"""What was computed of a book before: plain data, by a digest of all that it was computed from."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from cookbook_build.digests import Digests
from cookbook_build.findings import Finding, Findings
from cookbook_build.kept import NOTHING_KEPT
from cookbook_build.planning.telling import STANDS_FOR
from cookbook_build.program import program
from cookbook_build.steady import Lately, Steady

if TYPE_CHECKING:
    from collections.abc import Callable

    from cookbook_build.kept import Kept


class Known:
    """Computes what is not known yet, and keeps it."""

    def __init__(self, kept: Kept = NOTHING_KEPT) -> None:
        self.steady = Steady()
        self._kept, self._digests = kept, Digests(STANDS_FOR)
        self._found: Lately[bytes] = Lately()

    def settle(self) -> None:
        """Drop what the last reading of the book did not ask for."""
        for lately in (self.steady, self._digests, self._found):
            lately.settle()

    def of(self, what: str, told: tuple[Any, ...], compute: Callable[[], Any]) -> Any:  # noqa: ANN401
        """Return plain data that hangs on some values and on nothing else."""
        if self._kept.root is None:
            return compute()
        key = f"{what}-{self._digests.of(program(), *told)}"
        found = self._found.get(key)
        if found is None:
            made = self._kept.made(key, lambda: json.dumps(compute()).encode())
            found = self._found.put(key, made)
        return json.loads(found)

    def judge(
        self, what: str, told: tuple[Any, ...], judge: Callable[[Findings], None], into: Findings
    ) -> None:
        """Add the findings of a judgement that hangs on some values and on nothing else."""

        def judged() -> list[dict[str, Any]]:
            found = Findings()
            judge(found)
            return [finding.as_json() for finding in found.gathered]

        into.gathered.extend(map(Finding.of_json, self.of(what, told, judged)))
