"""Cut words: how the pieces lay in the cup that a food's weight is of, by the food table."""

from __future__ import annotations

from typing import Final

from cookbook_build.words import N_, _

PLAIN: Final = "plain"
"""What the table writes where it names no cut."""

CUTS: Final = frozenset(
    {
        N_("1 inch cubes"),
        N_("1 inch pieces"),
        N_("1 inch pieces loosely packed"),
        N_("1/2 inch chunks"),
        N_("1/2 inch cubes"),
        N_("1/2 inch pieces"),
        N_("arils seed/juice sacs"),
        N_("balls"),
        N_("cherry tomatoes"),
        N_("chopped"),
        N_("chopped 1/2 inch pieces"),
        N_("chopped or diced"),
        N_("chopped or sliced"),
        N_("chopped or strips"),
        N_("chunks"),
        N_("crumbled"),
        N_("crumbled not packed"),
        N_("crushed sliced or chunks"),
        N_("cubes"),
        N_("cut"),
        N_("diced"),
        N_("drained"),
        N_("drained rinsed"),
        N_("elbows"),
        N_("elbows not packed"),
        N_("elbows packed"),
        N_("farfalle"),
        N_("flaked and pieces"),
        N_("frozen"),
        N_("grated"),
        N_("ground"),
        N_("halves"),
        N_("hearts"),
        N_("large curd"),
        N_("lasagna"),
        N_("lasagne"),
        N_("leaves"),
        N_("leaves whole"),
        N_("mashed"),
        N_("melted"),
        N_("packed"),
        N_("penne"),
        N_("pieces"),
        N_("pieces or chips"),
        N_("pieces or slices"),
        N_("pitted"),
        N_("pulp"),
        N_("pureed"),
        N_("quartered or chopped"),
        N_("rinsed solids"),
        N_("rotini"),
        N_("sections"),
        N_("sections with juice"),
        N_("shelled"),
        N_("shells"),
        N_("shredded"),
        N_("sifted"),
        N_("sliced"),
        N_("slices"),
        N_("slices 1 inch dia"),
        N_("slivered"),
        N_("small curd"),
        N_("solid or chunks"),
        N_("spaghetti"),
        N_("spaghetti not packed"),
        N_("spaghetti packed"),
        N_("sprigs"),
        N_("stirred"),
        N_("strips"),
        N_("strips or slices"),
        N_("thawed"),
        N_("undrained"),
        N_("unpacked"),
        N_("unsifted"),
        N_("unthawed"),
        N_("whipped"),
        N_("whole"),
        N_("whole or halves"),
        N_("without pits"),
    }
)


def cut_name(cut: str) -> str:
    """Return a cut of the food table as a page names it; nothing where it names none."""
    return "" if cut in {"", PLAIN} else _(cut)
