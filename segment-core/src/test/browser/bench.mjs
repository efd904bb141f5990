// What all browser tests share: the browser, pages of reports, places in the die's frame.

import { chromium } from "playwright-core";
import { fileURLToPath } from "node:url";
import path from "node:path";

export const folder = process.argv[2]; // reports, and what tests leave for other checks
export const here = path.dirname(fileURLToPath(import.meta.url));

export function must(condition, words) {
  if (!condition) {
    throw new Error(words);
  }
}

export function near(value, expected, slack, words) {
  must(Math.abs(value - expected) <= slack, `${words}: ${value} instead of ${expected}`);
}

let browser;

export async function start() {
  // Debian's own browser; nothing is downloaded. Root needs the switch in containers.
  browser = await chromium.launch({ executablePath: process.argv[3], args: ["--no-sandbox"] });
}

export async function stop() {
  await browser.close();
}

// A page in a browser profile of its own. Complaints of the page fail the test that caused them.
export async function open(name, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1400, height: 900 },
    acceptDownloads: true, reducedMotion: "reduce", ...options });
  context.setDefaultTimeout(120000); // a busy machine is no fault of the page
  context.setDefaultNavigationTimeout(120000);
  const page = await context.newPage();
  page.complaints = [];
  page.requests = [];
  page.on("console", m => m.type() === "error" && page.complaints.push(m.text()));
  page.on("pageerror", e => page.complaints.push(e.message));
  page.on("request", r => page.requests.push(r.url()));
  page.on("dialog", d => {
    page.complaints.push("a dialog: " + d.message());
    d.dismiss();
  });
  await page.goto("file://" + path.join(folder, name));
  return page;
}

export async function close(page) {
  await page.context().close();
  must(page.complaints.length === 0, "the page complains: " + page.complaints.join("; "));
}

// Where a place of the die (um) is on the screen, worked out here and not by the page: from the
// corners of the die in the photograph and the viewer's transforms as seen in the drawn die edge.
// Asked again until the page has come to rest: a line of text that appears may move the picture.
export async function onScreen(page, x, y) {
  let now = await place(page, x, y), before;
  do {
    before = now;
    await page.waitForTimeout(60);
    now = await place(page, x, y);
  } while (Math.hypot(now.x - before.x, now.y - before.y) > 0.01);
  return now;
}

const place = (page, x, y) =>
  page.evaluate(([x, y]) => {
    const data = JSON.parse(document.getElementById("survey-data").textContent);
    const frame = data.die.outline_px;
    const numbers = path => path.getAttribute("d").match(/-?[\d.]+/g).map(Number);
    const seen = (path, i) => {
      const d = numbers(path);
      return new DOMPoint(d[2 * i], d[2 * i + 1]).matrixTransform(path.getScreenCTM());
    };
    const edge = document.querySelector("path.edge-line");
    let corner = i => seen(edge, i);
    if (!edge) {
      // Nothing is drawn there: three corners of the largest region that is in view as a whole.
      const regions = [...data.regions].sort((a, b) => b.area_px - a.area_px);
      const paths = [...document.querySelectorAll("path.shape-line")];
      const k = regions.findIndex((r, i) => numbers(paths[i]).length === 2 * r.px.flat().length);
      const px = regions[k].px[0];
      const far = of => px.reduce((best, p, i) => (of(p) > of(px[best]) ? i : best), 0);
      const [p, q, r] = [far(p => -p[0] - p[1]), far(p => p[0] - p[1]), far(p => p[1] - p[0])];
      const [sp, sq, sr] = [p, q, r].map(i => seen(paths[k], i));
      const [ax, ay] = [px[q][0] - px[p][0], px[q][1] - px[p][1]];
      const [bx, by] = [px[r][0] - px[p][0], px[r][1] - px[p][1]];
      corner = i => {
        const [x, y] = [frame[i][0] - px[p][0], frame[i][1] - px[p][1]];
        const s = (x * by - y * bx) / (ax * by - ay * bx);
        const t = (ax * y - ay * x) / (ax * by - ay * bx);
        return { x: sp.x + s * (sq.x - sp.x) + t * (sr.x - sp.x),
          y: sp.y + s * (sq.y - sp.y) + t * (sr.y - sp.y) };
      };
    }
    const [a, b, d] = [corner(0), corner(1), corner(3)];
    const [c0, c1, , c3] = frame; // without a scale places are told in px
    const u = x / (data.die.width_um || Math.hypot(c1[0] - c0[0], c1[1] - c0[1]));
    const v = y / (data.die.height_um || Math.hypot(c3[0] - c0[0], c3[1] - c0[1]));
    return { x: a.x + u * (b.x - a.x) + v * (d.x - a.x), y: a.y + u * (b.y - a.y) + v * (d.y - a.y) };
  }, [x, y]);

export async function clickAt(page, x, y, options) {
  const p = await onScreen(page, x, y);
  await page.mouse.click(p.x, p.y, options);
}

export async function drag(page, from, to) {
  const a = await onScreen(page, ...from), b = await onScreen(page, ...to);
  await page.mouse.move(a.x, a.y);
  await page.mouse.down();
  await page.mouse.move((a.x + b.x) / 2, (a.y + b.y) / 2, { steps: 3 });
  await page.waitForTimeout(120); // grey values around are being decoded
  await page.mouse.move(b.x, b.y, { steps: 3 });
  await page.mouse.up();
}

export const row = id => `#ledger tr[data-id="${id}"]`;

export async function choose(page, id) {
  await page.click(row(id) + " button");
}

export const cell = (page, id, column) =>
  page.textContent(`${row(id)} > :nth-child(${column})`);

// Area in mm2 as the table says it.
export async function area(page, id) {
  return parseFloat(await cell(page, id, 3));
}

export const said = page => page.textContent("#said");

export async function saved(page) {
  const [download] = await Promise.all([page.waitForEvent("download"), page.click("#save")]);
  const file = await download.path();
  const { readFile } = await import("node:fs/promises");
  return { name: download.suggestedFilename(), doc: JSON.parse(await readFile(file, "utf8")) };
}

export function outline(doc, id) {
  const feature = doc.features.find(f => f.id === id);
  must(feature, "no outline " + id);
  const ring = feature.geometry.coordinates[0].slice(0, -1);
  const xs = ring.map(p => p[0]), ys = ring.map(p => p[1]);
  return { feature, ring, box: [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)] };
}
