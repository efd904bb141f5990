// Straight edges of the picture near an outline: the strongest step of grey across a side, averaged
// along it.

const Edges = (() => {
  const STAND_OUT = 2.5; // a step counts if it is this many times the median step around it
  const LEAST_STEP = 4; // grey values of 255; less is noise

  // The level whose px are about as large as those of the screen.
  function levelFor(photoPxPerScreenPx) {
    const wanted = Math.round(Math.log2(photoPxPerScreenPx));
    return Math.min(Pyramid.coarsest, Math.max(Pyramid.finest, wanted));
  }

  return {
    // How far the strongest edge lies from a side, along the side's normal; undefined where none
    // stands out. from, to: ends of the side; normal: unit vector; reach: px to look on both sides.
    offset(from, to, normal, reach, photoPxPerScreenPx) {
      const level = levelFor(photoPxPerScreenPx);
      const step = 2 ** level;
      const far = Math.ceil(reach / step) + 2;
      const long = Geometry.distance(from, to);
      const samples = Math.max(6, Math.min(160, Math.round(long / step)));
      const profile = [];
      for (let t = -far; t <= far; t++) {
        let sum = 0, n = 0;
        for (let i = 0; i < samples; i++) {
          const along = (i + 0.5) / samples;
          const g = Pyramid.greyAt(level,
            from[0] + along * (to[0] - from[0]) + t * step * normal[0],
            from[1] + along * (to[1] - from[1]) + t * step * normal[1]);
          if (g === g) {
            sum += g;
            n++;
          }
        }
        profile.push(n > samples / 2 ? sum / n : NaN);
      }
      const steps = [];
      for (let i = 2; i + 2 < profile.length; i++) {
        const rise = profile[i + 1] + profile[i + 2] - profile[i - 1] - profile[i - 2];
        steps.push(rise === rise ? Math.abs(rise) / 2 : 0);
      }
      const sorted = [...steps].sort((a, b) => a - b);
      const median = sorted[sorted.length >> 1];
      let best = -1, most = 0;
      steps.forEach((s, i) => {
        const offset = Math.abs(i + 2 - far) / far;
        const weight = s * (1 - 0.4 * offset); // of two equal edges, the nearer
        if (weight > most && s >= LEAST_STEP && s > STAND_OUT * median) {
          most = weight;
          best = i;
        }
      });
      if (best < 0) {
        return undefined;
      }
      const a = steps[best - 1] || 0, b = steps[best], c = steps[best + 1] || 0;
      const bend = a - 2 * b + c;
      const fine = bend < 0 ? Math.max(-0.5, Math.min(0.5, 0.5 * (a - c) / bend)) : 0;
      const offset = (best + 2 - far + fine) * step;
      return Math.abs(offset) <= reach ? offset : undefined;
    },

    // Decodes what lies around a place, so that edges are known when a corner is moved there.
    prepare(p, reach, photoPxPerScreenPx) {
      const level = levelFor(photoPxPerScreenPx);
      for (const dx of [-reach, 0, reach]) {
        for (const dy of [-reach, 0, reach]) {
          Pyramid.greyAt(level, p[0] + dx, p[1] + dy);
        }
      }
    },
  };
})();
