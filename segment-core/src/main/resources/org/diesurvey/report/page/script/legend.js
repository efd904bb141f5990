// Above the picture: what the colours mean, and what is shown.

const Legend = (() => {
  const box = at("legend");

  function count(layer) {
    return Store.regions.filter(s => layerOf(s) === layer).length;
  }

  function key(name, swatch, on, number, toggle) {
    return element("label", { class: "key" },
      element("input", { type: "checkbox", checked: on,
        onchange: e => toggle(e.target.checked) }),
      swatch, element("span", {}, name),
      number === undefined ? null : element("span", { class: "count" }, String(number)));
  }

  function layers() {
    return Survey.layers.filter(l => count(l) > 0).map(l =>
      key(l.name, Hatches.swatch(l.colour, l.hatch), !Shapes.hidden.has(l.name), count(l), on => {
        Shapes.hidden[on ? "delete" : "add"](l.name);
        Shapes.draw();
      }));
  }

  function extra(name, property) {
    return key(name, null, Shapes.view[property], undefined, on => {
      Shapes.view[property] = on;
      Shapes.draw();
    });
  }

  function draw() {
    const focus = document.activeElement;
    const place = box.contains(focus) ? [...box.querySelectorAll("input, select")].indexOf(focus) : -1;
    const byConfidence = Shapes.view.byConfidence;
    box.replaceChildren(...[
      element("div", { class: "keys", role: "group", "aria-label": "Layers" }, layers(),
        Store.shapes.some(s => s.kind === "array") && extra("Bit-cell arrays", "arrays"),
        Survey.die.edge_found && extra("Die edge", "edge"),
        extra("Labels", "names")),
      element("div", { class: "looks" },
        element("label", {}, "Colour by ",
          element("select", { id: "colour-by", onchange: e => {
            Shapes.view.byConfidence = e.target.value === "confidence";
            Shapes.draw();
            draw();
          } },
          element("option", { value: "class", selected: !byConfidence }, "class"),
          element("option", { value: "confidence", selected: byConfidence }, "confidence"))),
        element("label", {}, "Fill opacity ",
          element("input", { id: "tint", type: "range", min: 0, max: 100, step: 5,
            value: Legend.tint, oninput: e => tint(Number(e.target.value)) }))),
      byConfidence && element("p", { class: "steps" }, Hatches.stepsOf(Store.regions).map(s => [
        Hatches.swatch(s.colour, s.hatch), element("span", {}, s.name)]))].filter(e => e));
    if (place >= 0) {
      [...box.querySelectorAll("input, select")][place].focus();
    }
  }

  function tint(percent) {
    Legend.tint = percent;
    document.documentElement.style.setProperty("--tint", percent / 100);
  }

  Store.onChange(() => draw());

  return {
    tint: 25,

    start() {
      tint(Legend.tint);
      draw();
    },
  };
})();
