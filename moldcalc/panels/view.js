// Draws one panel and passes on what the maker moves or types. Nothing is worked out here.
let panels = 0;

const make = (tag, className, parent) => {
  const made = document.createElement(tag);
  if (className) made.className = className;
  if (parent) parent.append(made);
  return made;
};
const put = (node, words) => { if (node.textContent !== words) node.textContent = words; };

/** One change at a time is under way; of those that come meanwhile the last of each entry is kept. */
function sender(model, waitingLong) {
  const waiting = new Map();
  let sent = null;
  let count = 0;
  let guard = 0;
  const view = Math.random().toString(36).slice(2);
  const next = () => {
    if (sent !== null || !waiting.size) return;
    const [path, message] = waiting.entries().next().value;
    waiting.delete(path);
    sent = `${view}-${++count}`;
    clearTimeout(guard);
    guard = setTimeout(() => { sent = null; waitingLong(); next(); }, 5000);
    model.send({ ...message, path, id: sent });
  };
  return {
    send(path, message) {
      const before = waiting.get(path);
      waiting.delete(path);
      waiting.set(path, { ...message, settled: message.settled || Boolean(before?.settled && before.number === message.number) });
      next();
    },
    heard() { if (model.get("heard") === sent) { sent = null; clearTimeout(guard); next(); } },
    // whether the kernel's values are older than what stands in a control
    behind: (path) => waiting.has(path) || (sent !== null && model.get("heard") !== sent),
  };
}

/** The control of one entry; `show` brings it to what the kernel says without touching what is being moved or typed. */
function control(field, uid, send) {
  const id = `${uid}-${field.path.replaceAll(".", "-")}`;
  const box = make("div", "mc-entry");
  const label = make("label", "", box);
  label.id = `${id}-label`;
  const row = make("div", "mc-row", box);
  let range = null;
  let dirty = false;
  let moving = false;
  let main;
  if (field.kind === "number") {
    range = make("input", "", row);
    range.type = "range";
    // JupyterLab takes arrow keys for itself (they fold headings) unless the very element with the focus asks it not to.
    range.dataset.lmSuppressShortcuts = "true";
    range.id = `${id}-range`;
    const moved = (settled) => {
      dirty = false;
      moving = !settled;
      send(field.path, { number: Number(range.value), settled });
    };
    range.addEventListener("input", () => moved(false));
    range.addEventListener("change", () => moved(true));
  }
  if (field.kind === "select") {
    main = make("select", "", row);
    main.dataset.lmSuppressShortcuts = "true";
    main.addEventListener("change", () => send(field.path, { text: main.value, settled: true }));
  } else {
    main = make("input", field.kind === "number" ? "" : "mc-wide", row);
    main.type = "text";
    main.autocomplete = "off";
    main.spellcheck = false;
    main.addEventListener("input", () => { dirty = true; });
    main.addEventListener("change", () => { dirty = false; send(field.path, { text: main.value, settled: true }); });
  }
  main.id = id;
  label.htmlFor = id;
  const error = make("span", "mc-error", box);
  error.id = `${id}-error`;
  error.setAttribute("role", "alert");
  const help = make("span", "mc-help", box);
  help.id = `${id}-help`;
  main.setAttribute("aria-describedby", `${error.id} ${help.id}`);
  let offered = "";

  const show = (now, behind) => {
    put(label, now.label);
    put(help, [now.hint, now.help].filter(Boolean).join(". "));
    put(error, now.error);
    main.setAttribute("aria-invalid", now.error ? "true" : "false");
    if (range) {
      range.setAttribute("aria-label", `${now.label}, slider`);
      range.setAttribute("aria-valuetext", now.text || "not given");
      if (!behind && !(moving && document.activeElement === range)) {
        range.min = now.min; range.max = now.max; range.step = "any"; range.value = now.number; range.step = now.step;
      }
    }
    if (main.tagName === "SELECT") {
      const key = JSON.stringify(now.choices);
      if (offered !== key) {
        offered = key;
        main.replaceChildren(...now.choices.map((choice) => new Option(choice.label, choice.value)));
      }
      if (!behind) main.value = now.text;
    } else if (!dirty && main.value !== now.text) {
      main.value = now.text;
    }
  };
  return { box, show };
}

function render({ model, el }) {
  const uid = `mc${++panels}`;
  const out = sender(model, () => put(note, "No answer from the calculation yet; it may be busy with another cell."));
  el.classList.add("mc-panel");
  const sheet = make("section", "mc-sheet", el);
  sheet.setAttribute("aria-label", `Panel: ${model.get("stage")}`);
  const head = make("div", "mc-head", sheet);
  const answer = make("p", "mc-answer", head);
  answer.setAttribute("role", "status");
  answer.setAttribute("aria-live", "polite");
  const band = make("p", "mc-band", head);
  const lost = make("p", "mc-lost", head);
  lost.setAttribute("role", "alert");
  put(lost, "This panel has lost its calculation. Run the chapter again.");
  const output = make("div", "mc-out", sheet);
  const pictures = make("div", "mc-pictures", output);
  const cautions = make("ul", "mc-cautions mc-none", output);
  cautions.setAttribute("aria-label", "Cautions");
  const results = make("table", "mc-results", output);
  results.setAttribute("aria-label", "Results");
  const body = make("tbody", "", results);
  const entries = make("div", "mc-entries", sheet);

  const groups = {};
  for (const [name, words] of [["measured", "What you measured"], ["chosen", "What you choose"]]) {
    groups[name] = make("fieldset", "", entries);
    put(make("legend", "", groups[name]), words);
  }
  const units = make("fieldset", "mc-units", entries);
  put(make("legend", "", units), "Units");
  const radios = [["metric", "metric"], ["us", "US customary"]].map(([value, words]) => {
    const label = make("label", "", units);
    const radio = make("input", "", label);
    radio.type = "radio"; radio.name = `${uid}-units`; radio.value = value;
    radio.addEventListener("change", () => out.send("start.units", { text: value, settled: true }));
    label.append(words);
    return radio;
  });
  const reset = make("button", "mc-reset", entries);
  reset.type = "button";
  put(reset, "Back to where it started");
  reset.addEventListener("click", () => out.send("", { reset: true, settled: true }));
  const note = make("p", "mc-note", entries);
  note.setAttribute("role", "status");

  let controls = new Map();
  const showEntries = () => {
    const fields = model.get("fields");
    const kept = new Map();
    for (const field of fields) {
      const key = `${field.path} ${field.kind}`;
      let made = controls.get(key);
      if (!made) {
        made = control(field, uid, out.send);
        groups[field.group].append(made.box);
      }
      kept.set(key, made);
      made.show(field, out.behind(field.path));
    }
    for (const [key, made] of controls) if (!kept.has(key)) made.box.remove();
    controls = kept;
    for (const name of Object.keys(groups)) groups[name].hidden = !fields.some((field) => field.group === name);
    radios.forEach((radio) => { radio.checked = radio.value === model.get("system"); });
    put(note, model.get("note"));
  };

  const showPictures = () => {
    const wanted = model.get("pictures");
    while (pictures.children.length > wanted.length) pictures.lastElementChild.remove();
    wanted.forEach((picture, place) => {
      let figure = pictures.children[place];
      if (!figure) {
        figure = make("figure", "", pictures);
        make("div", "", figure);
        make("figcaption", "", figure);
      }
      // pattern names are made this panel's own, for a page may hold the same picture twice
      const svg = picture.svg.replaceAll("mc-hatch-", `${uid}-hatch-`);
      if (figure.drawn !== svg) { figure.drawn = svg; figure.firstChild.innerHTML = svg; }
      put(figure.lastChild, picture.caption);
    });
  };

  const showCautions = () => {
    const wanted = model.get("cautions");
    // once there was one, its place is kept: the table under it does not jump
    if (wanted.length) cautions.classList.remove("mc-none");
    while (cautions.children.length > wanted.length) cautions.lastElementChild.remove();
    wanted.forEach((caution, place) => {
      let item = cautions.children[place];
      if (!item) {
        item = make("li", "", cautions);
        make("b", "", item);
        make("span", "", item);
      }
      item.className = caution.kind === "care" ? "mc-care" : "mc-check";
      put(item.firstChild, caution.kind === "care" ? "Take care" : "Check");
      put(item.lastChild, caution.text);
    });
  };

  const showResults = () => {
    const wanted = model.get("results");
    while (body.children.length > wanted.length) body.lastElementChild.remove();
    wanted.forEach((result, place) => {
      let row = body.children[place];
      if (!row) {
        row = make("tr", "", body);
        const name = make("th", "", row);
        name.scope = "row";
        make("span", "", name);
        make("small", "", name);
        const value = make("td", "", row);
        make("strong", "", value);
        make("small", "", value);
      }
      put(row.children[0].children[0], result.label);
      put(row.children[0].children[1], result.why);
      put(row.children[1].children[0], result.value);
      put(row.children[1].children[1], result.band);
    });
  };

  const show = () => {
    out.heard();
    const html = model.get("answer");
    if (answer.drawn !== html) { answer.drawn = html; answer.innerHTML = html; }
    const below = model.get("band");
    if (band.drawn !== below) { band.drawn = below; band.innerHTML = below; }
    sheet.classList.toggle("mc-old", model.get("old"));
    showPictures();
    showCautions();
    showResults();
    showEntries();
  };
  // Jupyter marks its own widgets when the kernel is gone, but not those of anywidget: so this one marks itself.
  const checkLife = async () => {
    let alive = false;
    try {
      alive = (await model.widget_manager.get_model(model.get("own_id"))).comm_live;
    } catch { /* a model that can't be found is gone */ }
    el.classList.toggle("jupyter-widgets-disconnected", !alive);
  };
  model.on("change", show);
  model.on("comm_live_update", checkLife);
  show();
  return () => {
    model.off("change", show);
    model.off("comm_live_update", checkLife);
  };
}

export default { render };
