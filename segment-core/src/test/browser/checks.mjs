// Checks by programs that are not ours: accessibility and validity.

import { folder, here } from "./bench.mjs";
import { readFile, writeFile } from "node:fs/promises";
import { execFile } from "node:child_process";
import path from "node:path";

// Faults that axe-core finds on a page.
export async function faults(page) {
  await page.addScriptTag({ content: "" }).catch(() => {});
  const axe = await readFile(path.join(here, "node_modules/axe-core/axe.min.js"), "utf8");
  await page.evaluate(axe);
  const result = await page.evaluate(() => window.axe.run(document, {
    runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
  return result.violations.flatMap(v => v.nodes.map(n =>
    v.impact + " " + v.id + ": " + n.target.join(" ") + " " + (n.any[0] || n.all[0] || n.none[0] || {}).message));
}

// Errors that the checker of the WHATWG's standard finds in a file; long pictures are cut to spare
// its time.
export async function invalid(name) {
  const text = (await readFile(path.join(folder, name), "utf8"))
    .replace(/base64,[A-Za-z0-9+/=]+/g, "base64,AAAA")
    .replace(/"[A-Za-z0-9+/=]{1000,}"/g, '"AAAA"');
  const file = path.join(folder, "checked-" + name);
  await writeFile(file, text);
  const jar = path.join(here, "node_modules/vnu-jar/build/dist/vnu.jar");
  const output = await new Promise(done => execFile(path.join(process.argv[4], "bin", "java"),
    ["-jar", jar, "--format", "json", file], { maxBuffer: 1e8 },
    (fault, out, err) => done(err || out)));
  return JSON.parse(output.slice(output.indexOf("{"))).messages
    // A value of CSS Compositing 2 that the checker does not know; the viewer library uses it.
    .filter(m => m.type === "error" && !m.message.includes("plus-lighter")).map(m => name + " " + m.lastLine + ": " + m.message);
}

