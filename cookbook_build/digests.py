"""Digests of values: the same for equal values in every process, another when any part differs.

What is kept is found again by the digest of all that it was made from, so a kind of value that is
not known here is an error and never passed over.
"""

from __future__ import annotations

import datetime as dt
import functools
import hashlib
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from fractions import Fraction
from operator import attrgetter
from pathlib import PurePath
from typing import TYPE_CHECKING, Any, Final

from cookbook_build.steady import Lately

if TYPE_CHECKING:
    from collections.abc import Callable

PLAIN: Final = (str, int, float, bool, type(None), bytes, Fraction, dt.date, Enum, PurePath)
_DIGEST_BYTES: Final = 20


class Digests:
    """Digests values; of a value that many others hold, once.

    `stands_for` says of some types what a value is told by, where that is less than all it holds.
    Values are taken to stay as they are while this lives.
    """

    def __init__(self, stands_for: Mapping[type, Callable[[Any], Any]] | None = None) -> None:
        self._stands_for = dict(stands_for or {})
        self._known: Lately[tuple[Any, str]] = Lately()  # the value too, or another gets its id

    def of(self, *values: Any) -> str:  # noqa: ANN401 - any value
        """Return the digest of some values.

        Raises
        ------
        TypeError
            If a value is of a kind that this does not know.
        """
        return self._digest(values)

    def _digest(self, value: Any) -> str:  # noqa: ANN401
        words: list[str] = []
        self._tell(value, words.append)
        text = "".join(words).encode("utf-8", "surrogatepass")
        return hashlib.blake2b(text, digest_size=_DIGEST_BYTES).hexdigest()

    def _tell(self, value: Any, say: Callable[[str], None]) -> None:  # noqa: ANN401
        """Say a value in words that no other value has; each says where it ends."""
        kind = type(value)
        if kind is str:
            say(f"'{len(value)}:{value}")
        elif kind is float or kind is int or value is None or kind is bool:
            say(f"{value!r},")
        elif kind is tuple or kind is list:
            say(f"({len(value)}:")
            for part in value:
                self._tell(part, say)
        elif isinstance(value, PLAIN):
            text = repr(value)
            say(f"{kind.__name__}{len(text)}:{text}")
        elif isinstance(value, (set, frozenset)):
            say(f"{{{len(value)}:{''.join(sorted(map(self._digest, value)))}")
        elif isinstance(value, Mapping):
            say(f"[{len(value)}:")
            for key, part in value.items():  # in its order, which may be what is shown
                self._tell(key, say)
                self._tell(part, say)
        else:
            say(self._once(value))

    def _once(self, value: Any) -> str:  # noqa: ANN401
        known = self._known.get(id(value))
        if known is None:
            known = self._known.put(id(value), (value, self._whole(value)))
        return known[1]

    def settle(self) -> None:
        """Drop the digests of values that nobody asked for since the last time."""
        self._known.settle()

    def _whole(self, value: Any) -> str:  # noqa: ANN401
        kind = type(value)
        told = self._stands_for.get(kind) or _held_by(kind)  # type: ignore[arg-type]  # every type is hashable
        return self._digest((kind.__qualname__, told(value)))


@functools.cache
def _held_by(kind: type) -> Callable[[Any], Any]:
    """Return what gives all that a value of a type holds."""
    if is_dataclass(kind):
        names = [field.name for field in fields(kind)]
    elif hasattr(kind, "model_fields"):
        names = list(kind.model_fields)
    else:
        raise TypeError(f"no digest is known of {kind.__module__}.{kind.__qualname__}")
    return attrgetter(*names) if names else lambda _value: ()
