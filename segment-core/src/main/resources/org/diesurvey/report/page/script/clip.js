// Union, difference, common part and cuts of shapes, by the library polygon-clipping. Coordinates
// keep all their digits, since rounded ones would no longer meet the sides of neighbours.

const Clip = (() => {
  const SAME = 1e-6; // px; corners closer than this are one

  const closed = rings => [rings.map(ring => [...ring, ring[0]])];

  // A list of shapes, largest first; rings without area are dropped.
  const shapes = list => list
    .map(shape => shape.map(ring => Geometry.tidy(ring.slice(0, -1), SAME))
      .filter(ring => ring.length >= 3 && Math.abs(Geometry.ringArea(ring)) > SAME))
    .filter(shape => shape.length > 0)
    .sort((a, b) => Geometry.area(b) - Geometry.area(a));

  return {
    union: (a, b) => shapes(polygonClipping.union(closed(a), closed(b))),
    minus: (a, b) => shapes(polygonClipping.difference(closed(a), closed(b))),
    common: (a, b) => shapes(polygonClipping.intersection(closed(a), closed(b))),

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
