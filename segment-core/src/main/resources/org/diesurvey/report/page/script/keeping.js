// What the browser keeps of the corrections: the latest state, the steps that undo needs, and what
// could not be read, which is never thrown away. Two windows on one survey tell each other.

const Keeping = (() => {
  const KEY = "diesurvey:" + Survey.survey_sha256;
  const STEPS = KEY + ":steps";
  const RULERS = KEY + ":rulers";
  const ASIDE = KEY + ":set-aside";
  const LARGEST_STEPS = 1e6; // characters; older steps are dropped beyond
  const mark = () => Math.random().toString(36).slice(2, 12);
  let stamp = null; // of the state that this window read or wrote last

  const stampOf = text => {
    try {
      return text === null ? null : JSON.parse(text).stamp || null;
    } catch (e) {
      return null;
    }
  };

  // The keys of all that was set aside, oldest first.
  function asideKeys() {
    const keys = [];
    for (let n = 1; localStorage.getItem(ASIDE + "-" + n) !== null; n++) {
      keys.push(ASIDE + "-" + n);
    }
    return keys;
  }

  return {
    // The text kept, or null; fails where the browser keeps nothing.
    read() {
      const text = localStorage.getItem(KEY);
      stamp = stampOf(text);
      return text;
    },

    // Whether another window wrote since this one last read or wrote.
    get overtaken() {
      return stampOf(localStorage.getItem(KEY)) !== stamp;
    },

    write(state) {
      stamp = mark();
      localStorage.setItem(KEY, JSON.stringify({ ...state, stamp }));
    },

    forget() {
      stamp = null;
      localStorage.removeItem(KEY);
    },

    // The rulers kept, as they were written; null if there are none that can be read.
    readRulers() {
      try {
        return JSON.parse(localStorage.getItem(RULERS));
      } catch (e) {
        return null;
      }
    },

    writeRulers(list) {
      try {
        if (list.length === 0) {
          localStorage.removeItem(RULERS);
        } else {
          localStorage.setItem(RULERS, JSON.stringify(list));
        }
      } catch (e) {
        // They stay on the page, and go into the file that is saved.
      }
    },

    onOtherRulers(listener) {
      addEventListener("storage", e => e.key === RULERS && listener());
    },

    // Calls back with the text that another window wrote.
    onOther(listener) {
      addEventListener("storage", e => {
        if (e.key === KEY && stampOf(e.newValue) !== stamp) {
          stamp = stampOf(e.newValue);
          listener(e.newValue);
        }
      });
    },

    // Steps as lists of shapes; shapes that steps share are kept once.
    writeSteps(past, future) {
      for (let deep = 200; deep >= 1; deep = deep >> 1) {
        const pool = [], index = new Map();
        const number = text => {
          if (!index.has(text)) {
            index.set(text, pool.length);
            pool.push(text);
          }
          return index.get(text);
        };
        const flat = steps => steps.slice(-deep).map(s =>
          ({ label: s.label, joined: s.joined, shapes: s.shapes.map(number) }));
        const steps = { past: flat(past), future: flat(future), stamp };
        const text = JSON.stringify({ ...steps, pool });
        if (text.length <= LARGEST_STEPS) {
          localStorage.setItem(STEPS, text);
          return;
        }
      }
      localStorage.removeItem(STEPS);
    },

    // The steps that belong to the state read last, as lists of texts; none if there are none.
    readSteps() {
      const none = { past: [], future: [] };
      const saved = JSON.parse(localStorage.getItem(STEPS) || "null");
      if (saved === null || saved.stamp !== stamp) {
        return none;
      }
      const full = steps => steps.map(s =>
        ({ label: String(s.label), joined: s.joined === true, shapes: s.shapes.map(i => saved.pool[i]) }));
      return { past: full(saved.past), future: full(saved.future) };
    },

    // Takes what is kept out of the way, so that the page starts without it. False if there is
    // nothing, or no room to keep it elsewhere.
    setAside() {
      try {
        const text = localStorage.getItem(KEY);
        if (text === null) {
          return false;
        }
        localStorage.removeItem(KEY); // first, since there may be no room for both
        try {
          localStorage.setItem(ASIDE + "-" + (asideKeys().length + 1), text);
        } catch (e) {
          localStorage.setItem(KEY, text);
          return false;
        }
        localStorage.removeItem(STEPS);
        stamp = null;
        return true;
      } catch (e) {
        return false;
      }
    },

    // All that was set aside, as texts.
    get aside() {
      try {
        return asideKeys().map(k => localStorage.getItem(k));
      } catch (e) {
        return [];
      }
    },

    dropAside() {
      asideKeys().forEach(k => localStorage.removeItem(k));
    },
  };
})();
