// The dated plan as a file for a calendar.

let calendar = null;
let title = "";

/** The calendar of the batch on the page; null without a day of packing. */
export function setCalendar(text, recipe, button) {
  calendar = text;
  title = recipe;
  button.disabled = text === null;
}

/** A name that every file system takes, from the recipe's title. */
export function fileName(words) {
  const plain = words.normalize("NFKD").replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-+|-+$/g, "").slice(0, 60);
  return `${plain || "batch"}.ics`;
}

export function saveCalendar() {
  if (calendar === null) return;
  const address = URL.createObjectURL(new Blob([calendar], { type: "text/calendar" }));
  const link = document.createElement("a");
  link.href = address;
  link.download = fileName(title);
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10000);
}
