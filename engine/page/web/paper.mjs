// How large another batch is printed than the published one: measured, laid out as for paper, in the reader's own fonts.

/** What is left within the margins, of A4 in its width and of Letter in its height, with a hundredth to spare; and the style sheet's sizes. */
const paper = { wide: "192mm", high: (0.99 * 261 * 96) / 25.4, sizes: 8 };

const root = document.documentElement;
const published = root.className;

/** Lets the rules for paper hold on the screen while `measure` runs, and none that go by the window's width; nothing of it is painted. */
function onPaper(measure) {
  const rules = [...document.styleSheets].flatMap((sheet) => [...sheet.cssRules]).filter((rule) => rule.media).map(({ media }) => [media, media.mediaText]);
  for (const [media, text] of rules) media.mediaText = text.includes("print") ? "all" : text.includes("width") ? "not all" : text;
  document.body.style.width = paper.wide;
  try {
    return measure();
  } finally {
    for (const [media, text] of rules) media.mediaText = text;
    document.body.style.width = "";
  }
}

/** The largest size at which the page has room on one sheet, or else on two, as the card from the command line has it. */
function fitted() {
  for (const two of ["", " two-sheets"]) {
    for (let size = 0; size < paper.sizes; ++size) {
      root.className = `fit-${size}${two}`;
      const { top, bottom } = document.body.getBoundingClientRect();
      const turn = (two && document.querySelector(".turned")?.getBoundingClientRect().top) || bottom;
      if (Math.max(turn - top, bottom - turn) <= paper.high) return;
    }
  }
}

/** For the event before printing. A browser that does not let its style sheets be read prints in the published size. */
export function fitPaper() {
  root.className = published;
  if (!document.body.classList.contains("changed")) return;
  try {
    onPaper(fitted);
  } catch {
    root.className = published;
  }
}
