// One slider is the ram.  All pictures are here beforehand: moving it asks nobody.
const stage = document.querySelector("[data-ram]");
const slider = stage.querySelector("[data-slider]");
const one = (name) => stage.querySelector(`[data-${name}]`);
const bars = stage.querySelectorAll("[data-bar]"), ends = stage.querySelectorAll("[data-end]");
const nose = one("nose"), turn = one("turn"), doing = one("doing"), travel = one("travel"), load = one("load");
const said = one("said");
let frames = null;

function doingAt(at) {
  if (at === 0) return "at touch";
  if (at < frames.stop) return "pushing";
  if (at === frames.stop) return "full stroke, under the ram";
  return at === frames.bar.length - 1 ? "let go" : "letting go";
}

// Real fractions are set as such, as on the rest of the page.
const set = (text) => text.replace(/(\d+)[- ](\d+)\/(\d+)/, "$1\u2009$2\u2044$3");

function show() {
  const at = Number(slider.value);
  for (const bar of bars) bar.setAttribute("d", frames.bar[at]);
  nose.setAttribute("transform", `translate(0 ${frames.nose[at]})`);
  for (const end of ends) {
    const from = Number(end.dataset.end);
    end.setAttribute("transform", `translate(${frames.ends[at][from]} ${frames.ends[at][from + 1]})`);
  }
  turn.textContent = frames.turn[at];
  doing.textContent = doingAt(at);
  travel.textContent = set(frames.travel[at]);
  load.textContent = frames.load[at];
  slider.setAttribute("aria-valuetext", `${doing.textContent}, ${frames.turn[at]}, ${frames.travel[at]}`);
}

async function fetchFrames(patience = 500) {
  try {
    const answer = await fetch(stage.dataset.ram);
    if (!answer.ok) throw new Error(String(answer.status));
    frames = await answer.json();
    said.textContent = "";
    slider.disabled = false;
    show();
    stage.dataset.ready = "yes";
  } catch {
    said.textContent = "No answer from the server; asking again. The drawing shows full stroke.";
    setTimeout(fetchFrames, patience, Math.min(2 * patience, 5000));
  }
}

slider.addEventListener("input", show);
fetchFrames();

const more = document.querySelector("[data-more]");
more.addEventListener("submit", async (event) => {
  event.preventDefault();
  const stands = more.elements.stands.value;
  const wrong = more.querySelector("[data-more-wrong]"), answer = more.querySelector("[data-more-answer]");
  try {
    const found = await (await fetch(`${more.dataset.more}?stands=${encodeURIComponent(stands)}`)).json();
    answer.textContent = set(found.further);
    wrong.textContent = found.wrong;
    more.querySelector(".field").classList.toggle("is-wrong", found.wrong !== "");
  } catch {
    wrong.textContent = "No answer from the server; ask again in a moment.";
  }
});
