"""The kinds of part that give actions to the framing; importing a module here lists its function."""

from bolewright.platform.layout import guard_actions as guard_actions
from bolewright.platform.layout import hatches as hatches
from bolewright.platform.layout import ladders as ladders
from bolewright.platform.layout import point_loads as point_loads
from bolewright.platform.layout import stair_loads as stair_loads
