// The drawing itself: pieces in pale colours, firm outlines, pull arrows, marks, the board. It draws when asked, and only then.
import {
  BufferAttribute, BufferGeometry, Color, ConeGeometry, CylinderGeometry, DirectionalLight, DoubleSide, Group, HemisphereLight,
  InstancedInterleavedBuffer, InterleavedBufferAttribute, LineBasicMaterial, LineSegments, Matrix4, Mesh, MeshBasicMaterial, MeshLambertMaterial,
  NearestFilter, OrthographicCamera, Points, PointsMaterial, Quaternion, Scene, Vector3, WebGLRenderer, WebGLRenderTarget, DynamicDrawUsage,
} from "three";
import { LineMaterial } from "three/addons/lines/LineMaterial.js";
import { LineSegments2 } from "three/addons/lines/LineSegments2.js";
import { LineSegmentsGeometry } from "three/addons/lines/LineSegmentsGeometry.js";
import { contour } from "./mesh.src.js";

// Okabe and Ito's colours in an order in which neighbours differ also in grey
export const COLOURS = ["#e69f00", "#56b4e9", "#009e73", "#cc79a7", "#f0e442", "#0072b2", "#d55e00", "#8c8c8c"];
const OVER = 255;
const UP = new Vector3(0, 1, 0);
const LINES = 60000;

/** The tint of a label: pale enough for a number to be read on it; the one that is chosen in its full colour. */
export function tint(label, chosen, theme) {
  if (label === 0) return new Color(theme.body);
  if (label === OVER) return new Color(theme.over);
  const colour = new Color(COLOURS[(label - 1) % COLOURS.length]);
  const round = Math.floor((label - 1) / COLOURS.length) % 3;
  return chosen ? colour : colour.lerp(new Color(theme.tint), theme.pale + 0.12 * round);
}

export function makeScene(canvas) {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true, preserveDrawingBuffer: true });
  renderer.setClearColor(0xffffff, 0);
  const scene = new Scene();
  const camera = new OrthographicCamera();
  camera.matrixAutoUpdate = false;
  const sky = new HemisphereLight(0xffffff, 0xb9b2a4, 2.3);
  const lamp = new DirectionalLight(0xffffff, 1.15);
  scene.add(sky, lamp, lamp.target, camera);
  const pieces = new Group();
  const arrows = new Group();
  const marks = new Group();
  scene.add(pieces, arrows, marks);

  const line = (width, extra = {}) => new LineMaterial({ linewidth: width, worldUnits: false, ...extra });
  const inks = { border: line(2.2), outline: line(1.7), seam: line(3.4), thin: line(3.2), drawn: line(3.2), measure: line(1.1), grid: new LineBasicMaterial() };
  const arrowInk = new MeshBasicMaterial();
  const nameInk = new MeshBasicMaterial({ vertexColors: true, side: DoubleSide, toneMapped: false });
  const paintInk = new MeshBasicMaterial({ transparent: true, opacity: 0.42, depthWrite: false, polygonOffset: true, polygonOffsetFactor: -1, polygonOffsetUnits: -2, side: DoubleSide });
  const coreInk = new MeshLambertMaterial({ side: DoubleSide, polygonOffset: true, polygonOffsetFactor: 3, polygonOffsetUnits: 6 });

  // outlines are worked out anew for every view; their place on the card is kept
  const room = new Float32Array(LINES * 6);
  const outlineBuffer = new InstancedInterleavedBuffer(room, 6, 1);
  outlineBuffer.setUsage(DynamicDrawUsage);
  const outlineGeometry = new LineSegmentsGeometry();
  outlineGeometry.setAttribute("instanceStart", new InterleavedBufferAttribute(outlineBuffer, 3, 0));
  outlineGeometry.setAttribute("instanceEnd", new InterleavedBufferAttribute(outlineBuffer, 3, 3));
  const outline = new LineSegments2(outlineGeometry, inks.outline);
  outline.frustumCulled = false;
  const measure = new LineSegments2(new LineSegmentsGeometry(), inks.measure);
  measure.frustumCulled = false;
  const core = new Mesh(new BufferGeometry(), coreInk);
  const paint = new Mesh(new BufferGeometry(), paintInk);
  const grid = new LineSegments(new BufferGeometry(), inks.grid);
  scene.add(outline, measure, core, paint, grid);
  core.frustumCulled = paint.frustumCulled = grid.frustumCulled = false;

  const now = { mesh: null, groups: new Map(), labels: new Uint8Array(0), offsets: new Map(), pieces: [], apart: 0, theme: null, selected: 0,
    azimuth: -0.6, elevation: 0.35, zoom: 1, shift: [0, 0], width: 1, height: 1, reach: 1, mode: "plain" };
  let shared = null;

  const lineOf = (points, ink) => {
    const geometry = new LineSegmentsGeometry();
    geometry.setPositions(points);
    const made = new LineSegments2(geometry, ink);
    made.frustumCulled = false;
    return made;
  };
  const clear = (group) => {
    for (const child of [...group.children]) {
      child.traverse((one) => { one.geometry?.dispose(); if (one.userData.own) one.material.dispose(); });
      group.remove(child);
    }
  };

  /** A new surface: corners shared by all that is drawn of it. */
  function setMesh(mesh) {
    now.mesh = mesh;
    for (const one of [core, paint]) one.geometry.dispose();
    shared = {
      position: new BufferAttribute(mesh.corners, 3), normal: new BufferAttribute(mesh.normals, 3), color: new BufferAttribute(mesh.names, 3, true),
    };
    core.geometry = shell();
    paint.geometry = shell(new Uint32Array(0));
    board();
  }
  const shell = (index) => {
    const geometry = new BufferGeometry();
    for (const [name, attribute] of Object.entries(shared)) geometry.setAttribute(name, attribute);
    if (index) geometry.setIndex(new BufferAttribute(index, 1));
    return geometry;
  };

  function setGroups(groups, labels) {
    clear(pieces);
    now.groups = groups;
    now.labels = labels;
    for (const group of groups.values()) {
      const holder = new Group();
      holder.userData.label = group.label;
      const material = new MeshLambertMaterial({ side: DoubleSide, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 2 });
      const mesh = new Mesh(shell(group.index), material);
      mesh.userData = { own: true, label: group.label };
      mesh.frustumCulled = false;
      holder.add(mesh);
      group.mesh = mesh;
      if (group.border.length && group.label !== OVER && now.mode !== "slope") holder.add(lineOf(group.border, inks.border));
      pieces.add(holder);
    }
    colour();
    slide();
  }

  function setPainted(mask) {
    const index = [];
    for (let face = 0; face < mask.length && face < (now.mesh?.count ?? 0); face += 1) if (mask[face]) index.push(face * 3, face * 3 + 1, face * 3 + 2);
    paint.geometry.dispose();
    paint.geometry = shell(Uint32Array.from(index));
    paint.visible = index.length > 0;
  }

  /** Colours of the theme and of what is chosen. */
  function colour() {
    const theme = now.theme;
    if (!theme) return;
    for (const group of now.groups.values()) {
      const chosen = now.selected > 0 && group.label === now.selected;
      group.mesh.material.color = now.mode === "slope" ? new Color(theme.slopes[(group.label - 1) % theme.slopes.length]) : tint(group.label, chosen, theme);
    }
    coreInk.color = new Color(theme.body);
    paintInk.color = new Color(theme.ink);
    arrowInk.color = new Color(theme.arrow);
    inks.grid.color = new Color(theme.grid);
    for (const [name, key] of [["border", "ink"], ["outline", "ink"], ["seam", "ink"], ["thin", "warn"], ["drawn", "mark"], ["measure", "soft"]]) inks[name].color = new Color(theme[key]);
    sky.groundColor = new Color(theme.shade);
  }

  /** Each piece along its pull, in its turn: the one of turn k begins when the one before is out. */
  function slide() {
    const orders = [...new Set(now.pieces.map((piece) => piece.order))].sort((a, b) => a - b);
    const out = 0.4 * (now.mesh?.diagonal ?? 1);
    now.offsets = new Map();
    if (now.mode === "sections") {
      for (const piece of now.pieces) {
        const size = Math.hypot(...piece.pull);
        const share = Math.min(1, Math.max(0, now.apart * orders.length - orders.indexOf(piece.order)));
        if (size > 0 && share > 0) now.offsets.set(piece.number, piece.pull.map((value) => (value / size) * out * share));
      }
    }
    // room for all of it from every side: a radius round the upright axis, and a height
    const middle = now.mesh?.centre ?? [0, 0, 0];
    Object.assign(now, { round: 0, tall: 0 });
    const enclose = (low, high, away) => {
      now.round = Math.max(now.round, Math.hypot(...[0, 1].map((axis) => Math.max(Math.abs(low[axis] + away[axis] - middle[axis]), Math.abs(high[axis] + away[axis] - middle[axis])))));
      now.tall = Math.max(now.tall, Math.abs(low[2] + away[2] - middle[2]), Math.abs(high[2] + away[2] - middle[2]));
    };
    if (now.mesh) enclose(now.mesh.low, now.mesh.high, [0, 0, 0]);
    for (const holder of pieces.children) {
      const away = now.offsets.get(holder.userData.label) ?? [0, 0, 0];
      holder.position.set(...away);
      const group = now.groups.get(holder.userData.label);
      if (away.some(Boolean)) enclose(group.low, group.high, away);
    }
    core.visible = now.offsets.size > 0;
    for (const arrow of arrows.children) {
      const away = now.offsets.get(arrow.userData.number) ?? [0, 0, 0];
      arrow.position.copy(arrow.userData.home).add(new Vector3(...away));
      const tip = arrow.position.clone().addScaledVector(arrow.userData.tip, 0.9).toArray();
      enclose(tip, tip, [0, 0, 0]);
    }
    now.reach = Math.hypot(now.round, now.tall) || 1;
  }

  function setPieces(list) {
    now.pieces = list;
    clear(arrows);
    if (now.mode === "sections") {
      const long = 0.16 * (now.mesh?.diagonal ?? 1);
      for (const piece of list) {
        const pull = new Vector3(...piece.pull);
        if (!pull.lengthSq() || !piece.place) continue;
        const arrow = new Group();
        const shaft = new Mesh(new CylinderGeometry(long * 0.026, long * 0.026, long * 0.72, 10), arrowInk);
        shaft.position.y = long * 0.36;
        const head = new Mesh(new ConeGeometry(long * 0.095, long * 0.28, 16), arrowInk);
        head.position.y = long * 0.86;
        arrow.add(shaft, head);
        arrow.quaternion.copy(new Quaternion().setFromUnitVectors(UP, pull.clone().normalize()));
        arrow.userData = { number: piece.number, home: new Vector3(...piece.place), tip: pull.clone().normalize().multiplyScalar(long * 1.16) };
        arrows.add(arrow);
      }
    }
    slide();
  }

  function setMarks(list) {
    clear(marks);
    for (const mark of list) {
      const points = mark.points ?? [];
      const ink = inks[mark.kind] ?? inks.drawn;
      if (points.length === 1 || mark.kind === "high") {
        const geometry = new BufferGeometry();
        geometry.setAttribute("position", new BufferAttribute(Float32Array.from(points.flat()), 3));
        const dots = new Points(geometry, new PointsMaterial({ size: 9 * renderer.getPixelRatio(), sizeAttenuation: false, color: ink.color }));
        dots.material.onBeforeCompile = (shader) => {
          shader.fragmentShader = shader.fragmentShader.replace("#include <color_fragment>", "if (length(gl_PointCoord - 0.5) > 0.5) discard;\n#include <color_fragment>");
        };
        dots.userData.own = true;
        marks.add(dots);
      } else if (points.length > 1) {
        marks.add(lineOf(points.slice(1).flatMap((point, place) => [...points[place], ...point]), ink));
      }
    }
  }

  function board(step = 0) {
    const { low, high, diagonal } = now.mesh;
    const wanted = diagonal / 7;
    const power = 10 ** Math.floor(Math.log10(wanted));
    const square = step > 0 ? Math.max(step, diagonal / 60) : power * [1, 2, 5, 10].find((times) => times * power >= wanted);
    const edge = (axis, end) => (end ? Math.ceil((high[axis] + square * 0.3) / square) : Math.floor((low[axis] - square * 0.3) / square)) * square;
    const [x0, x1, y0, y1] = [edge(0, 0), edge(0, 1), edge(1, 0), edge(1, 1)];
    const points = [];
    for (let x = x0; x <= x1 + square / 2; x += square) points.push(x, y0, 0, x, y1, 0);
    for (let y = y0; y <= y1 + square / 2; y += square) points.push(x0, y, 0, x1, y, 0);
    grid.geometry.dispose();
    grid.geometry = new BufferGeometry();
    grid.geometry.setAttribute("position", new BufferAttribute(Float32Array.from(points), 3));
    now.board = { low: [x0, y0], high: [x1, y1] };
  }

  // the view ---------------------------------------------------------------------------------------------------
  const eyeOf = () => {
    const [sa, ca, se, ce] = [Math.sin(now.azimuth), Math.cos(now.azimuth), Math.sin(now.elevation), Math.cos(now.elevation)];
    return { eye: [sa * ce, -ca * ce, se], up: [-sa * se, ca * se, ce], right: [ca, sa, 0] };
  };

  function place() {
    const { eye, up, right } = eyeOf();
    const far = 8 * now.reach;
    const aspect = now.width / now.height;
    const high = now.tall * Math.cos(now.elevation) + now.round * Math.abs(Math.sin(now.elevation));
    const half = (Math.max(high * 1.2, (now.round * 1.14) / aspect) || 1) / now.zoom;
    const [wide, tall] = [half * aspect, half];
    Object.assign(camera, { left: -wide, right: wide, top: tall, bottom: -tall, near: 0, far: far * 2 });
    camera.updateProjectionMatrix();
    const centre = now.mesh.centre.map((value, axis) => value + right[axis] * now.shift[0] * half + up[axis] * now.shift[1] * half);
    camera.matrix.copy(new Matrix4().makeBasis(new Vector3(...right), new Vector3(...up), new Vector3(...eye)));
    camera.matrix.setPosition(...centre.map((value, axis) => value + eye[axis] * far));
    camera.updateMatrixWorld(true);
    lamp.position.set(...centre.map((value, axis) => value + far * (eye[axis] * 0.75 + up[axis] * 0.55 - right[axis] * 0.5)));
    lamp.target.position.set(...centre);
    lamp.target.updateMatrixWorld();
    now.half = half;
    return eye;
  }

  const project = (point) => {
    const at = new Vector3(...point).project(camera);
    return [((at.x + 1) / 2) * now.width, ((1 - at.y) / 2) * now.height];
  };

  /** Lines beside the body that say how long, deep and high it is; gives where their words stand. */
  function measures(eye) {
    const { low, high, diagonal } = now.mesh;
    const off = diagonal * 0.07;
    const y = eye[1] < 0 ? low[1] - off : high[1] + off;
    const x = eye[0] > 0 ? high[0] + off : low[0] - off;
    const corners = [[low[0], low[1]], [high[0], low[1]], [high[0], high[1]], [low[0], high[1]]];
    const side = corners.reduce((best, one) => (project([...one, 0])[0] < project([...best, 0])[0] - 0.01 ? one : best));
    const out = [side[0] + Math.sign(side[0] - now.mesh.centre[0]) * off * 0.5, side[1] + Math.sign(side[1] - now.mesh.centre[1]) * off * 0.5];
    const base = Math.min(0, low[2]);
    const spans = [[[low[0], y, base], [high[0], y, base]], [[x, low[1], base], [x, high[1], base]], [[...out, low[2]], [...out, high[2]]]];
    const points = [];
    const words = spans.map(([from, to]) => {
      const [a, b] = [project(from), project(to)];
      if (Math.hypot(a[0] - b[0], a[1] - b[1]) < 34) return null;
      points.push(...from, ...to);
      return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    });
    measure.visible = points.length > 0 && now.offsets.size === 0;
    if (points.length) { measure.geometry.dispose(); measure.geometry = new LineSegmentsGeometry(); measure.geometry.setPositions(points); }
    return measure.visible ? words : [null, null, null];
  }

  function draw() {
    if (!now.mesh || now.width < 2) return { words: [] };
    const eye = place();
    const count = contour(now.mesh, eye, now.labels, now.offsets, room);
    outlineGeometry.instanceCount = count;
    outlineBuffer.clearUpdateRanges();
    outlineBuffer.addUpdateRange(0, count * 6);
    outlineBuffer.needsUpdate = count > 0;
    outline.visible = count > 0;
    const words = measures(eye);
    renderer.render(scene, camera);
    return { words };
  }

  // faces by name: the same view drawn small with every face in a colour of its own ------------------------------
  const names = new WebGLRenderTarget(8, 8, { minFilter: NearestFilter, magFilter: NearestFilter });
  function namesIn(width, height) {
    names.setSize(width, height);
    const others = [outline, measure, grid, arrows, marks, paint];
    const shown = others.map((one) => one.visible);
    others.forEach((one) => { one.visible = false; });
    const kept = [];
    scene.traverse((one) => {
      if (one.isLineSegments2 && one.parent?.parent === pieces) { kept.push([one, "visible", one.visible]); one.visible = false; }
      if (one.isMesh && (one === core || one.userData.own)) { kept.push([one, "material", one.material]); one.material = nameInk; }
    });
    renderer.setRenderTarget(names);
    renderer.clear();
    renderer.render(scene, camera);
    const pixels = new Uint8Array(width * height * 4);
    renderer.readRenderTargetPixels(names, 0, 0, width, height, pixels);
    renderer.setRenderTarget(null);
    kept.forEach(([one, key, value]) => { one[key] = value; });
    others.forEach((one, at) => { one.visible = shown[at]; });
    return pixels;
  }
  const faceAt = (pixels, at) => ((pixels[at * 4] << 16) | (pixels[at * 4 + 1] << 8) | pixels[at * 4 + 2]) - 1;

  let seen = null;
  /** Whether the body stood before a point when the numbers were placed last. */
  const hides = ([x, y], point) => {
    if (!seen || x < 0 || y < 0 || x >= now.width || y >= now.height) return false;
    const face = faceAt(seen.pixels, Math.floor((1 - y / now.height) * seen.height) * seen.width + Math.floor((x / now.width) * seen.width));
    if (face < 0 || face >= now.mesh.count) return false;
    const { eye } = eyeOf();
    const away = now.offsets.get(now.labels[face] ?? 0) ?? [0, 0, 0];
    return eye.reduce((sum, value, axis) => sum + value * (now.mesh.corners[face * 9 + axis] + away[axis] - point[axis]), 0) > 0;
  };

  /** For every label that is seen, the point deepest inside what is seen of it: the number stands there. */
  function places() {
    const scale = Math.max(2, now.width / 240);
    const [width, height] = [Math.max(2, Math.round(now.width / scale)), Math.max(2, Math.round(now.height / scale))];
    const pixels = namesIn(width, height);
    seen = { pixels, width, height };
    const label = new Int16Array(width * height).fill(-1);
    for (let at = 0; at < label.length; at += 1) {
      const face = faceAt(pixels, at);
      if (face >= 0 && face < now.mesh.count) label[at] = now.labels[face] ?? 0;
    }
    const depth = new Uint16Array(width * height);
    const grow = (at, steps) => {
      let least = 65535;
      for (const step of steps) least = Math.min(least, label[at + step] === label[at] ? depth[at + step] : 0);
      return least + 1;
    };
    for (let y = 1; y < height - 1; y += 1) for (let x = 1; x < width - 1; x += 1) if (label[y * width + x] >= 0) depth[y * width + x] = grow(y * width + x, [-1, -width, -width - 1, -width + 1]);
    const best = new Map();
    for (let y = height - 2; y > 0; y -= 1) {
      for (let x = width - 2; x > 0; x -= 1) {
        const at = y * width + x;
        if (label[at] < 0) continue;
        depth[at] = Math.min(depth[at], grow(at, [1, width, width + 1, width - 1]));
        if (depth[at] > (best.get(label[at])?.depth ?? 0)) best.set(label[at], { face: faceAt(pixels, at), depth: depth[at], x: ((x + 0.5) * now.width) / width, y: now.height - ((y + 0.5) * now.height) / height });
      }
    }
    for (const one of best.values()) {
      one.depth *= scale;
      one.home = now.mesh.corners.slice(one.face * 9, one.face * 9 + 3);
    }
    return best;
  }

  /** The face under a place in the picture, and the point on it, measured where the body stands together. */
  function pick(x, y) {
    const [left, top] = [Math.floor(x), Math.floor(y)];
    camera.setViewOffset(now.width, now.height, left, top, 1, 1);
    const pixels = namesIn(1, 1);
    camera.clearViewOffset();
    const face = faceAt(pixels, 0);
    if (face < 0 || face >= now.mesh.count) return null;
    const { eye } = eyeOf();
    const from = new Vector3(((x / now.width) * 2 - 1), 1 - (y / now.height) * 2, -1).unproject(camera);
    const moved = now.offsets.get(now.labels[face] ?? 0) ?? [0, 0, 0];
    const corner = [0, 1, 2].map((axis) => now.mesh.corners[face * 9 + axis] + moved[axis]);
    const flat = [...now.mesh.flat.subarray(face * 3, face * 3 + 3)];
    const across = flat[0] * eye[0] + flat[1] * eye[1] + flat[2] * eye[2];
    const deep = Math.abs(across) < 1e-4 ? 0 : flat.reduce((sum, value, axis) => sum + value * (corner[axis] - from.getComponent(axis)), 0) / across;
    const point = Math.abs(across) < 1e-4 ? corner : [0, 1, 2].map((axis) => from.getComponent(axis) + eye[axis] * deep);
    return { face, label: now.labels[face] ?? 0, point: point.map((value, axis) => Number((value - moved[axis]).toPrecision(7))) };
  }

  function size(width, height) {
    Object.assign(now, { width, height });
    renderer.setPixelRatio(Math.min(2, globalThis.devicePixelRatio || 1));
    renderer.setSize(width, height, false);
    for (const ink of Object.values(inks)) ink.resolution?.set(width, height);
  }

  /** Where a number goes while the body turns, or nothing once its face has turned away. */
  const follow = (label, anchor) => {
    const { eye } = eyeOf();
    const flat = now.mesh.flat.subarray(anchor.face * 3, anchor.face * 3 + 3);
    if (now.offsets.size === 0 && flat[0] * eye[0] + flat[1] * eye[1] + flat[2] * eye[2] < 0.15) return null;
    const away = now.offsets.get(label) ?? [0, 0, 0];
    return project(anchor.home.map((value, axis) => value + away[axis]));
  };
  const arrowTips = () => arrows.children.map((arrow) => {
    const tip = arrow.position.clone().add(arrow.userData.tip);
    const at = project([tip.x, tip.y, tip.z]);
    return { number: arrow.userData.number, at: hides(at, [tip.x, tip.y, tip.z]) ? null : at };
  });

  function dispose() {
    for (const group of [pieces, arrows, marks]) clear(group);
    for (const one of [outline, measure, core, paint, grid]) one.geometry.dispose();
    names.dispose();
    renderer.dispose();
    renderer.forceContextLoss();
  }
  return { now, eyeOf, setMesh, setGroups, setPieces, setMarks, setPainted, board, colour, slide, draw, places, pick, size, follow, arrowTips, dispose };
}
