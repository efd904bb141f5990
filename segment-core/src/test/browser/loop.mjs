// One correction as a person makes it: opens a report, draws a rectangle over what was missed, gives
// it a class and saves the outlines. With "pictures" it takes the pictures of the guide as well.
// node loop.mjs FOLDER BROWSER: FOLDER holds plan.json, and gets the saved outlines

import { start, stop, open, close, drag, clickAt, onScreen, must, folder, outline, saved, said }
  from "./bench.mjs";
import { readFile, writeFile } from "node:fs/promises";
import path from "node:path";

const plan = JSON.parse(await readFile(path.join(folder, "plan.json"), "utf8"));
const [x0, y0, x1, y1] = plan.box_um; // in the frame of the die, y up
const middle = [(x0 + x1) / 2, (y0 + y1) / 2];

async function closer(page) {
  const p = await onScreen(page, ...middle);
  await page.mouse.move(p.x, p.y);
  for (let i = 0; i < (plan.wheel || 0); i++) {
    await page.mouse.wheel(0, -120);
    await page.waitForTimeout(200);
  }
  await page.waitForTimeout(500);
}

async function picture(page, name) {
  if (plan.pictures) {
    await page.waitForTimeout(300);
    await page.locator("#desk").screenshot({ type: "jpeg", quality: 66,
      path: path.join(plan.pictures, name + ".jpg") });
  }
}

const view = plan.pictures ? { viewport: { width: 1180, height: 1000 } } : {};

async function correct() {
  const page = await open(plan.report, view);
  await closer(page);
  await clickAt(page, ...middle);
  await picture(page, plan.names?.[0]);
  await page.click("#mode-edit");
  if (!plan.catch_on_edges) {
    await page.uncheck("#edges");
  }
  await page.selectOption("#draw-as", { label: plan.as });
  await page.click("button[data-task=draw]");
  await drag(page, [x0, y1], [x1, y0]);
  const told = await said(page);
  await page.fill("#side-note", plan.note);
  await page.fill("#author", plan.author);
  await picture(page, plan.names?.[1]);
  const { doc, name } = await saved(page);
  const drawn = doc.features.find(f => f.properties.note === plan.note);
  must(drawn, "the drawn outline was saved: " + told);
  must(outline(doc, drawn.id).ring.length >= 4, "with its corners");
  await writeFile(path.join(folder, name), JSON.stringify(doc));
  await close(page);
  console.log(JSON.stringify({ file: name, id: drawn.id }));
}

async function look() {
  const page = await open(plan.report, view);
  await closer(page);
  await clickAt(page, ...middle);
  await picture(page, plan.names[0]);
  await close(page);
}

await start();
try {
  await (plan.as ? correct() : look());
} finally {
  await stop();
}
