// Draws one scan sheet: its answer, how far the work is, its controls and its table. Nothing is worked out here.
let sheets = 0;
const PART = 1 << 20; // bytes of a file sent in one message

const make = (tag, className, parent) => {
  const made = document.createElement(tag);
  if (className) made.className = className;
  if (parent) parent.append(made);
  return made;
};
const put = (node, words) => { if (node.textContent !== words) node.textContent = words; };

/** One message at a time is under way; `heard` is the kernel's word that it was dealt with. */
function sender(model) {
  const view = Math.random().toString(36).slice(2);
  let count = 0;
  let last = Promise.resolve();
  const one = (message, buffers) => new Promise((done) => {
    const id = `${view}-${++count}`;
    const check = () => {
      if (model.get("heard") !== id) return;
      model.off("change:heard", check);
      clearTimeout(guard);
      done();
    };
    const guard = setTimeout(() => { model.off("change:heard", check); done(); }, 20000);
    model.on("change:heard", check);
    model.send({ ...message, id }, undefined, buffers);
  });
  return (message, buffers) => { last = last.then(() => one(message, buffers)); return last; };
}

async function sendFile(send, file, told) {
  const parts = Math.max(1, Math.ceil(file.size / PART));
  for (let part = 0; part < parts; part += 1) {
    const piece = await file.slice(part * PART, (part + 1) * PART).arrayBuffer();
    told(`Reading ${file.name}: ${Math.round((100 * part) / parts)} %`);
    await send({ act: "file", name: file.name, part, of: parts, size: file.size }, [piece]);
  }
  told("");
}

const controls = {
  file(field, box, send, told) {
    const drop = make("label", "mc-drop", box);
    const words = make("span", "", drop);
    const input = make("input", "", drop);
    input.type = "file";
    const take = (files) => { if (files.length) sendFile(send, files[0], told); };
    input.addEventListener("change", () => { take(input.files); input.value = ""; });
    drop.addEventListener("dragover", (event) => { event.preventDefault(); drop.classList.add("mc-over"); });
    drop.addEventListener("dragleave", () => drop.classList.remove("mc-over"));
    drop.addEventListener("drop", (event) => { event.preventDefault(); event.stopPropagation(); drop.classList.remove("mc-over"); take(event.dataTransfer.files); });
    return (now) => { put(words, now.label); input.accept = now.accept; };
  },
  select(field, box, send, _told, id) {
    const label = make("label", "", box);
    const select = make("select", "", box);
    select.dataset.lmSuppressShortcuts = "true";
    select.id = id;
    label.htmlFor = id;
    select.addEventListener("change", () => send({ act: "set", name: field.name, value: select.value }));
    let offered = "";
    return (now) => {
      put(label, now.label);
      const key = JSON.stringify(now.choices);
      if (offered !== key) { offered = key; select.replaceChildren(...now.choices.map((choice) => new Option(choice.label, choice.value))); }
      select.value = now.value;
    };
  },
  range(field, box, send, _told, id) {
    const label = make("label", "", box);
    const row = make("div", "mc-row", box);
    const range = make("input", "", row);
    const text = make("output", "", row);
    range.type = "range";
    range.id = id;
    range.dataset.lmSuppressShortcuts = "true";
    label.htmlFor = id;
    let moving = 0;
    range.addEventListener("input", () => {
      moving += 1;
      send({ act: "set", name: field.name, value: Number(range.value) }).then(() => { moving -= 1; });
    });
    return (now) => {
      put(label, now.label);
      put(text, now.text);
      range.setAttribute("aria-valuetext", now.text);
      if (!moving) { range.min = now.min; range.max = now.max; range.step = now.step; range.value = now.value; }
    };
  },
  button(field, box, send) {
    const button = make("button", "mc-reset", box);
    button.type = "button";
    button.addEventListener("click", () => send({ act: "press", name: field.name }));
    return (now, busy) => { put(button, now.label); button.disabled = busy || now.off; button.classList.toggle("mc-main", Boolean(now.main)); };
  },
  ticks(field, box, send, _told, id) {
    const set = make("fieldset", "mc-ticks", box);
    const legend = make("legend", "", set);
    const list = make("div", "", set);
    return (now) => {
      put(legend, now.label);
      while (list.children.length > now.rows.length) list.lastElementChild.remove();
      now.rows.forEach((row, place) => {
        let item = list.children[place];
        if (!item) {
          item = make("label", "", list);
          const tick = make("input", "", item);
          tick.type = "checkbox";
          tick.dataset.lmSuppressShortcuts = "true";
          make("span", "", item);
          tick.addEventListener("change", () => send({ act: "tick", name: field.name, row: tick.value, on: tick.checked }));
        }
        item.firstChild.id = `${id}-${place}`;
        item.firstChild.value = row.value;
        item.firstChild.checked = row.on;
        put(item.lastChild, row.label);
      });
    };
  },
};

function render({ model, el }) {
  const uid = `ms${++sheets}`;
  const send = sender(model);
  el.classList.add("mc-panel");
  const sheet = make("section", "mc-sheet mc-scan", el);
  sheet.setAttribute("aria-label", model.get("label"));
  const head = make("div", "mc-head", sheet);
  const answer = make("p", "mc-answer", head);
  answer.setAttribute("role", "status");
  answer.setAttribute("aria-live", "polite");
  const work = make("div", "mc-work", head);
  const doing = make("span", "", work);
  const bar = make("progress", "", work);
  bar.max = 1;
  bar.setAttribute("aria-label", "How far the work is");
  const stop = make("button", "mc-reset", work);
  stop.type = "button";
  put(stop, "Stop");
  // a stop must not wait behind the message whose work it ends
  stop.addEventListener("click", () => model.send({ act: "stop", id: "" }));
  const lost = make("p", "mc-lost", head);
  lost.setAttribute("role", "alert");
  put(lost, "This sheet has lost its calculation. Run the chapter again.");
  const output = make("div", "mc-out", sheet);
  const pictures = make("div", "mc-pictures", output);
  const entries = make("div", "mc-entries", sheet);
  const groups = make("div", "", entries);
  const error = make("p", "mc-error", entries);
  error.setAttribute("role", "alert");
  const note = make("p", "mc-note", entries);
  note.setAttribute("role", "status");
  const sending = (words) => put(note, words || model.get("note"));

  let made = new Map();
  const showControls = () => {
    const kept = new Map();
    let before = null;
    for (const field of model.get("controls")) {
      const key = `${field.kind} ${field.name}`;
      let control = made.get(key);
      if (!control) {
        const box = make("div", "mc-entry");
        control = { box, show: controls[field.kind](field, box, send, sending, `${uid}-${field.name}`) };
      }
      if (before ? before.nextSibling !== control.box : groups.firstChild !== control.box) groups.insertBefore(control.box, before ? before.nextSibling : groups.firstChild);
      before = control.box;
      kept.set(key, control);
      control.show(field, model.get("busy"));
    }
    for (const [key, control] of made) if (!kept.has(key)) control.box.remove();
    made = kept;
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
      const svg = picture.svg.replaceAll("mc-hatch-", `${uid}-hatch-`);
      if (figure.drawn !== svg) { figure.drawn = svg; figure.firstChild.innerHTML = svg; }
      put(figure.lastChild, picture.caption);
    });
  };
  const show = () => {
    const html = model.get("answer");
    if (answer.drawn !== html) { answer.drawn = html; answer.innerHTML = html; }
    const busy = model.get("busy");
    work.hidden = !busy;
    put(doing, model.get("doing"));
    bar.value = model.get("share");
    sheet.setAttribute("aria-busy", busy ? "true" : "false");
    put(error, model.get("error"));
    put(note, model.get("note"));
    showControls();
    showPictures();
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
