// JupyterLab opens a notebook without running it. This runs the workbook's own notebooks once when they are opened,
// so that the form is there ready to use. It is a prebuilt extension written by hand: no bundler, no dependency.
//
// Opening a notebook must never run what somebody else wrote in it. A notebook is started only when every line of
// its code is one of these, which do no more than show the workbook.
(() => {
  const NAME = '"[\\w .-]+\\.toml"';
  const OWN = [
    /^from bolewright\.workbook import show$/,
    /^from bolewright\.workbook\.explorer import open_explorer$/,
    /^from bolewright\.workbook\.lessons import open_lessons$/,
    new RegExp(`^project = ${NAME}$`),
    new RegExp(`^show\\(${NAME}\\)$`),
    /^explorer = open_explorer\(project\)$/,
    /^explorer(\.follow\("[\w ./'-]*", "[\w ./'-]*", "[\w .]*"\))?$/,
    /^open_lessons\(project\)$/,
  ];
  const isOwn = (line) => !line.trim() || OWN.some((form) => form.test(line));

  function startable(model) {
    const cells = [...model.cells].filter((cell) => cell.type === "code");
    return cells.length > 0 && cells.every((cell) => cell.sharedModel.getSource().split("\n").every(isOwn));
  }

  async function start(app, panel, started) {
    if (!panel || started.has(panel) || !panel.context || !panel.content || !panel.sessionContext) return;
    started.add(panel);
    await panel.context.ready;
    if (!panel.context.model.cells || !startable(panel.context.model)) return;
    await panel.sessionContext.ready;
    if (panel.isDisposed) return;
    app.shell.activateById(panel.id);
    app.shell.collapseLeft?.();
    await app.commands.execute("notebook:run-all-cells");
    panel.node.dataset.bolewrightStarted = "yes";
  }

  const plugin = {
    id: "bolewright-start:plugin",
    description: "Runs the workbook's own notebooks once when they are opened.",
    autoStart: true,
    activate: (app) => {
      const started = new WeakSet();
      app.restored.then(() => {
        start(app, app.shell.currentWidget, started);
        app.shell.currentChanged?.connect((_, change) => start(app, change.newValue, started));
      });
    },
  };

  window._JUPYTERLAB = window._JUPYTERLAB || {};
  window._JUPYTERLAB["bolewright-start"] = {
    init: () => undefined,
    get: () => Promise.resolve(() => ({ __esModule: true, default: plugin })),
  };
})();
