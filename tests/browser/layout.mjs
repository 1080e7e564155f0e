// What is wrong with how a page is laid out, found in the browser: what overlaps, what is cut, what runs out of its place.

/** Runs in the page: faults in words, none if there are none. */
function look() {
  const faults = [];
  const unseen = (element) => element.closest(".unseen, .skip:not(:focus), [hidden], option, title, desc") !== null ||
    !element.checkVisibility({ visibilityProperty: true, opacityProperty: true });
  const short = (words) => words.trim().replace(/\s+/g, " ").slice(0, 50);

  // What of a box is to be seen: what scrolls shows a part of what is in it.
  const shown = (owner, box) => {
    const out = { left: box.left, right: box.right, top: box.top, bottom: box.bottom };
    for (let around = owner; around && around !== document.body; around = around.parentElement) {
      if (!/auto|scroll/.test(getComputedStyle(around).overflowY)) continue;
      const frame = around.getBoundingClientRect();
      out.top = Math.max(out.top, frame.top);
      out.bottom = Math.min(out.bottom, frame.bottom);
    }
    return out;
  };

  // Each line of words, with the box that its letters take; their line may be lower than the letters' full height.
  const lines = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const owner = node.parentElement;
    if (node.data.trim() === "" || /^(SCRIPT|STYLE)$/.test(owner.tagName) || unseen(owner)) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects()) {
      if (box.width < 1) continue;
      const slack = box.height * 0.2;
      const seen = shown(owner, { left: box.left, right: box.right, top: box.top + slack, bottom: box.bottom - slack });
      if (seen.bottom > seen.top) lines.push({ node, owner, words: short(node.data), ...seen });
    }
  }
  const touch = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1.5 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1.5;
  const floating = (element) => element.closest("dialog[open]")?.id ?? "";
  for (let i = 0; i < lines.length; ++i)
    for (let k = i + 1; k < lines.length; ++k)
      if (touch(lines[i], lines[k]) && floating(lines[i].owner) === floating(lines[k].owner))
        faults.push(`"${lines[i].words}" lies over "${lines[k].words}"`);

  // Words lie within what they belong to, drawings included, and within the screen.
  for (const line of lines) {
    const drawing = line.owner.ownerSVGElement;
    const place = drawing ?? line.owner.closest("li, td, th, dd, dt, p, button, label, h1, h2, h3, figcaption, section") ?? document.body;
    const boxes = drawing ? [drawing.getBoundingClientRect()] : [...place.getClientRects()];
    if (!boxes.some((box) => line.left >= box.left - 1.5 && line.right <= box.right + 1.5 && line.top >= box.top - 1.5 && line.bottom <= box.bottom + 1.5))
      faults.push(`"${line.words}" runs out of its ${drawing ? "drawing" : place.localName}`);
    if (line.left < -1 || line.right > document.documentElement.clientWidth + 1) faults.push(`"${line.words}" runs off the side`);
  }

  // Nothing lies over a control, a drawing or a field, nor do they over each other.
  const boxes = [...document.querySelectorAll("input:not([type=radio], [type=checkbox]), select, textarea, button, svg, .choices")]
    .filter((element) => !unseen(element)).map((element) => ({ element, box: shown(element.parentElement, element.getBoundingClientRect()) }))
    .filter(({ box }) => box.bottom > box.top);
  for (const { element, box } of boxes) {
    for (const line of lines)
      if (!element.contains(line.owner) && touch(line, box) && floating(line.owner) === floating(element)) faults.push(`"${line.words}" lies over a ${element.localName}`);
    for (const other of boxes)
      if (other.element !== element && !other.element.contains(element) && !element.contains(other.element) && touch(box, other.box) && floating(element) === floating(other.element))
        faults.push(`a ${element.localName} lies over a ${other.element.localName}`);
  }

  // What scrolls or hides what is too wide for it cuts it.
  for (const element of document.querySelectorAll("body *")) {
    if (unseen(element) || element.closest("svg, select") || element.matches("textarea")) continue;
    const style = getComputedStyle(element);
    const cuts = style.overflowX !== "visible" || element.matches("input");
    if (cuts && element.scrollWidth > element.clientWidth + 1) faults.push(`${element.localName}#${element.id} is cut: ${short(element.value ?? element.textContent)}`);
  }
  // A select does not say how wide its words are.
  const pen = document.createElement("canvas").getContext("2d");
  for (const select of document.querySelectorAll("select")) {
    if (unseen(select)) continue;
    const style = getComputedStyle(select);
    pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
    const words = select.selectedOptions[0]?.textContent ?? "";
    const room = select.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
    if (pen.measureText(words).width > room + 1) faults.push(`the choice "${words}" is cut`);
  }
  return [...new Set(faults)];
}

/** What overlaps, is cut or runs out of its place, in words. */
export const layoutFaults = (tab) => tab.evaluate(look);

/** Where elements stand on the screen: { top, bottom, left, right } for each selector, null for what is not seen. */
export const places = (tab, selectors) => tab.evaluate((all) => Object.fromEntries(all.map((selector) => {
  const found = [...document.querySelectorAll(selector)].find((element) => element.checkVisibility());
  const box = found?.getBoundingClientRect();
  return [selector, box && { top: box.top, bottom: box.bottom, left: box.left, right: box.right }];
})), selectors);

/**
 * How much of each part of a picture is inked: the share of points that are not of the colour that most of it has.
 * @param helper a tab that only serves for this. @param parts { name: [left, top, right, bottom] }, as shares of the picture.
 */
export const inked = (helper, png, parts) => helper.evaluate(async ([base64, wanted]) => {
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  const picture = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
  const pen = new OffscreenCanvas(picture.width, picture.height).getContext("2d", { willReadFrequently: true });
  pen.drawImage(picture, 0, 0);
  const out = {};
  for (const [name, [left, top, right, bottom]] of Object.entries(wanted)) {
    const x = Math.round(left * picture.width);
    const y = Math.round(top * picture.height);
    const { data } = pen.getImageData(x, y, Math.round(right * picture.width) - x, Math.round(bottom * picture.height) - y);
    const points = new Uint32Array(data.buffer);
    const counts = new Map();
    for (const point of points) counts.set(point, (counts.get(point) ?? 0) + 1);
    out[name] = 1 - Math.max(...counts.values()) / points.length;
  }
  return out;
}, [png.toString("base64"), parts]);

/** The sizes of the words on a sheet, in points: the smallest of all, and the smallest of the method. */
export const typeSizes = (tab) => tab.evaluate(() => {
  const sizes = { all: Infinity, method: Infinity, smallest: "" };
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const owner = node.parentElement;
    if (node.data.trim() === "" || !owner.checkVisibility() || owner.closest("title, desc, script, style")) continue;
    // What is drawn is smaller or larger than it says, as its drawing is.
    const scale = owner.getScreenCTM ? owner.getScreenCTM().a : 1;
    const points = parseFloat(getComputedStyle(owner).fontSize) * scale * 0.75;
    if (points < sizes.all) [sizes.all, sizes.smallest] = [points, node.data.trim().slice(0, 40)];
    if (owner.closest(".method li, .dates ol li")) sizes.method = Math.min(sizes.method, points);
  }
  return sizes;
});
