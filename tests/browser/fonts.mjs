// Readers have any font. Cards and pages are looked at with a wide one and with a narrow one, whatever else is installed:
// DejaVu Sans (Debian's fonts-dejavu-core) and Liberation Sans Narrow (fonts-liberation).
import { existsSync, mkdirSync, mkdtempSync, readdirSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const files = {
  wide: ["DejaVuSans.ttf", "DejaVuSans-Bold.ttf"],
  narrow: ["LiberationSansNarrow-Regular.ttf", "LiberationSansNarrow-Bold.ttf"],
};
export const fonts = Object.keys(files);

function found(name, folder = "/usr/share/fonts") {
  if (!existsSync(folder)) return undefined;
  const entries = readdirSync(folder, { withFileTypes: true });
  if (entries.some((entry) => entry.name === name)) return join(folder, name);
  for (const entry of entries) {
    const inside = entry.isDirectory() ? found(name, join(folder, entry.name)) : undefined;
    if (inside) return inside;
  }
  return undefined;
}

/** Why there is no such font here, or false. */
export const noFont = (font) => {
  const lacking = files[font].filter((name) => !found(name));
  return lacking.length > 0 ? `fonts that are not installed: ${lacking.join(", ")}` : false;
};

/** The environment of a program to which this font is the only one there is. */
export function withFont(font) {
  if (noFont(font)) throw new Error(noFont(font));
  const place = mkdtempSync(join(tmpdir(), `jarful-font-${font}-`));
  const only = join(place, "fonts");
  mkdirSync(only);
  for (const name of files[font]) symlinkSync(found(name), join(only, name));
  const settings = join(place, "fonts.conf");
  const escaped = (path) => path.replace(/[&<>]/g, (letter) => `&#${letter.charCodeAt(0)};`);
  writeFileSync(settings, `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig>
<dir>${escaped(only)}</dir>
<cachedir>${escaped(join(place, "cache"))}</cachedir>
</fontconfig>
`);
  return { place, env: { ...process.env, FONTCONFIG_FILE: settings } };
}
