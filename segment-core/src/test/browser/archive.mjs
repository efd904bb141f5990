// The index of an archive: rows by words and by figures, order by a column. The sample has six
// photographs, die-000.png to die-005.png, with 10 to 60 % memory.

import { must, open, close } from "./bench.mjs";
import { faults } from "./checks.mjs";

const shown = page => page.$$eval("table.photos tbody tr",
  rows => rows.filter(r => !r.hidden).map(r => r.textContent.match(/die-00(\d)/)[1]).join(""));

export async function rows_are_found_by_words_and_by_figures() {
  const page = await open("archive.html");
  for (const [asked, found] of [["", "012345"], ["die-002", "2"], ["memory > 40", "45"],
    ["memory>=40%", "345"], ["Memory < 25 die-00", "01"], ["memory=30", "2"], ["warnings > 1", ""]]) {
    await page.fill("#words", asked);
    const now = await shown(page);
    must(now === found, `${asked}: ${now} instead of ${found}`);
  }
  await page.fill("#words", "colour > 3");
  must((await page.textContent("#count")).includes("'colour'"), "an unknown column is told");
  page.complaints.length = 0; // thumbnails that the sample does not have
  await close(page);
}

export async function columns_put_rows_in_order() {
  const page = await open("archive.html");
  const memory = page.locator("thead button", { hasText: /^Memory$/ });
  await memory.click();
  must(await shown(page) === "012345", "rising");
  await memory.click();
  must(await shown(page) === "543210", "falling");
  page.complaints.length = 0;
  await close(page);
}

export async function index_has_no_accessibility_fault() {
  const page = await open("archive.html", { bypassCSP: true });
  const heavy = (await faults(page)).filter(f => !f.startsWith("minor"));
  must(heavy.length === 0, heavy.join("\n"));
  page.complaints.length = 0;
  await close(page);
}
