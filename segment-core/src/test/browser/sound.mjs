// Accessibility, validity, print, and the page without its program.

import { must, open, close, choose, folder } from "./bench.mjs";
import { faults, invalid } from "./checks.mjs";
import path from "node:path";

// axe-core's own rules; the page's policy is lifted, or the checker could not run in it.
async function accessible(scheme, prepare) {
  const page = await open("bench.html", { colorScheme: scheme, bypassCSP: true });
  await prepare(page);
  const found = await faults(page);
  page.complaints.length = 0;
  const heavy = found.filter(f => !f.startsWith("minor"));
  must(heavy.length === 0, heavy.length + " faults:\n" + heavy.join("\n"));
  await close(page);
}

const worked = async page => {
  await choose(page, "MEM1");
  await page.click("#mode-edit");
  await page.fill("#side-note", "a note");
  await choose(page, "MEM2");
  await page.click("#delete");
  await choose(page, "MAC1");
  await page.click(".key-list summary");
};

export const no_accessibility_fault_in_light_colours = () => accessible("light", worked);
export const no_accessibility_fault_in_dark_colours = () => accessible("dark", worked);

export async function markup_is_valid_html() {
  const errors = await invalid("bench.html");
  must(errors.length === 0, errors.join("\n"));
}
export async function page_reads_well_without_its_program() {
  const page = await open("bench.html", { javaScriptEnabled: false });
  must(await page.isVisible("figure.still img"), "the picture");
  must(await page.isVisible("section.as-found table"), "the table of regions");
  must(await page.isHidden("#desk") && await page.isHidden("#open"), "nothing that would not work");
  await close(page);
}

export async function print_shows_the_survey_and_no_buttons() {
  const page = await open("bench.html");
  await page.emulateMedia({ media: "print" });
  must(await page.isVisible("figure.still img"), "the picture");
  must(await page.isVisible("section.as-found table"), "the table");
  must(await page.isHidden("#desk"), "no workplace");
  const pdf = await page.pdf({ format: "A4", path: path.join(folder, "print.pdf") });
  must(pdf.length > 20000, "a printable page");
  await close(page);
}

export async function narrow_window_shows_everything_without_sideways_scrolling() {
  for (const [width, height] of [[1000, 700], [600, 900]]) {
    const page = await open("bench.html", { viewport: { width, height } });
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    must(over <= 0, width + " px wide: " + over + " px too wide");
    must(await page.locator("#plate").evaluate(e => e.clientHeight >= 280), "room for the picture");
    await close(page);
  }
}

export async function table_is_whole_from_1280_px_on() {
  for (const width of [1280, 1440, 1920]) {
    const page = await open("bench.html", { viewport: { width, height: 720 } });
    const over = await page.evaluate(() => {
      const box = document.querySelector(".rows");
      return box.scrollWidth - box.clientWidth;
    });
    must(over <= 0, width + " px wide: the table is " + over + " px wider than its place");
    await close(page);
  }
}

export async function names_never_lie_over_one_another() {
  for (const [width, height] of [[1440, 790], [390, 844]]) {
    const page = await open("bench.html", { viewport: { width, height } });
    const seen = await page.evaluate(() => {
      const plates = [...document.querySelectorAll(".name-plate:not(.no-room) span")]
        .map(e => ({ name: e.textContent, box: e.getBoundingClientRect() }));
      const over = [];
      plates.forEach((a, i) => plates.slice(0, i).forEach(b => {
        if (a.box.left < b.box.right && b.box.left < a.box.right
          && a.box.top < b.box.bottom && b.box.top < a.box.bottom) {
          over.push(a.name + " over " + b.name);
        }
      }));
      return { shown: plates.length, over };
    });
    must(seen.shown > 0, "names are shown");
    must(seen.over.length === 0, width + " px wide: " + seen.over.join(", "));
    await close(page);
  }
}

export async function policy_lets_no_foreign_program_run() {
  const page = await open("bench.html");
  const ran = await page.evaluate(() => new Promise(done => {
    const script = document.createElement("script");
    script.textContent = "window.foreign = true";
    document.body.append(script);
    setTimeout(() => done(window.foreign === true), 50);
  }));
  must(!ran, "a foreign script ran");
  const fetched = await page.evaluate(() => fetch("data:text/plain,x").then(() => true, () => false));
  must(!fetched, "something could be fetched");
  page.complaints.length = 0; // the browser's notes on what it refused
  await close(page);
}
