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
    const box = document.createElement('div');
    box.className = name;
    box.append(...within);
    return box;
  };
  const HEADS = 'h1, h2, h3, h4, .deadly > p';
  // A table stays whole, so that no row stands alone under its head.
  const PARTS = 'dl, ul, .deadly';

  // The pages of the book, each a box of fixed height that whole blocks are set into one after the other.
  function pages(onto) {
    const all = [];
    // The parts of the book that go on from page to page, each with its shell on this page; the page itself is the first.
    let open = [];
    let tab = '';
    function turn() {
      const page = made('page pocket');
      all.push(made('leaf', page, made('tab', tab), made('folio', String(all.length + 1))));
      onto.append(all.at(-1));
      const before = open;
      open = [{ box: page }];
      before.slice(1).forEach(({ part, box }, at) => {
        const shell = part.cloneNode(false);
        if (box.childElementCount > 0) shell.removeAttribute('id');
        open[at].box.append(shell);
        open.push({ part, box: shell });
      });
      carry(before);
    }
    // Headings at the foot of the page before go where the words under them go, and shells with nothing in them away.
    function carry(before) {
      let at = before.length - 1;
      for (; at > 0 && before[at].box.childElementCount === 0; at -= 1) before[at].box.remove();
      const box = before[at]?.box;
      while (box?.lastElementChild?.matches(HEADS) && box.childElementCount > 1) open[at].box.prepend(box.lastElementChild);
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
        const box = block.cloneNode(false);
        open.at(-1).box.append(box);
        open.push({ part: block, box });
        [...block.children].forEach(set);
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
