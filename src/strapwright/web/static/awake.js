// The screen stays on while a page of the press is looked at, where the browser can do that: it can on
// this machine and over an encrypted connection.
const told = document.querySelector("[data-awake]");
let lock = null;

async function hold() {
  if (!("wakeLock" in navigator) || document.visibilityState !== "visible" || (lock && !lock.released)) return;
  try {
    lock = await navigator.wakeLock.request("screen");
    if (told) told.hidden = false;
    lock.addEventListener("release", () => { if (told) told.hidden = true; });
  } catch {
    lock = null; // the battery is low, or the browser refuses: the phone sleeps as it always does
  }
}

document.addEventListener("visibilitychange", hold);
hold();
