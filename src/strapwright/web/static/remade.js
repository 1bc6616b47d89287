// What a person folded out, and where a slider stood, stays so where a piece of the page, or all of
// it, is made anew.
const place = `left ${location.pathname}`;
// Notes keep their name when their count changes.
const named = (fold) => (fold.matches(".notes") ? "notes" : fold.querySelector("summary").textContent);
const sliders = () => [...document.querySelectorAll("input[type=range]")];

export const unfolded = (within) => [...within.querySelectorAll("details[open]")].map(named);

export function unfold(within, names) {
  for (const fold of within.querySelectorAll("details")) if (names.includes(named(fold))) fold.open = true;
}

export function reload() {
  const stood = sliders().map(({ id, value, max }) => ({ id, value, max }));
  try {
    sessionStorage.setItem(place, JSON.stringify({ names: unfolded(document), stood }));
  } catch { /* full or barred */ }
  location.reload();
}

function restore({ names, stood }) {
  unfold(document, names);
  for (const slider of sliders()) {
    const before = stood.find((one) => one.id === slider.id && one.max === slider.max);
    if (before) slider.value = before.value; // with other pictures its place would mean another
  }
}

try {
  const left = sessionStorage.getItem(place);
  sessionStorage.removeItem(place);
  if (left) restore(JSON.parse(left));
} catch { /* barred */ }
