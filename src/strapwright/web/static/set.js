// Sets what the server answered into the page; never touches what stands in a field.
const bench = document.querySelector("[data-live]");
const form = document.getElementById("fields");

export const narrow = matchMedia("(max-width: 760px)");

export function pieces(found = {}) {
  for (const [name, html] of Object.entries(found)) {
    const place = document.querySelector(`[data-piece="${name}"]`);
    if (place && place.innerHTML !== html) place.innerHTML = html;
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

export function drawing(found) {
  if (!found) return;
  const size = narrow.matches ? "phone" : "wide";
  bench.querySelector(`.picture[data-size="${size}"]`).innerHTML = found.svg;
  bench.querySelector("[data-empty]")?.remove();
  document.dispatchEvent(new CustomEvent("handles", { detail: found }));
}
