// Points as [x, y, z], and triangles and lines made finer so that they can be bent.

export const minus = (a, b) => a.map((one, n) => one - b[n]);
export const mixed = (a, b, by) => a.map((one, n) => one + b[n] * by);
export const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
export const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const degrees = (angle) => (angle * Math.PI) / 180;

// Triangles with no side longer than that; neighbours split a shared side in the same place, so the skin stays closed.
export function split(corners, longest) {
  let now = corners;
  for (let round = 0; round < 8; round += 1) {
    const next = [];
    let again = false;
    for (let n = 0; n < now.length; n += 3) {
      const [a, b, c] = [now[n], now[n + 1], now[n + 2]];
      const sides = [[a, b], [b, c], [c, a]].map(([p, q]) => (far(p, q) > longest ? between(p, q) : null));
      const count = sides.filter((one) => one !== null).length;
      again ||= count > 0;
      if (count === 0) next.push(a, b, c);
      else next.push(...pieces([a, b, c], sides, count));
    }
    now = next;
    if (!again) break;
  }
  return now;
}

const far = (p, q) => Math.hypot(p[0] - q[0], p[1] - q[1]);
const between = (p, q) => p.map((one, n) => (one + q[n]) / 2);

function pieces([a, b, c], [ab, bc, ca], count) {
  if (count === 3) return [a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca];
  if (count === 1) {
    if (ab) return [a, ab, c, ab, b, c];
    if (bc) return [b, bc, a, bc, c, a];
    return [c, ca, b, ca, a, b];
  }
  if (!ab) return [c, ca, bc, ca, a, bc, a, b, bc];
  if (!bc) return [a, ab, ca, ab, b, ca, b, c, ca];
  return [b, bc, ab, bc, c, ab, c, a, ab];
}

export function splitLines(ends, longest) {
  const found = [];
  for (let n = 0; n < ends.length; n += 2) {
    const [p, q] = [ends[n], ends[n + 1]];
    const count = Math.max(1, Math.ceil(far(p, q) / longest));
    for (let k = 0; k < count; k += 1) {
      found.push(mixed(p, minus(q, p), k / count), mixed(p, minus(q, p), (k + 1) / count));
    }
  }
  return found;
}

export const threes = (flat) => Array.from({ length: flat.length / 3 }, (_, n) => flat.slice(3 * n, 3 * n + 3));
