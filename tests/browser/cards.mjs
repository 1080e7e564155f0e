// Makes the pages that the tests look at, with the real program.
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

export const program = process.env.JARFUL_PROGRAM;
export const root = process.env.JARFUL_SOURCE_DIR;
export const recipes = join(root, "recipes");
export const folder = mkdtempSync(join(tmpdir(), "jarful-cards-"));

/** What the program prints, whatever it thinks of the salt. */
export function jarful(...words) {
  const done = spawnSync(program, words, { cwd: recipes, encoding: "utf8" });
  if (done.error) throw done.error;
  if (done.status > 1) throw new Error(`jarful ${words.join(" ")}: ${done.stderr}`);
  return done.stdout;
}

/** A page in a file of its own; its path. */
export function page(name, ...words) {
  const path = join(folder, name);
  writeFileSync(path, jarful(...words));
  return path;
}

/** The names of the demo book's recipes. */
export const book = readdirSync(recipes)
  .filter((file) => file.endsWith(".jarful") && file !== "kitchen.jarful")
  .map((file) => file.slice(0, -".jarful".length))
  .sort();

/** A recipe that tries to be more than words, in every place where it may say something. */
export const hostile = join(folder, "hostile.jarful");
const bad = "</style></title><script>document.title='owned'</script><img src=x onerror=alert(1)> [x](javascript:alert(2)) ![y](http://h.invalid/z) שלום \u05d0 `c` | *d*";
const words = bad.replaceAll('"', '\\"');
writeFileSync(
  hostile,
  readFileSync(join(recipes, "winter-kraut.jarful"), "utf8")
    .replace("Quay Street winter kraut", words)
    .replace("house notes, three seasons", words)
    .replace("cored and shredded, 3 mm", words)
    .replace("below it goes soft, above it stalls", words)
    .replace("The salt draws the juice.", words)
    .replace("Put the lids on loosely,", words)
    .replace("Still under the juice?", words),
);
export const hostileWords = bad;
export const kitchen = join(recipes, "kitchen.jarful");

/** The same kraut with half the salt, which is refused, and without a kind, which is not judged. */
export const thin = join(folder, "thin.jarful");
export const unknown = join(folder, "unknown.jarful");
const kraut = readFileSync(join(recipes, "winter-kraut.jarful"), "utf8");
writeFileSync(thin, kraut.replace("2.2 % of (cabbage + carrot)", "1.1 % of (cabbage + carrot)"));
writeFileSync(unknown, kraut.replace(/^kind .*\n/m, ""));

/** Cards of every sort in files of their own, by name; as pictures with "--svg", without the labels then. */
export function pages(form = "--html") {
  const all = new Map();
  const ending = form.slice(2);
  const add = (name, ...rest) => all.set(name, page(`${name}.${ending}`, "card", ...rest, ...(rest.includes("--label") ? [] : [form])));
  for (const name of book) add(name, name);
  add("kraut-dated", "winter-kraut", "--start", "2026-11-25", "--units", "both");
  add("kimchi-both", "napa-kimchi", "--start", "2026-11-25", "--units", "both");
  add("half-sours-us", "half-sours", "jar=tall,tall", "--units", "us");
  add("hostile", hostile, "--kitchen", kitchen);
  add("thin", thin, "--kitchen", kitchen);
  add("unknown", unknown, "--kitchen", kitchen);
  add("no-kitchen", unknown);
  if (form !== "--html") return all;
  add("address", "winter-kraut", "--address", "https://garden.example/recipes/winter-kraut.html");
  for (const name of book) add(`label-${name}`, name, "--label", "--start", "2026-11-25");
  add("label", "winter-kraut", "--label");
  add("label-kimchi", "napa-kimchi", "--label", "--units", "both");
  add("label-hostile", hostile, "--label", "--kitchen", kitchen);
  return all;
}

/** Whether a program can be run. */
export function there(name, ...words) {
  try {
    execFileSync(name, words, { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
}
