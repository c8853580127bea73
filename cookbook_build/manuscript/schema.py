"""The keys that each of the author's files may hold. Words from the trade, spaces allowed."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from cookbook_build.manuscript.fields import (
    Altitude,
    Appetite,
    Area,
    BookAddress,
    Capacity,
    Card,
    Count,
    CupWeighs,
    Day,
    DayNumber,
    Duration,
    Energy,
    FileSize,
    Grams,
    Jar,
    JarVolume,
    Language,
    Mass,
    Moisture,
    Name,
    Opening,
    Power,
    Rate,
    Share,
    Span,
    Temperature,
    Text,
    Volume,
    Weighs,
)

Method = Literal["kettle", "microwave", "stove", "jar", "cold"]
FEW, SOME, MANY = Field(max_length=12), Field(max_length=100), Field(max_length=1000)
ONE_TO_SOME = Field(min_length=1, max_length=100)
"""How many entries a list has: what it costs to reckon with one grows with them; our choice."""
Consistency = Literal["filling", "spread", "scoopable", "stew", "soup", "drink"]


class Matter(BaseModel):
    """A group of keys in which every key is known."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)


class BowlKeys(Matter):
    """The bowl that meals are made in with a kettle."""

    opening: Opening | None = None
    covered: bool = True


class PotKeys(Matter):
    """The pot used on the stove."""

    opening: Opening | None = None
    lid: bool = True


class StoveKeys(Matter):
    """The burner."""

    power: Power | None = None
    efficiency: Share | None = None
    fuel: Literal["gas canister", "alcohol", "white gas"] = "gas canister"


class MicrowaveKeys(Matter):
    """The microwave oven."""

    power: Power


class JarKeys(Matter):
    """The insulated food jar."""

    holds: JarVolume
    label: Jar
    lunch: Duration | None = None  # from filling it to eating from it


class DryerKeys(Matter):
    """The freeze dryer."""

    trays: Count
    tray_area: Annotated[Area | None, Field(alias="tray area")] = None
    tray_load: Annotated[Mass | None, Field(alias="tray load")] = None
    ice: Mass | None = None
    removes: Rate | None = None


class PouchKeys(Matter):
    """One size of pouch, by its inner width and height."""

    name: Name
    width: Opening
    height: Opening


class VesselKeys(Matter):
    """One size of jar, tin or box that mixes are kept in."""

    name: Name
    holds: Capacity


class ShelfKeys(Matter):
    """Where packed mixes are kept."""

    temperature: Temperature | None = None


class LabelSheetKeys(Matter):
    """A sheet of labels: how many, how large, and where the first one begins."""

    paper: Literal["A4", "Letter"] = "A4"
    columns: Count = 2
    rows: Count = 5
    width: Span | None = None
    height: Span | None = None
    top: Span | None = None
    left: Span | None = None
    across: Span | None = None  # from one label to the next
    down: Span | None = None


class KitKeys(Matter):
    """What the household cooks, dries and packs with."""

    bowl: BowlKeys = BowlKeys()
    pot: PotKeys = PotKeys()
    stove: StoveKeys = StoveKeys()
    microwave: MicrowaveKeys | None = None
    jar: JarKeys | None = None
    dryer: DryerKeys | None = None
    pouches: Annotated[tuple[PouchKeys, ...], SOME] = ()
    jars: Annotated[tuple[VesselKeys, ...], SOME] = ()
    shelf: ShelfKeys = ShelfKeys()
    absorbers: Annotated[tuple[Capacity, ...], SOME] = ()


class SeriesKeys(Matter):
    """A series: an ordered run of recipes with a shared theme."""

    about: Text | None = None
    picture: Text | None = None
    picture_text: Annotated[Text | None, Field(alias="picture text")] = None


class BookKeys(Matter):
    """book.yaml."""

    title: Name
    subtitle: Name | None = None
    author: Name | None = None
    language: Language = "en"
    measures: Literal["us-cups", "metric-cups", "label-cups"] = "us-cups"
    altitude: Altitude | None = None
    altitudes: Literal["metres", "feet"] = "metres"
    allergens: Literal["us", "eu"] = "us"
    servings: Annotated[tuple[Annotated[int, Field(ge=1, le=100)], ...], ONE_TO_SOME] = (
        1, 2, 3, 4, 6, 8,
    )  # fmt: skip
    cover: Text | None = None
    cover_text: Annotated[Text | None, Field(alias="cover text")] = None
    contact: Text | None = None  # a mail box, an address on the web, or words
    address: BookAddress | None = None  # where the book stands on the web, if it does
    licence: Text | None = None
    largest_file: Annotated[FileSize | None, Field(alias="largest file")] = None  # to take along
    series: Annotated[dict[str, SeriesKeys], MANY] = {}
    kit: KitKeys = KitKeys()
    labels: LabelSheetKeys = LabelSheetKeys()
    theme: Text | None = None  # a folder of the book, with templates and styles of its own
    cards: Card | None = None  # the paper of pocket cards


class LabelKeys(Matter):
    """Nutrition figures from a pack's label, for a food that the reference table lacks."""

    per: Grams
    energy: Energy
    protein: Grams
    fat: Grams
    carbohydrate: Grams
    fibre: Grams | None = None
    sodium: Grams | None = None
    salt: Grams | None = None
    moisture: Moisture | None = None
    restored_moisture: Annotated[Moisture | None, Field(alias="restored moisture")] = None
    allergens: Annotated[tuple[Name, ...], SOME] = ()


class StoreKeys(Matter):
    """One store of larder.yaml."""

    food: Name | None = None
    from_: Annotated[Text | None, Field(alias="from")] = None
    label: LabelKeys | None = None
    dried: Literal["freeze", "air", "bought", "fresh"]
    form: Name | None = None
    weighs: Weighs | None = None
    weighings: Annotated[tuple[CupWeighs, ...], MANY] = ()
    also_called: Annotated[tuple[Name, ...], Field(alias="also called"), SOME] = ()
    cooked_first: Annotated[bool, Field(alias="cooked first")] = False
    raw: bool = False
    sold_by: Annotated[Literal["weight", "piece"], Field(alias="sold by")] = "weight"
    note: Text | None = None


class TestedKeys(Matter):
    """What the author really did: the anchor of every number on the page."""

    method: Method = "kettle"
    water: Volume
    rest: Duration | None = None
    servings: Count | None = None
    altitude: Altitude | None = None
    water_temperature: Annotated[Temperature | None, Field(alias="water temperature")] = None


class TrialKeys(Matter):
    """One time the author or a reader made the recipe."""

    date: Day
    method: Method = "kettle"
    servings: Count | None = None
    water: Volume
    verdict: Literal["right", "thick", "thin"]
    added: Volume | None = None
    altitude: Altitude | None = None
    rest: Duration | None = None
    by: Name | None = None
    note: Text | None = None


class ReplyKeys(Matter):
    """What a reader's reply says of the whole meal, in the words of the block on the page."""

    date: Annotated[Day, Field(alias="Date")]
    method: Annotated[Method, Field(alias="Method")]
    servings: Annotated[Count, Field(alias="Servings")]
    altitude: Annotated[Altitude | None, Field(alias="Altitude")] = None
    name: Annotated[Name | None, Field(alias="Name")] = None
    note: Annotated[Text | None, Field(alias="Note")] = None


class PouredKeys(Matter):
    """What a reader's reply says of one component."""

    water: Annotated[Volume, Field(alias="Water poured")]
    added: Annotated[Volume | None, Field(alias="Water added")] = None
    verdict: Annotated[Literal["right", "too thick", "too thin"], Field(alias="It was")]


class ComponentKeys(Matter):
    """A part of a recipe with its own water and rest."""

    name: Name
    cold: bool = False  # made with cold water, whatever the way of the meal
    ingredients: Annotated[tuple[Text, ...], ONE_TO_SOME]
    consistency: Consistency | None = None
    tested: TestedKeys | None = None
    trials: Annotated[tuple[TrialKeys, ...], MANY] = ()


class RecipeKeys(Matter):
    """The front matter of a meal or a base."""

    title: Name
    kind: Literal["meal", "base"] = "meal"
    series: Name | None = None
    part: Count | None = None
    serves: Count = 1
    makes: Name | None = None
    consistency: Consistency = "scoopable"
    methods: Annotated[tuple[Method, ...] | None, Field(min_length=1)] = None
    ingredients: Annotated[tuple[Text, ...], SOME] = ()
    tested: TestedKeys | None = None
    trials: Annotated[tuple[TrialKeys, ...], MANY] = ()
    components: Annotated[tuple[ComponentKeys, ...], FEW] = ()
    blurb: Text | None = None
    date: Day | None = None
    picture: Text | None = None
    picture_text: Annotated[Text | None, Field(alias="picture text")] = None
    cooked_weight: Annotated[Mass | None, Field(alias="cooked weight")] = None
    becomes: Name | None = None


class MealKeys(Matter):
    """One meal of a menu."""

    day: DayNumber
    meal: Name
    recipe: Text
    servings: Count | None = None
    method: Method | None = None
    altitude: Altitude | None = None

    @property
    def address(self) -> str:
        """The address of the recipe, however its file was named."""
        return self.recipe.removesuffix(".md").split("/")[-1]


class MenuKeys(Matter):
    """A menu: recipes and servings on days."""

    title: Name
    people: Count = 1
    appetites: Annotated[tuple[Appetite, ...], MANY] = ()  # how many servings each of them eats
    date: Day | None = None  # of its first day
    packed: Day | None = None  # of its mixes
    about: Text | None = None
    meals: Annotated[tuple[MealKeys, ...], Field(min_length=1), MANY]


class PageKeys(Matter):
    """The front matter of a free page."""

    title: Name
    order: int = 0
    html: bool = False
    picture: Text | None = None
    picture_text: Annotated[Text | None, Field(alias="picture text")] = None
