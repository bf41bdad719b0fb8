// The shed sheet, tapped as it would be at the boat, and what comes back from it.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import vm from "node:vm";
import { HOSTILE, TODAY, browse, demo, holes, hostile, open, refasten } from "./boat.js";
import { findings, sticksOut } from "./look.js";

let browser;
before(async () => { browser = await browse(); });
after(() => browser.close());

/** A sheet of a place, opened on the day it was made. */
async function sheet(t, options = {}) {
  const { folder = demo(t), place = "S3-5 F12-20", ...rest } = options;
  refasten(folder, "sheet", "sheet.html", ...place.split(" "));
  const opened = await open(t, browser, join(folder, "sheet.html"), rest);
  return { folder, ...opened };
}

/** Taps one entry: a crossing, holes, what was done, and what else is told. */
async function tap(page, place, did, told = {}) {
  const [strake, member, which] = /^(\S+) ([^.]+)\.?(.*)$/.exec(place).slice(1);
  await page.fill("#date", TODAY);
  await page.selectOption("#strake", strake);
  await page.click(`#crossings button[aria-label^="${strake} ${member}:"]`);
  for (const hole of which ? which.split("+") : ["new"]) await page.click(`#holes button:text-matches("^${hole}")`);
  await page.click(`#deeds button:text-is("${did}")`);
  for (const [id, value] of Object.entries(told)) {
    const list = ["found", "stub", "sample", "driven", "kind"].includes(id);
    await (list ? page.selectOption(`#${id}`, value) : page.fill(`#${id}`, value));
  }
  await page.click("#put");
  const says = await page.textContent("#says");
  await page.click("#close");
  return says;
}

const waits = (page) => page.textContent("#waiting");

/** Downloads what waits, into a file of the boat's folder. */
async function carryBack(page, folder) {
  const [download] = await Promise.all([page.waitForEvent("download"), page.click("#download")]);
  const file = join(folder, "back.csv");
  await download.saveAs(file);
  return file;
}

/** Twenty things done, and each as the log has it after the import. */
const DONE = [
  ["S4 F15.1", "pulled", { found: "wasted", note: "rust, \"flakes\"\u2028and a tab" }],
  ["S4 F15.1", "measured", { diameter: "3/16in" }],
  ["S4 F15.2", "broken", { stub: "frame", found: "sheared" }],
  ["S4 F15.2", "cleared", { note: "=1+1" }],
  ["S4 F15.1+2", "doweled", { note: "-5 °C in the shed" }],
  ["S4 F15.1+2", "driven", { driven: "1" }],
  ["S4 F15.1+2", "bunged"],
  ["S4 F16.1", "left", { found: "seized" }],
  ["S4 F16.2", "hardened"],
  ["S4 F16", "driven", { driven: "typed", kind: "wood screw", metal: "silicon bronze", size: "16 x 2in", bung: "none", set: "beside, the old" }],
  ["S3 F19.1+2", "doweled"],
  ["S3 F18.1+2", "driven", { driven: "0" }],
  ["S3 F18.1", "bunged"],
  ["S3 F14.1", "checked", { found: "sound" }],
  ["S5 F12.1", "bared", { found: "necked" }],
  ["S5 F12.1", "stopped"],
  ["S5 F13.2", "pulled", { found: "wasted", sample: "random" }],
  ["S5 F13.2", "plugged"],
  ["S5 F14.1", "checked", { found: "missing" }],
  ["S5 F14.1", "plugged", { note: "to be taken back" }],
];

test("twenty are tapped, two undone, the phone put away, and eighteen come in", async (t) => {
  const { page, folder, noted } = await sheet(t);
  await page.fill("#by", "N. Abara");
  for (const [i, [place, did, told]] of DONE.entries()) {
    assert.match(await tap(page, place, did, told), /^put down/, `${place} ${did}`);
    if (i === 0) assert.equal(await waits(page), "1 waits to be carried back");
  }
  assert.equal(await waits(page), "20 wait to be carried back");
  await page.click("#undo");
  await page.click("#undo");
  await page.reload();
  assert.equal(await waits(page), "18 wait to be carried back");
  const file = await carryBack(page, folder);
  assert.equal(await waits(page), "Nothing waits");

  assert.match(readFileSync(file, "utf8"), /^\ufeffdate,did,place,.*,sheet\r\n(.*\r\n){18}$/);

  const log = join(folder, "log.yaml");
  const before = readFileSync(log, "utf8");
  refasten(folder, "import", file);
  const entries = readFileSync(log, "utf8").slice(before.length).trim().split("\n");
  assert.equal(entries.length, 18);
  for (const [i, [place, did]] of DONE.slice(0, 18).entries()) {
    assert.ok(entries[i].includes(`did: ${did}, place: ${place.replace("1+2", "1-2")},`), entries[i]);
    assert.ok(entries[i].includes(`by: "N. Abara"`), entries[i]);
  }
  assert.ok(entries[0].includes(`note: "rust, \\"flakes\\" and a tab"`), entries[0]);
  const there = new Map(holes(folder).map((hole) => [hole.place, hole]));
  assert.match(entries[11], /set: "bilge", .* plan: "bilge"/);
  assert.deepEqual(["S4 F15.1", "S4 F16.1", "S4 F16.3", "S5 F13.2", "S5 F14.1"].map((place) => there.get(place).state),
    ["relied on", "left in", "relied on", "plugged", "relied on"]);

  // What was carried stays, marked, until it is cleared.
  await page.reload();
  assert.equal(await page.locator("#entries .carried").count(), 18);
  await page.check("#again");
  assert.equal((await page.inputValue("#csv")).trim().split("\n").length, 19);
  await page.click("#clear");
  await page.click("#clear");
  assert.equal(await page.locator("#entries li").count(), 0);
  assert.deepEqual(noted, []);
});

test("what cannot be is refused, and says why", async (t) => {
  const { page } = await sheet(t);
  for (const [place, did, told, why] of [
    ["S3 F18.1", "pulled", {}, /no metal/],
    ["S4 F14.2", "cleared", {}, /plugged over/],
    ["S3 F14.1", "measured", { diameter: "4.8" }, /with its unit/],
    ["S3 F14.1", "measured", { diameter: "16mm" }, /thicker than it was made/],
    ["S3 F14", "pulled", {}, /only be driven/],
    ["S3 F18", "driven", { driven: "typed" }, /kind, metal and size/],
  ]) assert.match(await tap(page, place, did, told), why, `${place} ${did}`);
  assert.equal(await waits(page), "Nothing waits");
  // Neither can be taken back what a later one rests on.
  await tap(page, "S4 F15.1", "pulled");
  await tap(page, "S4 F15.1", "doweled");
  await page.getByRole("button", { name: /Take back .* pulled/ }).click();
  assert.match(await waits(page), /doweled.* rests on it/);
});

test("the sheet and the log refuse the same", async (t) => {
  const folder = demo(t);
  refasten(folder, "sheet", "sheet.html");
  const page = readFileSync(join(folder, "sheet.html"), "utf8");
  const [, json] = /id="sheet-data">(.*)<\/script>/.exec(page);
  const rules = readFileSync(new URL("../../src/show/sheet/rules.js", import.meta.url), "utf8");
  const { readSheet, play, csv } = vm.runInNewContext(`${rules}; ({ readSheet, play, csv })`);
  const sheet = readSheet(JSON.parse(json));
  const { deeds, offered } = sheet.data;
  const anywhere = offered.find(({ plan }) => !plan);
  // One hole of each kind of content, in the demo; every deed on it.
  const seen = new Map();
  for (const { name, holes } of sheet.crossings.values()) {
    holes.forEach((hole, i) => { if (!seen.has(hole.content)) seen.set(hole.content, [name, i + 1]); });
  }
  assert.ok(seen.size >= 7, `${seen.size} kinds of content`);
  for (const [at, hole] of seen.values()) {
    for (const { did } of deeds) {
      const entry = { date: TODAY, did, at, holes: [hole], diameter: did === "measured" ? "2mm" : "", driven: did === "driven" ? anywhere : null };
      writeFileSync(join(folder, "one.csv"), csv(sheet, [entry]));
      let refused = false;
      try {
        refasten(folder, "import", "one.csv", "--dry-run");
      } catch (error) {
        assert.equal(error.status, 2, error.stderr);
        refused = true;
      }
      assert.equal(refused, play(sheet, [entry]).refused !== "", `${did} ${at}.${hole}`);
    }
  }
});

test("sheets of one boat do not mix on one phone", async (t) => {
  const folder = demo(t);
  refasten(folder, "sheet", "deck.html", "D1-2", "B1-4");
  const { page, context } = await sheet(t, { folder });
  await tap(page, "S4 F15.1", "pulled");
  const deck = await context.newPage();
  await deck.goto(`file://${join(folder, "deck.html")}`);
  assert.equal(await waits(deck), "Nothing waits");
  // The same sheet once more knows what the other page has put down, and takes nothing from it.
  const twin = await context.newPage();
  await twin.goto(page.url());
  assert.equal(await waits(twin), "1 waits to be carried back");
  await tap(twin, "S4 F15.2", "pulled");
  await tap(page, "S4 F16.2", "pulled");
  await twin.reload();
  assert.equal(await waits(twin), "3 wait to be carried back");
});

test("where the phone keeps nothing, the sheet says so and still carries back", async (t) => {
  const prepare = () => Object.defineProperty(window, "localStorage", { get() { throw new Error("blocked"); } });
  const { page, folder, noted } = await sheet(t, { prepare });
  assert.match(await page.textContent("#warning"), /keeps nothing.*[Cc]arry back before you close/);
  assert.ok(await page.isVisible("#warning"));
  await tap(page, "S4 F15.1", "pulled");
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  await page.click("#copy");
  await page.getByText(/^1 copied/).waitFor();
  assert.match(await page.evaluate(() => navigator.clipboard.readText()), /,pulled,S4 F15\.1,/);
  await page.check("#again");
  const file = await carryBack(page, folder);
  assert.match(readFileSync(file, "utf8"), /,pulled,S4 F15\.1,/);
  assert.deepEqual(noted, []);
});

test("hostile names and notes run nothing, typed or read, and come back as they were", async (t) => {
  const { page, folder, noted } = await sheet(t, { folder: hostile(t) });
  await page.fill("#by", HOSTILE);
  assert.match(await tap(page, "S4 F15.1", "pulled", { note: HOSTILE }), /^put down/);
  await page.reload();
  assert.ok((await page.textContent("#entries li")).includes(HOSTILE));
  const file = await carryBack(page, folder);
  refasten(folder, "import", file);
  assert.ok(readFileSync(join(folder, "log.yaml"), "utf8").trimEnd().split("\n").at(-1).includes("onerror=alert(1)"));
  assert.deepEqual(noted, []);
});

test("every target can be hit with a glove", async (t) => {
  const { page } = await sheet(t);
  const small = () => [...document.querySelectorAll("button, select, input:not([type=checkbox]), textarea, label.tick")]
    .filter((element) => element.checkVisibility())
    .map((element) => [element.id || element.textContent, element.getBoundingClientRect()])
    .filter(([, box]) => box.width < 44 || box.height < 44).map(([name]) => name);
  assert.deepEqual(await page.evaluate(small), []);
  await page.click("#crossings button");
  await page.click("#holes button");
  for (const did of await page.locator("#deeds button").allTextContents()) {
    await page.click(`#deeds button:text-is("${did}")`);
    assert.deepEqual(await page.evaluate(small), [], did);
    // What does not go with the deed is not asked for.
    assert.equal(await page.isVisible("#diameter"), did === "measured", did);
  }
});

test("it can be worked with the keyboard alone", async (t) => {
  const { page } = await sheet(t);
  await page.fill("#date", TODAY);
  await page.focus("#crossings button:nth-child(4)");
  await page.keyboard.press("Enter");
  assert.equal(await page.evaluate(() => document.activeElement.id), "at");
  await page.focus("#holes button");
  await page.keyboard.press("Space");
  assert.equal(await page.evaluate(() => document.activeElement.getAttribute("aria-pressed")), "true");
  await page.focus("#deeds button");
  await page.keyboard.press("Space");
  await page.focus("#put");
  await page.keyboard.press("Enter");
  assert.match(await page.textContent("#says"), /^put down: checked S3 F15\.1/);
  await page.keyboard.press("Escape");
  assert.equal(await waits(page), "1 waits to be carried back");
});

test("without scripts the paper is whole", async (t) => {
  const folder = demo(t);
  refasten(folder, "sheet", "all.html");
  const { page } = await open(t, browser, join(folder, "all.html"), { javaScriptEnabled: false });
  const boxes = await page.locator(".box:not(.new)").count();
  assert.equal(boxes, holes(folder).length);
  const rows = await page.locator(".strake tbody tr").count();
  assert.equal(rows, await page.locator(".box.new").count());
  for (const word of ["Chalk F1, F5, F10, F15, F20, F25, F30, F32, B1", "Hole 1 is nearest the keel", "Open in the plank", "Shores and blocks"]) {
    assert.ok(await page.getByText(word).first().isVisible(), word);
  }
  assert.ok(!(await page.isVisible("#app")));
});

test("on paper each strake that fits a page stands on one, under its own head", async (t) => {
  const { page, folder } = await sheet(t, { place: "S1-6 F1-30" });
  const { execFileSync } = await import("node:child_process");
  for (const format of ["A4", "Letter"]) {
    const file = join(folder, `${format}.pdf`);
    writeFileSync(file, await page.pdf({ format }));
    const pages = execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" }).split("\f").slice(0, -1);
    for (const text of pages.slice(1)) assert.match(text, /^\s*S\d\s.*date.*name/, `${format}: ${text.slice(0, 200)}`);
  }
});

test("the page lets the script of this source run and no other", () => {
  const source = (name) => readFileSync(new URL(`../../src/show/sheet/${name}`, import.meta.url), "utf8");
  const hash = createHash("sha256").update(source("rules.js") + source("app.js")).digest("base64");
  assert.equal(source("script.sha256").trim(), hash, "put this into src/show/sheet/script.sha256");
});

for (const colorScheme of ["light", "dark"]) {
  test(`the panel of a crossing, ${colorScheme}, whatever is about to be told`, async (t) => {
    const { page, noted } = await sheet(t, { colorScheme });
    await page.selectOption("#strake", "S4");
    await page.click('#crossings button[aria-label^="S4 F15:"]');
    assert.deepEqual(await findings(page), [], "just opened");
    await page.click("#holes button >> nth=0");
    const deeds = await page.locator("#deeds button").allTextContents();
    assert.ok(deeds.length > 3, deeds.join(", "));
    for (const did of deeds) {
      await page.click(`#deeds button:text-is("${did}")`);
      for (const width of [320, 768]) {
        await page.setViewportSize({ width, height: 740 });
        assert.equal(await sticksOut(page), 0, `${did}, ${width} px`);
      }
      assert.deepEqual(await findings(page), [], did);
    }
    assert.deepEqual(noted, []);
  });
}
