// Turns a view of solids: drag or arrow keys, parts by pointer, tap or list. No library, no request.
(() => {
  const NS = "http://www.w3.org/2000/svg";
  const LABEL = {
    "font-size": 2.2, "font-weight": "bold", "text-anchor": "middle", "pointer-events": "none", fill: "#1f2a30",
    stroke: "#ffffff", "stroke-width": 0.6, "paint-order": "stroke",
  };
  const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const mean = (v) => [0, 1, 2].map((k) => v.reduce((s, p) => s + p[k], 0) / v.length);
  const make = (tag, words, parent) => {
    const made = document.createElement(tag);
    if (words) made.textContent = words;
    if (parent) parent.append(made);
    return made;
  };
  const plane = (v, face, inside) => {
    const n = [0, 0, 0];
    face.forEach((i, k) => {
      const a = v[i], b = v[face[(k + 1) % face.length]];
      n[0] += (a[1] - b[1]) * (a[2] + b[2]);
      n[1] += (a[2] - b[2]) * (a[0] + b[0]);
      n[2] += (a[0] - b[0]) * (a[1] + b[1]);
    });
    const size = Math.hypot(...n) || 1, sign = dot(n, inside) > dot(n, v[face[0]]) ? -1 : 1;
    const unit = n.map((c) => (sign * c) / size);
    return { n: unit, d: dot(unit, v[face[0]]) };
  };
  const shade = (fill, n) => {
    const light = 0.86 + 0.14 * Math.max(0, 0.3 * n[0] - 0.2 * n[1] + 0.9 * n[2]);
    return "rgb(" + [1, 3, 5].map((i) => Math.round(parseInt(fill.slice(i, i + 2), 16) * light)) + ")";
  };
  const order = (solids, toward) => {
    const outside = (p, v) => v.every((q) => dot(p.n, q) - p.d > -0.02);
    const before = (a, b) => a.planes.some((p) => dot(p.n, toward) > 1e-9 && outside(p, b.v)) ||
      b.planes.some((p) => dot(p.n, toward) < -1e-9 && outside(p, a.v));
    const waiting = [...solids].sort((a, b) => dot(a.c, toward) - dot(b.c, toward));
    const done = [], seen = new Set();
    const visit = (s) => {
      seen.add(s);
      for (const t of waiting) if (t !== s && !seen.has(t) && before(t, s) && !before(s, t)) visit(t);
      done.push(s);
    };
    for (const s of waiting) if (!seen.has(s)) visit(s);
    return done;
  };
  const start = (host) => {
    host.dataset.on = "1";
    const scene = JSON.parse(host.dataset.scene), svg = host.querySelector("svg");
    let { yaw, pitch } = scene, chosen = -1, deck = false, held = null, waiting = false;
    for (const s of scene.solids) {
      s.c = mean(s.v);
      s.planes = s.f.map((face) => plane(s.v, face, s.c));
    }
    const all = scene.solids.flatMap((s) => s.v);
    const middle = [0, 1, 2].map((k) => (Math.min(...all.map((p) => p[k])) + Math.max(...all.map((p) => p[k]))) / 2);
    const reach = Math.max(...all.map((p) => Math.hypot(...p.map((c, k) => c - middle[k]))));
    const bar = make("p", "", host), said = make("div", "", host);
    const label = make("label", "Part ", bar), list = make("select", "", label);
    make("option", "none", list).value = "-1";
    scene.parts.forEach((part, i) => {
      make("option", [part.name, part.ratio, part.mark].filter(Boolean).join(" "), list).value = i;
    });
    const box = make("label", " Decking ", bar), tick = make("input", "", box);
    tick.type = "checkbox";
    said.setAttribute("role", "status");
    const key = make("p", "", host);
    for (const [fill, words] of scene.key) {
      const item = make("span", "", key), swatch = make("span", "", item);
      item.style.cssText = "display:inline-block;white-space:nowrap;margin-right:.9em";
      swatch.style.cssText = `display:inline-block;width:.9em;height:.9em;margin-right:.3em;border:1px solid #1f2a30;background:${fill}`;
      item.append(words);
    }
    const tell = () => {
      said.textContent = "";
      const part = scene.parts[chosen];
      if (!part) return;
      make("strong", part.name + ", " + part.what, said);
      if (!part.checks.length) make("span", ": no check of its own", said);
      const rows = make("ul", "", said);
      for (const check of part.checks) make("li", check.filter(Boolean).join(": "), rows);
    };
    const draw = () => {
      waiting = false;
      const a = (yaw * Math.PI) / 180, b = (pitch * Math.PI) / 180;
      const right = [Math.cos(a), Math.sin(a), 0];
      const toward = [Math.sin(a) * Math.cos(b), -Math.cos(a) * Math.cos(b), Math.sin(b)];
      const up = [-Math.sin(a) * Math.sin(b), Math.cos(a) * Math.sin(b), Math.cos(b)];
      const put = (p) => {
        const q = p.map((c, k) => c - middle[k]);
        return (50 + (37 * dot(right, q)) / reach).toFixed(2) + "," + (38 - (37 * dot(up, q)) / reach).toFixed(2);
      };
      const shapes = document.createDocumentFragment();
      for (const s of order(scene.solids.filter((t) => deck || !t.deck), toward)) {
        s.f.forEach((face, i) => {
          if (dot(s.planes[i].n, toward) < 1e-6) return;
          const shape = document.createElementNS(NS, "polygon");
          shape.setAttribute("points", face.map((k) => put(s.v[k])).join(" "));
          const fill = shade(scene.parts[s.p].fill, s.planes[i].n);
          shape.setAttribute("fill", fill);
          const edge = s.f.length > 12 && face.length === 4 ? fill : "#1f2a30";
          shape.setAttribute("stroke", s.p === chosen ? "#b4561a" : edge);
          shape.setAttribute("stroke-width", s.p === chosen ? "0.55" : "0.12");
          shape.setAttribute("stroke-linejoin", "round");
          shape.dataset.p = s.p;
          shapes.append(shape);
        });
      }
      const named = new Set();
      for (const s of scene.solids) {
        if (s.deck || named.has(s.p) || !(s.m || s.p === chosen)) continue;
        named.add(s.p);
        const text = document.createElementNS(NS, "text"), [x, y] = put(s.l).split(",");
        for (const [name, value] of Object.entries({ x, y, ...LABEL })) text.setAttribute(name, value);
        text.textContent = scene.parts[s.p].name;
        shapes.append(text);
      }
      svg.querySelectorAll(":scope > :not(title)").forEach((old) => old.remove());
      svg.append(shapes);
    };
    const again = () => {
      if (!waiting) requestAnimationFrame(draw);
      waiting = true;
    };
    const choose = (i) => {
      if (i === chosen) return;
      chosen = i;
      list.value = i;
      tell();
      again();
    };
    svg.setAttribute("viewBox", "0 0 100 76");
    svg.setAttribute("width", "100%");
    svg.removeAttribute("height");
    svg.setAttribute("tabindex", "0");
    svg.style.touchAction = "none"; // a finger on the view turns it; the page is scrolled beside it
    svg.style.maxHeight = "75vh";
    svg.style.cursor = "grab";
    list.onchange = () => choose(+list.value);
    tick.onchange = () => { deck = tick.checked; again(); };
    svg.onpointerdown = (e) => {
      held = [e.clientX, e.clientY];
      if (e.pointerType !== "mouse") svg.setPointerCapture(e.pointerId);
    };
    for (const over of ["pointerup", "pointercancel"]) window.addEventListener(over, () => { held = null; });
    svg.onpointermove = (e) => {
      if (held && e.buttons) {
        yaw -= (e.clientX - held[0]) * 0.4;
        pitch = Math.max(-85, Math.min(85, pitch + (e.clientY - held[1]) * 0.4));
        held = [e.clientX, e.clientY];
        again();
      } else if (e.pointerType === "mouse" && e.target.dataset.p) choose(+e.target.dataset.p);
    };
    svg.onclick = (e) => { if (e.target.dataset.p) choose(+e.target.dataset.p); };
    svg.onkeydown = (e) => {
      const step = { ArrowLeft: [10, 0], ArrowRight: [-10, 0], ArrowUp: [0, 10], ArrowDown: [0, -10] }[e.key];
      if (!step) return;
      e.preventDefault();
      yaw += step[0];
      pitch = Math.max(-85, Math.min(85, pitch + step[1]));
      again();
    };
    draw();
  };
  // The still picture beside it is for a notebook that is not trusted, where no script runs.
  document.querySelectorAll("[data-still]").forEach((still) => still.remove());
  document.querySelectorAll("[data-scene]:not([data-on])").forEach(start);
})();
