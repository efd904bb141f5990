// The scale bar at the picture's lower left, and the reading of the place at its lower right.

const ScaleBar = (() => {
  const LONGEST = 170; // screen px
  const label = element("span");
  const line = element("i");
  const bar = element("div", { class: "scale-bar" }, label, line);
  const reading = element("div", { class: "reading", "aria-hidden": "true" });
  Picture.pane.append(bar, reading);

  function longestRound(limit) {
    const decade = 10 ** Math.floor(Math.log10(limit));
    return [5, 2, 1].map(n => n * decade).find(length => length <= limit);
  }

  function draw() {
    const unitPerScreenPx = Picture.pxPerScreenPx() * Frame.pitch;
    const length = longestRound(LONGEST * unitPerScreenPx);
    label.textContent = !Frame.scaled ? length + " px"
      : length >= 1000 ? length / 1000 + " mm" : Number(length.toPrecision(1)) + " µm";
    line.style.width = length / unitPerScreenPx + "px";
  }

  Picture.map.on("zoomend viewreset", draw);
  draw();

  return {
    // Length in screen px, and the words.
    get now() {
      return { length: parseFloat(line.style.width), words: label.textContent };
    },

    // Shows the place under the pointer or the sight.
    read(p) {
      if (!p) {
        reading.textContent = "";
        return;
      }
      const [x, y] = Frame.scaled ? Frame.toDie(p) : p;
      const digits = Frame.scaled && Picture.pxPerScreenPx() < 0.5 ? 1 : 0;
      reading.textContent = "x " + x.toFixed(digits) + "   y " + y.toFixed(digits)
        + (Frame.scaled ? " µm" : " px");
    },
  };
})();
