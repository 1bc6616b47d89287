// Posts the form as it is typed and changes what is drawn and said; never touches a field.
const bench = document.querySelector("[data-live]");
const form = document.getElementById("fields");
const said = bench.querySelector("[data-said]");
const narrow = matchMedia("(max-width: 760px)");
const kept = `typed ${location.pathname}`;
const DEBOUNCE = 60;
let number = 0, timer = 0, asked = null, saving = Promise.resolve(), patience = 500;

const STATES = {
  pending: "", fresh: "", typed: "",
  wrong: "The drawing shows the part as it was last right.",
  lost: "No answer from the server. What you type is kept here; asking again.",
};

function show(state) {
  bench.dataset.state = state;
  if (said.textContent !== STATES[state]) said.textContent = STATES[state];
}

function body() {
  const typed = new URLSearchParams(new FormData(form));
  typed.set("size", narrow.matches ? "phone" : "wide");
  return typed;
}

function keep() {
  try { localStorage.setItem(kept, body().toString()); } catch { /* a full or barred storage */ }
}

async function post(stage, signal) {
  const answer = await fetch(`${bench.dataset.live}/${stage}`, { method: "POST", body: body(), signal });
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.json();
}

function pieces(found = {}) {
  for (const [name, html] of Object.entries(found)) {
    const place = document.querySelector(`[data-piece="${name}"]`);
    if (place && place.innerHTML !== html) place.innerHTML = html;
  }
}

function fields(notes) {
  for (const [name, [other, wrong]] of Object.entries(notes)) {
    const row = form.querySelector(`[data-field="${CSS.escape(name)}"]`);
    if (!row) continue;
    const input = row.querySelector("input, select");
    const beneath = row.querySelector(".other");
    if (beneath) beneath.textContent = other;
    row.querySelector(".wrong").textContent = wrong;
    row.classList.toggle("is-wrong", wrong !== "");
    if (wrong) input.setAttribute("aria-invalid", "true"); else input.removeAttribute("aria-invalid");
  }
}

function drawing(found) {
  if (!found) return;
  const size = narrow.matches ? "phone" : "wide";
  bench.querySelector(`.picture[data-size="${size}"]`).innerHTML = found.svg;
  bench.querySelector("[data-empty]")?.remove();
  document.dispatchEvent(new CustomEvent("handles", { detail: found }));
}

async function ask() {
  asked?.abort();
  const mine = ++number, stop = new AbortController();
  asked = stop;
  show("pending");
  try {
    const first = await post("drawing", stop.signal);
    if (mine !== number) return;
    fields(first.fields);
    drawing(first.drawing);
    show(first.state);
    document.dispatchEvent(new CustomEvent("drawn"));
    const rest = await post("rest", stop.signal);
    if (mine !== number) return;
    pieces(rest.pieces);
    bench.dataset.results = "fresh";
    patience = 500;
  } catch (error) {
    if (error.name === "AbortError" || mine !== number) return;
    show("lost");
    timer = setTimeout(ask, patience);
    patience = Math.min(2 * patience, 5000);
  }
}

async function save() {
  try {
    const answer = await post("save");
    if (!answer.saved) { pieces(answer.pieces); return; }
    form.elements.base.value = answer.saved;
    document.querySelector("[data-version]").value = answer.saved;
    document.querySelector("[data-version-word]").textContent = answer.saved;
    document.querySelector("[data-undo]").disabled = answer.saved < 2;
    localStorage.removeItem(kept);
  } catch { /* asking again keeps it: see ask */ }
}

form.addEventListener("input", () => {
  keep();
  bench.dataset.results = "pending";
  clearTimeout(timer);
  timer = setTimeout(ask, DEBOUNCE);
});
form.addEventListener("change", () => { saving = saving.then(save); });
// A saved form is the server's; what is left here would only be older.
form.addEventListener("submit", () => { try { localStorage.removeItem(kept); } catch { /* barred */ } });

const left = new URLSearchParams(localStorage.getItem(kept) ?? "");
if (left.get("base") === form.elements.base.value && left.get("shape.count") === new URLSearchParams(new FormData(form)).get("shape.count")) {
  for (const [name, text] of left) if (form.elements[name] && name !== "base") form.elements[name].value = text;
  ask();
} else if (bench.querySelector("[data-handles]")) ask();
document.documentElement.dataset.live = "on";
