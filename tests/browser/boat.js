// A boat's folder to make pages from, and a browser to open them in.
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const ROOT = resolve(import.meta.dirname, "../..");
const PROGRAM = resolve(process.env.REFASTEN ?? join(ROOT, "target/release/refasten"));
/** One day after the last entry of the demo. */
export const TODAY = "2024-11-25";
/** Names and notes that would run something, were they ever read as anything but text. */
export const HOSTILE = `</script><img src=x onerror=alert(1)><!--<script>"'&\\u003c`;

/** Every page there is, and how it is made. */
export const PAGES = [
  { name: "sheet", words: ["sheet", "sheet.html", "S3-5", "F12-20"] },
  { name: "report", words: ["report", "report.html", "--photos"] },
];

/** A copy of the demo in a folder that vanishes after the test. */
export function demo(t) {
  const folder = mkdtempSync(join(tmpdir(), "refasten-browser-"));
  t.after(() => rmSync(folder, { recursive: true }));
  cpSync(join(ROOT, "demo"), folder, { recursive: true });
  return folder;
}

/** The demo with hostile text wherever a user's text may stand. */
export function hostile(t) {
  const folder = demo(t);
  const text = JSON.stringify(HOSTILE);
  const change = (file, from, to) => {
    const old = readFileSync(join(folder, file), "utf8");
    writeFileSync(join(folder, file), old.replaceAll(from, () => to));
  };
  change("hull.yaml", "boat: Hesper Lass", `boat: ${text}`);
  change("hull.yaml", "quay wall", HOSTILE.slice(0, 40).replaceAll(/["\\]/g, ""));
  change("log.yaml", `"quay wall"`, JSON.stringify(HOSTILE.slice(0, 40).replaceAll(/["\\]/g, "")));
  change("log.yaml", `"bilge 2024"`, text);
  change("log.yaml", `by: "N. Abara"`, `by: ${text}`);
  return folder;
}

/** Runs the program in a boat's folder and gives what it printed; throws where it ends badly. */
export function refasten(folder, ...words) {
  const env = { ...process.env, REFASTEN_TODAY: TODAY, REFASTEN_BOAT: folder };
  return execFileSync(PROGRAM, words, { cwd: folder, env, encoding: "utf8", stdio: "pipe" });
}

/** Every hole as it stands, for comparing. */
export const holes = (folder) => JSON.parse(refasten(folder, "show", "--each", "--format", "json")).holes;

/** A browser for one test file. */
export const browse = () => chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-quic"],
});

/** Opens a page, and notes every word to the console, every error and every request but its own. */
export async function open(t, browser, file, options = {}) {
  const { prepare, ...rest } = options;
  const context = await browser.newContext({ viewport: { width: 360, height: 740 }, acceptDownloads: true, ...rest });
  context.setDefaultTimeout(10_000);
  t.after(() => context.close());
  const page = await context.newPage();
  const url = pathToFileURL(file).href;
  const noted = [];
  page.on("console", (message) => noted.push(`console: ${message.text()}`));
  page.on("pageerror", (error) => noted.push(`error: ${error.message}`));
  page.on("dialog", (dialog) => { noted.push(`dialog: ${dialog.message()}`); dialog.dismiss(); });
  page.on("request", (request) => {
    if (request.url() !== url && !request.url().startsWith("blob:")) noted.push(`request: ${request.url()}`);
  });
  if (prepare) await page.addInitScript(prepare);
  await page.goto(url);
  return { page, noted, context };
}
