// What is typed into a field that has something in it takes its place: the pointer marks all of it, as
// the Tab key does anyway.  A second click sets the caret.
const form = document.getElementById("fields");
const text = "input:not([type=radio]):not([type=hidden])";
let fresh = null;

form.addEventListener("focusin", ({ target }) => {
  fresh = target.matches(text) ? target : null;
  fresh?.select();
});
form.addEventListener("click", ({ target }) => {
  // The click sets the caret, in marked text only after this, unless the pointer was drawn over some.
  const first = target === fresh;
  setTimeout(() => { if (first && target.selectionStart === target.selectionEnd) target.select(); });
  fresh = null;
});

// A bend, hole or twist that was just added is where one goes on; the browser takes the focus away itself
// when it goes to that place of the page, so this comes after.
const added = /^#(bend|hole|joggle|twist|roll)-\d+$/.test(location.hash) ? document.getElementById(location.hash.slice(1)) : null;
if (added) addEventListener("load", () => setTimeout(() => added.querySelector(text).focus({ preventScroll: true })));
