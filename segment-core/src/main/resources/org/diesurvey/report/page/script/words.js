// Figures and names as people read them; the same rules as in the tables of the page.

const NARROW = "\u00a0";

const Words = {
  significant(value, digits) {
    if (value === 0) {
      return "0";
    }
    const decimals = digits - 1 - Math.floor(Math.log10(Math.abs(value)));
    const rounded = decimals >= 0 ? value.toFixed(Math.min(decimals, 12))
      : String(Math.round(value / 10 ** -decimals) * 10 ** -decimals);
    return rounded;
  },

  // Two digits of the standard uncertainty, and the value to the same place (GUM 7.2.6).
  measured(value, u, unit) {
    const end = unit ? NARROW + unit : "";
    if (!(u > 0)) {
      return Words.significant(value, 4) + end;
    }
    const decimals = 1 - Math.floor(Math.log10(Number(u.toPrecision(2))));
    if (decimals < 0) {
      const step = 10 ** -decimals;
      return Math.round(value / step) * step + " ± " + Math.round(u / step) * step + end;
    }
    return value.toFixed(decimals) + " ± " + u.toFixed(decimals) + end;
  },

  percent(share) {
    return share > 0 && share < 0.001 ? "< 0.1" + NARROW + "%"
      : (100 * share).toFixed(1) + NARROW + "%";
  },

  probability(p) {
    return (p > 0.99 ? "> 99" : p > 0 && p < 0.01 ? "< 1" : Math.round(100 * p)) + NARROW + "%";
  },

  area(shape) {
    return Words.bareArea(shape) + NARROW + (Frame.scaled ? "mm²" : "px²");
  },

  bareArea(shape) {
    return Frame.scaled ? Words.measured(shape.areaMm2, shape.uAreaMm2)
      : Math.round(shape.areaPx).toLocaleString("en");
  },

  // An area in px2 in the unit of the page, without its uncertainty.
  plainArea(px2) {
    const mm2 = px2 * Frame.pitch ** 2 / 1e6;
    return !Frame.scaled ? Math.round(px2).toLocaleString("en") + NARROW + "px²"
      : mm2 >= 1e-4 ? Words.significant(mm2, 3) + NARROW + "mm²"
        : Words.significant(mm2 * 1e6, 2) + NARROW + "µm²";
  },

  // A length that is itself an uncertainty: two digits.
  plainLength(value) {
    return Words.significant(value, 2) + NARROW + (Frame.scaled ? "µm" : "px");
  },

  // A length with the part of its uncertainty that the scale brings.
  length(value) {
    return Frame.scaled ? Words.measured(value, value * Frame.relativeUncertainty, "µm")
      : value.toFixed(1) + NARROW + "px";
  },

  // Typed text with marks that could make it look like other text made visible.
  visible(text) {
    return text.replace(/[\p{Cc}\p{Cf}\p{Cs}]/gu, c => c === "\n" ? c : "\ufffd");
  },

  className(shape) {
    return shape.cls === "unclear" ? shape.reason || "unclear" : shape.cls;
  },

  counted(n, what) {
    return n + " " + what + (n === 1 ? "" : "s");
  },
};

// An element with attributes and children; texts stay texts.
function element(name, attributes = {}, ...children) {
  const e = document.createElement(name);
  fill(e, attributes, children);
  return e;
}

function drawing(name, attributes = {}, ...children) {
  const e = document.createElementNS("http://www.w3.org/2000/svg", name);
  fill(e, attributes, children);
  return e;
}

function fill(e, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) {
      e.addEventListener(name.slice(2), value);
    } else if (value === true) {
      e.setAttribute(name, "");
    } else if (value !== false && value !== undefined) {
      e.setAttribute(name, value);
    }
  }
  e.append(...children.flat(Infinity).filter(c => c !== null && c !== undefined && c !== false));
}

const at = id => document.getElementById(id);

// Speaks to a screen reader, and shows the same sentence under the picture.
function say(sentence) {
  at("said").textContent = sentence;
}
