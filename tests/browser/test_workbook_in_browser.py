"""The workbook in a real browser, on the local page and in JupyterLab."""

from __future__ import annotations

import base64
import io
import re
import tomllib
from typing import Any

import pytest

ALL_PASS = re.compile(r"No check fails of \d+, (none is|\d+ is|\d+ are) open\.")


def open_section(page: Any, title: str) -> None:
    page.get_by_role("button", name=re.compile(rf"^▸ {title}(?! at one place)")).click()


def field(page: Any, label: str) -> Any:
    return page.get_by_label(label, exact=True).first


def state(page: Any) -> Any:
    return page.locator(".bw-state")


def fetched(page: Any, link: Any) -> bytes:
    """What the server gives the browser at a link of the page."""
    return base64.b64decode(page.evaluate(FETCH, link.get_attribute("href")))


FETCH = """async address => {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`${answer.status} ${address}`);
  const data = new Uint8Array(await answer.arrayBuffer());
  let text = '';
  for (let i = 0; i < data.length; i += 8192) text += String.fromCharCode(...data.subarray(i, i + 8192));
  return btoa(text);
}"""


def test_fail_undo_mend_add_and_save(server, opened, picture):
    page = opened(server)
    state(page).filter(has_text=ALL_PASS).wait_for()
    open_section(page, "Joists")
    field(page, "section").fill("2x6")
    state(page).filter(has_text="checks fail").wait_for()
    joists = page.locator(".bw-strip li", has_text="joists")
    assert "✗" in joists.inner_text()
    change = page.locator(".bw-worst .bw-change").first
    change.filter(has_text=re.compile(r"2x\d+ for J would bring it to")).wait_for()
    picture(page, f"fails-{server.folder.name}")
    page.get_by_role("button", name="Undo: section of J").click()
    state(page).filter(has_text=ALL_PASS).wait_for()
    assert field(page, "section").input_value() == "2x10"

    field(page, "spacing").fill("16 inchworms")
    wrong = page.locator(".bw-wrong", has_text="has a unit 'inchworms' that is not known")
    wrong.first.wait_for()
    assert field(page, "spacing").input_value() == "16 inchworms"
    assert "can't be used yet" in state(page).inner_text()
    picture(page, f"message-{server.folder.name}")
    field(page, "spacing").fill("16 in")
    state(page).filter(has_text=ALL_PASS).wait_for()

    open_section(page, "Supports")
    page.get_by_role("button", name="Add a support").click()
    page.locator(".bw-wrong", has_text="must be given").first.wait_for()
    field(page, "place in plan").fill("6 in, 114 in")
    page.locator("svg.bw-plan text", has_text="P3").wait_for()
    page.get_by_role("button", name="Save", exact=True).click()
    page.locator(".bw-notice", has_text="Saved as lookout.toml.").wait_for()
    saved = tomllib.loads(server.file.read_text(encoding="utf-8"))
    assert saved["support"][-1]["mark"] == "P3"
    assert saved["support"][-1]["at"] == ["6 in", "114 in"]
    assert "# A birdwatching lookout" in server.file.read_text(encoding="utf-8")
    assert server.strays == []  # no request left this machine


def test_a_killed_kernel_loses_nothing(server, opened):
    page = opened(server)
    open_section(page, "Joists")
    field(page, "section").fill("2x")
    page.locator(".bw-wrong", has_text="'2x' is not understood").first.wait_for()
    server.wait_until(
        lambda: list(server.folder.glob("lookout.autosave-*.toml")), "the work is kept beside the file"
    )
    server.kill_kernels()
    if server.is_page:
        server.go(page)
    else:
        page.context.close()
        page = opened(server, fresh=False)
    page.locator(".bw-notice", has_text="Unsaved work from before was taken up").wait_for()
    open_section(page, "Joists")
    assert field(page, "section").input_value() == "2x"
    page.get_by_role("button", name="Undo: unsaved work taken up").click()
    state(page).filter(has_text=ALL_PASS).wait_for()


def test_package_with_progress_and_links(server, opened, picture):
    pypdf = pytest.importorskip("pypdf")
    page = opened(server)
    page.get_by_role("button", name="Make the package").first.click()
    page.locator("button.bw-main").click()
    page.locator(".bw-meant", has_text=re.compile(r"Sheet ([3-9]|\d\d) of \d+")).wait_for()
    done, all_ = (page.locator(place).bounding_box() for place in (".progress-bar", ".progress"))
    assert all_["height"] > 8
    assert 0.02 < done["width"] / all_["width"] < 1
    picture(page, f"progress-{server.folder.name}")
    link = page.get_by_role("link", name="The package as PDF")
    link.wait_for(timeout=300_000)  # 171 pages, on whatever machine
    picture(page, f"package-{server.folder.name}")
    pdf = pypdf.PdfReader(io.BytesIO(fetched(page, link)))
    assert len(pdf.pages) > 10
    assert "Bur oak lookout" in pdf.pages[0].extract_text()
    html = fetched(page, page.get_by_role("link", name="one web page"))
    assert b"<math" in html


def _made(server) -> list[str]:
    """Files in the folder of packages."""
    return sorted(path.name for path in (server.folder / "build").rglob("*") if path.is_file())


def test_package_refused_then_cancelled(page_server, opened):
    page = opened(page_server)
    before = _made(page_server)  # what another test of this server left there
    open_section(page, "Loads")
    field(page, "live").fill("sixty")
    page.locator(".bw-wrong", has_text="is not understood").first.wait_for()
    page.get_by_role("button", name="Make the package").first.click()
    page.locator("button.bw-main").click()
    said = page.locator(".bw-loud").filter(has_text="lookout.toml, line")
    said.wait_for()
    assert "loads, live: 'sixty' is not understood" in said.inner_text()
    page.locator(".bw-said[role=status]").filter(has_text="lookout.toml, line").wait_for()

    page.get_by_role("button", name="Undo: live of loads").click()
    state(page).filter(has_text=ALL_PASS).wait_for()
    page.locator("button.bw-main").click()
    page.locator(".bw-meant", has_text=re.compile(r"Sheet \d+ of \d+")).wait_for()
    page.get_by_role("button", name="Cancel").click()
    page.locator(".bw-meant", has_text="Stopped. Nothing was written.").wait_for()
    assert _made(page_server) == before


def test_sheet_follows_its_inputs_and_the_part(page_server, opened, picture):
    page = opened(page_server)
    page.get_by_role("button", name="Sheet by sheet").click()
    page.get_by_role("button", name="joists", exact=True).click()
    page.get_by_role("heading", name=re.compile(r"^J\d+: bending$")).first.wait_for()
    assert page.locator(".bw-maths math").count() > 5
    field(page, "J: section").fill("2x8")
    page.get_by_role("button", name="hangers • changed").wait_for()
    page.locator(".bw-maths", has_text="13.14").first.wait_for()  # S of a 2x8, NDS Supplement 2018 Table 1B
    field(page, "Calculation for").select_option("J2")
    page.get_by_role("heading", name="J2: bending").first.wait_for()
    picture(page, "sheet-1280")


def test_file_changed_on_disk_is_noticed(page_server, opened):
    page = opened(page_server)
    open_section(page, "Title block")
    page_server.file.write_text(
        page_server.file.read_text(encoding="utf-8") + "# by hand\n", encoding="utf-8"
    )
    field(page, "site").fill("Elsewhere")
    page.locator(".bw-notice", has_text="was changed on disk since it was opened").wait_for()
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_role("button", name="Load it from disk").wait_for()
    assert page_server.file.read_text(encoding="utf-8").endswith("# by hand\n")
    page.get_by_role("button", name="Load it from disk").click()
    page.locator(".bw-notice", has_text="loaded again from disk").wait_for()


def test_keyboard_alone(page_server, opened):
    page = opened(page_server)
    press_tab_to(page, "▸ Joists")
    page.keyboard.press("Enter")
    field(page, "section").wait_for()
    press_tab_to(page, "section")
    page.keyboard.press("Control+A")
    page.keyboard.type("2x6")
    state(page).filter(has_text="checks fail").wait_for()
    press_tab_to(page, "Undo", back=True)
    page.keyboard.press("Enter")
    state(page).filter(has_text=ALL_PASS).wait_for()


def press_tab_to(page: Any, name: str, *, back: bool = False) -> None:
    """Press Tab until the thing with focus is named so."""
    for _ in range(150):
        page.keyboard.press("Shift+Tab" if back else "Tab")
        if page.evaluate(FOCUSED).startswith(name):
            return
    pytest.fail(f"Tab never reached {name!r}")


FOCUSED = """() => {
  const e = document.activeElement;
  return (e.labels && e.labels.length ? e.labels[0].textContent : e.textContent).trim();
}"""

UNNAMED = """() => [...document.querySelectorAll('.bw-app input, .bw-app select, .bw-app textarea, .bw-app button')]
  .filter(e => e.offsetParent && !(e.labels && e.labels.length && e.labels[0].textContent.trim())
    && !e.textContent.trim() && !e.getAttribute('aria-label'))
  .map(e => e.outerHTML.slice(0, 120))"""

FAINT = """() => {
  const parse = c => { const m = c.match(/[\\d.]+/g).map(Number); return {rgb: m.slice(0, 3), a: m[3] ?? 1}; };
  const linear = x => x <= .03928 ? x / 12.92 : ((x + .055) / 1.055) ** 2.4;
  const light = rgb => { const v = rgb.map(x => linear(x / 255));
    return .2126 * v[0] + .7152 * v[1] + .0722 * v[2]; };
  const ground = e => { for (; e; e = e.parentElement) { const c = parse(getComputedStyle(e).backgroundColor);
    if (c.a > .99) return c.rgb; } return [255, 255, 255]; };
  const found = [];
  for (const e of document.querySelectorAll('.bw-app *')) {
    const own = [...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim());
    if (!own || !e.offsetParent || e.tagName === 'OPTION' || e.closest('svg')) continue;
    const style = getComputedStyle(e);
    const [a, b] = [light(parse(style.color).rgb), light(ground(e))].sort((x, y) => y - x);
    const ratio = (a + .05) / (b + .05);
    if (ratio < 4.5 && !e.closest(':disabled')) found.push([ratio.toFixed(2), e.textContent.trim().slice(0, 40)]);
  }
  return found;
}"""


@pytest.mark.parametrize("width", [1280, 390])
def test_named_legible_and_not_wider_than_the_screen(page_server, opened, width, picture):
    # WCAG 2.2: 1.3.1 and 4.1.2 names of controls, 1.4.3 contrast 4.5:1, 1.4.10 reflow
    page = opened(page_server, width=width, height=844)
    for title in ("Title block", "Joists", "Supports", "Kinds of post"):
        open_section(page, title)
    field(page, "effective length factor K e").wait_for()
    field(page, "spacing").fill("16 inchworms")
    page.locator(".bw-wrong", has_text="inchworms").first.wait_for()
    picture(page, f"form-{width}")
    assert page.evaluate(UNNAMED) == []
    assert page.evaluate(FAINT) == []
    page.get_by_role("button", name="Sheet by sheet").click()
    page.locator(".bw-page table").first.wait_for()
    assert page.evaluate(FAINT) == []
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    assert page.evaluate(TOO_WIDE) == []


TOO_WIDE = """() => [...document.querySelectorAll('.bw-app *')].filter(e => e.offsetParent
  && !e.closest('.bw-scroll') && e.getBoundingClientRect().right > window.innerWidth + 1)
  .map(e => e.className || e.tagName)"""


def test_without_the_token_nothing_is_given_out(page_server, chromium):
    context = chromium.new_context()
    try:
        for place in ("", "voila/files/lookout.toml", "voila/files/build/lookout/package.pdf", "api/kernels"):
            answer = context.request.get(f"{page_server.address}/{place}")
            assert "/login" in answer.url
            assert "Bur oak" not in answer.text()
    finally:
        context.close()
