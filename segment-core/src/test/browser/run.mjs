// Runs the browser tests, two at a time, and writes a line of JSON for each.
// node run.mjs FOLDER BROWSER JAVA_HOME [WORD]: only tests with the word in their name, if given

import { start, stop } from "./bench.mjs";
import * as look from "./look.mjs";
import * as correction from "./correction.mjs";
import * as keep from "./keep.mjs";
import * as keys from "./keys.mjs";
import * as sound from "./sound.mjs";
import * as compare from "./compare.mjs";
import * as archive from "./archive.mjs";

const LANES = 2; // tests have browser profiles of their own, so they do not disturb one another

const words = (process.argv[5] || '').split('|');
const waiting = Object.entries({ look, correction, keep, keys, sound, compare, archive }).flatMap(([group, tests]) =>
  Object.entries(tests).map(([name, test]) => ({ name: group + ": " + name.replaceAll("_", " "),
    test }))).filter(t => !process.argv[5] || words.some(w => t.name.includes(w)));

async function lane() {
  for (let next = waiting.shift(); next; next = waiting.shift()) {
    const began = Date.now();
    let fault = "";
    try {
      await next.test();
    } catch (e) {
      fault = e.stack || String(e);
    }
    console.log(JSON.stringify({ name: next.name, fault, seconds: (Date.now() - began) / 1000 }));
  }
}

await start();
await Promise.all(Array.from({ length: LANES }, lane));
await stop();
