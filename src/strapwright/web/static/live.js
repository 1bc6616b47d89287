// Posts the form as it is typed: the drawing first, what follows from it next.  What is shown is never
// older than what is typed without a word.
import "./fields.js";
import { reload } from "./remade.js";
import { current, hear, tab, tell } from "./follow.js";
import { drawing, fields, follow, narrow, pieces, scales, size } from "./set.js";
import { keep, restore, saveOnLeavingField, saveWhatIsLeft } from "./keep.js";

const bench = document.querySelector("[data-live]");
const form = document.getElementById("fields");
const said = bench.querySelector("[data-said]");
const DEBOUNCE = 0, OLD = 400, PATIENCE = 5000, FIRST_REST = 500, LAST_REST = 5000, HANDS_REST = 800; // ms
let number = 0, turn = 0, timer = 0, aging = 0, asked = null, rest = FIRST_REST;

const typed = () => new Map(new FormData(form));
const same = (one, other) => [...one].every(([name, text]) => name === "base" || other.get(name) === text);
// What each of these was made from.
const made = { wide: typed(), phone: typed(), notes: typed(), results: typed() };
const drawn = () => (bench.querySelector("[data-handles]") ? made[size()] : made.notes);

const LAST_RIGHT = "The drawing shows the last valid version of the part.";
const STATES = {
  pending: "",
  fresh: "",
  wrong: bench.querySelector(".picture svg") && bench.querySelector("[data-handles]") ? LAST_RIGHT : "",
  lost: "No answer from the server. Your entries are kept on this page; trying again.",
};

function say(words) { if (said.textContent !== words) said.textContent = words; }

function show(state) {
  bench.dataset.state = state;
  say(STATES[state]);
}

// Which values are still shown, where they are not those that are typed.
function oldWords() {
  const now = typed(), old = [];
  for (const [name, text] of drawn()) {
    const label = form.querySelector(`[data-field="${CSS.escape(name)}"] label`);
    if (label && now.get(name) !== text) old.push(`${label.textContent}: ${text || "empty"}`);
  }
  if (!old.length) return "This still shows the values before your last change.";
  const more = old.length - 1;
  return `This still shows ${old[0]}${more ? `, and ${more} more earlier value${more > 1 ? "s" : ""}` : ""}.`;
}

function age() {
  aging = 0;
  if (same(typed(), drawn())) return;
  bench.dataset.age = "old";
  if (bench.dataset.state !== "lost") say(oldWords());
}

function young() {
  clearTimeout(aging);
  aging = 0;
  delete bench.dataset.age;
  if (!same(typed(), drawn())) aging = setTimeout(age, OLD);
}

async function post(stage, signal, longest = PATIENCE) {
  const body = new URLSearchParams(new FormData(form));
  turn = Math.max(turn + 1, Date.now());
  body.set("size", size());
  body.set("turn", turn);
  body.set("tab", tab);
  if (scales[size()]) body.set("scale", scales[size()]); // a hurried drawing begins from it
  const signals = [signal, longest && AbortSignal.timeout(longest)].filter(Boolean);
  const answer = await fetch(`${bench.dataset.live}/${stage}`, {
    method: "POST", body, signal: signals.length ? AbortSignal.any(signals) : undefined, keepalive: stage === "save",
  });
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.json();
}

// A whole plan may take longer than a drawing; meanwhile the server only has to be there.
async function patiently(stage, signal) {
  let watching = 0;
  const gone = new Promise((_, fail) => { watching = setInterval(() => current().catch(fail), PATIENCE); });
  try { return await Promise.race([post(stage, signal, 0), gone]); } finally { clearInterval(watching); }
}

async function ask(stage = "drawing") {
  clearTimeout(timer);
  asked?.abort();
  const mine = ++number, from = typed(), of = size();
  const stop = asked = new AbortController();
  const { signal } = stop;
  if (!same(from, drawn())) aging ||= setTimeout(age, OLD);
  try {
    const first = await post(stage, signal);
    if (mine !== number) return; // an answer to what was typed before
    if (first.follows.again) { reload(); return; } // its legs and bends are others by now
    follow(first.follows, from);
    fields(first.fields);
    drawing(first.drawing, of);
    made.notes = made[of] = from;
    if (first.drawing) STATES.wrong = LAST_RIGHT;
    show(first.state);
    young();
    saveWhatIsLeft(post);
    const after = await patiently("rest", signal);
    if (mine !== number) return;
    pieces(after.pieces);
    bench.dataset.results = "fresh";
    rest = FIRST_REST;
    if (stage !== "careful") await new Promise((done) => { setTimeout(done, HANDS_REST); });
    if (mine !== number) return; // words are set when the hands rest, for that takes long
    const careful = first.drawing && stage !== "careful" ? await patiently("careful", signal) : {};
    if (mine !== number) return;
    drawing(careful.drawing, of);
    bench.dataset.words = "careful";
  } catch (error) {
    if (mine !== number || (error.name === "AbortError" && signal.aborted)) return;
    stop.abort();
    show("lost");
    timer = setTimeout(ask, rest);
    rest = Math.min(2 * rest, LAST_REST);
  }
}

function changed() {
  bench.dataset.results = bench.dataset.words = "pending";
  aging ||= setTimeout(age, OLD);
  if (bench.dataset.state !== "lost" && bench.dataset.age !== "old") show("pending");
  else if (bench.dataset.state !== "lost") say(oldWords());
  clearTimeout(timer);
  timer = setTimeout(ask, DEBOUNCE);
}

form.addEventListener("input", ({ target }) => {
  keep();
  changed();
  tell({ typed: { [target.name]: target.value } });
});
const early = saveOnLeavingField(post);
hear(({ typed: fresh, page }) => {
  for (const [name, text] of page === location.pathname ? Object.entries(fresh ?? {}) : []) {
    if (form.elements[name]) form.elements[name].value = text;
  }
  // The tab it was typed in keeps it: kept here too, it would outlast its saving there.
  if (fresh && page === location.pathname) changed(); else ask();
});
narrow.addEventListener("change", () => { aging ||= setTimeout(age, OLD); ask("careful"); });
// Handles come with a drawing of this size; what was typed without an answer is asked for again.
if (restore() || early || bench.querySelector("[data-handles]")) ask("careful");
document.documentElement.dataset.script = "on";
