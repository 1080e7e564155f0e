// One thing at a time in large type, for reading beside the scale.
import { byId, element } from "./controls.mjs";
import { letSleep, stayAwake } from "./awake.mjs";

let steps = [];
let at = 0;

function show() {
  const step = steps[at];
  byId("c-step-count").textContent = `${at + 1} of ${steps.length}`;
  byId("c-step-title").textContent = step.title;
  byId("c-step-figure").textContent = step.figure ?? "";
  byId("c-step-unit").textContent = step.unit ?? "";
  byId("c-step-figure").parentNode.hidden = !step.figure;
  byId("c-step-words").replaceChildren(...step.words.map((words) => element("p", words, { dir: "auto" })));
  byId("c-back").disabled = at === 0;
  byId("c-next").textContent = at + 1 === steps.length ? "Done" : "Next";
  byId("c-step-now").scrollTop = 0;
}

function go(by) {
  if (at + by >= steps.length) {
    at = 0;
    byId("counter").close();
    return;
  }
  at = Math.max(0, at + by);
  show();
}

/** The steps of the batch that is on the page; the place is kept while they stay the same. */
export function setSteps(found) {
  if (JSON.stringify(found) !== JSON.stringify(steps)) at = 0;
  steps = found;
  byId("c-counter").disabled = steps.length === 0;
}

export function makeCounter() {
  const dialog = byId("counter");
  byId("c-counter").addEventListener("click", () => {
    show();
    dialog.showModal();
    byId("c-next").focus();
    stayAwake((words) => { byId("c-awake").textContent = words; });
  });
  dialog.addEventListener("close", letSleep);
  byId("c-close").addEventListener("click", () => dialog.close());
  byId("c-back").addEventListener("click", () => go(-1));
  byId("c-next").addEventListener("click", () => go(1));
  dialog.addEventListener("keydown", (event) => {
    const by = { ArrowRight: 1, PageDown: 1, ArrowLeft: -1, PageUp: -1 }[event.key];
    if (!by || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    if (at + by < steps.length) go(by);
  });

  // A swipe is clearly sideways, so that it is never a scroll.
  let from = null;
  dialog.addEventListener("pointerdown", (event) => {
    from = event.pointerType === "touch" ? [event.clientX, event.clientY] : null;
  });
  dialog.addEventListener("pointercancel", () => { from = null; });
  dialog.addEventListener("pointerup", (event) => {
    if (!from) return;
    const across = event.clientX - from[0];
    const down = event.clientY - from[1];
    from = null;
    if (Math.abs(across) < 60 || Math.abs(across) < 2 * Math.abs(down)) return;
    const by = across < 0 ? 1 : -1;
    if (at + by < steps.length) go(by);
  });
}
