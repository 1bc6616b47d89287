// Keeps what is typed: in this browser at once, as a version of the job when a field is left.
import { pieces } from "./set.js";

const form = document.getElementById("fields");
const place = `typed ${location.pathname}`;
const LONGEST = 3000; // ms that leaving the page waits for a saving under way
let saving = Promise.resolve(), busy = 0;

// Kept until it is saved, though the server has it as a draft: a page asked for while the server was
// starting may have been made before that draft came in.
export function keep() {
  try { localStorage.setItem(place, new URLSearchParams(new FormData(form)).toString()); } catch { /* full or barred */ }
}

function forget() {
  try { localStorage.removeItem(place); } catch { /* barred */ }
}

// What was typed here while nobody answered, if it began from the version that is shown.
export function restore() {
  let left;
  try { left = new URLSearchParams(localStorage.getItem(place) ?? ""); } catch { return false; }
  const shown = new FormData(form);
  if (left.get("base") !== shown.get("base") || left.get("shape.count") !== shown.get("shape.count")) return false;
  for (const [name, text] of left) if (form.elements[name] && name !== "base") form.elements[name].value = text;
  return true;
}

export function saveOnLeavingField(post) {
  async function save() {
    try {
      const answer = await post("save");
      if (!answer.saved) { pieces(answer.pieces); return; }
      form.elements.base.value = answer.saved;
      document.querySelector("[data-version]").value = answer.saved;
      document.querySelector("[data-version-word]").textContent = answer.saved;
      document.querySelector("[data-undo]").disabled = answer.saved < 2;
      forget();
    } catch { /* nobody answered: the drawing says so and asks again */ } finally { busy -= 1; }
  }
  form.addEventListener("change", () => { busy += 1; saving = saving.then(save); });
}

// A button or link pressed while a saving is under way waits for it, or it would meet itself.
const waited = () => Promise.race([saving, new Promise((done) => { setTimeout(done, LONGEST); })]);
document.addEventListener("submit", (event) => {
  if (busy) {
    event.preventDefault();
    waited().then(() => { busy = 0; event.target.requestSubmit(event.submitter); });
  } else if (event.target === form) forget();
});
document.addEventListener("click", (event) => {
  const link = event.target.closest("a[href]");
  if (!busy || !link || link.target) return;
  event.preventDefault();
  waited().then(() => { location.href = link.href; });
});
