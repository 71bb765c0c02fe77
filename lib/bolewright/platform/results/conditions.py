"""What must be said aloud beside the verdict: loads and limits under the code's, ratings nobody can trace, and so on.

None of these is a check. Each is one sentence, shown wherever the verdict stands.
"""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.platform.file.demonstration import unconfirmed
from bolewright.platform.file.ratings import PLAUSIBLE, ratings_of
from bolewright.platform.project import Project
from bolewright.platform.project.place import Limits
from bolewright.units import feet_inches

DECK_LIVE = 40.0  # psf, IRC 2021 Table R301.5
GUARD_ABOVE = 30.0  # in, IRC 2021 R312.1.1
GUARD_IRC = 36.0  # in, IRC 2021 R312.1.2
GUARD_IBC = 42.0  # in, IBC 2021 1015.3
SWAY_SHARE = 0.10  # of the live load, common practice
SHOWN = 8  # items of a list within a sentence


def conditions(project: Project) -> tuple[str, ...]:
    """Sentences that stand beside the verdict of a project."""
    return (
        *_code(project),
        *_loads(project),
        *_guard(project),
        *_site(project),
        *_limits(project),
        *_ratings(project),
        *_trees(project),
        *_demonstration(project),
    )


def listed(words: tuple[str, ...] | list[str]) -> str:
    """Some words in a row, the rest of a long list counted.

    >>> listed(["a", "b"]), listed([str(i) for i in range(10)])
    ('a, b', '0, 1, 2, 3, 4, 5, 6, 7 and 2 more')
    """
    more = len(words) - SHOWN
    return ", ".join(words[:SHOWN]) + (f" and {more} more" if more > 0 else "")


def _code(project: Project) -> Iterator[str]:
    if project.code.basis is None:
        yield "The file does not name the building code that is adopted at the place (code.basis)."
    if project.code.design == "LRFD":
        yield (
            "Two methods stand side by side in these sheets. Bending, shear and bearing of joists are by load and "
            "resistance factor design (NDS 2018, Appendix N; ASCE 7-16, 2.3.1): the combination of such a row begins "
            "with LRFD, its loads and strengths are factored. All other rows, those of joists' hangers, ties, "
            "deflection and building stages among them, are by allowable stress design. Do not set a load of one "
            "kind of row against a strength of the other."
        )


def _loads(project: Project) -> Iterator[str]:
    live = project.loads.live
    if live < DECK_LIVE:
        yield (
            f"The live load of {live:g} psf is less than the {DECK_LIVE:g} psf that IRC 2021, Table R301.5 asks for on "
            "a deck."
        )
    share = project.loads.sway_share
    if share < SWAY_SHARE:
        yield (
            f"The lateral force of people is {100 * share:.3g} % of the live load, less than the "
            f"{100 * SWAY_SHARE:.0f} % of common practice (loads.sway_share)."
        )


def _guard(project: Project) -> Iterator[str]:
    loads, height = project.loads, project.platform.floor_height
    count = len(project.platform.outline)
    bare = [edge for edge in range(1, count + 1) if edge not in loads.guard_edges]
    if height > GUARD_ABOVE and bare:
        which = (
            "No edge has a guard"
            if len(bare) == count
            else f"No guard on edge {listed(list(map(str, bare)))}"
        )
        yield (
            f"{which}, though the floor is {feet_inches(height)} above the ground: above {GUARD_ABOVE:g} in. IRC 2021, "
            "R312.1.1 asks for one on every open side."
        )
    if not loads.guard_edges:
        return
    ibc = project.code.basis != "IRC"
    wanted, clause = (GUARD_IBC, "IBC 2021, 1015.3") if ibc else (GUARD_IRC, "IRC 2021, R312.1.2")
    if loads.guard_height < GUARD_IRC:
        wanted, clause = GUARD_IRC, "IRC 2021, R312.1.2"
    if loads.guard_height < wanted:
        yield f"The guard is {loads.guard_height:g} in. high, lower than the {wanted:g} in. of {clause}."


def _site(project: Project) -> Iterator[str]:
    if project.site.frost_depth == 0:
        yield "Frost depth is zero: ask the building department (IRC 2021, R403.1.4.1)."
    if project.site.ground_snow == 0:
        yield "Ground snow is zero: ask the building department (ASCE 7-16, 7.2)."


def _limits(project: Project) -> Iterator[str]:
    usual = Limits()
    loose = [
        f"{name.replace('_', ' ')} 1/{given:g} for 1/{common:g}"
        for name in Limits.model_fields
        if (given := getattr(project.limits, name)) < (common := getattr(usual, name))
    ]
    if loose:
        yield f"Limits of deflection or drift are loosened: {listed(loose)} (IBC 2021, Table 1604.3; common practice)."


def _ratings(project: Project) -> Iterator[str]:
    ratings = ratings_of(project)
    bare = [r.words for r in ratings if not r.source.strip()]
    if bare:
        one = "1 rating has" if len(bare) == 1 else f"{len(bare)} ratings have"
        yield f"{one} no source in the file: {listed(bare)}."
    for rating in ratings:
        most = PLAUSIBLE[rating.key]
        if rating.load > most:
            yield (
                f"{rating.words} is more than the {most:,.0f} lb that such a part commonly has (judgement): read its "
                "maker's sheet again."
            )


def _trees(project: Project) -> Iterator[str]:
    unseen = [tree.mark for tree in project.trees if not tree.condition.strip()]
    if unseen:
        yield f"The file does not say what an arborist found of {listed(unseen)} (tree.condition)."


def _demonstration(project: Project) -> Iterator[str]:
    same = unconfirmed(project)
    if same:
        one = "1 value equals one" if len(same) == 1 else f"{len(same)} values equal ones"
        yield (
            f"{one} that the demonstration invented, and nobody has confirmed: {listed([v.words for v in same])}. Put "
            'your own, or list each under confirmed, as confirmed = ["' + same[0].path + '"].'
        )
