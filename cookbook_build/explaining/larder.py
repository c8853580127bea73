"""The keys of larder.yaml, explained."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.explaining.explained import Explained
from cookbook_build.manuscript.schema import LabelKeys, StoreKeys

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.explaining.explained import Group
    from cookbook_build.manuscript.schema import Matter

ONE_OF: Final = "A store has exactly one of `food`, `from` and `label`."

_STORE: Final[Group] = {
    "food": Explained(
        "The food it is, by its name in the table of foods: what went into the dryer, or what "
        f"you bought. {ONE_OF}",
        "The store comes from a base, or from a pack with a label.",
        example="carrots raw",
    ),
    "from": Explained(
        f"The base it was made as, by its recipe's file. {ONE_OF}",
        "The store is a food of the table, or comes from a pack with a label.",
        example="bases/orchard-sauce",
    ),
    "label": Explained(
        f"The figures on its pack, for a food that the table lacks. {ONE_OF}",
        "The store is a food of the table, or comes from a base.",
        example="{per: 100 g, energy: 430 kcal, protein: 10 g, fat: 18 g, carbohydrate: 60 g}",
    ),
    "dried": Explained(
        "How it came to keep.",
        example="air",
        choices={
            "freeze": "you dried it in a freeze dryer",
            "air": "you dried it in warm air, on racks or in the sun",
            "bought": "it came dry from the shop",
            "fresh": "it is not dry; it goes in beside the dry mix",
        },
    ),
    "form": Explained(
        "In what pieces it is. Powder, crumbs, crushed and flakes drink sooner than slices or "
        "dice, and must be weighed.",
        "Whole pieces are taken.",
        example="diced 5 mm",
    ),
    "weighs": Explained(
        "What one cup of it weighs, level and not pressed; of what is counted, `30 g per piece`.",
        "It comes from the table of foods. What is in powder or crumbs, or comes from a base, "
        "must be weighed.",
    ),
    "weighings": Explained(
        "Several cups of it that you weighed. They are averaged, with the table's figure.",
        "`weighs` or the table is taken.",
        example="[57 g per cup, 60 g per cup]",
    ),
    "also called": Explained(
        "Other names that recipes may give it.",
        "Recipes write its name, in the singular or the plural.",
        example="[carrot dice]",
    ),
    "cooked first": Explained(
        "Whether it was cooked, until you would eat it, before it was dried. Grains, pulses and "
        "potatoes must be: hot water alone does not cook them.",
        example="yes",
    ),
    "raw": Explained(
        "Whether it was dried raw, as meat, fish, egg, milk or flour may be. Drying kills no "
        "germs, so its meals are brought to the boil and cooked through, and say so.",
        example="yes",
    ),
    "sold by": Explained(
        "How it is bought, for the shopping list.",
        choices={"weight": "in grams", "piece": "in pieces, such as oatcakes or eggs"},
    ),
    "note": Explained(
        "Words of your own on its page.",
        "Its page has none.",
        example="From the row behind the shed.",
    ),
}

_LABEL: Final[Group] = {
    "per": Explained("For how much the pack gives its figures.", example="100 g"),
    "energy": Explained("The energy of so much."),
    "protein": Explained("The protein in so much.", example="10 g"),
    "fat": Explained("The fat in so much. It says how long the store keeps.", example="18 g"),
    "carbohydrate": Explained("The carbohydrate in so much.", example="60 g"),
    "fibre": Explained(
        "The fibre in so much.", "The meal's fibre counts this store as none.", example="7 g"
    ),
    "sodium": Explained(
        "The sodium in so much; write this or `salt`.",
        "It is reckoned from `salt`, if that is there.",
        example="600 mg",
    ),
    "salt": Explained(
        "The salt in so much; write this or `sodium`.",
        "`sodium` says it, if that is there.",
        example="1.5 g",
    ),
    "moisture": Explained(
        "What part of it is water. Packs seldom say; dry goods have a few parts in a hundred.",
        usual="5 %",
        example="5 %",
    ),
    "restored moisture": Explained(
        "What part of it is water once it has drunk its fill: it says how much water it takes.",
        "It is taken to drink none.",
        example="70 %",
    ),
    "allergens": Explained(
        "The allergens that the pack names, as it names them.",
        "The store is taken to hold none; look at the pack twice.",
        example="[milk, wheat]",
    ),
}

LARDER: Final[Mapping[type[Matter], Group]] = MappingProxyType(
    {StoreKeys: _STORE, LabelKeys: _LABEL}
)
