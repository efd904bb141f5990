// Why a region got its class: the crop that was looked at, how it repeats, what speaks for and
// against each class, and where else on the die it looks alike.

const Reasons = (() => {
  const SHOWN = 150; // screen px of the crop
  const WIDE = 150, HIGH = 62; // of a plot

  const px = n => Frame.scaled ? Words.significant(n * Frame.pitch, 2) + NARROW + "µm"
    : n + NARROW + "px";

  function crop(look) {
    const canvas = element("canvas", { width: 2 * SHOWN, height: 2 * SHOWN, role: "img",
      "aria-label": "Crop of " + px(look.side) + " from the middle of the region" });
    Pyramid.paint(canvas.getContext("2d"), { x: look.x, y: look.y, side: look.side,
      turn: Math.atan2(Frame.x[1], Frame.x[0]) });
    return element("figure", {}, canvas,
      element("figcaption", {}, px(look.side) + " wide, from the middle"));
  }

  function plot(name, curve, period) {
    const x = i => 4 + (WIDE - 8) * i / (curve.length - 1), y = r => HIGH / 2 - r * (HIGH / 2 - 8) / 100;
    const mark = period && [drawing("line", { class: "period", x1: x(period - 1), x2: x(period - 1),
      y1: 4, y2: HIGH - 4 })];
    return element("figure", {}, drawing("svg", { class: "curve", viewBox: `0 0 ${WIDE} ${HIGH}`,
      role: "img", "aria-label": "Autocorrelation " + name + (period ? ", first peak at " + px(period)
        : ", no clear peak") },
      drawing("line", { class: "zero", x1: 4, x2: WIDE - 4, y1: y(0), y2: y(0) }), mark,
      drawing("path", { d: "M" + curve.map((r, i) => x(i).toFixed(1) + " " + y(r).toFixed(1)).join("L") })),
      element("figcaption", {}, name + ": " + (period ? "repeats every " + px(period) : "no clear repeat")
        + ", seen up to " + px(curve.length)));
  }

  const spoken = words => words || "–";

  function table(cases) {
    return element("table", {}, element("thead", {}, element("tr", {},
      ["Class", "Model", "Speaks for it", "Speaks against it"].map(n =>
        element("th", { scope: "col" }, n)))),
    element("tbody", {}, cases.map(([name, probability, pro, contra]) => element("tr", {},
      element("th", { scope: "row" }, name), element("td", {}, spoken(probability)),
      element("td", {}, spoken(pro)), element("td", {}, spoken(contra))))));
  }

  let open = false;

  return {
    // The card of a shape; nothing where no crop was looked at.
    card(shape, links) {
      const region = Survey.regions.find(r => r.id === shape.id);
      const look = region && region.look;
      if (!look) {
        return null;
      }
      const inside = () => [
        element("div", { class: "looks-of" }, crop(look),
          element("div", {}, plot("Across", look.along_x, look.period_along_x),
            plot("Up", look.along_y, look.period_along_y))),
        element("p", { class: "hint" }, "Contrast " + Math.round(100 * look.contrast) + NARROW
          + "% of the mean grey, flat ground " + Math.round(100 * look.flat) + NARROW + "% of the crop."
          + (shape.um ? "" : " As found, before your corrections.")),
        table(look.cases),
        element("p", { class: "hint" }, "These are signs that can be checked by eye; the model"
          + " weighs many more."),
        links("Most alike on this die", look.alike.map(Store.byId).filter(s => s))];
      const body = element("div", {});
      const card = element("details", { id: "why", open, ontoggle: e => {
        open = e.target.open;
        if (open && body.childElementCount === 0) {
          body.append(...inside().filter(c => c));
        }
      } }, element("summary", {}, "Why this class"), body);
      return card;
    },
  };
})();
