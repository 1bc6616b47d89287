// Readings typed on the log outlive a phone that sleeps, a page made anew and a network that is away:
// they are kept in this browser until the server has them.
const form = document.querySelector("main form[action$='/log']");
const start = `reading ${location.pathname}`;
// With the units they were asked in: a number without one means another thing in others.
const named = ["part", "bend", "units"].map((name) => form?.elements[name]?.value);
const place = form && [start, ...named].join(" ");
const fields = form ? [...form.querySelectorAll("input:not([type=hidden]):not([type=checkbox]), textarea")] : [];

function keep() {
  const typed = fields.filter((one) => one.value !== one.defaultValue).map((one) => [one.name, one.value]);
  try {
    if (typed.length) localStorage.setItem(place, JSON.stringify(typed)); else localStorage.removeItem(place);
  } catch { /* full or barred */ }
}

function restore() {
  let left = [];
  try { left = JSON.parse(localStorage.getItem(place) ?? "[]"); } catch { return; }
  for (const [name, text] of left) {
    const one = fields.find((field) => field.name === name);
    if (one && one.value === one.defaultValue) one.value = text;
  }
}

// What this tab sent: another tab of this browser may hold a reading of another part.
function forget() {
  try {
    const sent = sessionStorage.getItem(start);
    if (sent) localStorage.removeItem(sent);
    sessionStorage.removeItem(start);
  } catch { /* barred */ }
}

if (form) {
  // What was just kept is told once: made anew, this page is that of the next reading.
  if (document.querySelector("main .kept")) { forget(); history.replaceState(null, "", location.pathname); } else restore();
  form.addEventListener("input", keep);
  form.addEventListener("submit", () => { try { sessionStorage.setItem(start, place); } catch { /* barred */ } });
}
