"""What a meal's page and its e-book page both show, computed once for both."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.publishing.camp_views import camp_tables
from cookbook_build.publishing.heat_views import heat_views
from cookbook_build.publishing.keeping_views import keeping_view
from cookbook_build.publishing.mix_drawing import mix_drawings
from cookbook_build.publishing.nourish_views import nourish_view

if TYPE_CHECKING:
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.publishing.desk import Desk
    from cookbook_build.publishing.heat_views import HeatView
    from cookbook_build.publishing.keeping_views import KeepingView
    from cookbook_build.publishing.mix_drawing import MixDrawing
    from cookbook_build.publishing.nourish_views import NourishView
    from cookbook_build.publishing.tables import SizeTable


@dataclass(frozen=True, slots=True)
class MealTables:
    """The cards of a meal below its water: heat, camp, packing, what it holds."""

    heat: tuple[HeatView, ...]
    camp: tuple[SizeTable, ...]
    keeping: KeepingView
    banks: tuple[MixDrawing, ...]
    nourish: NourishView


def meal_tables(desk: Desk, dish: Dish) -> MealTables:
    """Return the cards of a meal."""
    book, sizes = desk.book, desk.views[dish.recipe.address].servings
    return MealTables(
        heat_views(dish, sizes),
        camp_tables(dish, book, sizes),
        keeping_view(dish, book, sizes, desk.reckoning.lots),
        mix_drawings(dish),
        nourish_view(dish, book),
    )
