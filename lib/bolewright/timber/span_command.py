"""The command ``bolewright spans``: a greatest-span table of joists, carriers or posts, as text or CSV."""

from __future__ import annotations

import argparse
import csv
import io
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

from bolewright.reference import CONFIDENCE
from bolewright.signs import plain
from bolewright.timber.adjustment import Service, asks_incising, factors, incising_words
from bolewright.timber.basis import LoadType
from bolewright.timber.material import reference_values, species_named, species_names
from bolewright.timber.post_heights import PostRow, post_heights
from bolewright.timber.sections import Section, parse_section
from bolewright.timber.spans import (
    Rounding,
    SpanLimits,
    SpanLoads,
    SpanRow,
    Stock,
    carrier_spans,
    joist_spans,
)
from bolewright.units import INCH, POUND, PSF, SQUARE_FOOT, Unit, read

_JOISTS, _CARRIERS, _POSTS = "joists", "carriers", "posts"
_DEFAULT_SIZES = {
    _JOISTS: "2x6,2x8,2x10,2x12",
    _CARRIERS: "(2) 2x8,(2) 2x10,(2) 2x12,(3) 2x8,(3) 2x10,(3) 2x12",
    _POSTS: "4x4,4x6,6x6",
}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command, added to a parser of its own or to a subcommand's."""
    parser.description = "Greatest spans of joists or carriers, or heights of posts, by NDS 2018 (ASD)."
    add = parser.add_argument
    add("--of", choices=(_JOISTS, _CARRIERS, _POSTS), default=_JOISTS, help="what the table is of")
    add(
        "--species",
        action="append",
        metavar="NAME",
        help=f"species, or species:grade; give it again for a group, of which the weakest governs "
        f"(default Southern Pine); one of: {', '.join(species_names())}",
    )
    add("--grade", default="No.2", help="grade of every species that does not name its own (default No.2)")
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
        help="carriers: spans of the joists they carry",
    )
    add(
        "--joist-overhang",
        default=0.25,
        type=float,
        metavar="SHARE",
        help="carriers: joist overhang over joist span (default 0.25)",
    )
    add("--loaded-on-top", action="store_true", help="carriers: joists rest on top, shear taken at d")
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
    add("--live-limit", default=360.0, type=float, metavar="N", help="live deflection, span/N (default 360)")
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
        "--rounding",
        choices=[r.value for r in Rounding],
        help="to the nearest inch (default, as code tables do) or down (default for posts)",
    )
    add("--format", choices=("text", "csv"), default="text")
    add("--out", metavar="FILE", help="file to write instead of standard output")


def run(args: argparse.Namespace) -> int:
    """Print the table; 0, or 2 after one sentence on standard error when an argument makes no sense."""
    try:
        header, rows, notes = _table(args)
    except ValueError as error:
        print(f"bolewright spans: {plain(str(error)).rstrip(' .')}.", file=sys.stderr)
        return 2
    text = _as_csv(header, rows) if args.format == "csv" else _as_text(header, rows, notes)
    if args.out is None:
        print(text, end="")
        return 0
    try:
        Path(args.out).write_text(text, encoding="utf-8")
    except OSError as error:
        print(
            f"bolewright spans: --out {plain(str(args.out))} cannot be written: {error.strerror}.",
            file=sys.stderr,
        )
        return 2
    return 0


_Cells = list[str]
_T = TypeVar("_T")


def _table(args: argparse.Namespace) -> tuple[_Cells, list[_Cells], list[str]]:
    sizes = _sizes(args.sizes or _DEFAULT_SIZES[args.of])
    stock = _stock(args, sizes)
    if args.of == _POSTS and len(stock) != 1:
        raise ValueError("--of posts takes one --species")
    loads = SpanLoads(
        live=_quantity("--live", args.live, PSF, above_zero=True),
        dead=_quantity("--dead", args.dead, PSF),
        overhang_point=_quantity("--overhang-load", args.overhang_load, POUND),
        live_kind=LoadType.SNOW if args.snow else LoadType.LIVE,
    )
    service = Service(wet=not args.dry, incised=_incised(args, stock, sizes))
    longest = _quantity(
        "--longest", args.longest or ("14 ft" if args.of == _POSTS else "18 ft"), INCH, above_zero=True
    )
    rounding = Rounding(args.rounding or ("down" if args.of == _POSTS else "nearest"))
    if args.of == _POSTS:
        return _posts(args, stock, sizes, loads, service, longest, rounding)
    total = None if args.total_limit.strip().lower() == "none" else _number("--total-limit", args.total_limit)
    limits = SpanLimits(
        live=_number("--live-limit", args.live_limit),
        total=total,
        overhang_tip=_number("--overhang-limit", args.overhang_limit),
        longest=longest,
        rounding=rounding,
    )
    if args.of == _JOISTS:
        widths = _list("--spacings", args.spacings, INCH)
        rows = joist_spans(stock, sizes, widths, loads=loads, service=service, limits=limits)
    else:
        widths = _list("--joist-spans", args.joist_spans, INCH)
        if not 0 <= args.joist_overhang <= 1:
            raise ValueError(
                f"--joist-overhang is {args.joist_overhang:g}, but a share from 0 to 1 is wanted"
            )
        rows = carrier_spans(
            stock,
            sizes,
            widths,
            joist_overhang_share=args.joist_overhang,
            loaded_on_top=args.loaded_on_top,
            loads=loads,
            service=service,
            limits=limits,
        )
    width_name = "spacing_in" if args.of == _JOISTS else "joist_span_in"
    header = [
        "size",
        width_name,
        "span",
        "span_in",
        "governs",
        "overhang",
        "overhang_in",
        "overhang_governs",
        "bearing_in",
        "weakest",
        "confidence",
    ]
    total_words = "" if total is None else f", total with creep span/{total:g}"
    notes = [
        *_common_notes(stock, sizes, loads, service, [row.confidence for row in rows]),
        f"Deflection: live span/{limits.live:g}{total_words}; overhang tip overhang/{limits.overhang_tip:g} under "
        f"{loads.overhang_point:g} lb at its end, overhang at most a quarter of the span.",
        f"Rounded to the inch: {rounding.value}; span_in is before rounding. bearing_in is what each end needs at "
        "that span; the code's least bearing may be more.",
        "Simple spans, full uniform load, top edge held by decking or joists, blocked over supports.",
    ]
    return header, [_span_cells(row) for row in rows], notes


def _posts(
    args: argparse.Namespace,
    stock: Sequence[Stock],
    sizes: Sequence[Section],
    loads: SpanLoads,
    service: Service,
    longest: float,
    rounding: Rounding,
) -> tuple[_Cells, list[_Cells], list[str]]:
    areas = _list("--areas", args.areas, SQUARE_FOOT)
    rows = post_heights(
        stock[0], sizes, areas, loads=loads, service=service, longest=longest, rounding=rounding
    )
    notes = [
        *_common_notes(stock, sizes, loads, service, [row.confidence for row in rows]),
        "Gravity load only, held sideways at both ends (K_e = 1): sway, eccentricity and wind are not in this table.",
        f"Rounded to the inch: {rounding.value}; height_in is before rounding.",
    ]
    header = ["size", "area_ft2", "height", "height_in", "confidence"]
    return header, [_post_cells(row) for row in rows], notes


def _common_notes(
    stock: Sequence[Stock],
    sizes: Sequence[Section],
    loads: SpanLoads,
    service: Service,
    confidence: Sequence[str],
) -> list[str]:
    woods = "; ".join(f"{species_named(s.species)} {s.grade}" for s in stock)
    state = ("wet" if service.wet else "dry") + " service" + _incised_words(service, stock, sizes)
    kind = "snow" if loads.live_kind is LoadType.SNOW else "live"
    codes = "; ".join(f"{code}: {CONFIDENCE[code]}" for code in dict.fromkeys(confidence))
    memory = [
        note
        for s in stock
        for size in sizes
        for note in factors(reference_values(s.species, s.grade, size), service).notes
    ]
    return [
        f"{woods}; {state}; {loads.live:g} psf {kind} + {loads.dead:g} psf dead.",
        f"NDS 2018, allowable stress design. Design values are {codes}.",
        *dict.fromkeys(memory),
        "Local code and a licensed engineer decide; this table approves nothing.",
    ]


def _incised_words(service: Service, stock: Sequence[Stock], sizes: Sequence[Section]) -> str:
    """What the table counts of incising, with its factor; said too where it counts none and commonly would."""
    if service.incised:
        return f", incised ({incising_words()}; NDS 2018, 4.3.8)"
    asked = any(
        asks_incising(reference_values(s.species, s.grade, size), treated=service.wet)
        for s in stock
        for size in sizes
    )
    return ", not incised" if asked else ""


def _span_cells(row: SpanRow) -> _Cells:
    return [
        row.section.name,
        f"{row.width:g}",
        _feet_dash_inches(row.span),
        f"{row.exact:.2f}",
        row.governs.value,
        _feet_dash_inches(row.overhang),
        f"{row.overhang:g}",
        row.overhang_governs.value,
        f"{row.bearing:.2f}",
        f"{species_named(row.weakest.species)} {row.weakest.grade}",
        row.confidence,
    ]


def _post_cells(row: PostRow) -> _Cells:
    return [
        row.section.name,
        f"{row.area:g}",
        _feet_dash_inches(row.height),
        f"{row.exact:.2f}",
        row.confidence,
    ]


def _feet_dash_inches(inches: float) -> str:
    feet, rest = divmod(int(inches), 12)
    return f"{feet}-{rest}"


def _as_csv(header: _Cells, rows: Sequence[_Cells]) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(header)
    writer.writerows(rows)
    return out.getvalue()


def _as_text(header: _Cells, rows: Sequence[_Cells], notes: Sequence[str]) -> str:
    widths = [max(len(cells[i]) for cells in (header, *rows)) for i in range(len(header))]
    lines = [
        "  ".join(cell.ljust(width) for cell, width in zip(cells, widths, strict=True)).rstrip()
        for cells in (header, *rows)
    ]
    return "\n".join([*lines, "", *notes]) + "\n"


# ---------------------------------------------------------------------------------------------------------
# Reading the arguments; every fault is one sentence that names the argument


def _stock(args: argparse.Namespace, sizes: Sequence[Section]) -> list[Stock]:
    stock = []
    for text in args.species or ["Southern Pine"]:
        name, _, grade = text.partition(":")
        found = Stock(species_named(name.strip()), (grade or args.grade).strip())
        for size in sizes:
            reference_values(found.species, found.grade, size)
        stock.append(found)
    return stock


def _incised(args: argparse.Namespace, stock: Sequence[Stock], sizes: Sequence[Section]) -> bool:
    """Whether the lumber was incised; there is no default where treated lumber commonly is."""
    if args.incised is not None:
        return bool(args.incised)
    for one in stock:
        for size in sizes:
            if asks_incising(reference_values(one.species, one.grade, size), treated=not args.dry):
                raise ValueError(
                    f"{one.species} {size.name} treated for the weather is commonly incised, which takes "
                    f"{incising_words()} (NDS 2018, 4.3.8): say --incised or --no-incised"
                )
    return False


def _sizes(text: str) -> list[Section]:
    return _each(text, "--sizes", parse_section)


def _list(name: str, text: str, unit: Unit) -> list[float]:
    return _each(text, name, lambda piece: _quantity(name, piece, unit, above_zero=True))


def _each(text: str, name: str, read_one: Callable[[str], _T]) -> list[_T]:
    pieces = [piece.strip() for piece in text.split(",") if piece.strip()]
    if not pieces:
        raise ValueError(f"{name} is empty: give at least one value")
    return [read_one(piece) for piece in pieces]


def _quantity(name: str, text: str, unit: Unit, *, above_zero: bool = False) -> float:
    try:
        value = read(text, unit)
    except ValueError as error:
        raise ValueError(f"{name}: {error}") from error
    if value < 0 or (above_zero and value == 0):
        raise ValueError(
            f"{name} is {text}, but {'more than zero' if above_zero else 'zero or more'} is wanted"
        )
    return value


def _number(name: str, text: str | float) -> float:
    try:
        value = float(text)
    except ValueError:
        raise ValueError(f"{name} is {text!r}, but a number such as 360 is wanted") from None
    if not 1 <= value <= 10_000:
        raise ValueError(f"{name} is {value:g}, but a number from 1 to 10000 is wanted")
    return value
