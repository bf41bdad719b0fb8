// Every page: nothing sticks out sideways, nothing is asked for or said to the console, and a
// general-purpose checker finds nothing serious, in the light and in the dark.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { PAGES, browse, demo, hostile, open, refasten } from "./boat.js";
import { findings, sticksOut } from "./look.js";

let browser;
before(async () => { browser = await browse(); });
after(() => browser.close());

for (const { name, words } of PAGES) {
  const make = (t, folder = demo(t)) => {
    refasten(folder, ...words);
    return join(folder, words[1]);
  };

  for (const javaScriptEnabled of [true, false]) {
    for (const colorScheme of ["light", "dark"]) {
      test(`${name}, ${colorScheme}, scripts ${javaScriptEnabled ? "on" : "off"}`, async (t) => {
        const { page, noted } = await open(t, browser, make(t), { colorScheme, javaScriptEnabled });
        for (const width of [360, 768, 1280]) {
          await page.setViewportSize({ width, height: 800 });
          assert.equal(await sticksOut(page), 0, `${width} px`);
        }
        assert.deepEqual(noted, []);
        // The checker is a script itself.
        if (!javaScriptEnabled) return;
        await page.setViewportSize({ width: 360, height: 740 });
        assert.deepEqual(await findings(page), []);
        // And as it is without the script.
        await page.evaluate(() => {
          document.documentElement.className = "";
          document.getElementById("app")?.remove();
        });
        assert.deepEqual(await findings(page), []);
      });
    }
  }

  test(`${name}, in print`, async (t) => {
    const { page, noted } = await open(t, browser, make(t), { colorScheme: "dark" });
    await page.emulateMedia({ media: "print" });
    // A4 and Letter at 96 px an inch, less the margins.
    for (const width of [703, 725]) {
      await page.setViewportSize({ width, height: 1000 });
      assert.equal(await sticksOut(page), 0, `${width} px`);
    }
    const colours = await page.evaluate(() => {
      const style = getComputedStyle(document.body);
      return [style.color, style.backgroundColor];
    });
    assert.deepEqual(colours, ["rgb(0, 0, 0)", "rgb(255, 255, 255)"]);
    assert.deepEqual(noted, []);
  });

  test(`${name}, of a boat with hostile names and notes`, async (t) => {
    const { page, noted } = await open(t, browser, make(t, hostile(t)));
    assert.equal(await sticksOut(page), 0);
    assert.equal(await page.locator("img[src=x]").count(), 0);
    assert.deepEqual(noted, []);
  });
}
