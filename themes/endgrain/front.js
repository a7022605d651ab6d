'use strict';
// Chooses what the front page shows on the day on which it is opened; every line was printed with the days of which it holds.
(() => {
  const NOW = 3;
  const WEEKS = 56;
  const NEXT = { least: 3, most: 5 };
  const rows = (name) => [...document.querySelectorAll(`.${name} > li`)];
  const iso = (date) => [date.getFullYear(), date.getMonth() + 1, date.getDate()].map((part) => String(part).padStart(2, '0')).join('-');

  function show(list, chosen) {
    for (const row of list) row.hidden = !chosen.includes(row);
  }

  function begin() {
    const today = new Date();
    const [day, last] = [iso(today), iso(new Date(today.getFullYear(), today.getMonth(), today.getDate() + WEEKS))];
    const words = document.querySelector('h1 .day');
    words.textContent = words.dataset.days.split(';')[today.getMonth()].replace('#', today.getDate());

    const [now, next] = [rows('now'), rows('next')];
    const holds = ({ dataset }) => dataset.from <= day && day <= dataset.to;
    const held = now.filter(holds).slice(0, NOW);
    show(now, held);
    document.querySelector('.idle').hidden = held.length > 0;

    const coming = next.filter(({ dataset }) => dataset.from > day);
    const near = coming.filter(({ dataset }) => dataset.from <= last).slice(0, NEXT.most);
    const chosen = near.length < NEXT.least ? coming.slice(0, NEXT.least) : near;
    show(next, chosen);
    // Nothing that is folded away comes: the heading would promise what no line keeps.
    if (next.length) document.getElementById('next').hidden = !chosen.length;
  }

  if (document.readyState === 'loading') addEventListener('DOMContentLoaded', begin);
  else begin();
})();
