// Pointing at a line lights its gap in the drawing, and the other way round; by
// keyboard, Tab goes from line to line and Enter jumps between a line and its gap.
"use strict";
const same = (gap) => document.querySelectorAll(`[data-gap="${gap}"]`);
const light = (gap, on) => same(gap).forEach((each) => each.classList.toggle("lit", on));
for (const each of document.querySelectorAll("[data-gap]")) {
  const gap = each.dataset.gap;
  each.addEventListener("pointerenter", () => light(gap, true));
  each.addEventListener("pointerleave", () => light(gap, false));
  each.addEventListener("focus", () => light(gap, true));
  each.addEventListener("blur", () => light(gap, false));
  each.addEventListener("keydown", (press) => {
    if (press.key !== "Enter" && press.key !== " ") return;
    press.preventDefault();
    for (const other of same(gap)) if (other !== each) other.focus();
  });
}
