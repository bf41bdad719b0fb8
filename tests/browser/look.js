// What a page is looked over for, whatever is on it.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** How many pixels stick out sideways. */
export const sticksOut = (page) => page.evaluate(
  () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
);

/** What a general-purpose checker of accessibility finds serious, one line each. */
export async function findings(page) {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(() => globalThis.axe.run());
  const grave = violations.filter(({ impact }) => ["serious", "critical"].includes(impact));
  return grave.map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 200)} (${nodes.length})`);
}
