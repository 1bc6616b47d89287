// Posts the form as it is typed: the drawing first, what follows from it next.
import "./fields.js";
import { drawing, fields, narrow, pieces } from "./set.js";
import { keep, restore, saveOnLeavingField } from "./keep.js";

const bench = document.querySelector("[data-live]");
const form = document.getElementById("fields");
const said = bench.querySelector("[data-said]");
const DEBOUNCE = 30, FIRST_PATIENCE = 500, LAST_PATIENCE = 5000, REST = 800; // ms
let number = 0, timer = 0, asked = null, patience = FIRST_PATIENCE;

const STATES = {
  pending: "",
  fresh: "",
  wrong: bench.querySelector(".picture svg") ? "The drawing shows the part as it was last right." : "",
  lost: "No answer from the server. What you type is kept here; asking again.",
};

function show(state) {
  bench.dataset.state = state;
  if (said.textContent !== STATES[state]) said.textContent = STATES[state];
}

async function post(stage, signal) {
  const body = new URLSearchParams(new FormData(form));
  body.set("size", narrow.matches ? "phone" : "wide");
  const answer = await fetch(`${bench.dataset.live}/${stage}`, { method: "POST", body, signal, keepalive: stage === "save" });
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.json();
}

async function ask(stage = "drawing") {
  asked?.abort();
  const mine = ++number;
  asked = new AbortController();
  const { signal } = asked;
  try {
    const first = await post(stage, signal);
    if (mine !== number) return; // an answer to what was typed before
    fields(first.fields);
    drawing(first.drawing);
    if (first.drawing) STATES.wrong = "The drawing shows the part as it was last right.";
    show(first.state);
    const rest = await post("rest", signal);
    if (mine !== number) return;
    pieces(rest.pieces);
    bench.dataset.results = "fresh";
    patience = FIRST_PATIENCE;
    if (stage !== "careful") await new Promise((done) => { setTimeout(done, REST); });
    if (mine !== number) return; // words are set when the hands rest, for that takes long
    const careful = first.drawing && stage !== "careful" ? await post("careful", signal) : {};
    if (mine !== number) return;
    drawing(careful.drawing);
    bench.dataset.words = "careful";
  } catch (error) {
    if (error.name === "AbortError" || mine !== number) return;
    show("lost");
    timer = setTimeout(ask, patience);
    patience = Math.min(2 * patience, LAST_PATIENCE);
  }
}

form.addEventListener("input", () => {
  keep();
  bench.dataset.results = bench.dataset.words = "pending";
  if (bench.dataset.state !== "lost") show("pending");
  clearTimeout(timer);
  timer = setTimeout(ask, DEBOUNCE);
});
saveOnLeavingField(post);
// Handles come with a drawing of this size; what was typed without an answer is asked for again.
if (restore() || bench.querySelector("[data-handles]")) ask("careful");
document.documentElement.dataset.script = "on";
