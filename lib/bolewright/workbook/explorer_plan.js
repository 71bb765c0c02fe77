// A plan on which a load is clicked, dragged or moved by the arrow keys: a person to a place, a crowd as a whole or
// drawn anew from corner to corner, a snow drift against an edge and out to a width. The kernel draws and decides;
// this only says where it was pressed, where the pointer is now, and which gesture that belongs to.
// One place is asked for at a time: while the kernel works, only the newest place waits.

const STEP = 1;   // inches for an arrow key
const STRIDE = 12; // with Shift

function render({ model, el }) {
  const host = document.createElement("div");
  host.className = "bw-explorer-plan";
  host.tabIndex = 0;
  host.setAttribute("role", "application");
  host.setAttribute("aria-roledescription", "plan");
  el.appendChild(host);

  let busy = false;
  let newest = null;
  let pressed = null;
  let gesture = model.get("gesture");

  const draw = () => { host.innerHTML = model.get("svg"); };
  const name = () => { host.setAttribute("aria-label", model.get("label")); };

  const flush = () => {
    if (busy || newest === null) return;
    busy = true;
    model.set("press", newest.press);
    model.set("at", newest.at);
    model.set("gesture", newest.gesture);
    model.set("asked", model.get("asked") + 1);
    newest = null;
    model.save_changes();
  };

  const go = (at) => {
    newest = { press: pressed, at, gesture };
    const dot = host.querySelector(".bw-person");
    if (dot) { dot.setAttribute("cx", at[0]); dot.setAttribute("cy", -at[1]); }
    flush();
  };

  const place = (event) => {
    const svg = host.querySelector("svg");
    if (!svg) return null;
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    return [Math.round(at.x * 4) / 4, Math.round(-at.y * 4) / 4];
  };

  host.addEventListener("pointerdown", (event) => {
    if (event.button !== 0 || !(pressed = place(event))) return;
    gesture += 1;
    host.setPointerCapture(event.pointerId);
    host.focus({ preventScroll: true });
    go(pressed);
    event.preventDefault();
  });
  host.addEventListener("pointermove", (event) => {
    const at = pressed && place(event);
    if (at) go(at);
  });
  const stop = () => { pressed = null; };
  host.addEventListener("pointerup", stop);
  host.addEventListener("pointercancel", stop);

  host.addEventListener("keydown", (event) => {
    const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
    const way = ways[event.key];
    if (!way || !model.get("movable")) return;
    const step = event.shiftKey ? STRIDE : STEP;
    const from = newest ? newest.at : model.get("at");
    pressed = newest ? newest.press : from;
    if (!newest) gesture += 1;
    go([from[0] + step * way[0], from[1] + step * way[1]]);
    pressed = null;
    event.preventDefault();
    event.stopPropagation();
  });

  const answered = () => { busy = false; flush(); };
  model.on("change:svg", draw);
  model.on("change:label", name);
  model.on("change:answered", answered);
  draw();
  name();
  return () => {
    model.off("change:svg", draw);
    model.off("change:label", name);
    model.off("change:answered", answered);
  };
}

export default { render };
