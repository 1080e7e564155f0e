// The browser that cards and pages are looked at in, with one font.
import { readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";
import { there } from "./cards.mjs";
import { noFont, withFont } from "./fonts.mjs";

const path = process.env.JARFUL_BROWSER ?? "/usr/bin/chromium";
export const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
export const noBrowser = there(path, "--version") ? false : `no browser at ${path}`;
/** Why nothing can be looked at with a font here, or false. */
export const missingFor = (font) => noBrowser || noFont(font);
/** A machine that is busy with something else is slow, which is no fault of a page. */
export const patience = 300_000;

/** A browser to which `font` is the only one; closing it tidies up. */
export async function launch(font = "wide") {
  const { place, env } = withFont(font);
  const browser = await chromium.launch({
    executablePath: path,
    env,
    timeout: patience,
    args: [
      "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
      "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ],
  });
  browser.on("disconnected", () => rmSync(place, { recursive: true, force: true }));
  return browser;
}
