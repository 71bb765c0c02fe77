"""Code basis and loads first; then what it is, where it stands and for whom."""

from __future__ import annotations

from bolewright.platform.checks.footings import allowable_bearing
from bolewright.platform.loads.load_path import deck_dead
from bolewright.platform.results.results import Results
from bolewright.platform.results.verdict import verdict_lines
from bolewright.reference import CONFIDENCE
from bolewright.rendering.blocks import KeyValues, Statement, StatementKind
from bolewright.rendering.numbers import fmt
from bolewright.sheets.combinations import combination_rows
from bolewright.sheets.lateral_inputs import wind_words
from bolewright.sheets.rated_alone import rated_alone_sentences
from bolewright.sheets.verdict import SHEETS
from bolewright.units import PLF, PSF, feet_inches


def basis_blocks(results: Results) -> tuple[KeyValues]:
    """Code, method, loads, frost and soil."""
    project = results.project
    site, loads = project.site, project.loads
    soil = site.soil.values
    combinations = ", ".join(row.name for row in combination_rows(results))
    if project.guards:
        combinations += "; C_D 1.6 with the load on a guard is common practice, no clause"
    guard = ", ".join(map(str, loads.guard_edges)) or "none"
    pairs = (
        ("Building code", project.code.words or "not named in the file: ask the building department"),
        (
            "Method",
            "allowable stress design (NDS 2018, AISC 360-16, IBC 2021 chapter 18); plain concrete by strength "
            "(ACI 318-19)"
            + (
                "; joists alone by load and resistance factors (LRFD: NDS 2018, Appendix N)"
                if project.code.design == "LRFD"
                else ""
            ),
        ),
        ("Loads by", "ASCE 7-16 and the code named above; one heavy person by common practice"),
        (
            "Dead load of the deck",
            f"{fmt(deck_dead(results.path.layout), PSF)}, boards and hardware; framing by its own weight",
        ),
        ("Live load", "; ".join(filter(None, (fmt(loads.live, PSF), loads.live_note)))),
        ("Ground snow", fmt(site.ground_snow, PSF)),
        ("Wind", wind_words(site)),
        ("Guard", f"{fmt(loads.guard, PLF)} on edges {guard}, {feet_inches(loads.guard_height)} high"),
        ("One person", f"{loads.person:g} lb at the worst spot"),
        ("Lateral force of people", f"{loads.sway_share:.0%} of the live load, in every direction"),
        ("Earthquake", "S_DS not given" if site.S_DS is None else f"S_DS {site.S_DS:g}"),
        (
            "Frost depth",
            f"{feet_inches(site.frost_depth)}; footings go down to "
            + (", ".join(sorted({feet_inches(f.depth) for f in project.footings.values()})) or "none"),
        ),
        (
            "Soil",
            f"{site.soil}, {soil.name}: {fmt(allowable_bearing(results.path), PSF)} allowed; "
            f"{site.soil_bearing_note or CONFIDENCE[soil.confidence]}{_pressed(results)}",
        ),
        ("Combinations", combinations),
    )
    return (KeyValues(pairs),)


def _pressed(results: Results) -> str:
    """The greatest pressure under a footing, with what it is held against."""
    found = [c for c in results.checks if c.key in ("footing.soil", "footing.soil_lateral") and c.has_sizes]
    if not found:
        return ""
    worst = max(found, key=lambda c: c.severity)
    return f"; the most is {fmt(worst.demand, worst.unit)} of {fmt(worst.capacity, worst.unit)} under {worst.part}"


def project_blocks(results: Results) -> tuple[KeyValues, Statement]:
    """The platform in a few lines, and the outcome of its checks."""
    project, layout = results.project, results.path.layout
    title = project.title
    supports = []
    for kind in dict.fromkeys(s.kind for s in layout.supports):
        marks = [s.mark for s in layout.supports if s.kind == kind]
        supports.append(f"{len(marks)} {kind}{'s' * (len(marks) > 1)} ({', '.join(marks)})")
    trees = "; ".join(f"{t.mark}, {t.species}, {t.condition or 'condition not noted'}" for t in project.trees)
    pairs = (
        (
            "Platform",
            f"{title.project}: {layout.deck.area / 144:.1f} sq ft, floor "
            f"{feet_inches(project.platform.floor_height)} above grade",
        ),
        ("Site", title.site or "not given"),
        ("For", title.client or "not given"),
        ("Prepared by", title.prepared_by or "not given"),
        ("Checked by", title.checked_by or "nobody yet"),
        ("Stands on", "; ".join(supports)),
        ("Tree", trees or "none"),
        ("Framing", _framing(results)),
    )
    lines = [_short(line) for line in verdict_lines(results) if not line.startswith("Not calculated")]
    lines[-1:-1] = rated_alone_sentences(results, SHEETS)
    return KeyValues(pairs), Statement(StatementKind.READING, tuple(lines))


def _short(line: str) -> str:
    """A line of the verdict without the list of ratings, which has a table of its own in the brief."""
    return f"{line.partition(' (')[0]}." if line.startswith("By ratings") else line


def _framing(results: Results) -> str:
    project = results.project
    joists = [f"joists {j.mark} {j.section} at {feet_inches(j.spacing)}" for j in project.joists]
    beams = [f"{c.mark} {c.plies}-{c.section}" for c in project.beams]
    braces = [f"{b.mark} {b.plies}-{b.section}" for b in project.braces]
    rods = [f"{r.mark} {r.diameter:g} in" for r in project.crossed_rods]
    posts = [f"{name} {post.section}" for name, post in project.posts.items()]
    parts = {"": joists, "beams": beams, "posts": posts, "knee braces": braces, "crossed rods": rods}
    return "; ".join(f"{name} {', '.join(found)}" for name, found in parts.items() if found).strip()
