// Fills of regions: the colour and hatch of each layer, and five steps of confidence.

const Hatches = (() => {
  const rising = "M-1 10L10 -1M-2 2L2 -2M7 11L11 7";
  const falling = "M-1 -1L10 10M7 -2L11 2M-2 7L2 11";
  const lines = {
    cells: "M1.5 3H4M6 3H8.5M1.5 7H4M6 7H8.5",
    cross: rising + falling,
    rows: "M0 4.5H9",
    columns: "M4.5 0V9",
    rising,
    falling,
  };
  // Dark blue to yellow reads the same with any colour sense; the doubtful end is also lined.
  const steps = [
    { from: 0, name: "under 50 %", colour: "#00204d", hatch: "cross" },
    { from: 0.5, name: "50 to 70 %", colour: "#414d6b", hatch: "rising" },
    { from: 0.7, name: "70 to 85 %", colour: "#7c7b78", hatch: "" },
    { from: 0.85, name: "85 to 95 %", colour: "#bcae6c", hatch: "" },
    { from: 0.95, name: "95 % and more", colour: "#ffea46", hatch: "" },
  ];
  const given = { name: "class given by a person", colour: "#ffffff", hatch: "rows" };
  const patterns = drawing("defs");

  function add(id, colour, hatch) {
    patterns.append(drawing("pattern",
      { id, width: 9, height: 9, patternUnits: "userSpaceOnUse" },
      drawing("rect", { class: "wash", width: 9, height: 9, fill: colour }),
      hatch && drawing("path", { class: "hatch", d: lines[hatch], stroke: colour })));
  }

  Survey.layers.forEach((l, i) => add("layer-" + i, l.colour, l.hatch));
  steps.forEach((s, i) => add("step-" + i, s.colour, s.hatch));
  add("step-given", given.colour, given.hatch);
  document.body.append(drawing("svg", { class: "defs", "aria-hidden": "true" }, patterns));

  const stepOf = shape => {
    if (shape.confidence === undefined || layerOf(shape).reason === "undecided") {
      return "given";
    }
    return steps.reduce((best, s, i) => shape.confidence >= s.from ? i : best, 0);
  };

  return {
    // The steps that a legend must explain.
    stepsOf: shapes => shapes.some(s => stepOf(s) === "given") ? [...steps, given] : steps,

    // Fill and line colour of a shape.
    look(shape, byConfidence) {
      if (byConfidence && shape.kind === "region") {
        const step = stepOf(shape);
        return { fill: "url(#step-" + step + ")",
          line: step === "given" ? given.colour : steps[step].colour };
      }
      const layer = layerOf(shape);
      return { fill: "url(#layer-" + Survey.layers.indexOf(layer) + ")", line: layer.colour };
    },

    swatch(colour, hatch) {
      return drawing("svg", { class: "swatch", viewBox: "0 0 14 14", "aria-hidden": "true" },
        drawing("rect", { width: 14, height: 14, fill: colour }),
        hatch && drawing("rect", { width: 14, height: 14, fill: "url(#h-" + hatch + ")" }));
    },

    swatchOf(shape) {
      const layer = layerOf(shape);
      return Hatches.swatch(layer.colour, layer.hatch);
    },
  };
})();
