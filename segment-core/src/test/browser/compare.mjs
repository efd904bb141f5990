// Two revisions in one view: parted, mixed, in turns; the list and the picture know each other.

import { must, near, open, close, folder } from "./bench.mjs";
import { faults, invalid } from "./checks.mjs";
import path from "node:path";

const row = id => `#ledger tr[data-id="${id}"]`;
const said = page => page.textContent("#said");

// The colour of the picture at a share of the pane's width and height, as the browser shows it.
async function colour(page, x, y) {
  const box = await page.locator("#plate").boundingBox();
  const shot = await page.screenshot({ clip:
    { x: Math.round(box.x + x * box.width), y: Math.round(box.y + y * box.height), width: 1, height: 1 } });
  return page.evaluate(async data => {
    const image = new Image();
    image.src = "data:image/png;base64," + data;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = canvas.height = 1;
    const context = canvas.getContext("2d");
    context.drawImage(image, 0, 0);
    return [...context.getImageData(0, 0, 1, 1).data].slice(0, 3);
  }, shot.toString("base64"));
}

const like = (a, b) => a.every((v, i) => Math.abs(v - b[i]) < 14);
const EARLIER = [0x33, 0x44, 0x55], LATER = [0x99, 0xaa, 0xbb];

async function bare(name, options) {
  const page = await open(name, options);
  await page.waitForSelector(".later-photo img");
  await page.waitForFunction(() => [...document.querySelectorAll("#plate img")].every(i => i.complete));
  await page.uncheck("#level"); // colours as they are
  return page;
}

export async function divider_parts_the_dies_by_pointer_range_and_key() {
  const page = await bare("compare.html");
  must(like(await colour(page, 0.4, 0.55), EARLIER), "left of the middle the earlier");
  must(like(await colour(page, 0.6, 0.55), LATER), "right of the middle the later");
  const box = await page.locator("#plate").boundingBox();
  const y = box.y + 0.55 * box.height;
  await page.mouse.move(box.x + box.width / 2, y);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.7, y, { steps: 4 });
  await page.mouse.up();
  near(Number(await page.inputValue("#divider")), 70, 1, "the range follows the line");
  must(like(await colour(page, 0.6, 0.55), EARLIER), "the earlier up to the line");
  await page.fill("#divider", "30");
  must(like(await colour(page, 0.4, 0.55), LATER), "the line follows the range");
  await page.focus("#plate");
  for (let i = 0; i < 4; i++) {
    await page.keyboard.press("]");
  }
  near(Number(await page.inputValue("#divider")), 50, 0.6, "brackets move it");
  await close(page);
}

export async function divider_stays_when_the_picture_moves() {
  const page = await bare("compare.html");
  await page.focus("#plate");
  await page.keyboard.press("+");
  await page.keyboard.press("ArrowRight");
  must(like(await colour(page, 0.47, 0.55), EARLIER), "left");
  must(like(await colour(page, 0.53, 0.55), LATER), "right");
  await close(page);
}

export async function both_can_be_shown_equally_bright() {
  const page = await bare("compare.html");
  await page.check("#level");
  const left = await colour(page, 0.4, 0.55), right = await colour(page, 0.6, 0.55);
  near(left[1], right[1], 8, "green of both");
  await close(page);
}

export async function both_are_mixed() {
  const page = await bare("compare.html");
  await page.click("#view-mixed");
  must(await page.getAttribute("#view-mixed", "aria-pressed") === "true", "pressed");
  const half = EARLIER.map((v, i) => (v + LATER[i]) / 2);
  must(like(await colour(page, 0.4, 0.55), half), "half and half");
  await page.fill("#mixture", "100");
  must(like(await colour(page, 0.4, 0.55), LATER), "the later alone");
  await close(page);
}

export async function they_take_turns_by_key_and_by_themselves() {
  const page = await bare("compare.html");
  await page.focus("#plate");
  await page.keyboard.press("t");
  must(like(await colour(page, 0.6, 0.55), EARLIER), "the earlier first");
  await page.keyboard.press("x");
  must(like(await colour(page, 0.4, 0.55), LATER), "then the later");
  must(await said(page) === "The later die.", await said(page));
  await page.check("#by-itself");
  await page.waitForFunction(() => document.getElementById("on-top").textContent === "the earlier die");
  await page.waitForFunction(() => document.getElementById("on-top").textContent === "the later die");
  await page.click("#view-divided");
  await close(page);
}

export async function list_and_picture_show_each_other() {
  const page = await bare("compare.html");
  must(await page.locator("#ledger tbody tr").count() === 6, "six changes");
  await page.click(row("C3") + " button");
  must(await page.locator("path.chosen.after-line").count() === 1, "its outline is marked");
  must((await page.textContent("#entry")).includes("other class"), "and told");
  await page.hover(row("C5"));
  must(await page.locator("path.pointed.after-line").count() === 1, "pointed at");
  const place = await page.evaluate(() => {
    const b = document.querySelectorAll("path.before-line")[0].getBoundingClientRect();
    return { x: b.x + 8, y: b.y + b.height / 2 };
  });
  await page.mouse.click(place.x, place.y);
  must(await page.locator(row("C1") + ".chosen").count() === 1, "a click in the picture chooses the row");
  await page.keyboard.press(".");
  must(await page.locator(row("C2") + ".chosen").count() === 1, "the next one");
  await page.keyboard.press("g");
  await page.keyboard.press("Escape");
  must(await page.locator(".rows tr.chosen").count() === 0, "nothing chosen");
  await close(page);
}

export async function list_is_sorted_and_searched() {
  const page = await bare("compare.html");
  await page.click("#ledger thead button >> text=Kind");
  must(await page.textContent("#ledger tbody tr:first-child button") === "C6", "gone comes first");
  await page.fill("#ledger-words", "moved");
  must(await page.locator("#ledger tbody tr").count() === 1, "one is left");
  must((await page.textContent(".tally")) === "1 of 6 changes", await page.textContent(".tally"));
  await close(page);
}

export async function lines_and_kinds_can_be_switched_off() {
  const page = await bare("compare.html");
  must(await page.locator("path.before-line").count() === 5, "five were");
  await page.uncheck('.keys label:has-text("was here") input');
  must(await page.locator("path.before-line").count() === 0, "none shown");
  await page.uncheck('.looks label:has-text("new") input');
  must(await page.locator("#ledger tbody tr").count() === 5, "the list follows");
  await page.check('.keys label:has-text("structure differs") input');
  must(await page.locator("path.differs").count() === 1, "places that differ");
  await page.focus("#plate");
  await page.keyboard.press("o");
  must(await page.locator("path.after-line").count() === 0, "all off");
  await page.keyboard.press("o");
  must(await page.locator("path.before-line").count() === 5, "all on");
  await close(page);
}

export async function page_without_changes_says_so() {
  const page = await bare("compare-none.html");
  must((await page.textContent(".tally")).includes("No change stands out"), "said");
  must(await page.locator("path.before-line").count() === 0, "nothing drawn");
  await close(page);
}

export async function hostile_names_stay_text() {
  const page = await bare("compare-hostile.html");
  must(await page.locator("h1 img, h1 script").count() === 0, "the heading holds text only");
  must(await page.locator("img[src=x], script:not([type])").count() === 2, "no foreign element");
  await page.click(row("C1") + " button");
  must((await page.textContent("#entry .sentence")).includes("<i>happened</i>"), "sentences are text");
  must(page.requests.every(r => r.startsWith("file:") || r.startsWith("data:")), "asks for nothing");
  await close(page);
}

async function accessible(colorScheme, prepare) {
  const page = await bare("compare.html", { colorScheme, bypassCSP: true });
  await prepare(page);
  const heavy = (await faults(page)).filter(f => !f.startsWith("minor"));
  page.complaints.length = 0;
  must(heavy.length === 0, heavy.join("\n"));
  await close(page);
}

const worked = async page => {
  await page.click(row("C2") + " button");
  await page.click("#view-turns");
  await page.click(".key-list summary");
};

export const no_accessibility_fault_in_light_colours = () => accessible("light", worked);
export const no_accessibility_fault_in_dark_colours = () => accessible("dark", worked);
export const no_accessibility_fault_when_divided = () => accessible("light", async () => {});

export async function markup_is_valid_html() {
  const errors = [...await invalid("compare.html"), ...await invalid("revisions.html")];
  must(errors.length === 0, errors.join("\n"));
}

export async function page_reads_well_without_its_program() {
  const page = await open("compare.html", { javaScriptEnabled: false });
  must(await page.isVisible("figure.still img"), "the picture");
  must(await page.isVisible("section.as-found table"), "the table of changes");
  must(await page.isHidden("#desk"), "nothing that would not work");
  await close(page);
}

export async function print_shows_the_changes_and_no_buttons() {
  const page = await bare("compare.html");
  await page.emulateMedia({ media: "print" });
  must(await page.isVisible("figure.still img"), "the picture");
  must(await page.isVisible("section.as-found table"), "the table");
  must(await page.isHidden("#desk"), "no workplace");
  await page.pdf({ format: "A4", path: path.join(folder, "compare-print.pdf") });
  await close(page);
}

export async function narrow_window_has_no_sideways_scrolling() {
  for (const [width, height] of [[1000, 700], [600, 900]]) {
    const page = await bare("compare.html", { viewport: { width, height } });
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    must(over <= 0, width + " px wide: " + over + " px too wide");
    await close(page);
  }
}
