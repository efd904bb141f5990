// Plane geometry of shapes. A point is [x, y], a ring a list of points that is not closed, a shape
// a list of rings: the outer one, then its holes. Nothing here changes its arguments.

const Geometry = {
  ringArea(ring) {
    let twice = 0;
    for (let i = 0, n = ring.length; i < n; i++) {
      const p = ring[i], q = ring[(i + 1) % n];
      twice += p[0] * q[1] - q[0] * p[1];
    }
    return twice / 2;
  },

  area(rings) {
    return rings.reduce(
      (sum, ring, i) => sum + (i === 0 ? 1 : -1) * Math.abs(Geometry.ringArea(ring)), 0);
  },

  box(rings) {
    const box = [Infinity, Infinity, -Infinity, -Infinity];
    for (const ring of rings) {
      for (const [x, y] of ring) {
        box[0] = Math.min(box[0], x);
        box[1] = Math.min(box[1], y);
        box[2] = Math.max(box[2], x);
        box[3] = Math.max(box[3], y);
      }
    }
    return box;
  },

  // Even-odd rule over all rings, so holes are outside.
  inside(rings, [x, y]) {
    let inside = false;
    for (const ring of rings) {
      for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
        const [xi, yi] = ring[i], [xj, yj] = ring[j];
        if (yi > y !== yj > y && x < (xj - xi) * (y - yi) / (yj - yi) + xi) {
          inside = !inside;
        }
      }
    }
    return inside;
  },

  distance(p, q) {
    return Math.hypot(p[0] - q[0], p[1] - q[1]);
  },

  // The place of a side nearest to p.
  onSide(p, a, b) {
    const dx = b[0] - a[0], dy = b[1] - a[1];
    const long = dx * dx + dy * dy;
    const t = long === 0 ? 0
      : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / long));
    const at = [a[0] + t * dx, a[1] + t * dy];
    return { at, t, distance: Geometry.distance(p, at) };
  },

  // The nearest corner as {ring, corner, distance}.
  nearestCorner(rings, p) {
    let best = null;
    rings.forEach((ring, r) => ring.forEach((q, c) => {
      const distance = Geometry.distance(p, q);
      if (!best || distance < best.distance) {
        best = { ring: r, corner: c, distance };
      }
    }));
    return best;
  },

  // The nearest side as {ring, corner, at, distance}; it runs from that corner to the next.
  nearestSide(rings, p) {
    let best = null;
    rings.forEach((ring, r) => ring.forEach((a, c) => {
      const on = Geometry.onSide(p, a, ring[(c + 1) % ring.length]);
      if (!best || on.distance < best.distance) {
        best = { ring: r, corner: c, at: on.at, distance: on.distance };
      }
    }));
    return best;
  },

  // Where a label fits best: the roomiest point of a coarse grid, refined twice.
  labelPlace(rings) {
    let [x0, y0, x1, y1] = Geometry.box(rings);
    let best = { at: [(x0 + x1) / 2, (y0 + y1) / 2], room: 0 };
    for (let round = 0; round < 3; round++) {
      const dx = (x1 - x0) / 13, dy = (y1 - y0) / 13;
      for (let i = 0; i <= 13; i++) {
        for (let j = 0; j <= 13; j++) {
          const p = [x0 + i * dx, y0 + j * dy];
          if (Geometry.inside(rings, p)) {
            const room = Geometry.nearestSide(rings, p).distance;
            if (room > best.room * 1.001) {
              best = { at: p, room };
            }
          }
        }
      }
      x0 = best.at[0] - dx;
      x1 = best.at[0] + dx;
      y0 = best.at[1] - dy;
      y1 = best.at[1] + dy;
    }
    return best;
  },

  // Whether two sides of a shape cross or a corner lies on a foreign side.
  crossesItself(rings) {
    const sides = [];
    rings.forEach((ring, r) => ring.forEach((a, c) =>
      sides.push({ a, b: ring[(c + 1) % ring.length], r, c, n: ring.length })));
    const side = (a, b, p) => Math.sign((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]));
    for (let i = 0; i < sides.length; i++) {
      for (let j = i + 1; j < sides.length; j++) {
        const s = sides[i], t = sides[j];
        const next = s.r === t.r && (s.c + 1 === t.c || (s.c === 0 && t.c === s.n - 1));
        if (!next && side(s.a, s.b, t.a) * side(s.a, s.b, t.b) < 0
            && side(t.a, t.b, s.a) * side(t.a, t.b, s.b) < 0) {
          return true;
        }
      }
    }
    return false;
  },

  // Without corners that lie on the line between their neighbours, and without doubled corners.
  tidy(ring, slack = 0.01) {
    let out = ring.filter((p, i) =>
      Geometry.distance(p, ring[(i + ring.length - 1) % ring.length]) > slack);
    for (let again = true; again && out.length > 3;) {
      again = false;
      for (let i = 0; i < out.length && out.length > 3; i++) {
        const a = out[(i + out.length - 1) % out.length], b = out[(i + 1) % out.length];
        if (Geometry.onSide(out[i], a, b).distance <= slack) {
          out = out.filter((_, k) => k !== i);
          again = true;
          i--;
        }
      }
    }
    return out;
  },
};
