// The view as a picture for a paper: the photograph as it is shown, the layers that are on, rulers, a
// scale bar, and below it what the layers cover.

const PictureFile = (() => {
  const FINE = 2; // px of the picture for each screen px
  const INK = "#1c2430", FONT = "sans-serif";

  function path(context, rings, place) {
    context.beginPath();
    for (const ring of rings) {
      ring.map(place).forEach(([x, y], i) => context[i === 0 ? "moveTo" : "lineTo"](x, y));
      context.closePath();
    }
  }

  function stroke(context, colour, width, dash = []) {
    context.strokeStyle = colour;
    context.lineWidth = width;
    context.setLineDash(dash);
    context.stroke();
    context.setLineDash([]);
  }

  function label(context, text, x, y, size) {
    context.font = "bold " + size + "px " + FONT;
    context.textAlign = "center";
    context.textBaseline = "middle";
    const wide = context.measureText(text).width + size * 0.7;
    context.fillStyle = "#fffffff0";
    context.fillRect(x - wide / 2, y - size * 0.75, wide, size * 1.5);
    context.fillStyle = INK;
    context.fillText(text, x, y);
  }

  function shapes(context, place) {
    const list = Store.shapes.filter(Shapes.visible).sort((a, b) =>
      (a.kind === "array") - (b.kind === "array") || b.areaPx - a.areaPx);
    for (const s of list) {
      const line = Hatches.look(s, Shapes.view.byConfidence).line;
      path(context, s.rings, place);
      if (s.kind === "array") {
        stroke(context, "#ffffffc0", 2.6 * FINE);
        stroke(context, INK, 1.2 * FINE, [5 * FINE, 4 * FINE]);
        continue;
      }
      context.globalAlpha = Legend.tint / 100;
      context.fillStyle = line;
      context.fill("evenodd");
      context.globalAlpha = 1;
      stroke(context, "#ffffffc0", 4 * FINE);
      stroke(context, line, 2 * FINE, s.cls === "unclear" ? [7 * FINE, 5 * FINE] : []);
    }
    if (Shapes.view.edge && Survey.die.edge_found) {
      path(context, [Survey.die.outline_px], place);
      stroke(context, INK, 3.5 * FINE);
      stroke(context, "#ffffff", 1.5 * FINE);
    }
    if (Shapes.view.names) {
      for (const s of list.filter(x => x.kind === "region")) {
        if (Shapes.named(s.id)) {
          label(context, s.id, ...place(Geometry.labelPlace(s.rings).at), 12 * FINE);
        }
      }
    }
  }

  function rulers(context, place) {
    for (const r of Rulers.rulers) {
      const points = r.points.map(place);
      context.beginPath();
      points.forEach(([x, y], i) => context[i === 0 ? "moveTo" : "lineTo"](x, y));
      stroke(context, "#ffffff", 5 * FINE);
      stroke(context, INK, 1.8 * FINE);
      const [x, y] = points[points.length - 1];
      label(context, r.words, x, y - 14 * FINE, 12 * FINE);
    }
  }

  function scaleBar(context, high) {
    const { length, words } = ScaleBar.now;
    const wide = length * FINE, x = 14 * FINE, y = high - 16 * FINE;
    context.fillStyle = "#fffffff0";
    context.fillRect(x - 6 * FINE, y - 22 * FINE, wide + 12 * FINE, 30 * FINE);
    context.fillStyle = INK;
    context.fillRect(x, y, wide, 4 * FINE);
    context.font = "bold " + 12 * FINE + "px " + FONT;
    context.textAlign = "center";
    context.textBaseline = "bottom";
    context.fillText(words, x + wide / 2, y - 3 * FINE);
  }

  // What the shown layers cover, each with its uncertainty: the outlines' parts are each its own,
  // that of the scale is common to all.
  function captions() {
    const scale = 2 * Frame.relativeUncertainty;
    return Survey.layers.filter(l => !Shapes.hidden.has(l.name)).map(l => {
      const list = Store.regions.filter(s => layerOf(s) === l);
      const sum = name => list.reduce((n, s) => n + s[name], 0);
      const own = list.reduce((n, s) =>
        n + Math.max(0, s.uAreaMm2 ** 2 - (scale * s.areaMm2) ** 2), 0);
      return { layer: l, list, words: l.name + "  " + Words.area({ areaPx: sum("areaPx"),
        areaMm2: sum("areaMm2"), uAreaMm2: Math.hypot(Math.sqrt(own), scale * sum("areaMm2")) })
        + ",  " + Words.percent(sum("share")) };
    }).filter(c => c.list.length > 0);
  }

  function legend(context, list, wide, top) {
    const columns = Math.max(1, Math.floor(wide / (300 * FINE)));
    context.font = 13 * FINE + "px " + FONT;
    context.textAlign = "left";
    context.textBaseline = "middle";
    list.forEach((c, i) => {
      const x = 14 * FINE + (i % columns) * wide / columns;
      const y = top + (16 + 24 * Math.floor(i / columns)) * FINE;
      context.fillStyle = c.layer.colour;
      context.fillRect(x, y - 6 * FINE, 12 * FINE, 12 * FINE);
      context.fillStyle = INK;
      context.fillText(c.words, x + 20 * FINE, y);
    });
    const y = top + (16 + 24 * Math.ceil(list.length / columns)) * FINE;
    context.fillText(Survey.photo.shown_name + (Frame.scaled ? ". ± is the standard uncertainty (k = 1)."
      : ". No scale was given."), 14 * FINE, y, wide - 28 * FINE);
  }

  async function picture() {
    const size = Picture.map.getSize();
    const list = captions();
    const wide = size.x * FINE, high = size.y * FINE;
    const columns = Math.max(1, Math.floor(wide / (300 * FINE)));
    const canvas = document.createElement("canvas");
    canvas.width = wide;
    canvas.height = high + (32 + 24 * Math.ceil(list.length / columns)) * FINE;
    const context = canvas.getContext("2d");
    context.fillStyle = "#ffffff";
    context.fillRect(0, 0, wide, canvas.height);
    context.fillStyle = "#d9d5c9";
    context.fillRect(0, 0, wide, high);
    const middle = Picture.centre(), px = Picture.pxPerScreenPx();
    const place = p => Picture.onScreen(p).map(v => v * FINE);
    await Pyramid.paint(context, { x: middle[0], y: middle[1], wide: size.x * px, high: size.y * px,
      width: wide, height: high });
    context.save();
    context.beginPath();
    context.rect(0, 0, wide, high);
    context.clip();
    shapes(context, place);
    rulers(context, place);
    scaleBar(context, high);
    context.restore();
    legend(context, list, wide, high);
    return canvas;
  }

  return {
    start() {
      at("still").addEventListener("click", async () => {
        const canvas = await picture();
        canvas.toBlob(blob => {
          Save.download(Save.baseName() + ".view.png", blob, "image/png");
          say("The view is saved as " + Save.baseName() + ".view.png.");
        }, "image/png");
      });
    },
  };
})();
