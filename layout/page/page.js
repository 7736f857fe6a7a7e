// Pointing at a line lights its gap in the drawing, and the other way round; by
// keyboard, Tab goes from line to line and Enter jumps between a line and its gaps.
"use strict";
const sheets = document.querySelector(".drawings");
const same = (gap) => [...document.querySelectorAll(`[data-gap="${gap}"]`)];
const lines = (gap) => [...document.querySelectorAll(`[data-line="${gap}"]`)];
const light = (gap, on) =>
  [...same(gap), ...lines(gap)].forEach((each) => each.classList.toggle("lit", on));
// What is not wholly seen comes to the middle of the frame.
const off = (low, high, from, to) =>
  low >= from && high <= to ? 0 : (low + high - from - to) / 2;
// Only the column of sheets moves, never the page under the pointer.
const show = (gap) => {
  const mark = sheets.querySelector(`[data-gap="${gap}"] circle`); // in a view, not the table
  if (!mark) return;
  const [wanted, seen] = [mark, sheets].map((each) => each.getBoundingClientRect());
  sheets.scrollTop += off(wanted.top, wanted.bottom, seen.top, seen.bottom);
  sheets.scrollLeft += off(wanted.left, wanted.right, seen.left, seen.right);
};
for (const each of document.querySelectorAll("[data-gap]")) {
  const gap = each.dataset.gap;
  const on = () => {
    light(gap, true);
    if (each.matches("tr")) show(gap);
  };
  each.addEventListener("pointerenter", on);
  each.addEventListener("pointerleave", () => light(gap, false));
  each.addEventListener("focus", on);
  each.addEventListener("blur", () => light(gap, false));
  each.addEventListener("keydown", (press) => {
    if (press.key !== "Enter" && press.key !== " ") return;
    press.preventDefault();
    const all = same(gap);
    const next = all[(all.indexOf(each) + 1) % all.length];
    next.closest("details")?.setAttribute("open", "");
    next.focus();
  });
}
for (const each of document.querySelectorAll("[data-line]")) {
  each.addEventListener("pointerenter", () => light(each.dataset.line, true));
  each.addEventListener("pointerleave", () => light(each.dataset.line, false));
}
