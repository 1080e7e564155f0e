// Living pages in a browser: made with the real program, opened from a file or from a server of our own.
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join } from "node:path";
import { axe, missingFor, patience } from "./chromium.mjs";
import { folder, program, recipes } from "./cards.mjs";

export { launch } from "./chromium.mjs";

export const phone = { width: 390, height: 844 };
export const desktop = { width: 1280, height: 900 };

/** Runs the program in the demo book. */
export const run = (...words) => spawnSync(program, words, { cwd: recipes, encoding: "utf8", maxBuffer: 1 << 26 });

/** A page in a file; its path. */
export function publish(name, recipe, ...words) {
  const path = join(folder, name);
  const done = run("page", recipe, ...words, "-o", path);
  if (done.status > 1) throw new Error(`jarful page ${recipe}: ${done.stderr}`);
  return path;
}

/** Why there is nothing to test here, or false. */
export function missing({ browser = true } = {}) {
  if (browser && missingFor("wide")) return missingFor("wide");
  return existsSync(process.env.JARFUL_PAGE_ENGINE ?? "") ? false : "the engine for pages is not built: cli/page-engine.sh does that";
}

/** Opens an address. Whatever the page says to the console is in `heard`, whatever it asks for in `asked`. */
export async function opened(browser, address, { living = true, ...options } = {}) {
  const context = await browser.newContext({ viewport: phone, ...options });
  const tab = await context.newPage();
  const heard = [];
  const asked = [];
  tab.on("console", (message) => heard.push(message.text().slice(0, 300)));
  tab.on("pageerror", (error) => heard.push(String(error).slice(0, 300)));
  tab.on("dialog", (dialog) => { heard.push(`dialog: ${dialog.message()}`); dialog.dismiss(); });
  context.on("request", (request) => asked.push(request.url()));
  await tab.goto(address);
  if (living) await tab.waitForFunction(() => document.body.classList.contains("living"), null, { timeout: patience });
  return { tab, context, heard, asked, close: () => context.close() };
}

/** The rules that axe finds broken, and where. */
export async function broken(tab) {
  await tab.evaluate(axe);
  const found = await tab.evaluate(() =>
    axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
  if (found.passes.length === 0) throw new Error("axe looked at nothing");
  return found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(" | ").slice(0, 300)}`);
}

/** The numbers to wait for, as they stand on the page: { name: "42.9 g" }. */
export const numbers = (tab) => tab.evaluate(() => Object.fromEntries(
  [...document.querySelectorAll("#card .numbers tbody tr")].map((row) => [
    row.querySelector(".name").textContent, row.querySelector(".figure").textContent.trim().replace(/\s+/g, " "),
  ])));

const types = {
  ".html": "text/html; charset=utf-8", ".js": "text/javascript", ".css": "text/css", ".wasm": "application/wasm", ".svg": "image/svg+xml",
  ".webmanifest": "application/manifest+json", ".json": "application/json",
};

/** A static host of a folder: its address, what was asked for, and a way to close it. */
export async function host(root) {
  const asked = [];
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url, "http://host").pathname);
    asked.push(path);
    try {
      const bytes = readFileSync(join(root, path.endsWith("/") ? `${path}index.html` : path));
      response.setHeader("content-type", types[extname(path) || ".html"] ?? "application/octet-stream");
      response.end(bytes);
    } catch {
      response.statusCode = 404;
      response.end("not here");
    }
  });
  await new Promise((ready) => { server.listen(0, "127.0.0.1", ready); });
  const close = () => new Promise((done) => { server.closeAllConnections(); server.close(done); });
  return { address: `http://127.0.0.1:${server.address().port}/`, asked, close };
}

export const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
