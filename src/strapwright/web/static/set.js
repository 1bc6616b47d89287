// Sets what the server answered into the page; never touches what a person has typed.
import { unfold, unfolded } from "./remade.js";

const bench = document.querySelector("[data-live]");
const form = document.getElementById("fields");

export const narrow = matchMedia("(max-width: 760px), (max-height: 480px)");
export const size = () => (narrow.matches ? "phone" : "wide");

export function pieces(found = {}) {
  for (const [name, html] of Object.entries(found)) {
    const place = document.querySelector(`[data-piece="${name}"]`);
    if (!place || place.innerHTML === html) continue;
    const before = unfolded(place);
    place.innerHTML = html;
    unfold(place, before);
  }
}

export function fields(notes) {
  for (const [name, [other, wrong]] of Object.entries(notes)) {
    const row = form.querySelector(`[data-field="${CSS.escape(name)}"]`);
    if (!row) continue;
    const input = row.querySelector("input, select");
    const beneath = row.querySelector(".other");
    if (beneath) beneath.textContent = other;
    row.querySelector(".wrong").textContent = wrong;
    row.classList.toggle("is-wrong", wrong !== "");
    if (wrong) input.setAttribute("aria-invalid", "true"); else input.removeAttribute("aria-invalid");
    if (wrong) row.closest("details")?.setAttribute("open", ""); // a folded one would hide it
  }
}

export const scales = {}; // of the drawings that are shown

export function drawing(found, of) {
  if (!found) return;
  scales[of] = found.scale;
  bench.querySelector(`.picture[data-size="${of}"]`).innerHTML = found.svg;
  bench.querySelector("[data-empty]")?.remove();
  document.dispatchEvent(new CustomEvent("handles", { detail: found }));
}

export function version(number) {
  document.querySelector("[data-version]").value = number;
  document.querySelector("[data-version-word]").textContent = number;
  document.querySelector("[data-undo]").disabled = number < 2;
}

// Fields that nobody touched here follow what another tab saved; those typed in since it was asked stay.
// What was answered before this tab itself saved comes too late: its version must not go back.
export function follow({ base, values = {}, version: current }, asked) {
  if (current < Number(form.elements.base.value)) return;
  for (const [name, text] of Object.entries(values)) {
    const input = form.elements[name];
    if (!input || input.value !== asked.get(name)) continue;
    input.value = text;
    if (input.matches("select") && input.selectedIndex < 0) input.selectedIndex = 0;
    asked.set(name, input.value);
  }
  if (base) form.elements.base.value = base;
  version(current);
}
