// Three ways to see both photographs at once: parted by a line, mixed, one after the other.

const Views = (() => {
  const { map, pane, later } = Picture;
  const names = ["divided", "mixed", "turns"];
  const EACH_MS = 1000; // well below three changes a second, which could trigger seizures
  let view = "divided", split = 0.5, mixture = 0.5, laterOnTop = false, clock = 0;

  const line = element("div", { class: "divide", "aria-hidden": "true" });
  const flags = {
    earlier: element("div", { class: "side-flag earlier", "aria-hidden": "true" }, "earlier"),
    later: element("div", { class: "side-flag later", "aria-hidden": "true" }, "later"),
  };
  pane.append(line, flags.earlier, flags.later);

  function arrange() {
    const size = map.getSize();
    const x = split * size.x;
    later.style.opacity = view === "mixed" ? mixture : 1;
    later.style.visibility = view === "turns" && !laterOnTop ? "hidden" : "visible";
    if (view === "divided") {
      const from = map.containerPointToLayerPoint([x, 0]);
      const to = map.containerPointToLayerPoint([size.x, size.y]);
      later.style.clipPath = `polygon(${from.x}px ${from.y}px, ${to.x}px ${from.y}px, `
        + `${to.x}px ${to.y}px, ${from.x}px ${to.y}px)`;
    } else {
      later.style.clipPath = "none";
    }
    line.classList.toggle("away-from-view", view !== "divided");
    line.style.left = x + "px";
    for (const [name, flag] of Object.entries(flags)) {
      const shown = view === "divided" || view === "turns" && (name === "later") === laterOnTop;
      flag.classList.toggle("away-from-view", !shown);
      flag.classList.toggle("alone", view === "turns");
      flag.style.left = view === "divided" ? x + "px" : "";
    }
    at("on-top").textContent = laterOnTop ? "the later die" : "the earlier die";
  }

  // Both at the brightness that lies between them; the tones of each stay as they are otherwise.
  function level(on) {
    const middle = Math.sqrt(Pair.earlier_brightness * Pair.later_brightness);
    const by = brightness => on && brightness > 0 ? `brightness(${middle / brightness})` : "none";
    Picture.earlier.style.filter = by(Pair.earlier_brightness);
    later.style.filter = by(Pair.later_brightness);
  }

  function describe() {
    return view === "divided" ? "Left of the divider the earlier die, right of it the later one."
      : view === "mixed" ? Math.round(100 * mixture) + " % of the later die."
        : laterOnTop ? "The later die." : "The earlier die.";
  }

  function set(name) {
    view = name;
    for (const n of names) {
      at("view-" + n).setAttribute("aria-pressed", String(n === name));
      at("tools-" + n).hidden = n !== name;
    }
    keepTime();
    arrange();
    say(describe());
  }

  function keepTime() {
    clearInterval(clock);
    if (view === "turns" && at("by-itself").checked) {
      clock = setInterval(() => turn(false), EACH_MS);
    }
  }

  function turn(aloud = true) {
    laterOnTop = !laterOnTop;
    arrange();
    if (aloud) {
      say(describe());
    }
  }

  function part(share) {
    split = Math.min(1, Math.max(0, share));
    at("divider").value = 100 * split;
    at("divider").setAttribute("aria-valuetext", Math.round(100 * split) + " % from the left");
    arrange();
  }

  function mix(share) {
    mixture = Math.min(1, Math.max(0, share));
    at("mixture").value = 100 * mixture;
    at("mixture").setAttribute("aria-valuetext", Math.round(100 * mixture) + " %");
    arrange();
  }

  function follow(event) {
    const box = pane.getBoundingClientRect();
    part((event.clientX - box.left - pane.clientLeft) / pane.clientWidth);
  }

  L.DomEvent.disableClickPropagation(line);
  line.addEventListener("pointerdown", e => {
    e.preventDefault();
    line.setPointerCapture(e.pointerId);
    line.addEventListener("pointermove", follow);
  });
  for (const end of ["pointerup", "pointercancel"]) {
    line.addEventListener(end, () => line.removeEventListener("pointermove", follow));
  }
  map.on("move zoomend viewreset resize", arrange);

  return {
    set,
    turn,

    get view() { return view; },

    // A step of the divider or of the mixture.
    step(by) {
      if (view === "divided") {
        part(split + by);
      } else if (view === "mixed") {
        mix(mixture + by);
        say(describe());
      }
    },

    start() {
      names.forEach(n => at("view-" + n).addEventListener("click", () => set(n)));
      at("divider").addEventListener("input", e => part(Number(e.target.value) / 100));
      at("mixture").addEventListener("input", e => mix(Number(e.target.value) / 100));
      at("turn-over").addEventListener("click", () => turn());
      at("by-itself").addEventListener("change", keepTime);
      at("level").addEventListener("change", e => level(e.target.checked));
      level(at("level").checked);
      part(0.5);
      mix(0.5);
      set("divided");
    },
  };
})();
