// How outlines change when a corner or a side is moved. Pure functions: rings in, rings out.

const Reshape = (() => {
  const SQUARE = 0.02; // a side counts as along a die axis within this slope

  // Which die axis a side runs along: "x", "y" or none.
  function axis(a, b) {
    const dx = Math.abs((b[0] - a[0]) * Frame.x[0] + (b[1] - a[1]) * Frame.x[1]);
    const dy = Math.abs((b[0] - a[0]) * Frame.y[0] + (b[1] - a[1]) * Frame.y[1]);
    return dy <= SQUARE * dx ? "x" : dx <= SQUARE * dy ? "y" : undefined;
  }

  const along = (p, from, unit) => (p[0] - from[0]) * unit[0] + (p[1] - from[1]) * unit[1];
  const moved = (p, unit, by) => [p[0] + by * unit[0], p[1] + by * unit[1]];
  const round = ([x, y]) => [Math.round(x * 100) / 100, Math.round(y * 100) / 100];

  function withRing(rings, r, ring) {
    return rings.map((old, i) => i === r ? ring.map(round) : old);
  }

  function around(ring, c) {
    const n = ring.length;
    return [(c + n - 1) % n, (c + 1) % n];
  }

  return {
    axis,
    along,
    moved,
    withRing,

    // A corner goes to a place. With right angles held, the neighbours follow so that sides along
    // a die axis stay so.
    corner(rings, r, c, to, hold) {
      const ring = rings[r].slice();
      const [before, after] = around(ring, c);
      const from = ring[c];
      ring[c] = to;
      if (hold) {
        const one = axis(rings[r][before], from), two = axis(from, rings[r][after]);
        if (one !== two || one === undefined) {
          for (const [i, direction] of [[before, one], [after, two]]) {
            if (direction === "x") {
              ring[i] = moved(ring[i], Frame.y, along(to, from, Frame.y));
            } else if (direction === "y") {
              ring[i] = moved(ring[i], Frame.x, along(to, from, Frame.x));
            }
          }
        }
      }
      return withRing(rings, r, ring);
    },

    // The unit normal of the side that begins at a corner.
    normal(rings, r, c) {
      const a = rings[r][c], b = rings[r][(c + 1) % rings[r].length];
      const direction = axis(a, b);
      if (direction) {
        return direction === "x" ? Frame.y : Frame.x;
      }
      const long = Geometry.distance(a, b);
      return [-(b[1] - a[1]) / long, (b[0] - a[0]) / long];
    },

    // A side moves along its normal. A neighbour in the same line stays, and a step forms.
    side(rings, r, c, by) {
      const ring = rings[r];
      const n = ring.length, end = (c + 1) % n;
      const unit = Reshape.normal(rings, r, c);
      const direction = axis(ring[c], ring[end]);
      const inLine = (a, b) => direction !== undefined && axis(a, b) === direction;
      const out = [];
      for (let i = 0; i < n; i++) {
        const p = ring[i];
        if (i === c) {
          if (inLine(ring[(c + n - 1) % n], p)) {
            out.push(p);
          }
          out.push(moved(p, unit, by));
        } else if (i === end) {
          out.push(moved(p, unit, by));
          if (inLine(p, ring[(end + 1) % n])) {
            out.push(p);
          }
        } else {
          out.push(p);
        }
      }
      return withRing(rings, r, out);
    },

    insert(rings, r, c, p) {
      const ring = rings[r].slice();
      ring.splice(c + 1, 0, p);
      return withRing(rings, r, ring);
    },

    // Without a corner; a hole of three corners goes as a whole. Undefined if too few would remain.
    without(rings, r, c) {
      if (rings[r].length > 3) {
        return rings.map((ring, i) => i === r ? ring.filter((_, k) => k !== c) : ring);
      }
      return r > 0 ? rings.filter((_, i) => i !== r) : undefined;
    },

    // The rectangle along the die's axes with two opposite corners.
    rectangle(p, q) {
      const across = along(q, p, Frame.x), up = along(q, p, Frame.y);
      const a = moved(p, Frame.x, across);
      return [p, a, moved(a, Frame.y, up), moved(p, Frame.y, up)].map(round);
    },

    // A place drawn into line with another along a die axis, if it is nearly so.
    intoLine(p, others, reach) {
      let out = p;
      for (const unit of [Frame.x, Frame.y]) {
        const near = others.map(o => along(o, out, unit)).filter(d => Math.abs(d) <= reach)
          .sort((a, b) => Math.abs(a) - Math.abs(b));
        if (near.length > 0) {
          out = moved(out, unit, near[0]);
        }
      }
      return out;
    },
  };
})();
