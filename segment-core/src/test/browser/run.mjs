// Runs the browser tests one after another and writes a line of JSON for each.
// node run.mjs FOLDER BROWSER JAVA_HOME [WORD]: only tests with the word in their name, if given

import { start, stop } from "./bench.mjs";
import * as look from "./look.mjs";
import * as mend from "./mend.mjs";
import * as keep from "./keep.mjs";
import * as keys from "./keys.mjs";
import * as sound from "./sound.mjs";

await start();
for (const [group, tests] of Object.entries({ look, mend, keep, keys, sound })) {
  for (const [name, test] of Object.entries(tests)) {
    if (process.argv[5] && !(group + name).includes(process.argv[5])) {
      continue;
    }
    const began = Date.now();
    let fault = "";
    try {
      await test();
    } catch (e) {
      fault = e.stack || String(e);
    }
    console.log(JSON.stringify({ name: group + ": " + name.replaceAll("_", " "), fault,
      seconds: (Date.now() - began) / 1000 }));
  }
}
await stop();
