'use strict';
// Lays the pocket edition two pages to a side, in the order in which sheets are read that are folded once and stapled.
(() => {
  const form = document.getElementById('bind');
  const book = document.querySelector('.pocket');
  if (!form || !book) return;
  const links = [...document.querySelectorAll('link[media]')];
  const media = links.map((link) => link.media);
  const count = form.querySelector('.count');
  const made = (name, ...within) => {
    const made = document.createElement('div');
    made.className = name;
    made.append(...within);
    return made;
  };
  const HEADS = 'h1, h2, h3, h4, thead, .deadly > p';
  // A table of few rows stays whole, so that no row stands alone under its head.
  const PARTS = 'dl, ul, ol, table:has(tr:nth-child(20)), tbody:has(tr:nth-child(20)), .deadly';

  // The pages of the book, each a box of fixed height that whole blocks are set into one after the other.
  function pages(onto) {
    const all = [];
    // The parts of the book that go on from page to page, each with its shell on this page; the page itself is the first.
    let open = [];
    let tab = '';
    const shell = (part) => {
      const copy = part.cloneNode(false);
      if (part.matches('table') && part.tHead) copy.append(part.tHead.cloneNode(true));
      return copy;
    };
    const isBare = (box) => [...box.children].every((part) => part.matches('thead'));
    function turn() {
      const page = made('page pocket');
      all.push(made('leaf', page, made('tab', tab), made('folio', String(all.length + 1))));
      onto.append(all.at(-1));
      const before = open;
      open = [{ box: page }];
      before.slice(1).forEach(({ part, box }, at) => {
        const copy = shell(part);
        // A part begins with its name, and a heading goes where the words under it go.
        if (!isBare(box)) copy.removeAttribute('id');
        open[at].box.append(copy);
        open.push({ part, box: copy });
      });
      for (let at = before.length - 1; at >= 0; at -= 1) {
        const { box } = before[at];
        if (at > 0 && isBare(box)) { box.remove(); continue; }
        const heads = [];
        while (box.lastElementChild?.matches(HEADS) && box.childElementCount > 1) {
          heads.unshift(box.lastElementChild);
          box.lastElementChild.remove();
        }
        const next = open[at];
        const after = open[at + 1]?.box ?? null;
        heads.forEach((head) => next.box.insertBefore(head, after));
        break;
      }
    }
    const isOver = () => {
      const { box } = open[0];
      return box.lastElementChild.getBoundingClientRect().bottom > box.getBoundingClientRect().bottom;
    };
    function set(block) {
      const copy = block.cloneNode(true);
      open.at(-1).box.append(copy);
      if (!isOver()) return;
      copy.remove();
      if (block.matches(PARTS)) {
        const box = shell(block);
        open.at(-1).box.append(box);
        open.push({ part: block, box });
        [...block.children].filter((part) => part.localName !== 'thead').forEach(set);
        open.pop();
      } else {
        turn();
        open.at(-1).box.append(block.cloneNode(true));
      }
    }
    for (const section of book.children) {
      tab = section.dataset.tab ?? '';
      open = [];
      turn();
      [...section.children].forEach(set);
    }
    while (all.length % 4) all.push(made('leaf'));
    return all;
  }

  // A sheet has the outermost pages that are left: on its front the last and the first, on its back the two between.
  function sides(all) {
    const last = all.length - 1;
    const side = (left, right) => made('side', all[left], all[right]);
    return Array.from({ length: all.length / 4 }, (_, sheet) => 2 * sheet)
      .flatMap((at) => [side(last - at, at), side(at + 1, last - at - 1)]);
  }

  function lay(isFolded) {
    links.forEach((link, at) => { link.media = isFolded ? 'all' : media[at]; });
    document.querySelector('.saddle')?.replaceWith(book);
    count.textContent = '';
    if (!isFolded) return;
    const saddle = made('saddle');
    book.replaceWith(saddle);
    saddle.append(...sides(pages(saddle)));
    const sheets = saddle.childElementCount / 2;
    count.textContent = `${sheets} ${sheets === 1 ? 'sheet' : 'sheets'}, printed on both sides`;
  }

  const chosen = () => form.elements.bind.value === 'saddle';
  form.addEventListener('change', () => lay(chosen()));
  form.hidden = false;
  // A browser that goes back to the page keeps its choice.
  addEventListener('load', () => chosen() && lay(true));
})();
