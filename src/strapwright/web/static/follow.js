// All pages of a job follow one another: what one saves or types other tabs of this browser are told
// at once; other devices are asked for while the page is looked at, and so is who looks at it too.
import { reload } from "./remade.js";

const head = document.querySelector("[data-job]");
const { job } = head.dataset;
const channel = new BroadcastChannel(`job ${job}`);
const shown = () => Number(document.querySelector("[data-version]").value);
const readings = Number(head.dataset.readings);
const searched = Number(head.dataset.searched); // how many searches of the job had ended
const who = document.querySelector("[data-who]");
const heard = [];
const PATIENCE = 5000, BEAT = 3000; // ms

export const tab = Array.from(crypto.getRandomValues(new Uint32Array(4)), (one) => one.toString(16).padStart(8, "0")).join("");
export const tell = (what) => channel.postMessage({ ...what, page: location.pathname });
// A page with fields says what it does when another tab saved (told a version) or typed (told fields).
export const hear = (what) => heard.push(what);

async function asked() {
  const answer = await fetch(`/live/${job}/now?tab=${tab}`, { signal: AbortSignal.timeout(PATIENCE) });
  if (!answer.ok) throw new Error(String(answer.status));
  const found = await answer.json();
  if (who.textContent !== found.others) who.textContent = found.others;
  return found;
}
export const current = async () => (await asked()).version;

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
function anew(found) {
  const same = (found.version ?? shown()) === shown() && (found.readings ?? readings) === readings
    && (found.searched ?? searched) === searched;
  if (heard.length || same) return;
  if (!busy()) { reload(); return; }
  document.querySelector("[data-changed]").hidden = false;
}

channel.addEventListener("message", ({ data }) => {
  for (const what of heard) what(data);
  if (data.version) anew({ version: data.version });
});

// A page that is looked at asks now and then; one that is not has left, and asks for nothing.
let next = 0, told = searched;
async function beat() {
  clearTimeout(next);
  if (document.visibilityState !== "visible") return;
  try {
    const found = await asked();
    if (heard.length && (found.version > shown() || found.searched !== told)) for (const what of heard) what({});
    told = found.searched;
    anew(found);
  } catch { who.textContent = ""; /* the page says so itself where it needs the server */ }
  clearTimeout(next);
  next = setTimeout(beat, BEAT);
}
function leave() {
  clearTimeout(next);
  fetch(`/live/${job}/now?tab=${tab}&left=1`, { keepalive: true }).catch(() => { /* gone by itself soon */ });
}
function look() {
  if (document.visibilityState !== "visible") { leave(); return; }
  for (const what of heard) what({});
  beat();
}
for (const moment of ["focus", "online", "pageshow"]) addEventListener(moment, (event) => { if (moment !== "pageshow" || event.persisted) look(); });
document.addEventListener("visibilitychange", look);
addEventListener("pagehide", leave);
tell({ version: shown() }); // a form that was posted, an undo
beat();
