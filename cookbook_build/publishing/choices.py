"""Texts that follow the chosen serving size and method, by style alone."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

if TYPE_CHECKING:
    from cookbook_build.publishing.views import AnswerView, DishView


def by_choice(values: dict[tuple[int, str], str], default: tuple[int, str]) -> Markup:
    """Return a text that follows the chosen size and method, each wording once."""
    grouped: dict[str, list[str]] = defaultdict(list)
    for (size, method), text in values.items():
        grouped[text].append(f"{size}-{method}")
    if len(grouped) == 1:
        return Markup(escape(next(iter(grouped))))  # noqa: S704 - escaped
    chosen = values[default]
    shown, hidden = (
        Markup('<span data-on="{}">{}</span>'),
        Markup('<span data-on="{}" hidden>{}</span>'),
    )
    return Markup().join(
        (shown if text == chosen else hidden).format(" ".join(on), text)
        for text, on in grouped.items()
    )


def figure(view: DishView, name: str, component: str | None) -> Markup:
    """Return the value of a figure that a recipe's text names, for every choice."""
    values: dict[tuple[int, str], str] = {
        (answer.servings, answer.method): figure_words(answer, name, component)
        for answer in view.answers
    }
    return by_choice(values, (view.default_servings, view.default_method))


def figure_words(answer: AnswerView, name: str, component: str | None) -> str:
    """Return the value of a figure that a recipe's text names, for one choice."""
    part = answer.parts[0]
    for candidate in answer.parts:
        if component and candidate.name.casefold() == component.casefold():
            part = candidate
    texts = {
        "water": part.start,
        "start": part.start,
        "hold-back": part.hold_back,
        "rest": part.rest,
        "servings": str(answer.servings),
    }
    return texts[name]
