"""What a project file says of one part, worked out, where it lies, and how its checks come out."""

from __future__ import annotations

from typing import Any

from bolewright.platform.file.follow import follow
from bolewright.platform.file.reading import parse_toml
from bolewright.platform.limit_states.check import worst
from bolewright.platform.results.results import Results
from bolewright.platform.results.summary import check_rows
from bolewright.units import feet_inches


def explain_lines(results: Results, text: str, mark: str, *, metric: bool = False) -> list[str]:
    """All of it in lines; none where no part has the mark."""
    layout = results.path.layout
    member = next((m for m in layout.members if m.mark == mark), None)
    support = next((s for s in layout.supports if s.mark == mark), None)
    said = [*_in_file(text, mark), *(_in_file(text, member.field) if member and member.field else [])]
    if member is not None:
        said.append(
            f"{mark} lies from {_at(member.line.start)} to {_at(member.line.end)}, {feet_inches(member.line.length)} "
            f"long along its centre line, top at {feet_inches(member.top)}."
        )
        said += [f"It {s.bearing.value} {s.below} {feet_inches(s.at)} from its start." for s in member.seats]
    if support is not None:
        said.append(f"{mark} stands at {_at(support.at)}.")
        said += [f"It bears {m.mark} {feet_inches(s.at)} from its start." for m, s in layout.on_support(mark)]
    return [*said, *check_rows(worst([c for c in results.checks if c.part == mark]), metric=metric)]


def _at(place: tuple[float, float]) -> str:
    return f"x {feet_inches(place[0])}, y {feet_inches(place[1])}"


def _in_file(text: str, mark: str) -> list[str]:
    """Values that the file has for a part, those given by other parts with what they come to."""
    raw = parse_toml(text, "the file")
    followed = {found.where: found for found in follow(raw)[1]}
    said = []
    for key, parts in raw.items():
        for i, part in enumerate(parts if isinstance(parts, list) else ()):
            if not isinstance(part, dict) or part.get("mark", "J" if key == "joists" else "") != mark:
                continue
            said.append(f"{key} {mark}")
            for name, value in part.items():
                found = followed.get((key, i, name))
                where = f", that is {_worked(found.place)}" if found else ""
                said.append(f"  {name} = {_value(value)}{where}")
    return said


def _value(value: Any) -> str:
    return ", ".join(str(item) for item in value) if isinstance(value, list) else str(value)


def _worked(place: tuple[float, float] | float) -> str:
    return _at(place) if isinstance(place, tuple) else feet_inches(place)
