// Cards through validators, without a browser.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { spawnSync } from "node:child_process";
import { readFileSync, rmSync } from "node:fs";
import { after, test } from "node:test";
import { Parser, HtmlRenderer } from "commonmark";
import { HtmlValidate } from "html-validate";
import { book, folder, hostile, hostileWords, jarful, kitchen, page, pages, there } from "./cards.mjs";

after(() => rmSync(folder, { recursive: true }));

const validator = new HtmlValidate({
  root: true,
  extends: ["html-validate:recommended", "html-validate:document", "html-validate:a11y"],
  rules: {
    // Drawings are SVG, whose elements may end themselves.
    "no-self-closing": "off",
    "void-style": "off",
    "long-title": "off", // a recipe's title is as long as it is
    "no-inline-style": "error",
    "no-raw-characters": "error",
  },
});

test("the validator finds what is wrong", async () => {
  const report = await validator.validateString("<!DOCTYPE html>\n<html><body><p><div>a & b</p></body></html>");
  assert.ok(report.errorCount >= 3);
});

for (const [name, path] of pages()) {
  test(`${name}: valid HTML`, async () => {
    const report = await validator.validateString(readFileSync(path, "utf8"));
    const messages = report.results.flatMap((result) => result.messages);
    assert.deepEqual(
      messages.map((m) => `${m.line}:${m.column} ${m.ruleId}: ${m.message}`),
      [],
    );
  });

  test(`${name}: the policy names the style sheet and nothing else`, () => {
    const text = readFileSync(path, "utf8");
    const styles = [...text.matchAll(/<style>([^]*?)<\/style>/g)];
    assert.equal(styles.length, 1);
    const hash = createHash("sha256").update(styles[0][1]).digest("base64");
    assert.ok(
      text.includes(
        `content="default-src &#39;none&#39;; style-src &#39;sha256-${hash}&#39;; base-uri &#39;none&#39;; form-action &#39;none&#39;"`,
      ),
      hash,
    );
  });
}

for (const name of [...book, hostile]) {
  test(`${name}: well-formed SVG`, { skip: there("xmllint", "--version") ? false : "xmllint is not installed" }, () => {
    const path = page("card.svg", "card", name, "--svg", "--kitchen", kitchen);
    const done = spawnSync("xmllint", ["--noout", "--nonet", path], { encoding: "utf8" });
    assert.equal(done.stderr, "");
    assert.equal(done.status, 0);
  });
}

test("Markdown: a hostile recipe comes out as its own words", () => {
  const tree = new Parser().parse(jarful("card", hostile, "--md", "--kitchen", kitchen));
  const types = new Set();
  const marks = [];
  let heading = "";
  const walker = tree.walker();
  for (let event = walker.next(); event; event = walker.next()) {
    if (!event.entering) continue;
    if (event.node.type === "html_block") marks.push(event.node.literal);
    else types.add(event.node.type);
    if (event.node.type === "text" && event.node.parent.type === "heading" && event.node.parent.level === 1)
      heading += event.node.literal;
  }
  for (const type of ["link", "image", "html_inline", "code", "code_block", "emph"])
    assert.ok(!types.has(type), type);
  // By which Jarful knows the file again; nothing of it comes from the recipe.
  assert.equal(marks.length, 1);
  assert.match(marks[0], /^<!-- Written by jarful as a [A-Za-z ]+ with the mark [0-9a-f]{16} -->$/);
  assert.ok(heading.includes(hostileWords), heading);
  assert.ok(!new HtmlRenderer().render(tree).includes("<script"));
});

test("Markdown: steps, headings and tables are what they are", () => {
  const html = new HtmlRenderer().render(new Parser().parse(jarful("card", "winter-kraut", "--md")));
  assert.match(html, /<h1>Quay Street winter kraut, version 4<\/h1>/);
  assert.match(html, /<ol>\s*<li>Mix the cabbage/);
});
