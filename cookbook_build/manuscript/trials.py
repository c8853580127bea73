"""Trials as the author writes them: what a day and a verdict can't say together."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from cookbook_build.findings import Findings, Place
    from cookbook_build.manuscript.checking import Places
    from cookbook_build.manuscript.recipes import Recipe
    from cookbook_build.manuscript.schema import TrialKeys


def check_trials(recipes: Iterable[Recipe], today: dt.date | None, findings: Findings) -> None:
    """Report trials that are still to come, and those whose added water can't be meant."""
    for recipe in recipes:
        for part in recipe.components:
            for at, trial in enumerate(part.trials):
                path = (*part.path, "trials", at)
                _check(trial, path, recipe.places, today, findings)
                twin = part.trials.index(trial)
                if twin < at:
                    first = recipe.places.of(*part.path, "trials", twin)
                    findings.warning(
                        recipe.places.of(*path),
                        f"this trial stands on line {first.line} too, and counts twice",
                        "delete one of the two; if there were two, write a note to one.",
                    )


def _check(
    trial: TrialKeys,
    path: tuple[str | int, ...],
    places: Places,
    today: dt.date | None,
    findings: Findings,
) -> None:
    check_day(trial.date, places.of(*path, "date"), today, findings)
    if trial.added and trial.verdict != "thick":
        findings.error(
            places.of(*path, "added"),
            *added_in_vain("right" if trial.verdict == "right" else "too thin", "verdict", "thick"),
        )


def one_meal(own: TrialKeys, told: TrialKeys) -> bool:
    """Whether the author's trial and a reader's seem to be one: all that both tell is the same."""
    names = own.by is None or told.by is None or own.by.casefold() == told.by.casefold()
    bare = {"by": None, "note": None, "altitude": None, "rest": None}
    alike = own.altitude is None or told.altitude is None or own.altitude.si == told.altitude.si
    return names and alike and own.model_copy(update=bare) == told.model_copy(update=bare)


def added_in_vain(verdict: str, key: str, thick: str) -> tuple[str, str]:
    """Return the cause and the mend of water added to what was not too thick."""
    return (
        f"it was {verdict}, and water was added: one of the two can't be meant",
        f'write "{key}: {thick}" if it was right only with this water, or delete the water.',
    )


def check_day(day: dt.date, place: Place, today: dt.date | None, findings: Findings) -> bool:
    """Report a trial of a day that is still to come; without `today`, none is."""
    if today is None or day <= today:
        return True
    findings.error(
        place,
        f"{day.isoformat()} is still to come: today is {today.isoformat()}",
        "write the day on which it was made.",
    )
    return False
