"""A post as it stands: height, timber, weight."""

from __future__ import annotations

from bolewright.platform.layout.wood_weight import timber_density
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Support
from bolewright.timber.material import DesignValues
from bolewright.timber.sections import Section, parse_section


def post_height(path: LoadPath, support: Support) -> float:
    """Height of a post's top above grade (in)."""
    return path.layout.seat_level(support.mark)


def post_timber(path: LoadPath, support: Support) -> tuple[Section, DesignValues]:
    """Section and reference values of a post."""
    post = path.layout.project.posts[support.post or ""]
    section = parse_section(post.section)
    return section, post.values(section)


def post_weight(path: LoadPath, support: Support) -> float:
    """Weight of the post above grade (lb)."""
    post = path.layout.project.posts[support.post or ""]
    section, values = post_timber(path, support)
    return timber_density(values, post.wet) * section.A / 144 * post_height(path, support) / 12
