// Draws one panel and passes on what the maker moves or types. Nothing is worked out here.
let panels = 0;

const make = (tag, className, parent) => {
  const made = document.createElement(tag);
  if (className) made.className = className;
  if (parent) parent.append(made);
  return made;
};
// What is already so is not set again, and a text node stays: the less changes, the less the browser lays out anew.
const put = (node, words) => {
  const only = node.firstChild;
  if (only?.nodeType === Node.TEXT_NODE && only === node.lastChild && words) {
    if (only.data !== words) only.data = words;
  } else if (node.textContent !== words) node.textContent = words;
};
const set = (node, name, value) => { if (node.getAttribute(name) !== value) node.setAttribute(name, value); };

/** Brings a drawing to what a new one shows, node by node. */
function bring(old, fresh) {
  if (old.nodeName !== fresh.nodeName || old.childNodes.length !== fresh.childNodes.length) {
    old.replaceWith(fresh);
    return;
  }
  if (old.nodeType === Node.TEXT_NODE) {
    if (old.data !== fresh.data) old.data = fresh.data;
    return;
  }
  for (const { name } of [...old.attributes]) if (!fresh.hasAttribute(name)) old.removeAttribute(name);
  for (const { name, value } of fresh.attributes) set(old, name, value);
  const coming = [...fresh.childNodes];
  [...old.childNodes].forEach((child, place) => bring(child, coming[place]));
}

const REST = 250; // milliseconds without a move, after which the band is asked for

/** One change at a time is under way; of those that come meanwhile the last of each entry is kept.
 *
 * A slider answers each move at once. What takes longer (keeping the value, the band) waits until nothing has moved
 * for a while, whether a key is held, a thumb is dragged or many keys are pressed one by one.
 */
function sender(model, waitingLong) {
  const waiting = new Map();
  let sent = null;
  let count = 0;
  let guard = 0;
  let timer = 0;
  let later = null; // what is still to be said of the last change once it rests
  const view = Math.random().toString(36).slice(2);
  const next = () => {
    if (sent !== null || !waiting.size) return;
    const [path, message] = waiting.entries().next().value;
    waiting.delete(path);
    sent = `${view}-${++count}`;
    clearTimeout(guard);
    guard = setTimeout(() => { sent = null; waitingLong(); next(); }, 5000);
    model.send({ ...message, id: sent });
  };
  const queue = (path, message) => {
    const before = waiting.get(path);
    waiting.delete(path);
    waiting.set(path, { ...message, settled: message.settled || Boolean(before?.settled && before.number === message.number) });
    next();
  };
  const rest = () => {
    clearTimeout(timer);
    if (later) queue(later.path ?? "rest", { ...later, rest: true });
    later = null;
  };
  const atRest = (message) => {
    if (later?.settled && later.path !== message.path) queue(later.path, later);
    later = message;
    clearTimeout(timer);
    timer = setTimeout(rest, REST);
  };
  return {
    /** It rests now: say what waits for that. */
    rest,
    /** Say this once nothing has moved for a while. */
    atRest,
    /** Say it now; keep it where it is settled. */
    send(path, message) {
      atRest({});
      queue(path, { ...message, path });
    },
    /** A slider's move, said now and kept later. */
    move(path, number) {
      atRest({ path, number, settled: false });
      queue(path, { path, number, settled: false });
    },
    heard() { if (model.get("heard") === sent) { sent = null; clearTimeout(guard); next(); } },
    // whether the kernel's values are older than what stands in a control
    behind: (path) => waiting.has(path) || (sent !== null && model.get("heard") !== sent),
  };
}

/** The control of one entry; `show` brings it to what the kernel says without touching what is being moved or typed. */
function control(field, uid, out) {
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
    range.addEventListener("input", () => {
      dirty = false;
      moving = true;
      out.move(field.path, Number(range.value));
    });
    range.addEventListener("change", () => {
      moving = false;
      out.atRest({ path: field.path, number: Number(range.value), settled: true });
    });
    range.addEventListener("blur", out.rest);
  }
  if (field.kind === "select") {
    main = make("select", "", row);
    main.dataset.lmSuppressShortcuts = "true";
    main.addEventListener("change", () => out.send(field.path, { text: main.value, settled: true }));
  } else {
    main = make("input", field.kind === "number" ? "" : "mc-wide", row);
    main.type = "text";
    main.autocomplete = "off";
    main.spellcheck = false;
    main.addEventListener("input", () => { dirty = true; });
    main.addEventListener("change", () => { dirty = false; out.send(field.path, { text: main.value, settled: true }); });
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
  let scale = "";
  const bringRange = (now) => {
    const wanted = `${now.min} ${now.max} ${now.step}`;
    if (scale === wanted && Number(range.value) === now.number) return;
    scale = wanted;
    range.min = now.min; range.max = now.max; range.step = "any"; range.value = now.number; range.step = now.step;
  };

  const show = (now, behind) => {
    put(label, now.label);
    put(help, [now.hint, now.help].filter(Boolean).join(". "));
    put(error, now.error);
    set(main, "aria-invalid", now.error ? "true" : "false");
    if (range) {
      set(range, "aria-label", `${now.label}, slider`);
      set(range, "aria-valuetext", now.text || "not given");
      if (!behind && !(moving && document.activeElement === range)) bringRange(now);
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
        made = control(field, uid, out);
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
      if (figure.drawn !== svg) {
        figure.drawn = svg;
        const fresh = document.createElement("template");
        fresh.innerHTML = svg;
        const drawn = figure.firstChild.firstElementChild;
        if (drawn) bring(drawn, fresh.content.firstElementChild);
        else figure.firstChild.append(fresh.content);
      }
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

  const shown = {};
  const fresh = (name) => {
    const before = shown[name];
    shown[name] = model.get(name);
    return shown[name] !== before;
  };
  // Table and entries wait for the next frame: setting a text field makes the editor's listeners lay out the page at once.
  let frame = 0;
  const showRest = () => {
    frame = 0;
    if (fresh("cautions")) showCautions();
    if (fresh("results")) showResults();
    // each answered message brings the entries up to date, also where the kernel's values did not change
    if (["heard", "fields", "system", "note"].map(fresh).some(Boolean)) showEntries();
  };
  const show = () => {
    out.heard();
    if (fresh("answer")) answer.innerHTML = shown.answer;
    if (fresh("band")) band.innerHTML = shown.band;
    sheet.classList.toggle("mc-old", model.get("old"));
    if (fresh("pictures")) showPictures();
    frame ||= requestAnimationFrame(showRest);
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
  showRest();
  if (!model.get("rests")) out.atRest({});
  window.addEventListener("pagehide", out.rest);
  return () => {
    out.rest();
    cancelAnimationFrame(frame);
    window.removeEventListener("pagehide", out.rest);
    model.off("change", show);
    model.off("comm_live_update", checkLife);
  };
}

export default { render };
