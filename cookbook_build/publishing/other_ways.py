"""What a reader must know whose way is not the one that the author's words are for."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from markupsafe import Markup

from cookbook_build.publishing.wording import part_title
from cookbook_build.words import N_, _

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.planning.dishes import Dish

TOLD_FOR: Final[Mapping[Method, str]] = {
    "kettle": N_("These steps are told for the kettle."),
    "microwave": N_("These steps are told for the microwave."),
    "stove": N_("These steps are told for the stove."),
    "jar": N_("These steps are told for the jar."),
    "cold": N_("These steps are told for a cold soak."),
}
INSTEAD: Final[Mapping[Method, str]] = {
    "kettle": N_("By kettle: boiling water on the mix in a bowl; cover it."),
    "microwave": N_(
        "By microwave: water and mix in a bowl, heated to the boil; then cover and rest."
    ),
    "stove": N_(
        "By stove: water and mix in a pot, brought to the boil; then simmer with the lid on."
    ),
    "jar": N_(
        "By jar: preheat it with boiling water and empty it; then mix, boiling water, and close it."
    ),
    "cold": N_("By cold soak: cold drinking water instead of boiling."),
}
BESIDE_A_JAR: Final = N_(
    "{component}: carried dry, and soaked in cold drinking water when you eat."
)
EVER_COLD: Final = N_("{component}: cold drinking water, whatever the way.")


def cold_words(dish: Dish, method: Method) -> str:
    """Return which components have cold water although the way of the meal is hot."""
    return " ".join(
        _(EVER_COLD if part.text.cold else BESIDE_A_JAR).format(component=part_title(part.name))
        for part in dish.parts
        if method != "cold" and dish.part_method(part, method) == "cold"
    )


def told_for(dish: Dish) -> Markup:
    """Return a line for each way but the author's: the words of the steps are not for it."""
    line = Markup('<p class="told" data-method="{}" hidden><strong>{}</strong> {} {}</p>\n')
    return Markup().join(
        line.format(
            method,
            _(TOLD_FOR[dish.default_method]),
            " ".join(filter(None, (_(INSTEAD[method]), cold_words(dish, method)))),
            _("Amounts and times in them follow your choice."),
        )
        for method in dish.methods
        if method != dish.default_method
    )
