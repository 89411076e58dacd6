// What is worked out once from triangles: corners for the graphics card, who lies next to whom, bounds.

const CREASE = Math.cos((42 * Math.PI) / 180);

/** Typed arrays want their own bytes: a view into a message may start anywhere. */
export const typed = (Kind, view) => {
  if (!view || !view.byteLength) return new Kind(0);
  const bytes = view.buffer ? view.buffer.slice(view.byteOffset, view.byteOffset + view.byteLength) : view.slice(0);
  return new Kind(bytes, 0, Math.floor(bytes.byteLength / Kind.BYTES_PER_ELEMENT));
};

/** For each vertex the faces round it, as one list with starts. */
function facesRound(count, faces) {
  const starts = new Uint32Array(count + 1);
  for (const vertex of faces) starts[vertex + 1] += 1;
  for (let vertex = 0; vertex < count; vertex += 1) starts[vertex + 1] += starts[vertex];
  const fill = starts.slice();
  const round = new Uint32Array(faces.length);
  for (let corner = 0; corner < faces.length; corner += 1) round[fill[faces[corner]]++] = Math.floor(corner / 3);
  return { starts, round };
}

/** Across each edge (corner k to the next) the face next to it, or -1 on an open border. */
function neighbours(faces, { starts, round }) {
  const next = new Int32Array(faces.length).fill(-1);
  for (let corner = 0; corner < faces.length; corner += 1) {
    const face = Math.floor(corner / 3);
    const from = faces[corner];
    const to = faces[face * 3 + ((corner + 1) % 3)];
    for (let at = starts[from]; at < starts[from + 1]; at += 1) {
      const other = round[at];
      if (other === face) continue;
      const base = other * 3;
      if (faces[base] === to || faces[base + 1] === to || faces[base + 2] === to) { next[corner] = other; break; }
    }
  }
  return next;
}

/** Everything about a mesh that does not change with colours or views. */
export function meshOf(points, faces) {
  const count = points.length / 3;
  const faceCount = Math.floor(faces.length / 3);
  const flat = new Float32Array(faceCount * 3);
  const area = new Float32Array(faceCount);
  const corners = new Float32Array(faceCount * 9);
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let place = 0; place < points.length; place += 1) {
    low[place % 3] = Math.min(low[place % 3], points[place]);
    high[place % 3] = Math.max(high[place % 3], points[place]);
  }
  for (let face = 0; face < faceCount; face += 1) {
    const [a, b, c] = [faces[face * 3] * 3, faces[face * 3 + 1] * 3, faces[face * 3 + 2] * 3];
    for (let axis = 0; axis < 3; axis += 1) {
      corners[face * 9 + axis] = points[a + axis];
      corners[face * 9 + 3 + axis] = points[b + axis];
      corners[face * 9 + 6 + axis] = points[c + axis];
    }
    const [ux, uy, uz] = [points[b] - points[a], points[b + 1] - points[a + 1], points[b + 2] - points[a + 2]];
    const [vx, vy, vz] = [points[c] - points[a], points[c + 1] - points[a + 1], points[c + 2] - points[a + 2]];
    const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const size = Math.hypot(x, y, z);
    area[face] = size / 2;
    flat.set(size > 0 ? [x / size, y / size, z / size] : [0, 0, 0], face * 3);
  }
  const around = facesRound(count, faces);
  const normals = new Float32Array(faceCount * 9);
  for (let corner = 0; corner < faces.length; corner += 1) {
    // smooth where the surface is, sharp over a crease
    const own = Math.floor(corner / 3) * 3;
    let [x, y, z] = [0, 0, 0];
    for (let at = around.starts[faces[corner]]; at < around.starts[faces[corner] + 1]; at += 1) {
      const other = around.round[at] * 3;
      if (flat[own] * flat[other] + flat[own + 1] * flat[other + 1] + flat[own + 2] * flat[other + 2] < CREASE) continue;
      const weight = area[around.round[at]];
      x += flat[other] * weight; y += flat[other + 1] * weight; z += flat[other + 2] * weight;
    }
    const size = Math.hypot(x, y, z);
    normals.set(size > 0 ? [x / size, y / size, z / size] : flat.subarray(own, own + 3), corner * 3);
  }
  const names = new Uint8Array(faceCount * 9);
  for (let corner = 0; corner < faceCount * 3; corner += 1) {
    const name = Math.floor(corner / 3) + 1;
    names.set([name >> 16, (name >> 8) & 255, name & 255], corner * 3);
  }
  if (!faceCount) { low.fill(0); high.fill(0); }
  const centre = low.map((value, axis) => (value + high[axis]) / 2);
  const diagonal = Math.hypot(...low.map((value, axis) => high[axis] - value)) || 1;
  return { count: faceCount, corners, normals, names, flat, area, next: neighbours(faces, around), low, high, centre, diagonal };
}

/** Faces by label, and for each label where it lies. */
export function groupsOf(mesh, labels) {
  const lists = new Map();
  for (let face = 0; face < mesh.count; face += 1) {
    const label = labels[face] ?? 0;
    if (!lists.has(label)) lists.set(label, []);
    lists.get(label).push(face);
  }
  const groups = new Map();
  for (const label of [...lists.keys()].sort((a, b) => a - b)) {
    const faces = Uint32Array.from(lists.get(label));
    const index = new Uint32Array(faces.length * 3);
    const border = [];
    const low = [Infinity, Infinity, Infinity];
    const high = [-Infinity, -Infinity, -Infinity];
    faces.forEach((face, place) => {
      for (let corner = 0; corner < 3; corner += 1) {
        index[place * 3 + corner] = face * 3 + corner;
        const other = mesh.next[face * 3 + corner];
        const from = face * 9 + corner * 3;
        const to = face * 9 + ((corner + 1) % 3) * 3;
        for (let axis = 0; axis < 3; axis += 1) {
          low[axis] = Math.min(low[axis], mesh.corners[from + axis]);
          high[axis] = Math.max(high[axis], mesh.corners[from + axis]);
        }
        if (other < 0 || (labels[other] ?? 0) !== label) border.push(...mesh.corners.subarray(from, from + 3), ...mesh.corners.subarray(to, to + 3));
      }
    });
    groups.set(label, { label, faces, index, border, low, high });
  }
  return groups;
}

/** Which way each face looks, evened out with its neighbours: the form, without what is rough on it. */
function evened(mesh, times) {
  let now = mesh.flat.slice();
  for (let time = 0; time < times; time += 1) {
    const before = now;
    now = new Float32Array(before.length);
    for (let face = 0; face < mesh.count; face += 1) {
      for (let axis = 0; axis < 3; axis += 1) {
        let sum = before[face * 3 + axis] * mesh.area[face];
        for (let corner = 0; corner < 3; corner += 1) {
          const other = mesh.next[face * 3 + corner];
          // not over a sharp edge: a box keeps its sides
          if (other >= 0 && before[face * 3] * before[other * 3] + before[face * 3 + 1] * before[other * 3 + 1] + before[face * 3 + 2] * before[other * 3 + 2] > CREASE) sum += before[other * 3 + axis] * mesh.area[other];
        }
        now[face * 3 + axis] = sum;
      }
      const size = Math.hypot(now[face * 3], now[face * 3 + 1], now[face * 3 + 2]) || 1;
      for (let axis = 0; axis < 3; axis += 1) now[face * 3 + axis] /= size;
    }
  }
  return now;
}

/** Labels of the slope mode: the band that the form's angle from straight up falls in at each face, counted from 1. */
export function slopeLabels(mesh, bands) {
  const labels = new Uint8Array(mesh.count);
  const ways = evened(mesh, 12);
  for (let face = 0; face < mesh.count; face += 1) {
    const degrees = (Math.acos(Math.max(-1, Math.min(1, ways[face * 3 + 2]))) * 180) / Math.PI;
    const band = bands.findIndex((one) => degrees <= one.upto);
    labels[face] = (band < 0 ? bands.length - 1 : band) + 1;
  }
  return labels;
}

/** Lines that make the shape readable from one side: where the surface turns away from the eye, and sharp edges. */
export function contour(mesh, eye, labels, offsets, room) {
  const [ex, ey, ez] = eye;
  const { flat, next, corners, count } = mesh;
  let used = 0;
  const facing = contour.facing?.length === count ? contour.facing : (contour.facing = new Int8Array(count));
  for (let face = 0; face < count; face += 1) facing[face] = flat[face * 3] * ex + flat[face * 3 + 1] * ey + flat[face * 3 + 2] * ez > 0 ? 1 : 0;
  for (let corner = 0; corner < count * 3; corner += 1) {
    const face = (corner / 3) | 0;
    const other = next[corner];
    if (other < face) continue;
    if (facing[face] === facing[other]) {
      if (!facing[face]) continue;
      const [a, b] = [face * 3, other * 3];
      if (flat[a] * flat[b] + flat[a + 1] * flat[b + 1] + flat[a + 2] * flat[b + 2] > 0.6) continue;
    }
    if (used + 6 > room.length) break;
    const from = corner * 3;
    const to = face * 9 + ((corner + 1) % 3) * 3;
    const away = offsets.get(labels[face] ?? 0);
    for (let axis = 0; axis < 3; axis += 1) {
      const shift = away ? away[axis] : 0;
      room[used + axis] = corners[from + axis] + shift;
      room[used + 3 + axis] = corners[to + axis] + shift;
    }
    used += 6;
  }
  return used / 6;
}
