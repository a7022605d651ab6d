// Holds a published guide to what paper asks of it: nothing lost, states told by shape, handouts as long as they promise,
// sheets that keep together what belongs together, and a pocket edition that fits a pocket, one page or two to a side.
//
// Usage: node paper.mjs GUIDE_DIR [SEEN_GUIDE_DIR]
//
// Where a guide seen before is named, pages that say the same in both are passed over.

import { readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { check, inspect, LAPTOP, overhang, PAPERS, placed, plain, run, sized, unprinted } from './chrome.mjs';

/** One page of each kind that no other check prints; a star is the longest page of that folder. */
const KINDS = [
  'safety.html', 'mushrooms/index.html', 'mushrooms/oyster.html', 'woods/index.html', 'woods/red-oak.html', 'strains/index.html', 'strains/*',
  'methods/index.html', 'notes/*', 'working/index.html', 'working/pairings-tree-oyster.html', 'working/seasons.html', 'yard/batches.html',
  'yard/soak-rota.html', 'yard/trouble.html',
];
/** What one takes along into the woods and the yard. */
const SHEETS = /^(winter\/(felling|supply|inoculation|planning|bucking)|yard\/soak-rota|stands\/[^/]+)\.html$/;
/** These have slips, and their working must not stay behind on the screen. */
const SLIPS = ['woods/red-oak.html', 'working/pairings-tree-oyster.html'];
const GLYPHS = ['ring-3', 'ring-2', 'ring-1', 'ring-0', 'ring-m', 'ring-u'];
const BARS = ['best', 'possible', 'only', 'never'];
const BANDS = ['stop', 'care', 'mind'];
/** Side of a specimen in CSS px, and how many dots of the copy stand for one. */
const SIDE = 48;
const DOTS = 3;
/** The least part of their ink in which two shapes differ. */
const DIFFERENT = 0.2;
const SMALL_PAPERS = [[298, 420], [396, 612]];
/** The most pages that a pocket takes. */
const POCKET_PAGES = 48;
/** The least size of letters in it, in points. */
const LEGIBLE = 7.5;
/** No printer reaches nearer to the edge, in points. */
const EDGE = 11;

async function roomy(page, name, room) {
  const over = await overhang(page, room);
  check(over.length === 0, `${name}: broader than its paper, so that all of it prints smaller: ${over.slice(0, 3).join(' | ')}`);
}

async function whole(reader, name) {
  await reader.open(name, 'print', { viewport: LAPTOP }, async (page) => {
    const { file, size } = await reader.paper(page, name);
    check(sized(size, PAPERS), `${name}: prints on neither A4 nor letter but on ${size.join(' x ')} points`);
    const { slips, lost } = await unprinted(page, file);
    check(slips > 0 || !SLIPS.includes(name), `${name}: there is no slip on this page`);
    const told = lost.slice(0, 3).map(({ text, slip }) => `${slip ? 'in a slip, ' : ''}"${text.trim().slice(0, 100)}"`);
    check(lost.length === 0, `${name}: ${lost.length} texts are not on paper: ${told.join(' | ')}`);
    await kept(page, name, file);
    await roomy(page, name, await reader.room(size));
  });
}

/** Words of links that lead nowhere on paper. */
const DEAD = [
  'How we got this', 'Open the working', 'What our logs weigh', 'what holds here',
  'on a page of its own', 'Whom they protect, whom to ask, who says so', 'As a calendar file', 'a calendar file',
];

/** What of an open page a reader of paper must find together: headings, tables, telephone numbers, and the records behind it. */
const TOGETHER = () => {
  const seen = (element) => element.checkVisibility() && element.textContent.trim() !== '';
  const all = (selector) => [...document.querySelectorAll(`main ${selector}`)];
  const rows = (table) => [...table.tBodies].flatMap((body) => [...body.rows]).filter(seen).map((row) => row.innerText);
  return {
    heads: all(':is(h1, h2, h3, h4, caption)').filter(seen).map((head) => head.innerText),
    tables: all('table').filter(seen).map((table) => ({ head: table.tHead?.innerText ?? '', rows: rows(table) })),
    numbers: all(':is(.whole, a[href^="tel:"])').filter(seen).map((number) => number.innerText),
    records: all('pre.record').map((record) => record.textContent.split('\n').find((line) => line.includes(':')) ?? ''),
    links: all('a').filter(seen).map((link) => link.innerText.trim()),
  };
};
const bare = (text) => plain(text).replaceAll(/[-\u2010]/g, '');

/** No page ends in a heading or goes on with one row, no number is broken, and nothing is printed that only a screen can use. */
async function kept(page, name, file) {
  await page.emulateMedia({ media: 'print' });
  const { heads, tables, numbers, records, links } = await page.evaluate(TOGETHER);
  await page.emulateMedia({ media: null });
  const pages = (await placed(file)).map((sheet) => ({ ...sheet, words: sheet.words.filter((word) => inBody(word, sheet)) }));
  const raw = (await run('pdftotext', ['-raw', file, '-'], { maxBuffer: 1 << 26 })).stdout.normalize('NFKC').split('\f').slice(0, -1);
  // The number of a page and its tab come before its text.
  const told = raw.map((text) => bare(text.replace(/^\d+\n([A-Z][^\n]*\n)?/, '')));
  pages.slice(0, -1).forEach(({ words }, at) => {
    const low = Math.max(...words.map(({ bottom }) => bottom));
    const line = bare(words.filter(({ bottom }) => bottom > low - 2).map(({ word }) => word).join(''));
    check(!heads.some((head) => bare(head) === line), `${name}: page ${at + 1} ends in the heading "${line}"`);
  });
  told.slice(1).forEach((text, at) => {
    for (const { head, rows } of tables.filter(({ head }) => head !== '' && text.startsWith(bare(head)))) {
      const rest = text.slice(bare(head).length);
      const lone = rows.length > 1 && rest.startsWith(bare(rows.at(-1))) && rows.slice(0, -1).every((row) => !rest.startsWith(bare(row)));
      check(!lone, `${name}: page ${at + 2} has one row alone under its head, "${rows.at(-1).slice(0, 60)}"`);
    }
  });
  for (const number of new Set(numbers)) {
    const broken = numbers.filter((other) => other === number).length > raw.join('').split(number).length - 1;
    check(!broken, `${name}: the telephone number ${number} goes over the end of a line`);
  }
  const dead = links.filter((link) => DEAD.includes(link));
  check(dead.length === 0, `${name}: "${dead[0]}" leads nowhere on paper`);
  const shown = records.filter((record) => record !== '' && told.join('').includes(bare(record)));
  check(name.startsWith('records/') || shown.length === 0, `${name}: the record "${shown[0]}" is printed`);
  return { told, rows: tables.flatMap(({ rows }) => rows) };
}

/** Whether a word is of the text, not of a margin, where the tab and the number of the page stand. */
const inBody = ({ left, top, right, bottom }, { width, height }) =>
  left > 36 && right < width - 36 && bottom < height - 28 && bottom - top < 40 && top > 20;

/** A sheet begins with its work, on either paper: the cautions above it take a fifth of the page at most. */
async function sheet(reader, name, paper) {
  await reader.open(name, `on ${paper}`, { viewport: LAPTOP, bypassCSP: true }, async (page) => {
    await page.addStyleTag({ content: `@page { size: ${paper} }` });
    const { file, size } = await reader.paper(page, `${paper}-${name}`);
    const { told, rows } = await kept(page, `${name} on ${paper}`, file);
    check(rows.length === 0 || told[0].includes(bare(rows[0])), `${name} on ${paper}: its first page does not hold "${rows[0]?.slice(0, 60)}"`);
    const [wide, tall] = size.map((side) => (side / 72) * 96);
    await boxed(page, `${name} on ${paper}`, wide - (28 / 25.4) * 96, tall - (20 / 25.4) * 96);
  });
}

/** The first page that shows a thing, the thing cut out of it, and the drawings that it may use. */
async function specimen(reader, page, { name: what, cut, shown }) {
  for (const name of reader.pages) {
    if (!(await readFile(join(reader.guide, name), 'utf8')).includes(shown)) continue;
    await page.goto(reader.url(name));
    const html = await page.evaluate(cut, what);
    const used = await page.evaluate(() => [...document.querySelectorAll('symbol, pattern')].map((drawn) => [drawn.id, drawn.outerHTML]));
    if (html) return { html, used };
  }
  return undefined;
}

const CUT = {
  glyph: (id) => document.getElementById(id) && `<svg class="ring"><use href="#${id}"/></svg>`,
  bar: (state) => {
    const part = document.querySelector(`.almanac rect.bar.${state}`);
    if (!part) return undefined;
    const { x, y } = part.getBBox();
    const cross = part.nextElementSibling?.matches('path.bar') ? part.nextElementSibling.outerHTML : '';
    return `<svg class="almanac" viewBox="${x - 3} ${y - 3} 48 48" style="width: 48px; overflow: hidden">${part.outerHTML}${cross}</svg>`;
  },
  band: (word) => document.querySelector(`.cut.${word}`)?.outerHTML,
};

function lay({ cells, drawn, side }) {
  const box = (html, i) => `<div style="position: absolute; left: ${i * side}px; top: 0; width: ${side}px; height: ${side}px; overflow: hidden">${html}</div>`;
  document.body.removeAttribute('data-section');
  document.body.innerHTML = `<svg class="defs">${drawn}</svg><style>
    @page { size: ${side * cells.length}px ${side}px; margin: 0; }
    @page :right { margin: 0; @right-top { content: none; } @bottom-right { content: none; } }
    p { visibility: hidden; }
  </style>${cells.map(box).join('')}`;
}

/** Black or white for each dot, as a copier has it. */
function copied(image, cells) {
  const [head, width, height] = image.subarray(0, 40).toString('latin1').match(/^P5\s+(\d+)\s+(\d+)\s+255\s/) ?? [''];
  const side = SIDE * DOTS;
  if (Number(width) < side * cells || Number(height) < side) throw new Error('the specimens did not print as laid');
  const dots = image.subarray(head.length);
  return Array.from({ length: cells }, (_, cell) =>
    Array.from({ length: side * side }, (_, i) => dots[Math.floor(i / side) * width + cell * side + (i % side)] < 128));
}

function difference(one, other) {
  const either = one.filter((dot, i) => dot || other[i]).length;
  return one.filter((dot, i) => dot !== other[i]).length / Math.max(1, either);
}

/** Ratings, bars and bands tell their states in a copy in black and white, printed without backgrounds. */
async function shapes(reader) {
  // What is laid here is no page of the guide, so its policy does not hold.
  await reader.open('index.html', 'shapes', { viewport: LAPTOP, bypassCSP: true }, async (page) => {
    const glyphs = GLYPHS.map((name) => ({ name, cut: CUT.glyph, shown: `id="${name}"` }));
    const bars = BARS.map((name) => ({ name, cut: CUT.bar, shown: `class="bar ${name}` }));
    const bands = BANDS.map((name) => ({ name, cut: CUT.band, shown: `class="cut ${name}"` }));
    const groups = [glyphs, bars, bands];
    for (const one of groups.flat()) one.found = await specimen(reader, page, one);
    for (const one of [...glyphs, ...bands]) check(one.found, `no page shows the drawing of ${one.name}`);
    // A farm may have nothing that it never does.
    check(bars.filter((one) => one.found).length > 2, 'no three kinds of bars are shown anywhere');
    const cells = groups.flat().filter((one) => one.found);
    const drawn = [...new Map(cells.flatMap((one) => one.found.used)).values()].join('');
    await page.evaluate(lay, { cells: cells.map((one) => one.found.html), drawn, side: SIDE });
    const { file, sheets } = await reader.paper(page, 'shapes.html');
    if (sheets.length !== 1) throw new Error(`the specimens print on ${sheets.length} sheets`);
    const image = await run('pdftoppm', ['-gray', '-r', String(96 * DOTS), '-singlefile', file], { encoding: 'buffer', maxBuffer: 1 << 26 });
    copied(image.stdout, cells.length).forEach((dots, i) => { cells[i].dots = dots; });
    for (const group of groups) apart(group.filter((one) => one.dots));
  });
}

function apart(group) {
  group.forEach((one, i) => {
    check(one.dots.includes(true), `the drawing of ${one.name} is not on paper`);
    for (const other of group.slice(i + 1)) {
      const part = difference(one.dots, other.dots);
      check(part >= DIFFERENT, `in black and white, ${one.name} and ${other.name} differ in only ${Math.round(part * 100)} % of their ink`);
    }
  });
}

async function insideEdge(name, file) {
  const over = (await placed(file)).flatMap(({ width, words }) => words.filter(({ left, right }) => left < EDGE || right > width - EDGE));
  check(over.length === 0, `${name}: ${over.length} words print too near to the edge, first "${over[0]?.word}"`);
}

/** The most that a box of leading cautions takes of the first page, and how many it holds. */
const BOX = 0.2;
const LEADING = 3;

/** The cautions that lead some work stand in a box that leaves the page to the work. */
async function boxed(page, name, room, tall) {
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: Math.floor(room), height: LAPTOP.height });
  const boxes = await page.locator('.leads').evaluateAll((all) => all.map((box) => [box.getBoundingClientRect().height, box.children.length]));
  await page.emulateMedia({ media: null });
  const [height, most] = [0, 1].map((i) => Math.max(0, ...boxes.map((box) => box[i])));
  check(height <= BOX * tall, `${name}: a box of cautions is ${Math.round(height)} px high, on a page of ${Math.round(tall)}`);
  check(most <= LEADING, `${name}: ${most} cautions stand above some work`);
}

/** A handout keeps its promise of sheets, and its screen tells what the printer will do. */
async function handout(reader, name) {
  await reader.open(name, 'handout', { viewport: LAPTOP }, async (page) => {
    await page.waitForFunction(() => document.querySelector('.fits:not([hidden])'), undefined, { timeout: 3000 }).catch(() => {});
    const screen = await page.evaluate(() => {
      const main = document.querySelector('main.handout');
      const { paddingLeft, paddingRight } = main ? getComputedStyle(main) : {};
      return {
        promised: Number(main?.dataset.sheets),
        tall: Number(main?.dataset.tall),
        told: document.querySelector('.fits:not([hidden])')?.innerText ?? '',
        text: main ? main.clientWidth - parseFloat(paddingLeft) - parseFloat(paddingRight) : 0,
      };
    });
    check(screen.promised >= 1, `${name}: promises no number of sheets`);
    const { file, size, sheets } = await reader.paper(page, name);
    check(sized(size, PAPERS), `${name}: prints on neither A4 nor letter but on ${size.join(' x ')} points`);
    check(sheets.length <= screen.promised, `${name}: prints on ${sheets.length} sheets, more than the ${screen.promised} promised`);
    const told = Number(screen.told.match(/(?:Fits on|needs) (\d+)/)?.[1]);
    check(told === sheets.length, `${name}: prints on ${sheets.length} sheets, and its screen says "${screen.told}"`);
    const { lost } = await unprinted(page, file);
    check(lost.length === 0, `${name}: ${lost.length} texts are not on paper, first "${lost[0]?.text.slice(0, 100)}"`);
    await insideEdge(name, file);
    await kept(page, name, file);
    await boxed(page, name, screen.text, screen.tall);
    await roomy(page, name, screen.text);
  });
}

/** The pocket edition is a small book: tabs at its edge, and references by codes that it has. */
async function pocket(reader) {
  const name = 'pocket.html';
  await reader.open(name, 'print', { viewport: LAPTOP }, async (page) => {
    const codes = await page.evaluate(() => {
      const refers = (code) => code.closest('a[href^="#"]') ?? code.previousElementSibling?.closest('a[href^="#"]');
      const all = [...document.querySelectorAll('main .code')];
      const own = (target) => all.find((code) => target?.contains(code) && !refers(code));
      return all.filter(refers).map((code) => {
        const id = decodeURIComponent(refers(code).hash.slice(1));
        return { id, code: code.textContent.trim(), there: own(document.getElementById(id))?.textContent.trim() };
      });
    });
    check(codes.length > 0, `${name}: no reference has a code`);
    const wrong = codes.filter(({ code, there }) => code === '' || code !== there);
    const first = wrong[0];
    check(wrong.length === 0, `${name}: ${wrong.length} references lead astray, first "${first?.code}" to #${first?.id}, which has the code "${first?.there}"`);
    const { file, size, sheets } = await reader.paper(page, name);
    check(sized(size, SMALL_PAPERS), `${name}: prints on neither A6 nor half a letter but on ${size.join(' x ')} points`);
    check(sheets.length <= POCKET_PAGES, `${name}: prints on ${sheets.length} pages, more than a pocket takes`);
    check(sheets.every((sheet) => sheet.trim().length > 2), `${name}: a page is empty`);
    const { lost } = await unprinted(page, file);
    check(lost.length === 0, `${name}: ${lost.length} texts are not on paper, first "${lost[0]?.text.slice(0, 100)}"`);
    const unseen = codes.filter(({ code }) => !plain(sheets.join('')).includes(plain(code)));
    check(unseen.length === 0, `${name}: ${unseen.length} codes are not on paper, first "${unseen[0]?.code}"`);
    const room = await reader.room(size, 'pocket.css');
    await roomy(page, name, room);
    await legible(page, name, room);
    const tabs = await page.locator('.pocket > [data-tab]').evaluateAll((all) => all.map((section) => section.dataset.tab));
    const marks = (await placed(file)).flatMap(({ width, words }) => words.filter((word) => standsAtEdge(word, width)).map(({ word }) => word));
    check(tabs.length > 0, `${name}: there are no section tabs`);
    for (const tab of tabs) check(marks.includes(tab), `${name}: no printed page has the tab "${tab}" at its edge`);
  });
}

/** Letters on paper with so much room are large enough, those of drawings too. */
async function legible(page, name, room) {
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: Math.floor(room), height: LAPTOP.height });
  const small = await page.evaluate((least) => {
    const has = (element) => [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim() !== '');
    const texts = [...document.querySelectorAll('main *')].filter((element) => has(element) && element.checkVisibility());
    const scale = (element) => (element instanceof SVGElement ? element.getScreenCTM().a : 1);
    const points = (element) => (parseFloat(getComputedStyle(element).fontSize) * scale(element) * 72) / 96;
    return texts.map((element) => [points(element), element.textContent.slice(0, 60)]).filter(([size]) => size < least - 0.05);
  }, LEGIBLE);
  await page.emulateMedia({ media: null });
  await page.setViewportSize(LAPTOP);
  check(small.length === 0, `${name}: ${small.length} texts are smaller than ${LEGIBLE} points, first ${small[0]?.join(' pt, ')}`);
}

/** Folded in the middle and stapled, the sheets are a book: all of it there, whole, its pages in their order. */
async function saddle(reader) {
  const name = 'pocket.html';
  await reader.open(name, 'two to a sheet', { viewport: LAPTOP }, async (page) => {
    const texts = await page.evaluate(() => {
      const walk = document.createTreeWalker(document.querySelector('.pocket'), NodeFilter.SHOW_TEXT);
      const all = [];
      for (let text = walk.nextNode(); text; text = walk.nextNode()) {
        if (!text.parentElement.closest('svg, .grid i') && text.data.trim() !== '') all.push(text.data);
      }
      return all;
    });
    await page.locator('#bind [value="saddle"]').check();
    const laid = await page.evaluate(() => ({
      leaves: document.querySelectorAll('.leaf').length,
      pages: document.querySelectorAll('.page').length,
      cut: [...document.querySelectorAll('.page')].filter(({ scrollHeight, clientHeight, scrollWidth, clientWidth }) =>
        scrollHeight > clientHeight + 1 || scrollWidth > clientWidth + 1).length,
    }));
    check(laid.pages > 0 && laid.leaves % 4 === 0 && laid.leaves - laid.pages < 4, `${name}: ${laid.pages} pages make ${laid.leaves} leaves`);
    check(laid.cut === 0, `${name}: ${laid.cut} pages are fuller than their leaves`);
    const { file, size, sheets } = await reader.paper(page, 'pocket-saddle');
    check(sized(size, PAPERS), `${name}: two to a sheet, it prints on ${size.join(' x ')} points`);
    check(sheets.length === laid.leaves / 2, `${name}: ${laid.leaves} leaves print on ${sheets.length} sides`);
    const told = plain((await run('pdftotext', ['-raw', file, '-'], { maxBuffer: 1 << 26 })).stdout);
    const lost = texts.filter((text) => !bare(told).includes(bare(text)));
    check(lost.length === 0, `${name}: two to a sheet, ${lost.length} texts are lost, first "${lost[0]?.slice(0, 100)}"`);
    (await placed(file)).forEach(({ width, height, words }, side) => {
      const half = (is) => words.filter(({ left }) => (left > width / 2) === is);
      // Read from the fold outwards: the fronts have the last page at the left, the backs the first.
      const [left, right] = side % 2 === 0 ? [laid.leaves - side, side + 1] : [side + 1, laid.leaves - side];
      for (const [want, found] of [[left, half(false)], [right, half(true)]]) {
        const folio = found.reduce((low, word) => (word.bottom > (low?.bottom ?? 0) ? word : low), undefined)?.word;
        check(folio === (want > laid.pages ? undefined : String(want)), `${name}: side ${side + 1} has page ${folio}, and ${want} belongs there`);
      }
      const cut = words.filter(({ left: from, right: to, bottom }) => (from < width / 2 && to > width / 2) || from < EDGE || to > width - EDGE || bottom > height - EDGE);
      check(cut.length === 0, `${name}: on side ${side + 1} the fold or the edge takes ${cut.length} words, first "${cut[0]?.word}"`);
    });
  });
}

const standsAtEdge = ({ left, top, right, bottom }, width) =>
  bottom - top > right - left && (right < width * 0.12 || left > width * 0.88);

async function tags(reader, name) {
  await reader.open(name, 'print', { viewport: LAPTOP }, async (page) => {
    const { file, size } = await reader.paper(page, name);
    check(sized(size, PAPERS), `${name}: prints on neither A4 nor letter but on ${size.join(' x ')} points`);
    const { lost } = await unprinted(page, file);
    check(lost.length === 0, `${name}: ${lost.length} texts are not on paper, first "${lost[0]?.text.slice(0, 100)}"`);
    await insideEdge(name, file);
  });
}

/** The least height of a row to write in, in CSS px: seven millimetres. */
const WRITTEN = (7 / 25.4) * 96;

/** Cards print two to a leaf, each whole within its half, with all their batches, and rows that a hand can write in. */
async function cards(reader, name) {
  await reader.open(name, 'print', { viewport: LAPTOP }, async (page) => {
    const all = await page.locator('.card').count();
    check(all > 0, `${name}: there is no card`);
    const { file, size, sheets } = await reader.paper(page, name);
    check(sized(size, PAPERS), `${name}: prints on neither A4 nor letter but on ${size.join(' x ')} points`);
    check(sheets.length === Math.ceil(all / 2), `${name}: ${all} cards print on ${sheets.length} leaves`);
    const { lost } = await unprinted(page, file);
    check(lost.length === 0, `${name}: ${lost.length} texts are not on paper, first "${lost[0]?.text.slice(0, 100)}"`);
    await insideEdge(name, file);
    for (const [at, { height, words }] of (await placed(file)).entries()) {
      const cut = words.filter(({ top, bottom }) => bottom > height - EDGE || (top < height / 2 + EDGE && bottom > height / 2 - EDGE));
      check(cut.length === 0, `${name}: on leaf ${at + 1} the scissors or the edge take ${cut.length} words, first "${cut[0]?.word}"`);
    }
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: Math.floor((size[0] / 72) * 96), height: LAPTOP.height });
    const found = await page.locator('.card').evaluateAll((cards) => cards.map((card) => {
      const { top, bottom, height } = card.getBoundingClientRect();
      const parts = [...card.children].map((part) => part.getBoundingClientRect());
      const rows = [...card.querySelectorAll('tbody tr')].map((row) => row.getBoundingClientRect().height);
      return { id: card.id, height, out: parts.filter((part) => part.top < top || part.bottom > bottom).length, row: Math.min(...rows) };
    }));
    await page.emulateMedia({ media: null });
    const half = (size[1] / 72) * 48;
    for (const { id, height, out, row } of found) {
      check(Math.abs(height - half) < 2, `${name}: the card of ${id} is ${Math.round(height)} px high, and half a leaf ${Math.round(half)}`);
      check(out === 0, `${name}: ${out} parts of the card of ${id} hang out of it`);
      check(row >= WRITTEN, `${name}: a row of the card of ${id} is ${Math.round(row)} px high, too low to write in`);
    }
  });
}

/** A page and the further parts of it. */
const parts = (reader, start) => reader.pages.filter((name) => name.startsWith(start) && /^(-\d+)?\.html$/.test(name.slice(start.length)));

async function named(reader, kind) {
  if (!kind.endsWith('*')) return kind;
  const folder = kind.slice(0, -1);
  const pages = reader.pages.filter((name) => name.startsWith(folder) && name !== `${folder}index.html`);
  const sizes = await Promise.all(pages.map(async (name) => (await stat(join(reader.guide, name))).size));
  return pages[sizes.indexOf(Math.max(...sizes))] ?? kind;
}

await inspect(async (reader) => {
  const kinds = await reader.unseen(await Promise.all(KINDS.map((kind) => named(reader, kind))));
  const sheets = reader.pages.filter((name) => SHEETS.test(name));
  const handouts = reader.pages.filter((name) => name.startsWith('handouts/'));
  check(handouts.length > 0, 'there are no handouts');
  return [
    () => pocket(reader),
    () => saddle(reader),
    ...sheets.flatMap((name) => ['letter', 'A4'].map((paper) => () => sheet(reader, name, paper))),
    ...kinds.map((name) => () => whole(reader, name)),
    () => shapes(reader),
    ...handouts.map((name) => () => handout(reader, name)),
    ...parts(reader, 'yard/log-tags').map((name) => () => tags(reader, name)),
    ...parts(reader, 'yard/cards').map((name) => () => cards(reader, name)),
  ];
});
