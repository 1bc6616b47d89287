// One slider is the ram, on past the stroke until the part is off.  All pictures are here
// beforehand: moving it asks nobody.
import "./more.js";

const stage = document.querySelector("[data-ram]");
const slider = stage.querySelector("[data-slider]"), play = document.querySelector("[data-play]");
const one = (name) => stage.querySelector(`[data-${name}]`);
const bars = stage.querySelectorAll("[data-bar]"), ends = stage.querySelectorAll("[data-end]");
const edge = one("edge"), still = one("still"), nose = one("nose"), part = one("part");
const held = stage.querySelectorAll("[data-held]");
const turn = one("turn"), doing = one("doing"), travel = one("travel"), load = one("load"), said = one("said");
const bend = one("bend");
const markers = [...document.querySelectorAll("[data-curve]")].map((curve) => ({ name: curve.dataset.curve, dot: curve.querySelector(".marker") }));
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const FRAME = 50, PAUSE = 1500; // ms a picture, and ms at each mark where motion is not wanted
let acts = null, playing = 0;

// Real fractions are set as such, as on the rest of the page.
const set = (text) => text.replace(/(\d+)[- ](\d+)\/(\d+)/, "$1\u2009$2\u2044$3");

function place(at) {
  for (const act of acts) {
    if (at < act.count) return [act, at];
    at -= act.count;
  }
  return [acts.at(-1), acts.at(-1).count - 1];
}

function show() {
  const [act, at] = place(Number(slider.value)), bent = Math.min(at, act.free);
  for (const bar of bars) bar.setAttribute("d", act.bar[bent]);
  edge.setAttribute("d", act.edge[bent]);
  part.setAttribute("transform", act.part[at]);
  part.setAttribute("opacity", act.seen[at]);
  still.setAttribute("transform", `translate(0 ${act.sunk[at]})`);
  nose.setAttribute("transform", `translate(0 ${act.nose[at]})`);
  for (const piece of held) piece.setAttribute("visibility", act.locked && at > act.free ? "visible" : "hidden");
  for (const end of ends) {
    const side = Number(end.dataset.end);
    end.setAttribute("transform", `translate(${act.ends[at][2 * side]} ${act.ends[at][2 * side + 1]})`);
    end.setAttribute("opacity", act.seen[at]);
    if (bend) end.textContent = `end ${act.names[side]}`;
  }
  for (const { name, dot } of markers) {
    dot.setAttribute("cx", act.marker[name][bent][0]);
    dot.setAttribute("cy", act.marker[name][bent][1]);
  }
  turn.textContent = act.turn[at];
  doing.textContent = act.doing[at];
  if (bend) bend.textContent = `bend ${act.bend}`;
  travel.textContent = set(act.travel[at]);
  load.textContent = act.load[at];
  slider.setAttribute("aria-valuetext", `${bend ? `${bend.textContent}, ` : ""}${act.doing[at]}, ${act.turn[at]}, ${act.travel[at]}`);
}

function stop() {
  clearTimeout(playing);
  cancelAnimationFrame(playing);
  playing = 0;
  play.textContent = "Play";
}

// Motion where it is wanted; else the marks along the slider one after the other.
function start() {
  const last = Number(slider.max), from = Number(slider.value) < last ? Number(slider.value) : 0;
  const begin = performance.now(), marks = [...stage.querySelectorAll("[data-at]")].map((mark) => Number(mark.dataset.at));
  play.textContent = "Stop";
  const step = (now) => {
    slider.value = Math.min(from + Math.floor((now - begin) / FRAME), last);
    show();
    if (Number(slider.value) < last) playing = requestAnimationFrame(step); else stop();
  };
  const jump = (at) => {
    slider.value = at;
    show();
    const next = marks.find((mark) => mark > at);
    if (next === undefined) stop(); else playing = setTimeout(jump, PAUSE, next);
  };
  if (calm.matches) jump(from); else playing = requestAnimationFrame(step);
}

async function fetchFrames(patience = 500) {
  try {
    const answer = await fetch(stage.dataset.ram);
    if (!answer.ok) throw new Error(String(answer.status));
    ({ acts } = await answer.json());
    said.textContent = "";
    slider.disabled = play.disabled = false;
    show();
    stage.dataset.ready = "yes";
  } catch {
    said.textContent = "No answer from the server; trying again. The drawing shows full stroke.";
    setTimeout(fetchFrames, patience, Math.min(2 * patience, 5000));
  }
}

for (const hidden of document.querySelectorAll("[data-with-script]")) hidden.hidden = false;
for (const mark of stage.querySelectorAll("[data-at]")) mark.style.setProperty("--at", mark.dataset.at / slider.max);
slider.addEventListener("input", () => { stop(); show(); });
play.addEventListener("click", () => { if (playing) stop(); else start(); });
fetchFrames();
