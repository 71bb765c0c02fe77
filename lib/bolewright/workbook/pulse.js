// Watches over the link between what is seen and the kernel that worked it out. A beat is asked for all the time;
// while one is late, the verdict is struck and what stands beside it is greyed: nothing that is seen may look
// worked out when it is not. What is typed is kept in this browser until the kernel has surely taken it.

const BEAT = 400;   // ms between beats
const LATE = 1000;  // ms without an answer after which nothing seen is trusted
const REST = 2 * 60 * 60 * 1000; // ms without a touch after which the page gives its kernel up
const STORE = "bolewright/";

function baseOf() {
  const config = document.getElementById("jupyter-config-data");
  try { return JSON.parse(config.textContent).baseUrl || "/"; } catch { return "/"; }
}

async function reason(model) {
  const again = model.get("page")
    ? "Load the page again: work comes back, and what was typed since is offered."
    : "Choose Run All Cells in the Run menu: work comes back, and what was typed since is offered.";
  const gate = new AbortController();
  const timer = setTimeout(() => gate.abort(), 1500);
  try {
    const answer = await fetch(`${baseOf()}api/kernels/${model.get("kernel")}`,
      { cache: "no-store", credentials: "same-origin", signal: gate.signal });
    if (answer.status === 404) return `The kernel has ended. ${again}`;
    if (!answer.ok || answer.redirected) {
      return "The server was started again with another address: open the link that it printed.";
    }
    const state = (await answer.json()).execution_state;
    if (state === "busy") return "Still working on what was typed last. Wait: this goes by itself.";
    return `The kernel was restarted, has ended or hangs. ${again}`;
  } catch {
    return "The server does not answer: it was stopped, or the connection is cut. Start the workbook again and " +
      "open the link that it prints.";
  } finally { clearTimeout(timer); }
}

function keptInBrowser(model) {
  const tab = Math.random().toString(36).slice(2, 10);
  const items = new Map();
  const key = () => `${STORE}${model.get("file")}/${tab}`;
  const write = () => {
    try {
      if (items.size) localStorage.setItem(key(), JSON.stringify([...items.values()]));
      else localStorage.removeItem(key());
    } catch { /* a browser that keeps nothing: the side file on disk remains */ }
  };
  return {
    typed(target, settled) {
      const label = (target.labels?.[0]?.textContent || target.getAttribute("aria-label") || "").trim();
      const field = target.closest(".bw-field");
      const at = [...(field?.classList || [])].find((name) => name.startsWith("bw-at-")) || "";
      const id = at || label;
      if (!id) return;
      items.set(id, { at: at.slice(6), label, value: target.value, time: Date.now(), settled, rounds: 0 });
      write();
    },
    // Two whole rounds after the last key: an update that waited for the one before has been taken by then.
    answered(asked) {
      let changed = false;
      for (const [id, item] of items) {
        if (!item.settled || asked < item.time) continue;
        if (item.rounds === 0) { item.rounds = 1; item.time = Date.now(); continue; }
        items.delete(id);
        changed = true;
      }
      if (changed) write();
    },
    words: () => [...items.values()].map((item) => `${item.label}: ${item.value}`),
    // What earlier pages of this file left behind.
    left() {
      const found = [];
      const prefix = `${STORE}${model.get("file")}/`;
      try {
        for (const name of Object.keys(localStorage)) {
          if (!name.startsWith(prefix) || name === key()) continue;
          for (const item of JSON.parse(localStorage.getItem(name))) {
            if (Date.now() - item.time > 3000) found.push({ ...item, store: name });
          }
        }
      } catch { /* unreadable: nothing to offer */ }
      return found;
    },
    drop(names) { for (const name of names) if (name.startsWith(STORE)) localStorage.removeItem(name); },
  };
}

function decorate(root) {
  root.querySelectorAll(".bw-field").forEach((field) => {
    const input = field.querySelector("input, select, textarea");
    const note = field.lastElementChild;
    if (!input || !note || note.contains(input)) return;
    note.id ||= `bw-note-${Math.random().toString(36).slice(2)}`;
    const invalid = note.querySelector(".bw-wrong") ? "true" : "false";
    if (input.getAttribute("aria-describedby") !== note.id) input.setAttribute("aria-describedby", note.id);
    if (input.getAttribute("aria-invalid") !== invalid) input.setAttribute("aria-invalid", invalid);
  });
  root.querySelectorAll("button.bw-heading").forEach((button) => {
    const open = button.textContent.trim().startsWith("▾") ? "true" : "false";
    if (button.getAttribute("aria-expanded") !== open) button.setAttribute("aria-expanded", open);
  });
}

function render({ model, el }) {
  const banner = document.createElement("div");
  banner.className = "bw-cut-words";
  banner.hidden = true;
  const live = document.createElement("div");
  // The one region that is read out: it lasts, while what it says is written anew all over the page.
  live.className = "bw-hidden bw-said";
  live.setAttribute("role", "status");
  el.append(banner, live);

  const view = Math.random().toString(36).slice(2);
  const kept = keptInBrowser(model);
  let number = 0;
  let waiting = []; // beats asked for and not answered: [number, time]
  let cut = false;
  let over = false;
  let touched = Date.now();
  let asked = 0;
  let sent = 0;
  let root = null;
  let watch = null;
  let talk = 0;

  const say = () => {
    clearTimeout(talk);
    talk = setTimeout(() => {
      const words = [banner.hidden ? root?.querySelector(".bw-state")?.textContent : banner.textContent,
        document.activeElement?.closest(".bw-field")?.querySelector(".bw-wrong")?.textContent,
        ...[...(root?.querySelectorAll(".bw-notice, .bw-loud") || [])].map((e) => e.textContent)].filter(Boolean).join(" ");
      if (live.textContent !== words) live.textContent = words;
    }, 300);
  };

  const tell = (words) => {
    const held = kept.words();
    const text = `Not up to date, so nothing here holds now. ${words}`;
    banner.replaceChildren();
    const line = document.createElement("p");
    line.textContent = text;
    banner.append(line);
    if (held.length) {
      const list = document.createElement("p");
      list.textContent = `Kept in this browser: ${held.join("; ")}.`;
      banner.append(list);
    }
    if (model.get("page")) {
      const button = document.createElement("button");
      button.textContent = "Load the page again";
      button.onclick = () => location.reload();
      banner.append(button);
    }
    banner.hidden = false;
    say();
  };

  const strike = async () => {
    if (!cut) {
      cut = true;
      root?.classList.add("bw-cut");
      tell("The kernel has not answered for a second.");
    }
    if (over || Date.now() - asked < 1000) return;
    asked = Date.now();
    const words = await reason(model);
    if (cut && !over) tell(words);
  };

  const answer = (message) => {
    if (message?.kind !== "beat" || message.view !== view || over) return;
    const found = waiting.find(([n]) => n === message.number);
    waiting = waiting.filter(([n]) => n > message.number);
    if (found) kept.answered(found[1]);
    if (cut && !waiting.some(([, time]) => Date.now() - time > LATE)) {
      cut = false;
      root?.classList.remove("bw-cut");
      banner.hidden = true;
      say();
    }
  };

  const rest = () => {
    over = true;
    navigator.sendBeacon(`${baseOf()}voila/api/shutdown/${model.get("kernel")}`);
    cut = true;
    root?.classList.add("bw-cut");
    tell("The page was not used for two hours, so its kernel was ended. Work is kept: load the page again.");
  };

  const tick = () => {
    const here = el.closest(".bw-app");
    if (here && here !== root) {
      root = here;
      watch?.disconnect();
      watch = new MutationObserver(() => { decorate(root); say(); });
      watch.observe(root, { subtree: true, childList: true, characterData: true });
      decorate(root);
      root.addEventListener("input", (event) => { touched = Date.now(); kept.typed(event.target, !lazy(event.target)); }, true);
      root.addEventListener("change", (event) => { touched = Date.now(); kept.typed(event.target, true); }, true);
      root.addEventListener("pointerdown", () => { touched = Date.now(); }, true);
      const left = kept.left();
      if (left.length) model.send({ kind: "kept", items: left });
    }
    if (over) return;
    if (model.get("page") && Date.now() - touched > REST) { rest(); return; }
    if (waiting.some(([, time]) => Date.now() - time > LATE)) strike();
    if (waiting.length < 3 || Date.now() - sent > 2000) {
      number += 1;
      sent = Date.now();
      waiting = [...waiting.slice(-3), [number, sent]];
      try { model.send({ kind: "beat", view, number }); } catch { /* no way to the kernel: it is late soon */ }
    }
  };

  const message = (words) => {
    if (words?.kind === "drop") kept.drop(words.stores);
    else answer(words);
  };
  const leave = () => {
    if (model.get("page")) navigator.sendBeacon(`${baseOf()}voila/api/shutdown/${model.get("kernel")}`);
  };
  model.on("msg:custom", message);
  window.addEventListener("pagehide", leave);
  const timer = setInterval(tick, BEAT);
  tick();
  return () => {
    clearInterval(timer);
    watch?.disconnect();
    window.removeEventListener("pagehide", leave);
    model.off("msg:custom", message);
  };
}

// Fields whose value goes to the kernel only when they are left.
function lazy(target) { return Boolean(target.closest(".bw-lazy")); }

export default { render };
