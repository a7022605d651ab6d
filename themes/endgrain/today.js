"use strict";
// Marks today on every strip of the year; the strip itself says where it begins and how broad a day is.
(() => {
  const now = new Date();
  const day = Math.floor((Date.UTC(2025, now.getMonth(), now.getDate()) - Date.UTC(2025, 0, 1)) / 864e5) + 1;
  for (const strip of document.querySelectorAll("svg.almanac[data-from]")) {
    const { from, left, day: broad } = strip.dataset;
    const x = +left + ((day - +from + 365) % 365) * +broad;
    const mark = document.createElementNS("http://www.w3.org/2000/svg", "path");
    mark.setAttribute("class", "today");
    mark.setAttribute("d", `M${x} 20V${strip.viewBox.baseVal.height - 2}`);
    const name = document.createElementNS("http://www.w3.org/2000/svg", "title");
    name.textContent = "today";
    mark.append(name);
    strip.append(mark);
  }
})();
