// A browser and the served site, for the tests.

import { join } from "node:path";
import { chromium } from "playwright-core";
import { root } from "../bundle.mjs";
import { serve } from "../serve.mjs";

export const folder = join(root, "build", "site");
const flags = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
  "--disable-background-networking", "--disable-component-update", "--disable-sync"];

export class Visit {
  static async begin() {
    const visit = new Visit();
    visit.server = await serve(folder, 0);
    visit.base = `http://localhost:${visit.server.address().port}/`;
    visit.browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: flags });
    return visit;
  }
  async end() {
    await this.browser.close();
    this.server.close();
    this.server.closeAllConnections();
  }

  /** A page of its own browser profile, which notes what goes wrong and what is asked for. */
  async page(options = {}) {
    const context = await this.browser.newContext({ viewport: { width: 390, height: 844 }, acceptDownloads: true, ...options });
    const page = await context.newPage();
    page.setDefaultTimeout(20_000);
    page.troubles = [];
    page.asked = [];
    page.on("console", (message) => message.type() === "error" && page.troubles.push(message.text()));
    page.on("pageerror", (error) => page.troubles.push(error.message));
    context.on("request", (request) => page.asked.push(request.url()));
    return page;
  }
  async open(path, options = {}) {
    const page = await this.page(options);
    await this.go(page, path);
    return page;
  }
  async go(page, path) {
    await page.goto(new URL(path, this.base).href);
    if (/^(check|stove|mentor)/.test(path)) await page.waitForSelector("html[data-ready]");
  }
}

/** What the self-check's page begins with on demand. */
export const newcomer = "A newcomer's plan, to mend", sound = "A sound plan";

export const textOf = (page) => page.inputValue("#text");
/** Waits until fixes are worked out for the plan as it stands. */
export const settled = async (page) => {
  await page.waitForSelector('#findings[data-complete="true"]', { state: "attached" });
};
export const startFrom = async (page, example) => {
  if (!(await page.isVisible("details.start button"))) await page.click("details.start > summary");
  await page.click(`button:text-is("${example}")`);
  await settled(page);
};
export const saved = async (page, click) => {
  const [download] = await Promise.all([page.waitForEvent("download"), click()]);
  const chunks = [];
  for await (const chunk of await download.createReadStream()) chunks.push(chunk);
  return { name: download.suggestedFilename(), text: Buffer.concat(chunks).toString("utf8") };
};
