"use strict";
// Lights up in the picture what a line of the page is about, and the other way round; folds and unfolds; unfolds for
// paper. The page says everything without it.
(() => {
  const places = [...document.querySelectorAll(".sheet [data-part]")];
  const sheet = document.querySelector(".sheet");
  const folds = [...document.querySelectorAll("details.part")];

  const show = place => {
    const at = place.getBoundingClientRect(), frame = sheet.getBoundingClientRect();
    sheet.scrollLeft += at.left + at.width / 2 - frame.left - frame.width / 2;
    sheet.scrollTop += at.top + at.height / 2 - frame.top - frame.height / 2;
  };

  for (const link of document.querySelectorAll("main a[href^='#']")) {
    const place = document.getElementById(link.hash.slice(1));
    if (!place) continue;
    const line = link.closest("li, tr") || link;
    const here = places.filter(other => other.dataset.part === place.dataset.part);
    const light = on => here.forEach(one => one.classList.toggle("lit", on));
    const begin = () => { light(true); show(place); };
    const end = () => light(false);
    line.addEventListener("pointerenter", begin);
    line.addEventListener("pointerleave", end);
    line.addEventListener("focusin", begin);
    line.addEventListener("focusout", end);
    for (const one of here) {
      one.addEventListener("pointerenter", () => line.classList.add("lit"));
      one.addEventListener("pointerleave", () => line.classList.remove("lit"));
    }
  }
  const first = document.querySelector(".sheet [data-check], .sheet .silent");
  if (first) show(first);

  const button = document.getElementById("fold");
  button.hidden = folds.length < 2;
  const name = () => { button.textContent = folds.some(fold => fold.open) ? "Fold all" : "Unfold all"; };
  button.addEventListener("click", () => {
    const open = !folds.some(fold => fold.open);
    folds.forEach(fold => { fold.open = open; });
    name();
  });
  folds.forEach(fold => fold.addEventListener("toggle", name));

  let folded = [];
  addEventListener("beforeprint", () => {
    folded = folds.filter(fold => !fold.open);
    folded.forEach(fold => { fold.open = true; });
  });
  addEventListener("afterprint", () => folded.forEach(fold => { fold.open = false; }));
})();
