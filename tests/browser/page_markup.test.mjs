// Living pages through a validator, and what is in them for other readers, without a browser.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { after, test } from "node:test";
import { HtmlValidate } from "html-validate";
import { book, folder, hostile, kitchen } from "./cards.mjs";
import { missing, publish, run } from "./pages.mjs";

const skip = missing({ browser: false });
after(() => rmSync(folder, { recursive: true }));

const validator = new HtmlValidate({
  root: true,
  extends: ["html-validate:recommended", "html-validate:document", "html-validate:a11y"],
  rules: {
    // Drawings are SVG, whose elements may end themselves.
    "no-self-closing": "off",
    "void-style": "off",
    "long-title": "off", // a recipe's title is as long as it is
    "require-sri": "off", // the files of a folder are of the page's own host
    "no-inline-style": "error",
    "no-raw-characters": "error",
  },
});

const singles = skip ? [] : [
  ...["winter-kraut", "napa-kimchi", "dilly-carrots"].map((name) => [name, publish(`${name}.html`, name)]),
  ["hostile", publish("hostile.html", hostile, "--kitchen", kitchen)],
];
const site = join(folder, "site");
if (!skip) run("page", ".", "-o", site);
const pages = skip ? [] : [
  ...singles,
  ...readdirSync(site).filter((name) => name.endsWith(".html")).map((name) => [`folder/${name}`, join(site, name)]),
];
if (skip) test("valid HTML", { skip }, () => {});

const blocks = (text, tag) => [...text.matchAll(new RegExp(`<${tag}([^>]*)>([^]*?)</${tag}>`, "g"))];
const hash = (words) => `'sha256-${createHash("sha256").update(words).digest("base64")}'`;

for (const [name, path] of pages) {
  test(`${name}: valid HTML`, async () => {
    // The engine's letters are no markup, and too many for a validator.
    const text = readFileSync(path, "utf8").replace(/(<script[^>]*id="page-engine"[^>]*>)[^<]*/, "$1");
    const report = await validator.validateString(text);
    const messages = report.results.flatMap((result) => result.messages);
    assert.deepEqual(messages.map((m) => `${m.line}:${m.column} ${m.ruleId}: ${m.message}`), []);
  });
}

for (const [name, path] of singles) {
  test(`${name}: the policy names its style and its script, and nothing else`, () => {
    const text = readFileSync(path, "utf8");
    const policy = text.match(/http-equiv="Content-Security-Policy" content="([^"]*)"/)[1].replaceAll("&#39;", "'").split("; ");
    const styles = blocks(text, "style");
    const scripts = blocks(text, "script").filter(([, attributes]) => !/type="(application\/(ld\+)?json|text\/plain)"/.test(attributes));
    assert.deepEqual([styles.length, scripts.length], [1, 1]);
    const words = (directive) => policy.find((one) => one.startsWith(`${directive} `))?.split(" ").slice(1);
    assert.deepEqual(words("default-src"), ["'none'"]);
    assert.deepEqual(words("style-src"), [hash(styles[0][2])]);
    assert.deepEqual(words("script-src").sort(), [hash(scripts[0][2]), "'wasm-unsafe-eval'"].sort());
    assert.deepEqual(words("require-trusted-types-for"), ["'script'"]);
    assert.deepEqual(words("trusted-types"), ["jarful"]);
    for (const directive of ["base-uri", "form-action"]) assert.deepEqual(words(directive), ["'none'"]);
  });

  test(`${name}: carries the recipe for readers of schema.org/Recipe`, () => {
    const data = blocks(readFileSync(path, "utf8"), "script").filter(([, attributes]) => attributes.includes("application/ld+json"));
    assert.equal(data.length, 1);
    const recipe = JSON.parse(data[0][2]);
    assert.equal(recipe["@type"], "Recipe");
    assert.ok(recipe.name && recipe.recipeIngredient.length > 1 && recipe.recipeInstructions.length > 1);
  });
}
