// The two frames of a survey: px of the photograph (y down) and um of the die (y up).

const Frame = (() => {
  const scaled = Survey.scale !== undefined;
  const [c0, c1, c2, c3] = Survey.die.outline_px;
  const wide = Geometry.distance(c0, c1), high = Geometry.distance(c0, c3);
  const pitch = scaled ? Survey.scale.um_per_px : 1;
  const width = Survey.die.width_um || wide * pitch;
  const height = Survey.die.height_um || high * pitch;

  // The projective map of the unit square to the four corners of the die in the photograph
  // (standard construction, from memory); without perspective g and h are 0.
  const sx = c0[0] - c1[0] + c2[0] - c3[0], sy = c0[1] - c1[1] + c2[1] - c3[1];
  const dx1 = c1[0] - c2[0], dy1 = c1[1] - c2[1], dx2 = c3[0] - c2[0], dy2 = c3[1] - c2[1];
  const det = dx1 * dy2 - dx2 * dy1;
  const g = (sx * dy2 - dx2 * sy) / det, h = (dx1 * sy - sx * dy1) / det;
  const m = [
    c1[0] - c0[0] + g * c1[0], c3[0] - c0[0] + h * c3[0], c0[0],
    c1[1] - c0[1] + g * c1[1], c3[1] - c0[1] + h * c3[1], c0[1], g, h, 1];
  const inverse = [
    m[4] * m[8] - m[5] * m[7], m[2] * m[7] - m[1] * m[8], m[1] * m[5] - m[2] * m[4],
    m[5] * m[6] - m[3] * m[8], m[0] * m[8] - m[2] * m[6], m[2] * m[3] - m[0] * m[5],
    m[3] * m[7] - m[4] * m[6], m[1] * m[6] - m[0] * m[7], m[0] * m[4] - m[1] * m[3]];
  const mapped = (a, x, y) => {
    const w = a[6] * x + a[7] * y + a[8];
    return [(a[0] * x + a[1] * y + a[2]) / w, (a[3] * x + a[4] * y + a[5]) / w];
  };

  // The survey worked on whole px of its own upright raster, so its um may lie a part of a px
  // beside those of the fitted die edge. The mean over all corners puts both in one frame.
  const shift = [0, 0];
  if (scaled) {
    const pairs = Survey.regions.filter(r => r.um).flatMap(r => r.px.flatMap((ring, i) =>
      ring.map((p, k) => [mapped(inverse, p[0], p[1]), r.um[i][k]])));
    for (const [[u, v], [x, y]] of pairs) {
      shift[0] += (x - u * width) / pairs.length;
      shift[1] += (y - v * height) / pairs.length;
    }
  }

  return {
    scaled,
    pitch,
    width,
    height,
    // Size of the die by its corners in the photograph and the pitch, um.
    edgeWidth: pitch * (wide + Geometry.distance(c3, c2)) / 2,
    edgeHeight: pitch * (high + Geometry.distance(c1, c2)) / 2,
    relativeUncertainty: scaled ? Survey.scale.standard_uncertainty / pitch : 0,
    // Unit vectors of the die's axes in the photograph: x, and y upwards.
    x: [(c1[0] - c0[0]) / wide, (c1[1] - c0[1]) / wide],
    y: [(c3[0] - c0[0]) / high, (c3[1] - c0[1]) / high],

    toDie(p) {
      const [u, v] = mapped(inverse, p[0], p[1]);
      return [u * width + shift[0], v * height + shift[1]];
    },

    fromDie(p) {
      return mapped(m, (p[0] - shift[0]) / width, (p[1] - shift[1]) / height);
    },

    // Area in mm2 of rings in px; undefined without a scale.
    areaMm2(rings) {
      return scaled ? Geometry.area(rings.map(ring => ring.map(Frame.toDie))) / 1e6 : undefined;
    },

    share(rings) {
      return Geometry.area(rings) / Survey.die.area_px;
    },

    // Length between two places of the photograph, um or, without a scale, px.
    length(p, q) {
      return scaled ? Geometry.distance(Frame.toDie(p), Frame.toDie(q)) : Geometry.distance(p, q);
    },
  };
})();
