"""Arguments of ``bolewright spans``, and how they are read: every fault is one sentence that names the argument."""

from __future__ import annotations

import argparse
import re
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import TypeVar

from bolewright.timber.adjustment import Service, asks_incising, incising_words
from bolewright.timber.material import species_named, species_names
from bolewright.timber.published import Basis
from bolewright.timber.sections import Section, parse_section
from bolewright.timber.spans import OwnValues, Rounding, Stock
from bolewright.units import PSI, Unit, read

_T = TypeVar("_T")

JOISTS, BEAMS, POSTS = "joists", "beams", "posts"
DEFAULT_SIZES = {
    JOISTS: "2x6,2x8,2x10,2x12",
    BEAMS: "(2) 2x8,(2) 2x10,(2) 2x12,(3) 2x8,(3) 2x10,(3) 2x12",
    POSTS: "4x4,4x6,6x6",
}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command, added to a parser of its own or to a subcommand's."""
    parser.description = "Greatest spans of joists or beams, or heights of posts, by NDS 2018 (ASD)."
    add = parser.add_argument
    add("--of", choices=(JOISTS, BEAMS, POSTS), default=JOISTS, help="what the table is of")
    add(
        "--species",
        action="append",
        metavar="NAME",
        help=f"species, species:grade or species:grade:service (words wet, dry, incised); give it again for a group, "
        f"of which the weakest governs "
        f"(default Southern Pine); one of: {', '.join(species_names())}",
    )
    add("--grade", default="No.2", help="grade of every species that does not name its own (default No.2)")
    add(
        "--own",
        metavar="VALUES",
        help='values of a material of your own instead of a species, such as "F_b=1200 psi, F_v=150 psi, '
        'F_c_perp=500 psi, E=1400000 psi"; posts want F_c, E_min is worked out where it is not given; for the '
        "sizes as they are (no C_F is applied)",
    )
    add("--own-wet", action="store_true", help="the values of --own hold in wet service already (no C_M)")
    add(
        "--basis",
        choices=[b.value for b in Basis],
        default=Basis.NDS.value,
        help="whose table is meant: nds, calculated as here (default); irc, IRC R507; dca6, AWC DCA 6. The last two "
        "print the published value beside ours and why they differ",
    )
    add(
        "--c-r",
        metavar="FACTOR",
        help="repetitive member factor C_r, 1 to 1.15, over what NDS 2018 4.3.9 gives",
    )
    add(
        "--sizes",
        metavar="LIST",
        help='sizes with commas between, such as "2x8,2x10" or "(2) 2x10,45x195 mm"',
    )
    add("--spacings", default="12 in,16 in,24 in", metavar="LIST", help="joist spacings on centres")
    add(
        "--joist-spans",
        default="6 ft,8 ft,10 ft,12 ft,14 ft,16 ft,18 ft",
        metavar="LIST",
        help="beams: spans of the joists they carry",
    )
    add(
        "--joist-overhang",
        default=0.25,
        type=float,
        metavar="SHARE",
        help="beams: joist overhang over joist span (default 0.25)",
    )
    add("--loaded-on-top", action="store_true", help="beams: joists rest on top, shear taken at d")
    add(
        "--areas",
        default="20 ft2,40 ft2,60 ft2,80 ft2,100 ft2,120 ft2,140 ft2,160 ft2",
        metavar="LIST",
        help="posts: floor areas carried",
    )
    add("--live", default="40 psf", help="live load (default 40 psf)")
    add("--dead", default="10 psf", help="dead load with the member's own weight (default 10 psf)")
    add("--snow", action="store_true", help="the live load is snow: load duration factor 1.15")
    add("--dry", action="store_true", help="dry service; wet is the default")
    add(
        "--incised",
        action=argparse.BooleanOptionalAction,
        help="whether it was incised for treatment; has to be said of wet Douglas fir-larch, hem-fir, spruce-pine-fir",
    )
    add(
        "--eccentricity",
        metavar="SHARE",
        help="posts: distance of the load from the axis over the width, such as 1/6 (NDS 2018 15.4.1; default 0, "
        "with --basis dca6 1/6)",
    )
    add("--live-limit", default="360", metavar="N", help="live deflection, span/N, or none (default 360)")
    add(
        "--live-dead-share",
        default=0.0,
        type=float,
        metavar="SHARE",
        help="share of the dead load that counts with the live limit, such as 0.5 for L + 0.5D (default 0)",
    )
    add(
        "--total-limit",
        default="240",
        metavar="N",
        help="total deflection with creep, span/N, or none (default 240)",
    )
    add("--overhang-load", default="220 lb", help="point load at the end of an overhang (default 220 lb)")
    add(
        "--overhang-limit",
        default=180.0,
        type=float,
        metavar="N",
        help="tip deflection, overhang/N (default 180)",
    )
    add("--longest", help="longest span or height listed (default 18 ft, posts 14 ft)")
    add(
        "--metric",
        action="store_true",
        help="spans in metres, to 10 mm, and widths in mm; sizes keep their names in trade",
    )
    add(
        "--rounding",
        choices=[r.value for r in Rounding],
        help="to the nearest inch (default, as code tables do) or down (default for posts)",
    )
    add("--format", choices=("text", "csv"), default="text")
    add("--out", metavar="FILE", help="file to write instead of standard output")


def stocks(args: argparse.Namespace, sizes: Sequence[Section]) -> list[Stock]:
    """Species and grades of ``--species``, or the material of ``--own``."""
    if args.own is not None:
        if args.species:
            raise ValueError("--own and --species are both given: take one")
        return [Stock("own values", "", own=_own(args))]
    found = []
    for text in args.species or ["Southern Pine"]:
        name, grade, service = ([part.strip() for part in text.split(":")] + ["", ""])[:3]
        one = Stock(species_named(name), grade or args.grade.strip(), service=_service(text, service))
        for size in sizes:
            one.values(size)
        found.append(one)
    return found


def _service(text: str, words: str) -> Service | None:
    """Service of one species, such as "wet incised"; None where the table's holds."""
    said = words.lower().split()
    if not said:
        return None
    if not set(said) <= {"wet", "dry", "incised"} or {"wet", "dry"} <= set(said):
        raise ValueError(
            f"--species {text!r}: service is {words!r}, but wet or dry is wanted, with incised where it was"
        )
    return Service(wet="dry" not in said, incised="incised" in said)


_OWN_NAMES = ("F_b", "F_v", "F_c_perp", "E", "F_c", "E_min")


def _own(args: argparse.Namespace) -> OwnValues:
    given: dict[str, float] = {}
    for piece in args.own.split(","):
        symbol, equals, value = (part.strip() for part in piece.partition("="))
        if symbol not in _OWN_NAMES or not equals:
            raise ValueError(
                f"--own: {piece.strip()!r} is not one of {', '.join(_OWN_NAMES)} with = and a stress"
            )
        given[symbol] = quantity(f"--own {symbol}", value, PSI, above_zero=True)
    wanted = ("F_b", "F_v", "F_c_perp", "E") + (("F_c",) if args.of == POSTS else ())
    missing = [symbol for symbol in wanted if symbol not in given]
    if missing:
        raise ValueError(f"--own lacks {', '.join(missing)}")
    return OwnValues(**given, source="own values of the user", wet_values=args.own_wet)  # type: ignore[arg-type]


def share(name: str, text: str, most: float) -> float:
    """A share from 0 to ``most``, written as 0.17 or 1/6."""
    if re.fullmatch(r"\d{1,6}(\.\d{1,9})?|\d{1,6}/[1-9]\d{0,5}", text.strip()):
        value = float(Fraction(text.strip()))
        if value <= most:
            return value
    raise ValueError(f"{name} is {text[:40]!r}, but a share from 0 to {most:g} is wanted, such as 1/6")


def incised(args: argparse.Namespace, stock: Sequence[Stock], sizes: Sequence[Section]) -> bool:
    """Whether the lumber was incised; there is no default where treated lumber commonly is."""
    if args.incised is not None:
        return bool(args.incised)
    for one in stock:
        if one.service is not None:
            continue
        for size in sizes:
            if asks_incising(one.values(size), treated=not args.dry):
                raise ValueError(
                    f"{one.species} {size.name} treated for the weather is commonly incised, which takes "
                    f"{incising_words()} (NDS 2018, 4.3.8): say --incised or --no-incised"
                )
    return False


def sections(text: str) -> list[Section]:
    """Sizes with commas between."""
    return each(text, "--sizes", parse_section)


def values(name: str, text: str, unit: Unit) -> list[float]:
    """Quantities above zero with commas between."""
    return each(text, name, lambda piece: quantity(name, piece, unit, above_zero=True))


def each(text: str, name: str, read_one: Callable[[str], _T]) -> list[_T]:
    """The pieces between commas, each read."""
    pieces = [piece.strip() for piece in text.split(",") if piece.strip()]
    if not pieces:
        raise ValueError(f"{name} is empty: give at least one value")
    return [read_one(piece) for piece in pieces]


def quantity(name: str, text: str, unit: Unit, *, above_zero: bool = False) -> float:
    """One quantity in the number of a unit."""
    try:
        value = read(text, unit)
    except ValueError as error:
        raise ValueError(f"{name}: {error}") from error
    if value < 0 or (above_zero and value == 0):
        raise ValueError(
            f"{name} is {text}, but {'more than zero' if above_zero else 'zero or more'} is wanted"
        )
    return value


def number(name: str, text: str | float, least: float = 1.0, most: float = 10_000.0) -> float:
    """A bare number between two bounds."""
    try:
        value = float(text)
    except ValueError:
        raise ValueError(f"{name} is {text!r}, but a number such as 360 is wanted") from None
    if not least <= value <= most:
        raise ValueError(f"{name} is {value:g}, but a number from {least:g} to {most:g} is wanted")
    return value
