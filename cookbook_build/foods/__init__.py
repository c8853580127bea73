"""The reference table of foods, and its look-up.

Takes: a food's name in plain kitchen English. Gives: `Food`, a row of the table with its moisture,
refuse, weights, nutrients, allergens and cautions, or the nearest names. Imports nothing else of
the package; the figures are USDA SR28's and stand in `foods.csv`.
"""

from cookbook_build.foods.shop_words import CONTEXT, shop_words, sold_as
from cookbook_build.foods.table import WATER, Food, FoodTable, load_foods

__all__ = ["CONTEXT", "WATER", "Food", "FoodTable", "load_foods", "shop_words", "sold_as"]
