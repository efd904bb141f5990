// Union, difference and cuts of shapes. All sides are broken where they meet, every piece is kept
// if the wanted area lies on one of its two sides only, and the pieces are chained to rings. Slower
// than a sweep, but it bears touching and overlapping sides, and outlines have few corners.

const Clip = (() => {
  const GRID = 1 / 512; // px; coordinates are told to a hundredth of a px or um
  const NEAR = 2 * GRID;
  const PROBE = 3 * GRID; // how far beside a side its two areas are looked up

  const snap = v => Math.round(v / GRID) * GRID;
  const key = p => p[0] + "," + p[1];

  function sidesOf(rings) {
    const sides = [];
    for (const ring of rings) {
      const corners = ring.map(([x, y]) => [snap(x), snap(y)]);
      corners.forEach((a, i) => {
        const b = corners[(i + 1) % corners.length];
        if (key(a) !== key(b)) {
          sides.push({ a, b, breaks: [a, b] });
        }
      });
    }
    return sides;
  }

  function breakBoth(s, t) {
    if (Math.max(s.a[0], s.b[0]) + NEAR < Math.min(t.a[0], t.b[0])
        || Math.max(t.a[0], t.b[0]) + NEAR < Math.min(s.a[0], s.b[0])
        || Math.max(s.a[1], s.b[1]) + NEAR < Math.min(t.a[1], t.b[1])
        || Math.max(t.a[1], t.b[1]) + NEAR < Math.min(s.a[1], s.b[1])) {
      return;
    }
    for (const [one, other] of [[s, t], [t, s]]) {
      for (const p of [other.a, other.b]) {
        if (Geometry.onSide(p, one.a, one.b).distance < NEAR) {
          one.breaks.push(p);
        }
      }
    }
    const dx = s.b[0] - s.a[0], dy = s.b[1] - s.a[1];
    const ex = t.b[0] - t.a[0], ey = t.b[1] - t.a[1];
    const cross = dx * ey - dy * ex;
    if (Math.abs(cross) < 1e-12) {
      return;
    }
    const u = ((t.a[0] - s.a[0]) * ey - (t.a[1] - s.a[1]) * ex) / cross;
    const v = ((t.a[0] - s.a[0]) * dy - (t.a[1] - s.a[1]) * dx) / cross;
    if (u > 0 && u < 1 && v > 0 && v < 1) {
      const p = [snap(s.a[0] + u * dx), snap(s.a[1] + u * dy)];
      s.breaks.push(p);
      t.breaks.push(p);
    }
  }

  function pieces(sides) {
    for (let i = 0; i < sides.length; i++) {
      for (let j = i + 1; j < sides.length; j++) {
        breakBoth(sides[i], sides[j]);
      }
    }
    const all = new Map();
    for (const s of sides) {
      const along = p => (p[0] - s.a[0]) * (s.b[0] - s.a[0]) + (p[1] - s.a[1]) * (s.b[1] - s.a[1]);
      s.breaks.sort((p, q) => along(p) - along(q));
      for (let i = 0; i + 1 < s.breaks.length; i++) {
        const [a, b] = [s.breaks[i], s.breaks[i + 1]];
        if (key(a) !== key(b)) {
          const [from, to] = key(a) < key(b) ? [a, b] : [b, a];
          all.set(key(from) + ";" + key(to), [from, to]);
        }
      }
    }
    return [...all.values()];
  }

  // Pieces with the wanted area on their left, by the corner they start from.
  function border(pieces, wanted) {
    const from = new Map();
    for (const [a, b] of pieces) {
      const long = Geometry.distance(a, b);
      const nx = -(b[1] - a[1]) / long * PROBE, ny = (b[0] - a[0]) / long * PROBE;
      const middle = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      const left = wanted([middle[0] + nx, middle[1] + ny]);
      const right = wanted([middle[0] - nx, middle[1] - ny]);
      if (left !== right) {
        const [start, end] = left ? [a, b] : [b, a];
        if (!from.has(key(start))) {
          from.set(key(start), []);
        }
        from.get(key(start)).push({ start, end });
      }
    }
    return from;
  }

  const angle = (p, q) => Math.atan2(q[1] - p[1], q[0] - p[0]);

  // At a corner where areas touch, the sharpest turn to the left keeps them apart.
  function next(choices, came) {
    let best = 0, least = Infinity;
    choices.forEach((c, i) => {
      let turn = came - angle(c.start, c.end);
      while (turn <= 1e-9) {
        turn += 2 * Math.PI;
      }
      if (turn < least) {
        least = turn;
        best = i;
      }
    });
    return choices.splice(best, 1)[0];
  }

  function ringsFrom(from) {
    const rings = [];
    for (const choices of from.values()) {
      while (choices.length > 0) {
        const ring = [];
        let piece = choices.pop();
        const first = key(piece.start);
        while (piece) {
          ring.push(piece.start);
          if (key(piece.end) === first) {
            rings.push(Geometry.tidy(ring));
            break;
          }
          const onward = from.get(key(piece.end));
          piece = onward && onward.length > 0
            ? next(onward, angle(piece.end, piece.start)) : null;
        }
      }
    }
    return rings.filter(ring => ring.length >= 3);
  }

  // Outer rings with the holes that lie in them; specks are dropped.
  function shapes(rings, least) {
    const outer = [], holes = [];
    for (const ring of rings) {
      const area = Geometry.ringArea(ring);
      if (Math.abs(area) >= least) {
        (area > 0 ? outer : holes).push({ ring, area: Math.abs(area) });
      }
    }
    outer.sort((a, b) => a.area - b.area);
    const out = outer.map(o => [o.ring]);
    for (const h of holes) {
      const [a, b] = h.ring;
      const long = Geometry.distance(a, b);
      const p = [(a[0] + b[0]) / 2 - (b[1] - a[1]) / long * PROBE,
        (a[1] + b[1]) / 2 + (b[0] - a[0]) / long * PROBE];
      const home = out.find(shape => Geometry.inside([shape[0]], p));
      if (home) {
        home.push(h.ring);
      }
    }
    return out.sort((a, b) => Geometry.area(b) - Geometry.area(a));
  }

  function combine(one, other, wanted, least) {
    const sides = [...sidesOf(one), ...sidesOf(other)];
    const asked = p => wanted(Geometry.inside(one, p), Geometry.inside(other, p));
    return shapes(ringsFrom(border(pieces(sides), asked)), least);
  }

  const LEAST_PX2 = 16; // smaller leftovers are what remains of two nearly equal sides

  return {
    // Each gives a list of shapes, largest first.
    union: (a, b) => combine(a, b, (p, q) => p || q, LEAST_PX2),
    minus: (a, b) => combine(a, b, (p, q) => p && !q, LEAST_PX2),
    common: (a, b) => combine(a, b, (p, q) => p && q, LEAST_PX2),

    // The parts of a shape on both sides of a line, whose ends are drawn out as far as needed.
    cut(rings, line) {
      const [x0, y0, x1, y1] = Geometry.box([...rings, line]);
      const far = 4 * (x1 - x0 + y1 - y0);
      const n = line.length;
      const out = (p, q) => {
        const long = Geometry.distance(p, q);
        return [q[0] + (q[0] - p[0]) / long * far, q[1] + (q[1] - p[1]) / long * far];
      };
      const start = out(line[1], line[0]), end = out(line[n - 2], line[n - 1]);
      const long = Geometry.distance(start, end);
      const nx = -(end[1] - start[1]) / long * 2 * far, ny = (end[0] - start[0]) / long * 2 * far;
      const half = [[start, ...line.slice(1, -1), end,
        [end[0] + nx, end[1] + ny], [start[0] + nx, start[1] + ny]]];
      return [...Clip.common(rings, half), ...Clip.minus(rings, half)];
    },
  };
})();
