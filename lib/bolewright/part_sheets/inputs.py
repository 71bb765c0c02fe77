"""What a part sheet asks for: fields with a title, a default, units and an allowed range, read at one door."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Literal, get_args, get_origin

from pydantic import AfterValidator, BeforeValidator, ConfigDict, Field, ValidationError

from bolewright import units
from bolewright.platform.project.fields import Date, Measure, Strict, Text
from bolewright.timber import Section, parse_section, species_names
from bolewright.timber.material import nearest_first, species_named
from bolewright.units import INCH, NONE, PLF, POUND, PSF, Unit

Long = Annotated[float, Measure(INCH, positive=True, most=600)]
Reach = Annotated[float, Measure(INCH, least=0, most=600)]
Small = Annotated[float, Measure(INCH, positive=True, most=96)]
Off = Annotated[float, Measure(INCH, least=0, most=96)]
LineLoad = Annotated[float, Measure(PLF, least=0, most=5000)]
AreaLoad = Annotated[float, Measure(PSF, least=0, most=500)]
Load = Annotated[float, Measure(POUND, least=0, most=200_000)]
Divisor = Annotated[float, Measure(NONE, least=60, most=2000)]
YesNo = Literal["yes", "no"]


class PartError(ValueError):
    """Inputs that can't be used: a sentence by the name of each field at fault ("" for the sheet as a whole)."""

    def __init__(self, faults: Mapping[str, str]) -> None:
        self.faults = dict(faults)
        super().__init__(" ".join(f"{name}: {said}" if name else said for name, said in self.faults.items()))


def asked(title: str, default: str) -> Any:
    """A field with its title and its default as text; the docstring under it is its help."""
    return Field(default=default, title=title, validate_default=True)


def _section(text: object) -> object:
    return text if isinstance(text, Section) else parse_section(str(text))


def _species(text: str) -> str:
    try:
        return species_named(text)
    except ValueError:
        near = ", ".join(nearest_first(text, list(species_names()))[:4])
        raise ValueError(f"{units.shown(text)} is no species of the tables; the nearest are {near}") from None


SectionText = Annotated[Section, BeforeValidator(_section)]
SpeciesText = Annotated[str, AfterValidator(_species)]


class Inputs(Strict):
    """What every part sheet asks for, for its title block."""

    model_config = ConfigDict(arbitrary_types_allowed=True)

    mark: Text = asked("Part", "1")
    """Mark or name of the part, for the title block."""
    project: Text = asked("Project", "")
    """Name of the project, for the title block."""
    site: Text = asked("Site", "")
    """Where it stands, for the title block."""
    by: Text = asked("Prepared by", "")
    """Who typed the inputs, for the title block."""
    date: Date | None = Field(default=None, title="Date")
    """Date of the sheet, such as 2026-11-25; the day it is printed where left empty."""


class TimberInputs(Inputs):
    """What a part of sawn timber asks for besides."""

    section: SectionText = asked("Section", "2x10")
    """Nominal size, plies in front: 2x10, 2-2x10, 6x6; or actual sizes in inches as 1.5 in x 9.25 in."""
    species: SpeciesText = asked("Species", "Southern Pine")
    """Species or group of the NDS Supplement."""
    grade: Text = asked("Grade", "No.2")
    """Visual grade of the NDS Supplement."""
    service: Literal["wet", "dry"] = asked("Service", "wet")
    """Wet where its moisture is over 19 % for long: all outdoor timber that is not under a roof."""
    incised: YesNo = asked("Incised", "no")
    """Yes where treating cut small slits into it (most western species treated with preservative)."""


def read(model: type[Inputs], texts: Mapping[str, str]) -> Inputs:
    """The inputs that texts mean; :class:`PartError` with a sentence for each field at fault."""
    unknown = [name for name in texts if name not in model.model_fields]
    if unknown:
        near = nearest_first(unknown[0], list(model.model_fields))[:3]
        raise PartError(
            {"": f"There is no input {units.shown(unknown[0])}; the nearest are {', '.join(near)}."}
        )
    given: dict[str, Any] = {
        name: text for name, text in texts.items() if not (name == "date" and not str(text).strip())
    }
    try:
        return model(**given)
    except ValidationError as error:
        raise PartError({str(e["loc"][0]): _said(e) for e in error.errors()}) from None


def _said(error: Any) -> str:
    if error["type"] == "literal_error":
        allowed = error["ctx"]["expected"].replace("'", "")
        return f"{units.shown(error['input'])} is not one of these: {allowed}."
    if error["type"] == "string_too_long":
        return f"{units.shown(error['input'])} is longer than {error['ctx']['max_length']} characters."
    return f"{str(error['msg']).removeprefix('Value error, ').rstrip('.')}."


@dataclass(frozen=True)
class Asked:
    """One input as forms, help texts and sheets show it."""

    name: str
    title: str
    help: str
    default: str
    choices: tuple[str, ...]
    allowed: str


def asked_of(model: type[Inputs]) -> tuple[Asked, ...]:
    """The inputs of a kind: what is the part's own first, what the title block asks for last."""
    shared = set(Inputs.model_fields)
    names = [n for n in model.model_fields if n not in shared] + [
        n for n in model.model_fields if n in shared
    ]
    return tuple(_asked(name, model.model_fields[name]) for name in names)


def _asked(name: str, field: Any) -> Asked:
    choices = (
        tuple(str(c) for c in get_args(field.annotation)) if get_origin(field.annotation) is Literal else ()
    )
    measure = next((m for m in field.metadata if isinstance(m, Measure)), None)
    if name == "species":
        choices = species_names()
    default = "" if field.default is None else str(field.default)
    help_text = " ".join((field.description or "").split())
    return Asked(name, field.title or name, help_text, default, choices, _range(measure))


def _range(measure: Measure | None) -> str:
    if measure is None:
        return ""
    low = "more than 0" if measure.positive else ("" if measure.least is None else f"{measure.least:g}")
    high = "" if measure.most is None else f"{measure.most:,g}"
    return f"{low} to {high} {_label(measure.unit)}".strip()


def _label(unit: Unit) -> str:
    return unit.label
