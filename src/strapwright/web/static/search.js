// Shows how far a search is while it runs; the page itself says what it found.
import { reload } from "./remade.js";

const box = document.querySelector("[data-search]");
const one = (name) => box.querySelector(`[data-${name}]`);
const source = new EventSource(box.dataset.search);

source.addEventListener("message", (event) => {
  const told = JSON.parse(event.data);
  one("said").textContent = "";
  one("text").textContent = told.text;
  one("percent").textContent = `${Math.round(100 * told.share)} %`;
  one("share").value = told.share;
  if (told.count) for (const one of document.querySelectorAll("[data-seeking]")) one.replaceChildren(`searching, ${told.count}`);
  if (told.state === "running") return;
  source.close();
  reload();
});
source.addEventListener("error", () => {
  one("said").textContent = "No answer from the server; trying again.";
});
