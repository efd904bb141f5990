// The comparison's data and its two frames: px of the registered pictures (y down) and um of the
// earlier die (y up).

const readJson = id => JSON.parse(document.getElementById(id).textContent);
const Pair = readJson("comparison-data");

const Frame = {
  scaled: Pair.scaled,
  pitch: Pair.unit_per_px,

  toDie(p) {
    return [Pair.left + p[0] * Pair.unit_per_px, Pair.top - p[1] * Pair.unit_per_px];
  },

  // Smallest box around rings of outlines: left, upper, right, lower side.
  box(outlines) {
    const all = outlines.flat(2);
    const xs = all.map(p => p[0]), ys = all.map(p => p[1]);
    return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
  },

  area(outlines) {
    const ring = r => Math.abs(r.reduce((sum, p, i) => {
      const q = r[(i + 1) % r.length];
      return sum + p[0] * q[1] - q[0] * p[1];
    }, 0)) / 2;
    return outlines.reduce((sum, o) => sum + ring(o[0]), 0);
  },

  // Whether a place lies in one of the outlines (rule of even and odd crossings).
  inside(outlines, [x, y]) {
    return outlines.some(rings => rings.reduce((odd, r) => r.reduce((o, p, i) => {
      const q = r[(i + 1) % r.length];
      const crosses = p[1] > y !== q[1] > y
        && x < p[0] + (y - p[1]) / (q[1] - p[1]) * (q[0] - p[0]);
      return crosses ? !o : o;
    }, odd), false));
  },
};
