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

  // A group has its lists of names, other names and text, and a fourth: names again, but for words passed over.
  function decode(shard) {
    const skip = new Set(shard.skip.split(' '));
    const forms = [];
    const sizes = new Uint8Array(shard.entries.length);
    let form = '';
    for (const group of shard.words.split(';')) {
      const [coded, ...lists] = group.split(' ');
      for (const part of coded.split(',')) {
        form = form.slice(0, parseInt(part[0], 36)) + part.slice(1);
        forms.push([form, lists]);
        if (skip.has(form)) lists[3] = [];
      }
      lists[3] ??= entriesIn(lists, 0);
      for (const at of lists[3]) sizes[at] += 1;
    }
    forms.sort(([a], [b]) => (a < b ? -1 : 1));
    const letters = [...new Set(forms.map(([each]) => each).join(''))];
    return { ...shard, skip, forms, letters, sizes };
  }

  // A list of entries stays text until a search needs it, and is then read letter by letter, since one key may need thousands.
  function entriesIn(lists, field) {
    const text = lists[field];
    if (typeof text !== 'string') return text ?? [];
    const entries = [];
    let [at, step] = [0, 0];
    for (let i = 0; text && i <= text.length; i += 1) {
      const code = text.charCodeAt(i);
      if (code >= 48) {
        step = step * 36 + code - (code < 58 ? 48 : 87);
      } else {
        entries.push((at += step));
        step = 0;
      }
    }
    return (lists[field] = entries);
  }

  // A fit is 4 for a whole word, 3 for its beginning, 2 for a whole word with a slip, 1 for a beginning with one.
  function add(fits, lists, fit) {
    if (fit > (fits.get(lists) ?? 0)) fits.set(lists, fit);
  }

  function firstFrom(forms, word) {
    let [low, high] = [0, forms.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (forms[middle][0] < word) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  function addBeginnings(fits, { forms }, word, whole, part) {
    for (let i = firstFrom(forms, word); forms[i]?.[0].startsWith(word); i += 1) {
      add(fits, forms[i][1], forms[i][0] === word ? whole : part);
    }
    return fits;
  }

  // Every word one slip away is looked up, as far as any form begins like the letters before the slip.
  function addSlips(fits, shard, word) {
    for (let i = 0; i < word.length; i += 1) {
      const [before, letter, rest, after] = [word.slice(0, i), word[i], word.slice(i), word.slice(i + 1)];
      if (!shard.forms[firstFrom(shard.forms, before)]?.[0].startsWith(before)) break;
      const others = shard.letters.flatMap((other) => [before + other + after, before + other + rest]);
      const swapped = before + after.slice(0, 1) + letter + after.slice(1);
      for (const other of [before + after, swapped, ...others]) addBeginnings(fits, shard, other, 2, 1);
    }
    return fits;
  }

  function fitting(shards, word) {
    const begun = shards.map((shard) => addBeginnings(new Map(), shard, word, 4, 3));
    return word.length < 4 || begun.some(({ size }) => size) ? begun : shards.map((shard) => addSlips(new Map(), shard, word));
  }

  // How many words fit, in which fields and how well are bytes of one number, so that entries compare at once.
  function weigh({ entries }, words) {
    const weights = new Int32Array(entries.length);
    const covered = new Uint8Array(entries.length);
    const seen = new Set();
    for (const fits of words) {
      const best = new Int32Array(entries.length);
      for (const [lists, fit] of fits) {
        for (const field of [0, 1, 2]) {
          const weight = 65536 + 256 * (3 - field) + fit;
          for (const at of entriesIn(lists, field)) if (best[at] < weight) best[at] = weight;
        }
        // Only a whole word covers a word of a title.
        if (fit % 2 === 0 && !seen.has(lists)) for (const at of lists[3]) covered[at] += 1;
        seen.add(lists);
      }
      best.forEach((weight, at) => (weights[at] += weight));
    }
    return { weights, covered };
  }

  function insert(best, hit) {
    if (hit.rated <= best[11]?.rated) return;
    const place = best.findIndex(({ rated }) => rated < hit.rated);
    best.splice(place < 0 ? best.length : place, 0, hit);
    best.splice(12);
  }

  function search(shards, typed) {
    const meant = typed.filter((word) => !shards[0].skip.has(word));
    const words = (meant.length ? meant : typed).slice(0, 12).map((word) => fitting(shards, word));
    const best = [];
    let found = 0;
    shards.forEach((shard, i) => {
      const { weights, covered } = weigh(shard, words.map((fits) => fits[i]));
      weights.forEach((weight, at) => {
        if (!weight) return;
        found += 1;
        const entry = shard.entries[at];
        const whole = covered[at] >= shard.sizes[at];
        insert(best, { rated: 2 * weight + whole, shard, entry });
      });
    });
    return { best, found };
  }

  function finder(form) {
    const { root } = form.dataset;
    const [input, list, status] = ['input', 'ul', '.count'].map((part) => form.querySelector(part));
    const shards = [];
    let [waiting, broken, marked, pause] = [0, false, -1, 0];

    function load(name) {
      waiting += 1;
      // Scripts that are not async run in the order in which they were put in, and shards must.
      document.head.append(make('script', { async: false, src: root + name, onload: arrive, onerror: arrive }));
    }

    function arrive() {
      waiting -= 1;
      const shard = globalThis.finder?.[shards.length];
      if (shard) shards.push(decode(shard));
      else broken = true;
      if (shards.length === 1) shard?.more.forEach(load);
      if (document.activeElement === input) show();
    }

    function say(text) {
      clearTimeout(pause);
      pause = setTimeout(() => (status.textContent = text), text && 600);
    }

    // The link itself is the option, since an option may hold nothing that can be focused.
    function option({ shard, entry: [title, kind, page, anchor] }, place) {
      const href = root + shard.pages[page] + (anchor ? `#${anchor}` : '');
      const item = make('li', { role: 'none' });
      const link = make('a', { href, tabIndex: -1, id: `found-${place + 1}`, role: 'option', ariaSelected: 'false' });
      link.append(title, ' ', make('span', { textContent: shard.kinds[kind] }));
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
      if (!shards.length && !waiting && !broken) load('finder.js');
      const typed = fold(input.value);
      if (!typed.length) return leave();
      const { best, found } = shards.length ? search(shards, typed) : { best: [], found: 0 };
      offer(best.map(option));
      if (broken) say('The index cannot be read; look in A to Z');
      else if (!found) say(waiting ? '' : 'Nothing found; look in A to Z');
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
