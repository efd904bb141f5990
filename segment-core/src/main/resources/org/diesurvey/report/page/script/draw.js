// Drawing a closed outline or a line: corner by corner, or a rectangle in one pull.

const Draw = (() => {
  const PULL = 6; // screen px after which a press is a pull
  let task = null; // {closed, done, words}
  let points = [], end = null;
  let pulled = null; // rectangle while it is being pulled
  let swallow = false; // the click that ends a pull

  const reach = () => 9 * Picture.pxPerScreenPx();

  function placed(p, exact) {
    if (exact || !at("hold").checked || points.length === 0) {
      return p;
    }
    const others = task.closed && points.length > 2
      ? [points[points.length - 1], points[0]] : [points[points.length - 1]];
    return Reshape.intoLine(p, others, reach());
  }

  // Sides along the die's axes go to the picture's edges, where there are any near.
  function caught(ring) {
    let rings = [ring];
    if (at("edges").checked) {
      for (let c = 0; c < ring.length; c++) {
        const a = rings[0][c], b = rings[0][(c + 1) % ring.length];
        if (Reshape.axis(a, b)) {
          const by = Edges.offset(a, b, Reshape.normal(rings, 0, c), reach(),
            Picture.pxPerScreenPx());
          const next = by === undefined ? rings : Reshape.side(rings, 0, c, by);
          rings = next[0].length === ring.length ? next : rings;
        }
      }
    }
    return rings[0];
  }

  function finish(ring) {
    const { closed, done } = task;
    Draw.stop();
    done(closed ? caught(Geometry.tidy(ring)) : ring);
  }

  Picture.drawOver(() => {
    if (!task) {
      return [];
    }
    const list = (pulled || (end ? [...points, end] : points)).map(Picture.onScreen);
    if (list.length === 0) {
      return [];
    }
    const path = "M" + list.map(p => p.join(" ")).join("L") + (pulled ? "Z" : "");
    return [drawing("path", { class: "draft-under", d: path }),
      drawing("path", { class: "draft-line" + (task.closed ? " closed" : ""), d: path }),
      ...(pulled ? [] : points).map(Picture.onScreen).map(([x, y]) =>
        drawing("circle", { class: "draft-corner", cx: x, cy: y, r: 4 }))];
  });

  Picture.pane.addEventListener("pointerdown", e => {
    if (!task || !task.closed || points.length > 0 || e.button !== 0) {
      return;
    }
    const from = Picture.under(e);
    const [x, y] = [e.clientX, e.clientY];
    swallow = false;
    const move = m => {
      if (pulled || Math.hypot(m.clientX - x, m.clientY - y) > PULL) {
        pulled = Reshape.rectangle(from, Picture.under(m));
        Edges.prepare(Picture.under(m), reach(), Picture.pxPerScreenPx());
        Picture.redraw();
      }
    };
    const up = () => {
      removeEventListener("pointermove", move);
      removeEventListener("pointerup", up);
      if (pulled && task) {
        swallow = true;
        setTimeout(() => { swallow = false; }, 300);
        finish(pulled);
      }
    };
    addEventListener("pointermove", move);
    addEventListener("pointerup", up);
  });

  return {
    get task() { return task; },
    get swallows() { return swallow; },
    get count() { return points.length; },

    // done gets the ring or line.
    start(closed, done) {
      task = { closed, done };
      points = [];
      end = pulled = null;
      if (closed) {
        Picture.map.dragging.disable(); // a pull draws a rectangle
      }
      Picture.redraw();
    },

    stop() {
      task = pulled = end = null;
      points = [];
      Picture.map.dragging.enable();
      Picture.redraw();
    },

    put(p, exact) {
      const q = placed(p, exact);
      const first = points[0];
      if (task.closed && points.length > 2
          && Geometry.distance(first, q) < 10 * Picture.pxPerScreenPx()) {
        finish(points);
        return;
      }
      points.push(q);
      Edges.prepare(q, reach(), Picture.pxPerScreenPx());
      end = null;
      Picture.redraw();
      say(Words.counted(points.length, "corner") + " set. "
        + (task.closed ? "The first corner, a double click or F closes the outline."
          : "A double click or F ends the line."));
    },

    follow(p, exact) {
      if (task && points.length > 0) {
        end = placed(p, exact);
        Picture.redraw();
      }
    },

    back() {
      points.pop();
      end = null;
      Picture.redraw();
    },

    close() {
      const least = task.closed ? 3 : 2;
      const list = points.filter((p, i) => i === 0 || Geometry.distance(p, points[i - 1]) > 0.5);
      if (list.length >= least) {
        finish(list);
      } else {
        say("At least " + least + " places are needed.");
      }
    },
  };
})();
