// All tabs of a job follow one another: what one saves or types the others are told at once, and a
// tab that is looked at again asks for itself.
const job = document.querySelector("[data-job]").dataset.job;
const channel = new BroadcastChannel(`job ${job}`);
const shown = () => Number(document.querySelector("[data-version]").value);
const heard = [];
const PATIENCE = 5000; // ms

export const tab = Array.from(crypto.getRandomValues(new Uint32Array(4)), (one) => one.toString(16)).join("");
export const tell = (what) => channel.postMessage({ ...what, page: location.pathname });
// A page with fields says what it does when another tab saved (told a version) or typed (told fields).
export const hear = (what) => heard.push(what);

export async function current() {
  const answer = await fetch(`/live/${job}/now`, { signal: AbortSignal.timeout(PATIENCE) });
  if (!answer.ok) throw new Error(String(answer.status));
  return (await answer.json()).version;
}

// Whether something is typed on this page that is not saved: in a field, or given back as wrong.
function busy() {
  const typed = (one) => (["checkbox", "radio"].includes(one.type) ? one.checked !== one.defaultChecked : one.value !== one.defaultValue);
  const fields = document.querySelectorAll("main input:not([type=range]):not([type=hidden]), main textarea");
  const chosen = (one) => [...one.options].some((way) => way.selected !== way.defaultSelected) && one.selectedIndex > 0;
  return [...fields].some(typed) || [...document.querySelectorAll("main select")].some(chosen)
    || document.querySelector("main .wrong-line, main .asked, main .is-wrong") !== null
    || (document.activeElement?.matches("input:not([type=range])") && document.activeElement.value !== "");
}

// A page without live fields is made anew, unless somebody has typed on it.
function anew(version) {
  if (heard.length || version === shown()) return;
  if (!busy()) { location.reload(); return; }
  const told = document.querySelector("[data-changed]");
  told.hidden = false;
}

channel.addEventListener("message", ({ data }) => {
  for (const what of heard) what(data);
  if (data.version) anew(data.version);
});
async function look() {
  if (document.visibilityState !== "visible") return;
  for (const what of heard) what({});
  if (heard.length) return;
  try { anew(await current()); } catch { /* the page says so itself where it needs the server */ }
}
for (const moment of ["focus", "online", "pageshow"]) addEventListener(moment, (event) => { if (moment !== "pageshow" || event.persisted) look(); });
document.addEventListener("visibilitychange", look);
tell({ version: shown() }); // a form that was posted, an undo
