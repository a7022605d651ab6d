// Holds pages to every breadth from a small telephone to a broad screen, their frame to a small part of the first screen, the
// sections to few stops of the keyboard, and a column to one unit.
//
// Usage: node breadth.mjs GUIDE_DIR

import { check, inspect, LAPTOP, PHONE } from './chrome.mjs';

const WIDTHS = [320, 360, 412, 480, 600, 701, 740, 768, 830, 1024, 1280, 1920];
const HELD_SIDEWAYS = { width: 740, height: 360 };
const CHROME = 0.12;
const STOPS = 10;
const PAGES = [
  'index.html', 'seasons.html', 'pairings.html', 'safety.html', 'a-to-z.html', 'methods/index.html', 'mushrooms/index.html',
  'woods/index.html', 'winter/planning.html', 'winter/ledger.html', 'winter/felling.html', 'winter/bucking.html',
  'winter/supply.html', 'winter/inoculation.html', 'yard/batches.html', 'yard/soak-rota.html', 'yard/siting.html',
  'yard/moisture.html', 'yard/harvests.html', 'yard/sales.html', 'yard/retiring.html',
];
/** Of these folders two pages. */
const FOLDERS = ['mushrooms', 'woods', 'methods', 'stands', 'handouts', 'yard/batches', 'troubles'];
/** Weights, lengths and times that a column must not mix. */
const UNITS = [['lb', 'oz'], ['kg', 'g'], ['ft', 'in'], ['m', 'cm', 'mm']];

/** What hangs out of its box, and of the page. */
function over() {
  const shown = [...document.body.querySelectorAll('main *, .head *, .foot *, .thumb *')].filter((element) => element.checkVisibility());
  const free = shown.filter((element) => !element.closest('.wide, .matrix-box, svg, math, .defs, [popover], .skip, .stack thead'));
  const wider = free.filter((element) => {
    const { overflowX, display } = getComputedStyle(element);
    return overflowX === 'visible' && display !== 'inline' && element.clientWidth > 0 && element.scrollWidth > element.clientWidth + 1;
  });
  const deepest = wider.filter((element) => !wider.some((other) => other !== element && element.contains(other)));
  const cut = free.filter((element) => element.getBoundingClientRect().right > innerWidth + 1);
  return {
    page: document.scrollingElement.scrollWidth - innerWidth,
    wider: deepest.map((element) => `${element.scrollWidth} in ${element.clientWidth} px ${element.outerHTML.slice(0, 110)}`),
    cut: cut.map((element) => element.outerHTML.slice(0, 110)),
  };
}

async function broad(reader, name) {
  await reader.open(name, 'every breadth', { viewport: PHONE }, async (page) => {
    for (const size of [...WIDTHS.map((width) => ({ width, height: PHONE.height })), HELD_SIDEWAYS]) {
      await page.setViewportSize(size);
      const how = `${name} at ${size.width} x ${size.height}`;
      const found = await page.evaluate(over);
      check(found.page <= 0, `${how}: is ${found.page} px broader than the screen`);
      check(found.wider.length === 0, `${how}: ${found.wider.length} hang out of their box, first ${found.wider[0]}`);
      check(found.cut.length === 0, `${how}: ${found.cut.length} are cut off, first ${found.cut[0]}`);
    }
  });
}

/** The head and the bar leave the first screen of a telephone to the page. */
async function frame(reader, name) {
  if (name.startsWith('handouts/')) return;
  await reader.open(name, 'its frame', { viewport: PHONE }, async (page) => {
    const tall = await page.evaluate(() =>
      ['.head', '.thumb'].map((part) => document.querySelector(part).getBoundingClientRect().height).reduce((a, b) => a + b));
    const part = tall / PHONE.height;
    check(part <= CHROME, `${name}: its frame takes ${(100 * part).toFixed(1)} % of a telephone's first screen`);
    check(await page.locator('.to-find').isVisible(), `${name}: the finder is not within reach`);
  });
}

/** Every section is a few stops of the keyboard away, whatever else the page holds. */
async function stops(reader, viewport) {
  await reader.open('index.html', 'stops', { viewport }, async (page) => {
    const wanted = await page.locator('.thumb a').evaluateAll((links) => links.map(({ href }) => href).filter((href) => !/a-to-z/.test(href)));
    const seen = new Set();
    for (let stop = 0; stop < STOPS; stop += 1) {
      await page.keyboard.press('Tab');
      const at = await page.evaluate(() => ({ href: document.activeElement.href, leads: document.activeElement.matches('[popovertarget]') }));
      if (at.leads) await page.keyboard.press('Enter');
      seen.add(at.href);
    }
    const far = wanted.filter((href) => !seen.has(href));
    check(far.length === 0, `at ${viewport.width} px: ${far.map((url) => reader.nameOf(url)).join(', ')} take more than ${STOPS} stops`);
  });
}

/** A column of numbers is of one unit. */
async function units(reader, name) {
  await reader.open(name, 'units', { viewport: LAPTOP }, async (page) => {
    const mixed = await page.evaluate((kinds) => {
      const said = (text, unit) => new RegExp(`\\d[ \\u00a0]?${unit}\\b`).test(text);
      const found = [];
      // A table whose rows are of different quantities has its units in its rows.
      for (const table of document.querySelectorAll('main table:not(.of-rows)')) {
        const columns = {};
        for (const cell of table.querySelectorAll('td.num')) (columns[cell.cellIndex] ??= []).push(cell.innerText);
        for (const texts of Object.values(columns)) {
          for (const kind of kinds) {
            const used = kind.filter((unit) => texts.some((text) => said(text, unit)));
            if (used.length > 1) found.push(`${table.caption?.innerText}: ${used.join(' and ')}`);
          }
        }
      }
      return found;
    }, UNITS);
    check(mixed.length === 0, `${name}: ${mixed.length} columns mix units, first ${mixed[0]}`);
  });
}

await inspect(async (reader) => {
  const first = (folder) => reader.pages.filter((name) => name.startsWith(`${folder}/`) && !/index\.html$/.test(name)).slice(0, 2);
  const names = [...PAGES.filter((name) => reader.pages.includes(name)), ...FOLDERS.flatMap(first)];
  return [
    ...names.map((name) => () => broad(reader, name)),
    ...names.map((name) => () => frame(reader, name)),
    ...names.map((name) => () => units(reader, name)),
    ...[PHONE, LAPTOP].map((viewport) => () => stops(reader, viewport)),
  ];
});
