// Keeps what is typed: in this browser at once, as a version of the job when a field is left.
import { tell } from "./follow.js";
import { pieces, version } from "./set.js";

const form = document.getElementById("fields");
const place = `typed ${location.pathname}`;
const LONGEST = 3000; // ms that leaving the page waits for a saving under way
const AGAIN = 2000; // ms after a saving that nobody answered
let saving = null, wanted = false;

const now = () => new URLSearchParams(new FormData(form)).toString();
const typed = (one) => one.replace(/^base=\d+/, ""); // all but the version it began from
let mine = null; // what this tab kept last

// Kept until it is saved, though the server has it as a draft: a page asked for while the server was
// starting may have been made before that draft came in.  Only the tab it is typed in keeps it.
export function keep() {
  mine = now();
  try { localStorage.setItem(place, mine); } catch { /* full or barred */ }
}

// Another tab of this page may have kept more since; that tab forgets it when it has saved it.
function forget() {
  try { if (localStorage.getItem(place) === mine) localStorage.removeItem(place); } catch { /* barred */ }
}

// What was typed here while nobody answered, if it began from the version that is shown.
export function restore() {
  try { mine = localStorage.getItem(place); } catch { return false; }
  const left = new URLSearchParams(mine ?? "");
  const shown = new FormData(form);
  if (left.get("base") !== shown.get("base") || left.get("shape.count") !== shown.get("shape.count")) return false;
  for (const [name, text] of left) if (form.elements[name] && name !== "base") form.elements[name].value = text;
  return true;
}

// One saving at a time; what could not be saved is tried again when the server answers.
async function save(post) {
  while (wanted) {
    wanted = false;
    const asked = now();
    let answer;
    try { answer = await post("save"); } catch { wanted = true; setTimeout(saveWhatIsLeft, AGAIN, post); return; }
    if (!answer.saved) { pieces(answer.pieces); continue; }
    form.elements.base.value = answer.saved;
    version(answer.saved);
    tell({ version: answer.saved });
    if (typed(now()) === typed(asked)) forget();
  }
}

export function saveWhatIsLeft(post) {
  if (wanted && !saving) saving = save(post).finally(() => { saving = null; });
}

export function saveOnLeavingField(post) {
  form.addEventListener("change", () => { wanted = true; saveWhatIsLeft(post); });
  // A quick hand has typed before this was loaded.
  wanted = [...form.querySelectorAll("input")].some((one) => one.value !== one.defaultValue);
  return wanted;
}

// A button or link pressed while a saving is under way waits for it, or it would meet itself.
const waited = () => Promise.race([saving, new Promise((done) => { setTimeout(done, LONGEST); })]);
document.addEventListener("submit", (event) => {
  if (saving) {
    event.preventDefault();
    waited().then(() => { saving = null; event.target.requestSubmit(event.submitter); });
  } else if (event.target === form) forget();
});
document.addEventListener("click", (event) => {
  const link = event.target.closest("a[href]");
  if (!saving || !link) return;
  event.preventDefault();
  waited().then(() => { if (link.target) open(link.href, link.target, "noopener"); else location.href = link.href; });
});
