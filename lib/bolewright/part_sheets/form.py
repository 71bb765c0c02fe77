"""The form of a part: the result, a field for each input with its fault beside it, print, the drawings."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING, Any

import ipywidgets as widgets
from IPython.core.error import UsageError

from bolewright.part_sheets.inputs import Asked, Inputs, PartError, asked_of
from bolewright.part_sheets.sheet import example_block, limit_block, not_checked_block, verdict_block
from bolewright.rendering import palette
from bolewright.status import Status

if TYPE_CHECKING:
    from bolewright.part_sheets.notebook import Part

_FEW = 8  # choices in a list that opens; species are typed
_STRUCK = (
    '<div class="bw-struck" style="text-decoration:line-through;opacity:.55" '
    'aria-label="last result, not valid for what is typed now">{}</div>'
)
_HIDDEN = (
    '<div class="bw-hidden"><p>The drawings follow when every input can be used.</p>'
    '<div aria-hidden="true" style="visibility:hidden">{}</div></div>'
)
_AFTER = "The cells below take these inputs when all cells are run again (Run, Run All Cells)."
_OVER = (
    "Typed here in place of what the first cell says, and kept until the kernel stops. To store it with the notebook, "
    "change there:"
)


def form_of(part: Part) -> widgets.VBox:
    """The form; ``part.sheet`` is always the last one that could be worked out."""
    return _Form(part).box


class _Form:
    def __init__(self, part: Part) -> None:
        self.part = part
        self.quiet = False
        self.fields: dict[str, Any] = {}
        self.faults: dict[str, widgets.HTML] = {}
        self.whole = widgets.HTML()
        self.result, self.drawn = widgets.HTML(), widgets.HTML()
        self.note = widgets.HTML()
        rows = [self._row(asked) for asked in asked_of(part.kind.model)]
        self.example = widgets.ToggleButton(
            value=bool(example_block(part.sheet)),
            description=part.kind.example.name,
            layout=widgets.Layout(width="auto"),
        )
        self.example.tooltip = part.kind.example.source
        self.example.observe(self._switched, "value")
        self.out = widgets.Text(
            f"{part.kind.name}.pdf", description="File", layout=widgets.Layout(width="20em")
        )
        self.blank = widgets.Checkbox(False, description="numbers blank", indent=False)
        self.button = widgets.Button(description="Print", layout=widgets.Layout(width="6em"))
        self.button.on_click(self._print)
        self.printed = widgets.HTML()
        print_row = widgets.HBox([self.out, self.blank, self.button, self.printed])
        cautions = widgets.HTML(not_checked_block(part.kind)._repr_mimebundle_()["text/html"])
        shown = (self.result, self.whole, *rows, self.note, print_row, self.drawn, cautions)
        self.box = widgets.VBox([self.example, *shown])
        self.box.add_class("bw-part-form")
        self._changed()

    def _row(self, asked: Asked) -> widgets.HBox:
        text = self.part.typed[asked.name]
        look: dict[str, Any] = {
            "description": asked.title,
            "style": {"description_width": "14em"},
            "layout": widgets.Layout(width="31em"),
        }
        field: Any
        if text in asked.choices and len(asked.choices) <= _FEW:
            field = widgets.Dropdown(options=asked.choices, value=text, **look)
        else:
            field = widgets.Text(text, continuous_update=True, **look)
        field.tooltip = f"{asked.help} Allowed: {asked.allowed}." if asked.allowed else asked.help
        field.observe(lambda change: self._changed(), "value")
        self.fields[asked.name] = field
        self.faults[asked.name] = widgets.HTML()
        self.faults[asked.name].add_class("bw-part-fault")
        return widgets.HBox([field, self.faults[asked.name]])

    def _switched(self, change: Any) -> None:
        """The published example's inputs, or what the first cell says, else the defaults."""
        texts = {a.name: a.default for a in asked_of(self.part.kind.model)}
        if change["new"]:
            texts |= self.part.kind.example.inputs
        elif not self.part.example:
            texts |= self.part.cell
        self.quiet = True
        for name, text in texts.items():
            if name not in Inputs.model_fields:
                self.fields[name].value = text
        self.quiet = False
        self._changed()

    def _changed(self) -> None:
        if self.quiet:
            return
        found: dict[str, str] = {}
        try:
            self.part.change({name: field.value for name, field in self.fields.items()})
        except PartError as error:
            found = error.faults
        for name, place in self.faults.items():
            place.value = _fault(found.get(name, ""))
        self.whole.value = _fault(found.get("", ""))
        result, drawn = _result(self.part), _drawn(self.part)
        self.result.value = _STRUCK.format(result) if found else result
        self.drawn.value = _HIDDEN.format(drawn) if found else drawn
        self.note.value = _note(self.part)
        self.button.disabled = bool(found)
        self.printed.value = ""

    def _print(self, _: Any) -> None:
        try:
            path = self.part.print_to(self.out.value.strip(), blank=self.blank.value)
        except UsageError as error:
            self.printed.value = _fault(str(error))
            return
        self.printed.value = f"Written: {escape(str(path))}"


def _fault(words: str) -> str:
    colour = Status.FAILS.colour
    return f'<span role="alert" style="color:{colour}">✗ {escape(words)}</span>' if words else ""


def _result(part: Part) -> str:
    sheet = part.sheet
    blocks = (verdict_block(sheet.limits), limit_block(sheet.limits), *example_block(sheet))
    return "".join(block._repr_mimebundle_()["text/html"] for block in blocks)


def _drawn(part: Part) -> str:
    sheet = part.sheet
    figures = part.kind.figures(sheet.inputs, sheet.given, sheet.values, False)
    return "".join(f'<div role="img" aria-label="{escape(f.alt)}">{f.svg}</div>' for f in figures)


def _note(part: Part) -> str:
    """What the form holds that the first cell does not, as lines to put there."""
    lines = "".join(
        f"<div><code>{escape(f'{name} = {text!r}')}</code></div>" for name, text in part.over.items()
    )
    words = f"<p>{_AFTER}</p>" + (f"<p>{_OVER}</p>{lines}" if lines else "")
    return f'<div class="bw-typed" style="color:{palette.SOFT_INK}">{words}</div>'
