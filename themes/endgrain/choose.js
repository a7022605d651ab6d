'use strict';
// Chooses pairs of the pairing table, rows for a number of logs, and woods by what is seen of a tree.
(() => {
  const all = (selector, within = document) => [...within.querySelectorAll(selector)];
  const several = (count, word) => `${count} ${word}${count === 1 ? '' : 's'}`;

  // The fields of a form stand in the fragment as well; a fragment without "=" is a plain anchor.
  function remember(form, apply) {
    const told = () => location.hash.includes('=');
    const show = () => (form.querySelector('.count').textContent = apply());

    function read() {
      const params = new URLSearchParams(told() ? location.hash.slice(1) : '');
      for (const field of all('[name]', form)) {
        const values = (params.get(field.name) ?? '').split(' ');
        if (['checkbox', 'radio'].includes(field.type)) field.checked = values.includes(field.value);
        else field.value = values[0];
        if (field.selectedIndex < 0) field.selectedIndex = 0;
      }
      show();
    }

    function write() {
      const parts = {};
      for (const [name, value] of new FormData(form)) if (value) (parts[name] ??= []).push(encodeURIComponent(value));
      const text = Object.keys(parts).map((name) => `${name}=${parts[name].join('+')}`).join('&');
      if (text || told()) history.replaceState(null, '', location.href.split('#')[0] + (text && `#${text}`));
      show();
    }

    form.hidden = false;
    form.addEventListener('input', write);
    form.addEventListener('reset', () => setTimeout(write));
    form.addEventListener('submit', (event) => event.preventDefault());
    addEventListener('hashchange', () => (told() || !location.hash) && read());
    read();
  }

  function reaches({ rating = -1, sources = 0, agree }, least, wanted) {
    const enough = wanted === 'agree' ? sources >= 2 && agree !== undefined : sources >= +wanted;
    return enough && rating >= +(least || -1);
  }

  function choose(form) {
    const heads = all('.matrix thead [data-mushroom]');
    const rows = all('.matrix [data-wood], .by-host [data-wood]');
    const cells = all('.matrix td[data-mushroom]');
    const items = all('.by-host [data-mushroom]');
    const pairs = cells.filter(({ dataset }) => dataset.rating || dataset.sources > 0);
    const offers = (list = '', wanted) => !wanted || list.split(' ').includes(wanted);

    remember(form, () => {
      const woods = new FormData(form).getAll('wood');
      const [method, month, least, sources] = ['method', 'month', 'least', 'sources'].map((name) => form.elements[name].value);
      const fit = heads.filter(({ dataset }) => offers(dataset.methods, method) && offers(dataset.months, month));
      const grown = new Set(fit.map(({ dataset }) => dataset.mushroom));
      const left = new Set();
      for (const row of rows) {
        const kept = all('[data-mushroom]', row).filter(({ dataset }) => grown.has(dataset.mushroom) && reaches(dataset, least, sources));
        row.hidden = !kept.length || (woods.length > 0 && !woods.includes(row.dataset.wood));
        if (!row.hidden) kept.forEach((cell) => left.add(cell));
      }
      const columns = new Set([...left].map(({ dataset }) => dataset.mushroom));
      for (const cell of [...heads, ...cells]) cell.hidden = !columns.has(cell.dataset.mushroom);
      for (const cell of cells) cell.classList.toggle('off', !left.has(cell));
      for (const item of items) item.hidden = !left.has(item);
      return `${pairs.filter((cell) => left.has(cell)).length} of ${several(pairs.length, 'pair')}`;
    });
  }

  function pickRow(rows, wanted) {
    const counts = rows.map(({ dataset }) => +dataset.logs);
    const largest = Math.max(...counts);
    const count = Math.min(...counts.filter((each) => each >= wanted), wanted > largest ? largest : Infinity);
    for (const row of rows) {
      row.hidden = wanted > 0 && +row.dataset.logs !== count;
      row.classList.toggle('picked', wanted > 0 && !row.hidden);
    }
    const text = `The row for ${several(count, 'log')}`;
    return count === wanted ? text : `${text}${wanted > largest ? ', the largest' : ''}: there is none for ${wanted}`;
  }

  function pick(form) {
    const tables = all('table.rows').map((table) => all('[data-logs]', table));
    remember(form, () => {
      const wanted = +form.elements.logs.value;
      const texts = new Set(tables.map((rows) => pickRow(rows, wanted)));
      return wanted > 0 ? [...texts].join('. ') : '';
    });
  }

  // A wood of which a character is not told stays, whatever was ticked there.
  function narrow(form) {
    const places = (list) => list.split(' ').filter(Boolean).map(Number);
    const woods = all('.left > li', form);
    const counts = form.dataset.counts.split('|');
    const answers = all('input[data-woods]', form);
    const fits = new Map();
    for (const answer of answers) {
      const { unknown } = answer.closest('details').dataset;
      fits.set(answer, new Set(places(`${answer.dataset.woods} ${unknown}`)));
    }
    all('[hidden]', form).forEach((part) => (part.hidden = false));
    form.addEventListener('reset', () => {
      all('details', form).forEach((question) => (question.open = false));
      scrollTo(0, 0);
    });

    const kept = (ticked) => [...woods.keys()].filter((place) => ticked.every((answer) => fits.get(answer).has(place)));

    remember(form, () => {
      const ticked = answers.filter(({ checked }) => checked);
      const left = kept(ticked);
      woods.forEach((wood, place) => (wood.hidden = !left.includes(place)));
      for (const answer of answers) {
        const others = kept(ticked.filter(({ name }) => name !== answer.name));
        answer.closest('label').classList.toggle('off', !others.some((place) => fits.get(answer).has(place)));
      }
      for (const question of all('details', form)) {
        const chosen = ticked.find((answer) => question.contains(answer));
        question.querySelector('.chosen').textContent = chosen?.closest('label').querySelector('span').textContent ?? '';
      }
      const names = left.length <= 3 ? left.map((place) => woods[place].querySelector('a').textContent) : [];
      return [counts[left.length], names.join(', ')].filter(Boolean).join(': ');
    });
  }

  function begin() {
    all('form.narrow').forEach(narrow);
    all('form.choose').forEach(choose);
    all('form.pick').forEach(pick);
  }

  if (document.readyState === 'loading') addEventListener('DOMContentLoaded', begin);
  else begin();
})();
