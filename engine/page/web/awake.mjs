// Keeps the screen lit while somebody with wet hands reads from it.

let wanted = false;
let lock = null;
let tell = () => {};

async function takeLock() {
  if (!wanted || lock || document.visibilityState !== "visible") return;
  try {
    const got = await navigator.wakeLock.request("screen");
    if (!wanted) {
      await got.release();
      return;
    }
    lock = got;
    lock.addEventListener("release", () => { lock = null; });
    tell("The screen stays on.");
  } catch {
    tell("This browser lets the screen go dark: touch it now and then.");
  }
}

/** A lock is lost whenever the page is out of sight; it is taken again as soon as it is seen. */
document.addEventListener("visibilitychange", takeLock);

export function stayAwake(telling) {
  wanted = true;
  tell = telling;
  return takeLock();
}

export function letSleep() {
  wanted = false;
  const held = lock;
  lock = null;
  held?.release().catch(() => {});
}
