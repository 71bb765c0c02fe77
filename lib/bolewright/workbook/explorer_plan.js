// A plan on which a person is dragged, clicked or moved by the arrow keys. The kernel draws; this only says where.
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
  let dragging = false;

  const draw = () => { host.innerHTML = model.get("svg"); };
  const name = () => { host.setAttribute("aria-label", model.get("label")); };

  const flush = () => {
    if (busy || newest === null) return;
    busy = true;
    model.set("at", newest);
    model.set("asked", model.get("asked") + 1);
    newest = null;
    model.save_changes();
  };

  const go = (x, y) => {
    newest = [Math.round(x * 4) / 4, Math.round(y * 4) / 4];
    const dot = host.querySelector(".bw-person");
    if (dot) { dot.setAttribute("cx", newest[0]); dot.setAttribute("cy", -newest[1]); }
    flush();
  };

  const pointed = (event) => {
    const svg = host.querySelector("svg");
    if (!svg) return;
    const place = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    go(place.x, -place.y);
  };

  host.addEventListener("pointerdown", (event) => {
    if (!model.get("movable") || event.button !== 0) return;
    dragging = true;
    host.setPointerCapture(event.pointerId);
    host.focus({ preventScroll: true });
    pointed(event);
    event.preventDefault();
  });
  host.addEventListener("pointermove", (event) => { if (dragging) pointed(event); });
  const stop = () => { dragging = false; };
  host.addEventListener("pointerup", stop);
  host.addEventListener("pointercancel", stop);

  host.addEventListener("keydown", (event) => {
    const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
    const way = ways[event.key];
    if (!way || !model.get("movable")) return;
    const step = event.shiftKey ? STRIDE : STEP;
    const from = newest || model.get("at");
    go(from[0] + step * way[0], from[1] + step * way[1]);
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
