// Above the picture: what the lines mean, and what is shown.

const Legend = (() => {
  const mark = (tag, attributes) => drawing("svg",
    { class: "rule-mark", viewBox: "0 0 30 12", "aria-hidden": "true" }, drawing(tag, attributes));
  const rule = name => mark("line", { class: name, x1: 1, y1: 6, x2: 29, y2: 6 });
  const square = name => mark("rect", { class: name, x: 8, y: 1, width: 13, height: 10 });

  function key(name, sign, on, toggle) {
    return element("label", { class: "key" },
      element("input", { type: "checkbox", checked: on, onchange: e => toggle(e.target.checked) }),
      sign, element("span", {}, name));
  }

  function extra(name, sign, property) {
    return key(name, sign, Marks.view[property], on => {
      Marks.view[property] = on;
      Marks.draw();
    });
  }

  function kinds() {
    return Pair.kinds.filter(k => Pair.changes.some(c => c.kind === k.id)).map(k =>
      key(k.name, element("span", { class: "sign", "aria-hidden": "true" }, k.sign), true, on => {
        Marks.hidden[on ? "delete" : "add"](k.id);
        Marks.draw();
        ResultTable.rows();
      }));
  }

  return {
    start() {
      at("legend").append(
        element("div", { class: "keys", role: "group", "aria-label": "Lines and places" },
          extra("was here", rule("before"), "before"),
          extra("is here", rule("after"), "after"),
          extra("Labels", null, "names"),
          Pair.different.length > 0 && extra("structure differs", square("differs"), "different"),
          Pair.unjudged.length > 0
            && extra("cannot be judged", square("unjudged"), "unjudged")),
        element("div", { class: "looks", role: "group", "aria-label": "Kinds of change" },
          kinds()));
    },

    // All outlines and names off, or on again.
    outlines() {
      const on = !(Marks.view.before || Marks.view.after);
      at("legend").querySelectorAll(".keys input").forEach((box, i) => {
        if (i < 3 && box.checked !== on) {
          box.click();
        }
      });
    },
  };
})();
