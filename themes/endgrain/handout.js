'use strict';
// Tells of a handout whether it fits on the sheets that it promises.
(() => {
  const all = (selector, within = document) => [...within.querySelectorAll(selector)];
  const several = (count, word) => `${count} ${word}${count === 1 ? '' : 's'}`;

  // What a printer keeps in one piece, as the styles for paper tell.
  function pieces(block) {
    const { top, bottom } = block.getBoundingClientRect();
    const { breakInside, breakBefore, breakAfter } = getComputedStyle(block);
    const parts = [...block.children].filter((part) => part.getBoundingClientRect().height);
    const whole = breakInside === 'avoid' || block.matches('tr, thead');
    const inText = (part) => getComputedStyle(part).display.startsWith('inline');
    if (!whole && parts.length && !parts.some(inText)) return parts.flatMap(pieces);
    const head = block.matches('tr') ? block.closest('table').tHead?.offsetHeight : 0;
    const kept = breakAfter === 'avoid' || block.matches('h1, h2, h3, h4, caption, thead');
    return [{ top, bottom, head: head ?? 0, joined: breakBefore === 'avoid', kept }];
  }

  function joinBeside(list, piece) {
    const last = list.at(-1);
    if (piece.top > (last?.bottom ?? -Infinity) - 1) list.push(piece);
    else last.bottom = Math.max(last.bottom, piece.bottom);
    return list;
  }

  // The height filled on each page, which begins where its first piece does, since a break swallows margins.
  function fill(parts, start, tall) {
    const pages = [];
    let [opens, head] = [0, 0];
    parts.forEach(({ bottom }, i) => {
      while (bottom - start + head > tall + 0.5) {
        let next = i;
        while (next > opens && (parts[next].joined || parts[next - 1].kept)) next -= 1;
        if (next === opens) next = i;
        pages.push(next > opens ? parts[next - 1].bottom - start + head : tall);
        start = next > opens ? parts[next].top : start + tall - head;
        head = Math.min(parts[next].head, tall / 4);
        opens = next;
      }
    });
    return [...pages, parts.at(-1).bottom - start + head];
  }

  function tellSheets(main) {
    const { sheets, tall } = main.dataset;
    const pages = fill(pieces(main).reduce(joinBeside, []), main.getBoundingClientRect().top, +tall || Infinity);
    const over = pages.slice(+sheets).reduce((sum, height) => sum + height, 0);
    const lines = several(Math.ceil(over / parseFloat(getComputedStyle(main).lineHeight)), 'line');
    const line = document.querySelector('.fits');
    // A narrow screen is not laid out as paper, so nothing can be told from it.
    line.hidden = !all('style[media]').every(({ media }) => matchMedia(media).matches);
    line.textContent = over
      ? `Promised ${several(+sheets, 'sheet')}, needs ${pages.length}: about ${lines} too long.`
      : `Fits on ${several(pages.length, 'sheet')}.`;
  }

  function handout(main) {
    const look = () => document.fonts.ready.then(() => tellSheets(main));
    addEventListener('load', look);
    addEventListener('resize', look);
  }

  // The script stands in the file itself, perhaps before what it looks for.
  const begin = () => all('main.handout[data-tall]').forEach(handout);
  if (document.readyState === 'loading') addEventListener('DOMContentLoaded', begin);
  else begin();
})();
