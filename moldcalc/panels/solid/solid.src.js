// The turnable picture: what is round the drawing, and how hands and keys reach it. Nothing is worked out here that the page doesn't show.
import { COLOURS, makeScene } from "./scene.src.js";
import { groupsOf, meshOf, slopeLabels, typed } from "./mesh.src.js";

const VIEWS = { Front: [0, 0], Left: [-90, 0], Back: [180, 0], Right: [90, 0], Top: [0, 90] };
const START = [-32, 18];
const LEFT_OVER = 255;
const ORDINALS = ["th", "st", "nd", "rd"];
const HELP = "Drag to turn. With the picture chosen: arrow keys turn it, Shift and arrows move it, + and − come nearer and go back, Enter picks what is in the middle, Home starts afresh. Two fingers scroll the page.";
const NO_WEBGL = "This browser does not draw in 3-D here, so this is the still picture.";
const GONE = "The calculation behind this picture has ended. It still turns, and shows what was worked out last. Run the chapter again to go on.";
const LIGHT = { ink: "#1f2328", arrow: "#1f2328", soft: "#55555b", grid: "#d3cfc4", body: "#e6e1d6", over: "#77777c", tint: "#ffffff", shade: "#d5d0c6", warn: "#a83c00", mark: "#0072b2", pale: 0.46,
  slopes: ["#f6f1e2", "#f0c878", "#7fb8dc", "#a0527a"] };
const DARK = { ...LIGHT, ink: "#0e1013", arrow: "#f2f2f4", soft: "#b9b9bf", grid: "#43464b", body: "#b3aea3", over: "#66666b", tint: "#e9e6df", shade: "#b9b4aa", warn: "#ff9a66", mark: "#56b4e9", pale: 0.5 };
let pictures = 0;

const make = (tag, className, parent, words) => {
  const made = document.createElement(tag);
  if (className) made.className = className;
  if (words) made.textContent = words;
  if (parent) parent.append(made);
  return made;
};
const put = (node, words) => { if (node.textContent !== words) node.textContent = words; };
const ordinal = (count) => `${count}${ORDINALS[count % 100 > 10 && count % 100 < 14 ? 0 : count % 10] ?? "th"}`;
const radians = (degrees) => (degrees * Math.PI) / 180;
const degrees = (value) => Math.round((value * 180) / Math.PI);
const hold = (value, low, high) => Math.min(high, Math.max(low, value));
const turnOf = (value) => value - 2 * Math.PI * Math.round(value / (2 * Math.PI));

/** Where the viewer stands, in words. */
function seenFrom(azimuth, elevation) {
  const up = degrees(elevation);
  if (up > 80) return "from the top";
  if (up < -80) return "from below";
  const round = (degrees(turnOf(azimuth)) + 360) % 360;
  const side = ["the front", "the front right", "the right", "the back right", "the back", "the back left", "the left", "the front left"][Math.round(round / 45) % 8];
  return `from ${side}${Math.abs(up) < 3 ? "" : `, ${Math.abs(up)}° ${up > 0 ? "above" : "below"}`}`;
}

/** Whether the page behind the picture is dark. A panel's sheet is light in every theme. */
function isDark(el) {
  if (el.closest(".mc-panel")) return false;
  const themed = document.body.dataset.jpThemeLight;
  if (themed) return themed === "false";
  return false;
}

function render({ model, el }) {
  const uid = `mcs${++pictures}`;
  const dispose = [];
  const on = (target, event, call, options) => { target.addEventListener(event, call, options); dispose.push(() => target.removeEventListener(event, call, options)); };
  const watch = (names, call) => { for (const name of names) { model.on(`change:${name}`, call); dispose.push(() => model.off(`change:${name}`, call)); } };
  const tell = (values) => {
    // a kernel that is gone must not stop the picture
    try { for (const [name, value] of Object.entries(values)) model.set(name, value); model.save_changes(); } catch { /* the sentence under the picture says so */ }
  };

  el.classList.add("mc-solid");
  const sheet = make("section", "mcs-sheet", el);
  const frame = make("div", "mcs-frame", sheet);
  const canvas = make("canvas", "mcs-canvas", frame);
  const over = make("div", "mcs-over", frame);
  over.setAttribute("aria-hidden", "true");
  const still = make("div", "mcs-still", frame);
  const said = make("p", "mcs-said", sheet);
  said.id = `${uid}-said`;
  const gone = make("p", "mcs-gone", sheet, GONE);
  gone.setAttribute("role", "alert");
  const turning = make("div", "mcs-bar", sheet);
  turning.setAttribute("role", "group");
  turning.setAttribute("aria-label", "Turn the picture");
  const sliding = make("div", "mcs-apart", sheet);
  const legend = make("div", "mcs-legend", sheet);
  const help = make("p", "mcs-help", sheet, HELP);
  help.id = `${uid}-help`;
  Object.assign(canvas, { tabIndex: 0 });
  canvas.dataset.lmSuppressShortcuts = "true";
  canvas.setAttribute("role", "application");
  canvas.setAttribute("aria-roledescription", "turnable picture");
  canvas.setAttribute("aria-describedby", `${said.id} ${help.id}`);

  let view;
  // the still picture waits underneath: for paper, and for where there is no 3-D. Its hatches are made this picture's own.
  const layStill = () => {
    still.innerHTML = model.get("still").replaceAll("mc-hatch-", `${uid}-hatch-`);
    el.classList.toggle("mcs-has-still", Boolean(still.innerHTML));
  };
  layStill();
  watch(["still"], layStill);
  const fallBack = (words) => {
    el.classList.add("mcs-flat");
    put(said, words);
  };
  try {
    view = makeScene(canvas);
  } catch {
    fallBack(NO_WEBGL);
    return () => dispose.forEach((call) => call());
  }
  const { now } = view;
  [now.azimuth, now.elevation] = START.map(radians);
  on(canvas, "webglcontextlost", (event) => { event.preventDefault(); fallBack("This browser has put the 3-D picture away; this is the still one. Scroll back to it, or run the chapter again."); });
  on(canvas, "webglcontextrestored", () => { el.classList.remove("mcs-flat"); everything(); });

  // drawing on demand --------------------------------------------------------------------------------------------
  let asked = 0;
  let resting = 0;
  let costly = false;
  let anchors = new Map();
  const words = new Map();
  const word = (key, className) => {
    if (!words.has(key)) words.set(key, make("span", className, over));
    return words.get(key);
  };
  const stand = (node, at) => {
    node.hidden = !at;
    if (at) node.style.transform = `translate(${at[0].toFixed(1)}px, ${at[1].toFixed(1)}px) translate(-50%, -50%)`;
  };
  const pieceOf = (number) => now.pieces.find((piece) => piece.number === number);

  function number() {
    const began = performance.now();
    anchors = view.places();
    const took = performance.now() - began;
    // where finding the numbers' places takes long, they follow the surface while it moves and find their place when it rests
    costly = took > (costly ? 6 : 25);
    canvas.dataset.numbering = took.toFixed(1);
    const wanted = new Set();
    if (now.mode !== "plain") {
      for (const [label, at] of anchors) {
        if (label === 0 || label === LEFT_OVER || at.depth < 5) continue;
        wanted.add(`n${label}`);
        const node = word(`n${label}`, "mcs-number");
        put(node, now.mode === "slope" ? bands()[label - 1]?.name ?? "" : String(label));
        node.classList.toggle("mcs-word", now.mode === "slope");
        node.classList.toggle("mcs-chosen", label === now.selected);
        at.shown = now.mode !== "slope" || at.depth >= 12;
        stand(node, at.shown ? [at.x, at.y] : null);
      }
    }
    for (const [key, node] of words) if (key.startsWith("n") && !wanted.has(key)) node.hidden = true;
  }
  /** At each arrow's point, when its piece comes off. */
  function tags() {
    const tips = new Set();
    for (const tip of view.arrowTips()) {
      const node = word(`a${tip.number}`, "mcs-turn");
      tips.add(`a${tip.number}`);
      put(node, ordinal(pieceOf(tip.number)?.order ?? 0));
      stand(node, tip.at);
    }
    for (const [key, node] of words) if (key.startsWith("a") && !tips.has(key)) node.hidden = true;
  }
  function draw() {
    asked = 0;
    if (!now.mesh || !now.mesh.count) return;
    const began = performance.now();
    const { words: at } = view.draw();
    if (costly) {
      for (const [label, anchor] of anchors) if (words.has(`n${label}`) && anchor.shown) stand(words.get(`n${label}`), view.follow(label, anchor));
    } else number();
    ["extent-x", "extent-y", "extent-z"].forEach((key, axis) => {
      const text = model.get("extents")[axis] ?? "";
      const node = word(key, "mcs-extent");
      put(node, text);
      stand(node, text ? at[axis] : null);
    });
    tags();
    const took = performance.now() - began;
    canvas.dataset.draws = String(Number(canvas.dataset.draws ?? 0) + 1);
    canvas.dataset.took = took.toFixed(1);
    clearTimeout(resting);
    resting = setTimeout(() => { if (costly) { number(); tags(); } caption(); }, 140);
  }
  const ask = () => { asked ||= requestAnimationFrame(draw); };

  // what is shown ------------------------------------------------------------------------------------------------
  const bands = () => model.get("bands");
  const labelsNow = () => {
    if (now.mode === "slope") return slopeLabels(now.mesh, bands());
    return now.mode === "plain" ? new Uint8Array(now.mesh.count) : typed(Uint8Array, model.get("labels"));
  };
  function theme() {
    const dark = isDark(el);
    el.classList.toggle("mcs-dark", dark);
    now.theme = dark ? DARK : LIGHT;
    view.colour();
    legends();
    ask();
  }
  let pending = 0;
  function surface() {
    pending = 0;
    const [points, faces] = [typed(Float32Array, model.get("positions")), typed(Uint32Array, model.get("faces"))];
    view.setMesh(meshOf(points, faces));
    recolour();
  }
  function recolour() {
    if (!now.mesh || pending) return;
    now.mode = model.get("mode");
    const labels = labelsNow();
    view.setGroups(groupsOf(now.mesh, labels), labels);
    pieces();
    paint();
  }
  function paint() {
    const mask = typed(Uint8Array, model.get("painted"));
    now.painted = mask.includes(1);
    view.setPainted(mask);
    legends();
    ask();
  }
  function pieces() {
    view.setPieces(model.get("pieces"));
    view.setMarks(model.get("marks"));
    chosen();
    apart();
  }
  function chosen() { now.selected = model.get("selected"); view.colour(); legends(); ask(); }
  function board() { if (now.mesh) { view.board(model.get("square")); legends(); ask(); } }
  function everything() { theme(); surface(); board(); aim(); }

  function caption() {
    const moved = now.mode === "sections" && now.apart > 0 ? ` ${(slider.getAttribute("aria-valuetext") ?? "").replace(/^./, (first) => first.toUpperCase())}.` : "";
    put(said, `Seen ${seenFrom(now.azimuth, now.elevation)}.${moved}`);
    canvas.setAttribute("aria-label", `${model.get("said")} Seen ${seenFrom(now.azimuth, now.elevation)}.${moved}`);
  }

  // legend: what each number and colour means; a piece is chosen there too ----------------------------------------
  function swatch(colour, className = "") {
    const made = make("i", `mcs-swatch ${className}`);
    made.style.background = colour;
    return made;
  }
  let legendKey = "";
  function legends() {
    if (!now.theme) return;
    const list = now.mode === "sections" || now.mode === "pockets" ? now.pieces : [];
    const key = JSON.stringify([now.mode, list, bands(), now.theme.pale, model.get("square_said"), model.get("marks").map((mark) => mark.kind), now.groups.has(LEFT_OVER), model.get("leftover_said"), now.painted]);
    if (key !== legendKey) {
      legendKey = key;
      legend.replaceChildren();
      for (const piece of list) {
        const button = make("button", "mcs-piece", legend);
        button.type = "button";
        button.dataset.number = piece.number;
        const dot = swatch(COLOURS[(piece.number - 1) % COLOURS.length], "mcs-round");
        button.append(dot);
        make("b", "", button, String(piece.number));
        make("span", "", button, piece.name ?? "");
        if (now.mode === "sections" && piece.order) make("small", "", button, `comes off ${ordinal(piece.order)}`);
        if (piece.note) make("small", "", button, piece.note);
        button.addEventListener("click", () => { tell({ selected: now.selected === piece.number ? 0 : piece.number }); chosen(); });
      }
      const say = (mark, text) => { const line = make("span", "mcs-key", legend); line.append(mark); line.append(text); };
      if (now.mode === "slope") bands().forEach((band, place) => say(swatch(now.theme.slopes[place % now.theme.slopes.length]), band.name));
      if (now.groups.has(LEFT_OVER) && list.length) say(swatch(now.theme.over), model.get("leftover_said"));
      for (const mark of new Map(model.get("marks").map((one) => [one.kind, one])).values()) say(swatch(mark.kind === "seam" ? now.theme.ink : mark.kind === "thin" ? now.theme.warn : now.theme.mark, mark.points?.length === 1 ? "mcs-round" : "mcs-line"), mark.said ?? mark.kind);
      if (now.painted) say(swatch("none", "mcs-painted"), model.get("painted_said"));
      if (model.get("square_said")) say(swatch("none", "mcs-square"), model.get("square_said"));
    }
    for (const button of legend.querySelectorAll("button")) button.setAttribute("aria-pressed", String(Number(button.dataset.number) === now.selected));
  }

  // apart --------------------------------------------------------------------------------------------------------
  const sliderLabel = make("label", "", sliding, "Apart");
  const slider = make("input", "", sliding);
  Object.assign(slider, { type: "range", min: 0, max: 1, step: 0.01, value: 0, id: `${uid}-apart` });
  slider.dataset.lmSuppressShortcuts = "true";
  sliderLabel.htmlFor = slider.id;
  const sliderSaid = make("output", "", sliding);
  sliderSaid.htmlFor = slider.id;
  function apart() {
    if (document.activeElement !== slider || Math.abs(Number(slider.value) - model.get("apart")) > 0.02) slider.value = model.get("apart");
    sliding.hidden = !(now.mode === "sections" && now.pieces.some((piece) => Math.hypot(...piece.pull) > 0));
    slideTo(Number(slider.value));
  }
  function slideTo(share) {
    now.apart = share;
    view.slide();
    const orders = [...new Set(now.pieces.map((piece) => piece.order))].sort((a, b) => a - b);
    const turn = share * orders.length;
    const named = (low, high) => now.pieces.filter((piece) => orders.indexOf(piece.order) >= low && orders.indexOf(piece.order) < high).map((piece) => piece.number);
    const off = named(0, Math.floor(turn + 1e-9));
    const coming = turn % 1 > 1e-9 ? named(Math.floor(turn + 1e-9), Math.floor(turn + 1e-9) + 1) : [];
    const text = share <= 0 ? "together" : [off.length === now.pieces.length ? "all off" : off.length ? `${off.join(", ")} off` : "", coming.length ? `${coming.join(", ")} coming off` : ""].filter(Boolean).join("; ");
    put(sliderSaid, text);
    slider.setAttribute("aria-valuetext", text);
    ask();
  }
  on(slider, "input", () => { slideTo(Number(slider.value)); tell({ apart: Number(slider.value) }); });

  // turning ------------------------------------------------------------------------------------------------------
  let told = 0;
  const quiet = window.matchMedia("(prefers-reduced-motion: reduce)");
  function moved() {
    now.azimuth = turnOf(now.azimuth);
    now.elevation = hold(now.elevation, -Math.PI / 2, Math.PI / 2);
    now.zoom = hold(now.zoom, 0.5, 14);
    now.shift = now.shift.map((value) => hold(value, -2 * now.zoom, 2 * now.zoom));
    ask();
    clearTimeout(told);
    told = setTimeout(() => tell({ aim: view.eyeOf().eye.map((value) => Number((-value).toFixed(5))) }), 250);
  }
  let turningTo = 0;
  function turnTo(azimuth, elevation) {
    cancelAnimationFrame(turningTo);
    const [from, rise] = [now.azimuth, now.elevation];
    const by = turnOf(azimuth - from);
    const began = performance.now();
    const step = () => {
      const share = quiet.matches ? 1 : Math.min(1, (performance.now() - began) / 260);
      const eased = share * share * (3 - 2 * share);
      now.azimuth = from + by * eased;
      now.elevation = rise + (elevation - rise) * eased;
      if (share < 1) { ask(); turningTo = requestAnimationFrame(step); } else moved();
    };
    step();
  }
  function aim() {
    const [x, y, z] = model.get("aim").map((value) => -value);
    const size = Math.hypot(x, y, z);
    if (!(size > 0)) return;
    now.elevation = Math.asin(hold(z / size, -1, 1));
    if (Math.hypot(x, y) > 1e-3 * size) now.azimuth = Math.atan2(x, -y);
    else now.azimuth = 0;
    ask();
  }
  const afresh = () => { now.zoom = 1; now.shift = [0, 0]; turnTo(...START.map(radians)); };
  for (const [name, at] of Object.entries(VIEWS)) make("button", "", turning, name).addEventListener("click", () => { now.shift = [0, 0]; turnTo(...at.map(radians)); });
  for (const [sign, name, by] of [["+", "Nearer", 1.25], ["−", "Further", 0.8]]) {
    const button = make("button", "mcs-sign", turning, sign);
    button.setAttribute("aria-label", name);
    button.addEventListener("click", () => { now.zoom *= by; moved(); });
  }
  for (const button of turning.children) button.type = "button";

  const STEP = radians(7.5);
  const keys = {
    ArrowLeft: () => { now.azimuth += STEP; }, ArrowRight: () => { now.azimuth -= STEP; },
    ArrowUp: () => { now.elevation -= STEP; }, ArrowDown: () => { now.elevation += STEP; },
    "+": () => { now.zoom *= 1.15; }, "=": () => { now.zoom *= 1.15; }, "-": () => { now.zoom /= 1.15; }, "−": () => { now.zoom /= 1.15; },
    Home: afresh, Enter: () => report(now.width / 2, now.height / 2),
  };
  const pans = { ArrowLeft: [0.08, 0], ArrowRight: [-0.08, 0], ArrowUp: [0, -0.08], ArrowDown: [0, 0.08] };
  on(canvas, "keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const pan = event.shiftKey && pans[event.key];
    if (!pan && !keys[event.key]) return;
    event.preventDefault();
    event.stopPropagation();
    if (pan) now.shift = now.shift.map((value, axis) => value + pan[axis]); else keys[event.key]();
    if (event.key !== "Enter" && event.key !== "Home") moved();
  });

  // hands: one finger or the mouse turns; a tap without a move picks; in the 'pick' hand a stroke picks all along it ---
  let down = null;
  let picks = 0;
  const at = (event) => { const box = canvas.getBoundingClientRect(); return [event.clientX - box.left, event.clientY - box.top]; };
  function report(x, y, trail = []) {
    const found = now.mesh && view.pick(x, y);
    if (!found) return;
    picks += 1;
    tell({ picked: { ...found, trail: [...trail, [found.face, ...found.point]], count: picks } });
    if (model.get("hand") === "turn" && pieceOf(found.label)) { tell({ selected: now.selected === found.label ? 0 : found.label }); chosen(); }
  }
  on(canvas, "pointerdown", (event) => {
    if (down || event.button > 2) return;
    canvas.focus({ preventScroll: true });
    canvas.setPointerCapture(event.pointerId);
    down = { id: event.pointerId, x: event.clientX, y: event.clientY, far: 0, pan: event.shiftKey || event.button > 0, trail: [] };
  });
  on(canvas, "pointermove", (event) => {
    if (!down || event.pointerId !== down.id) return;
    const [dx, dy] = [event.clientX - down.x, event.clientY - down.y];
    Object.assign(down, { x: event.clientX, y: event.clientY, far: down.far + Math.hypot(dx, dy) });
    if (model.get("hand") === "pick" && !down.pan) {
      const found = view.pick(...at(event));
      if (found) down.trail.push([found.face, ...found.point]);
      return;
    }
    if (down.far < 4) return;
    if (down.pan) now.shift = [now.shift[0] - (dx * 2) / now.height, now.shift[1] + (dy * 2) / now.height];
    else { now.azimuth -= radians(dx * 0.45); now.elevation += radians(dy * 0.45); }
    moved();
  });
  on(canvas, "pointerup", (event) => {
    if (!down || event.pointerId !== down.id) return;
    if (down.far < 4 || down.trail.length) report(...at(event), down.trail);
    down = null;
  });
  on(canvas, "pointercancel", () => { down = null; });
  on(canvas, "contextmenu", (event) => event.preventDefault());
  on(canvas, "wheel", (event) => {
    // a bare wheel is the page's; with Ctrl, or two fingers drawn apart on a touchpad, it comes nearer
    if (!event.ctrlKey && !event.metaKey) return;
    event.preventDefault();
    now.zoom *= Math.exp(-hold(event.deltaY, -60, 60) * 0.008);
    moved();
  }, { passive: false });

  // what comes from outside ----------------------------------------------------------------------------------------
  // points, faces and labels of a new surface come together; it is laid in once
  watch(["positions", "faces"], () => { clearTimeout(pending); pending = setTimeout(surface, 0); });
  watch(["labels", "mode", "bands"], recolour);
  watch(["pieces", "marks"], () => { pieces(); });
  watch(["selected"], chosen);
  watch(["painted"], paint);
  watch(["apart"], apart);
  watch(["aim"], () => { if (!down) aim(); });
  watch(["square", "square_said", "leftover_said"], board);
  watch(["extents", "said"], () => { caption(); ask(); });
  // the page is told when a calculation comes or goes; then this picture asks after its own
  const checkLife = async () => {
    let alive = false;
    try { alive = (await model.widget_manager.get_model(model.get("own_id"))).comm_live; } catch { /* what can't be found is gone */ }
    el.classList.toggle("jupyter-widgets-disconnected", !alive);
  };
  model.on("comm_live_update", checkLife);
  dispose.push(() => model.off("comm_live_update", checkLife));
  const grown = new ResizeObserver(() => {
    const [width, height] = [canvas.clientWidth, canvas.clientHeight];
    if (width < 2 || (width === now.width && height === now.height)) return;
    view.size(width, height);
    if (now.mesh) { cancelAnimationFrame(asked); draw(); }
  });
  grown.observe(canvas);
  const themed = new MutationObserver(theme);
  themed.observe(document.body, { attributes: true, attributeFilter: ["data-jp-theme-light"] });
  // on paper it is always the light one
  on(window, "beforeprint", () => { el.classList.remove("mcs-dark"); now.theme = LIGHT; view.colour(); cancelAnimationFrame(asked); draw(); });
  on(window, "afterprint", theme);
  everything();
  caption();
  return () => {
    dispose.forEach((call) => call());
    grown.disconnect();
    themed.disconnect();
    [asked, turningTo].forEach(cancelAnimationFrame);
    [told, resting, pending].forEach(clearTimeout);
    view.dispose();
  };
}
export default { render };
