"""Incising: open where treated lumber commonly is incised and the file does not say whether it was."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.project import Project, Timber
from bolewright.platform.project.bearing import SupportKind
from bolewright.timber.adjustment import incising_words


def incising_checks(project: Project) -> list[Check]:
    """One open check for every entry of lumber of which the file has to say if it was incised, and does not.

    All other checks of such a piece count it as incised, which is the safe reading: their ratios stand, and can
    only fall once the file says that it was not.
    """
    return [
        not_checked(name, f"{kind}.incising", _asked(name, timber.species or "", timber.section))
        for name, kind, timber in _entries(project)
        if timber.incising_open
    ]


def _asked(name: str, species: str, section: str) -> str:
    name = name[:1].upper() + name[1:]
    return (
        f"{name}: treated {species} {section} is commonly incised, and the file does not say whether this was: look at "
        f"the faces for rows of slits and enter incised = true or false. Until then it is counted as incised, "
        f"{incising_words()}, so its other ratios are on the safe side."
    )


def _entries(
    project: Project,
) -> Iterator[tuple[str, str, Timber]]:
    """Every entry of lumber that is in use: the mark that a check of it carries, its kind, the timber."""
    yield "decking", "decking", project.decking
    for field in project.joists:
        yield field.mark, "joist", field
    for entry in project.blocking:
        yield entry.mark, "blocking", entry
    for beam in project.beams:
        yield beam.mark, "beam", beam
    for support in project.supports:
        if support.kind == SupportKind.POST:
            yield support.mark, "post", project.posts[support.post or ""]
        elif support.kind == SupportKind.KNEE_BRACE:
            yield support.mark, "trunk_brace", project.struts[support.strut or ""]
    for brace in project.braces:
        yield brace.mark, "brace", brace
    if project.stairs.given:
        yield "stair", "stairs", project.stairs
    if project.ladder.given:
        yield "ladder", "ladder", project.ladder
