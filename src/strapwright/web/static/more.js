// 'It stands at 84': asks how much more to push, without leaving the page.
const more = document.querySelector("[data-more]");
const set = (text) => text.replace(/(\d+)[- ](\d+)\/(\d+)/, "$1\u2009$2\u2044$3");

more?.addEventListener("submit", async (event) => {
  event.preventDefault();
  const stands = more.elements.stands.value;
  const wrong = more.querySelector("[data-more-wrong]"), answer = more.querySelector("[data-more-answer]");
  try {
    const found = await (await fetch(`${more.dataset.more}?stands=${encodeURIComponent(stands)}`)).json();
    answer.textContent = set(found.further);
    wrong.textContent = found.wrong;
    more.querySelector(".field").classList.toggle("is-wrong", found.wrong !== "");
  } catch {
    wrong.textContent = "No answer from the server; try again in a moment.";
  }
});
