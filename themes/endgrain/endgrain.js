'use strict';
// One script for every page: each part looks for its element and leaves the page alone where there is none.
(() => {
  const all = (selector, within = document) => [...within.querySelectorAll(selector)];
  const make = (tag, facts) => Object.assign(document.createElement(tag), facts);
  const several = (count, word) => `${count} ${word}${count === 1 ? '' : 's'}`;

  function today(strip) {
    const now = new Date();
    const day = Math.floor((Date.UTC(2025, now.getMonth(), now.getDate()) - Date.UTC(2025, 0, 1)) / 864e5) + 1;
    const { from, left, day: broad } = strip.dataset;
    const x = +left + ((day - +from + 365) % 365) * +broad;
    const [mark, name] = ['path', 'title'].map((tag) => document.createElementNS('http://www.w3.org/2000/svg', tag));
    mark.setAttribute('class', 'today');
    // A notch at both edges, so that nothing runs through the bars.
    const low = strip.viewBox.baseVal.height - 1;
    mark.setAttribute('d', `M${x - 5} 18h10l-5 9zM${x - 5} ${low}h10l-5 -9z`);
    name.textContent = 'today';
    mark.append(name);
    strip.append(mark);
  }

  function fold(text) {
    const plain = text.normalize('NFD').replace(/[\p{M}'’]/gu, '').toLowerCase();
    return [...new Set(plain.match(/[\p{Alphabetic}\p{N}]+/gu))];
  }

  function finder(form) {
    const { root } = form.dataset;
    const [input, list, status] = ['input', 'ul', '.count'].map((part) => form.querySelector(part));
    let [asked, waiting, marked, pause] = [false, false, -1, 0];

    function load() {
      asked = waiting = true;
      document.head.append(make('script', { src: `${root}finder.js`, onload: arrive, onerror: arrive }));
    }

    function arrive() {
      waiting = false;
      if (document.activeElement === input) show();
    }

    function say(text) {
      clearTimeout(pause);
      pause = setTimeout(() => (status.textContent = text), text && 600);
    }

    // The link itself is the option, since an option may hold nothing that can be focused.
    function option({ title, kind, href }, place) {
      const item = make('li', { role: 'none' });
      const link = make('a', { href: root + href, tabIndex: -1, id: `found-${place + 1}`, role: 'option', ariaSelected: 'false' });
      link.append(title, ' ', make('span', { textContent: kind }));
      item.append(link);
      return item;
    }

    function offer(items) {
      mark(-1);
      list.replaceChildren(...items);
      list.hidden = !items.length;
      input.ariaExpanded = String(!list.hidden);
    }

    function mark(place) {
      const links = all('a', list);
      marked = place;
      links.forEach((link, i) => (link.ariaSelected = String(i === marked)));
      input.setAttribute('aria-activedescendant', links[marked]?.id ?? '');
      links[marked]?.scrollIntoView({ block: 'nearest' });
    }

    function show() {
      if (!asked) load();
      const typed = fold(input.value);
      if (!typed.length) return leave();
      if (waiting) return offer([]);
      const { search, nearest } = globalThis.finder ?? {};
      if (!search) return say('The index cannot be read; look in A to Z');
      let { best, found } = search(typed);
      const near = !found && nearest(typed.join(''));
      if (near) ({ best, found } = search([near]));
      offer(best.map(option));
      if (near) say(`Nothing has these words; nearest is “${near}”`);
      else if (!found) say('Nothing found; look in A to Z');
      else say(`${found > best.length ? `${best.length} of ` : ''}${found} found`);
    }

    function leave() {
      offer([]);
      say('');
    }

    function step(by) {
      if (list.hidden) show();
      const { length } = list.children;
      if (length) mark(marked < 0 && by < 0 ? length - 1 : (marked + by + length) % length);
    }

    function clear() {
      if (!input.value) input.blur();
      input.value = '';
      leave();
    }

    const keys = { ArrowDown: () => step(1), ArrowUp: () => step(-1), Escape: clear };

    function press(event) {
      if (event.key === 'Tab') offer([]);
      if (event.isComposing || !keys[event.key]) return;
      event.preventDefault();
      keys[event.key]();
    }

    function open(event) {
      event.preventDefault();
      const item = list.children[Math.max(marked, 0)];
      if (item) item.firstChild.click();
      else if (!waiting) location.href = form.action;
    }

    form.hidden = false;
    input.addEventListener('focus', show);
    input.addEventListener('input', show);
    input.addEventListener('keydown', press);
    form.addEventListener('submit', open);
    form.addEventListener('focusout', (event) => {
      if (form.contains(event.relatedTarget)) return;
      leave();
      form.classList.remove('open');
    });
    // On a telephone the finder lies over the page, wherever that is, once its tab is touched.
    for (const tab of all('.to-find')) {
      tab.addEventListener('click', (event) => {
        event.preventDefault();
        form.classList.add('open');
        input.focus();
      });
    }
    // Some browsers give a tapped link no focus, so that the list would close before the tap counts.
    list.addEventListener('mousedown', (event) => event.preventDefault());
    list.addEventListener('click', () => input.blur());
  }

  // What an address names may lie in closed slips or be one, and not every browser opens them.
  function reveal() {
    const target = document.getElementById(location.hash.slice(1));
    const closed = all('details:not([open])').filter((slip) => slip.contains(target));
    for (const slip of closed) slip.open = true;
    if (closed.length) target.scrollIntoView();
  }

  function begin() {
    const parts = { 'svg.almanac[data-from]': today, 'form.find': finder };
    for (const [selector, part] of Object.entries(parts)) all(selector).forEach(part);
    addEventListener('hashchange', reveal);
    // A second tap on the same link changes no address.
    addEventListener('click', ({ target }) => target.closest('a')?.href === location.href && reveal());
    reveal();
  }

  if (document.readyState === 'loading') addEventListener('DOMContentLoaded', begin);
  else begin();
})();
