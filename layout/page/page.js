// Pointing at a line lights its gap in the drawing, and the other way round; by
// keyboard, Tab goes from line to line and Enter jumps between a line and its gaps.
"use strict";
const sheets = document.querySelector(".drawings");
const same = (gap) => [...document.querySelectorAll(`[data-gap="${gap}"]`)];
const light = (gap, on) => same(gap).forEach((each) => each.classList.toggle("lit", on));
// Only the column of sheets moves, never the page under the pointer.
const show = (gap) => {
  const sheet = sheets.querySelector(`[data-gap="${gap}"]`)?.closest(".drawing");
  if (!sheet || sheets.scrollHeight <= sheets.clientHeight) return;
  const [seen, wanted] = [sheets, sheet].map((each) => each.getBoundingClientRect());
  if (wanted.top >= seen.top && wanted.bottom <= seen.bottom) return;
  sheets.scrollTop += wanted.top - seen.top;
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
