// Handles on the drawing: each moves one field, by a finger or by the arrow keys.
const place = document.querySelector("[data-handles]");
const form = document.getElementById("fields");
const made = new Map();
const metric = /mm|cm/;
let held = null, width = 1;

const FRACTIONS = 16;

function read(text) {
  const found = /^\s*(?:(\d+)[- ])?(\d+)\/(\d+)(.*)$/.exec(text) ?? /^\s*(\d*\.?\d+)(.*)$/.exec(text);
  if (!found) return null;
  if (found.length === 3) return { value: Number(found[1]), unit: found[2] };
  return { value: Number(found[1] ?? 0) + Number(found[2]) / Number(found[3]), unit: found[4] };
}

function write(value, unit, degrees, inMetric) {
  if (degrees) return `${Math.min(Math.max(Math.round(value), 1), 179)}${unit}`;
  if (inMetric) return `${Math.max(Math.round(value), 1)}${unit}`;
  let parts = Math.max(Math.round(value * FRACTIONS), 1), under = FRACTIONS;
  const whole = Math.floor(parts / under);
  parts -= whole * under;
  if (!parts) return `${whole}${unit}`;
  while (parts % 2 === 0) { parts /= 2; under /= 2; }
  return `${whole ? `${whole}-` : ""}${parts}/${under}${unit}`;
}

function move(handle, pixels) {
  const input = form.elements[handle.field], start = handle.start ?? read(input.value);
  if (!start) return;
  const degrees = handle.per_pixel === 0.5;
  const inMetric = metric.test(start.unit) || (!start.unit.trim() && document.body.dataset.units === "metric");
  const grown = pixels * handle.per_pixel / (degrees || inMetric ? 1 : 25.4);
  const text = write(start.value + grown, start.unit, degrees, inMetric);
  if (text === input.value) return;
  input.value = text;
  input.dispatchEvent(new Event("input", { bubbles: true }));
}

function handleFor(found) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "handle";
  place.append(button);
  const handle = { button };
  button.addEventListener("pointerdown", (event) => {
    handle.start = read(form.elements[handle.field].value);
    handle.from = [event.clientX, event.clientY];
    held = handle;
    button.setPointerCapture(event.pointerId);
  });
  button.addEventListener("pointermove", (event) => {
    if (held !== handle) return;
    const scale = width / place.clientWidth;
    const dx = (event.clientX - handle.from[0]) * scale, dy = (event.clientY - handle.from[1]) * scale;
    move(handle, dx * handle.along[0] + dy * handle.along[1]);
  });
  const drop = () => {
    if (held !== handle) return;
    held = null;
    handle.start = undefined;
    form.elements[handle.field].dispatchEvent(new Event("change", { bubbles: true }));
  };
  button.addEventListener("pointerup", drop);
  button.addEventListener("pointercancel", drop);
  button.addEventListener("keydown", (event) => {
    const way = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1 }[event.key];
    if (!way) return;
    event.preventDefault();
    const degrees = handle.per_pixel === 0.5;
    const step = degrees || document.body.dataset.units === "metric" ? 1 : 25.4 / FRACTIONS;
    move(handle, way * step / handle.per_pixel);
    form.elements[handle.field].dispatchEvent(new Event("change", { bubbles: true }));
  });
  made.set(found.field, handle);
  return handle;
}

document.addEventListener("handles", ({ detail }) => {
  width = detail.width;
  const seen = new Set(detail.handles.map((one) => one.field));
  for (const found of detail.handles) {
    const named = form.querySelector(`[data-field="${CSS.escape(found.field)}"] label`);
    if (!named) continue; // a leg that another page added: its field comes with the next answer
    const handle = made.get(found.field) ?? handleFor(found);
    if (held === handle) { // its direction stays while it is held
      Object.assign(handle, { x: found.x, y: found.y });
    } else Object.assign(handle, found);
    handle.button.setAttribute("aria-label", `${named.textContent}: arrow keys or drag`);
    handle.button.style.left = `${100 * found.x}%`;
    handle.button.style.top = `${100 * found.y}%`;
  }
  for (const [field, handle] of made) if (!seen.has(field)) { handle.button.remove(); made.delete(field); }
});
