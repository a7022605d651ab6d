// Reads a published guide in a browser, from its folder, as a phone, a laptop and a printer would.
//
// Usage: node browser.mjs GUIDE_DIR [SEEN_GUIDE_DIR]
//
// Where a guide seen before is named, pages that say the same in both are passed over, and so are the colours of the dark,
// which every guide has from the theme.

import { readFile, stat } from 'node:fs/promises';
import { join, posix } from 'node:path';
import { axe, check, inspect, LAPTOP, NARROW, PHONE } from './chrome.mjs';
import { firstRow, narrow, print, SHEETS, targets, WORK } from './layout.mjs';

const PAGES_A_FOLDER = 2;
const PRINTED = ['index.html', 'pairings.html', 'seasons.html', 'sources.html', 'terms.html', 'methods/rack-log.html'];
/** What a page and its look may weigh on disk, in bytes; these hold the whole guide or their own pictures. */
const WEIGHT = 122_000;
/** The same of pages that list records whole, or everything by its name. */
const LIST_WEIGHT = 180_000;
const LIST = /^(a-to-z|safety|sources|working\/weights|working\/pairings-[a-z-]+)\.html$/;
const HEAVY = /^(pocket\.html$|handouts\/)/;
const LOADED = /<(?:link rel="stylesheet" href|script src)="([^"]+)"/g;
const FINDER = /^finder(-\d+)?\.js$/;

/**
 * Every page at the top, every sheet, every page of the yard, and of each other folder the index and some others, evenly by
 * name; of the working pages, of which most are alike, all that are not about a mushroom's pairings.
 */
function choose(pages) {
  const folders = new Set(pages.map((name) => posix.dirname(name)));
  return [...folders].flatMap((folder) => {
    const names = pages.filter((name) => posix.dirname(name) === folder);
    const all = folder === '.' || folder === 'yard' || SHEETS.test(`${folder}/`);
    const always = (name) => all || (folder === 'working' && !name.startsWith('working/pairings-'));
    const first = names.filter((name) => posix.basename(name) === 'index.html');
    const rest = names.filter((name) => !first.includes(name));
    return [...first, ...rest.filter(always), ...evenly(rest.filter((name) => !always(name)), PAGES_A_FOLDER)];
  });
}

function evenly(names, most) {
  const wanted = Math.min(most, names.length);
  const step = wanted > 1 ? (names.length - 1) / (wanted - 1) : 0;
  return Array.from({ length: wanted }, (_, i) => names[Math.round(i * step)]);
}

async function read(reader, name) {
  await reader.open(name, 'narrow, without script', { viewport: NARROW, javaScriptEnabled: false }, async (page) => {
    await narrow(page, name, 'without script');
    const headings = page.locator('h1');
    const text = (await headings.count()) === 1 && (await headings.isVisible()) ? await headings.innerText() : '';
    check(text.trim() !== '', `${name}: without script there is no single h1 with text to be seen`);
  });
  await reader.open(name, 'by light and in the dark', { viewport: NARROW, colorScheme: 'light' }, async (page) => {
    await narrow(page, name, 'with script');
    await page.setViewportSize(PHONE);
    await pictures(page, name);
    await axe(page, name, 'phone, light');
    await thumb(page, name);
    // The pocket edition has the colours of every other page and takes the reader of rules half a minute.
    if (name !== 'pocket.html' && reader.before === undefined) {
      await page.setViewportSize(LAPTOP);
      await page.emulateMedia({ colorScheme: 'dark' });
      await axe(page, name, 'laptop, dark');
      await page.emulateMedia({ colorScheme: 'light' });
      await page.setViewportSize(PHONE);
    }
    // Last, because it opens every slip.
    await targets(page, name);
  });
}

/** A handout has no section tabs, because it stands alone. */
async function thumb(page, name) {
  if (name.startsWith('handouts/')) return;
  check((await page.locator('.thumb a').count()) > 0, `${name}: there are no section tabs`);
}

/** A picture tells what it is and has a twin in words; a rating's glyph has its word beside it. */
async function pictures(page, name) {
  const found = await page.evaluate(() => {
    const lacks = (svg) => {
      const told = (part) => svg.querySelector(`:scope > ${part}`)?.textContent.trim();
      const twin = svg.closest('section, main')?.querySelector('table, ul, ol, dl') ?? svg.closest('main')?.querySelector('table, ul, ol, dl');
      return [!told('title') && 'title', !told('desc') && 'description', !twin && 'twin in words'].filter(Boolean);
    };
    const pictures = [...document.querySelectorAll('svg[role="img"]')].map((svg) => [svg, lacks(svg)]);
    const bare = (rating) => !rating.querySelector('svg use[href^="#ring-"]') || !/\p{L}{2}/u.test(rating.innerText);
    const shown = [...document.querySelectorAll('.rating')].filter((rating) => rating.checkVisibility());
    return {
      pictures: pictures.filter(([, parts]) => parts.length).map(([svg, parts]) => `${parts.join(' and ')}: ${svg.outerHTML.slice(0, 120)}`),
      ratings: shown.filter(bare).map((rating) => rating.outerHTML.slice(0, 160)),
    };
  });
  check(found.pictures.length === 0, `${name}: ${found.pictures.length} pictures lack something, first ${found.pictures[0]}`);
  check(found.ratings.length === 0, `${name}: ${found.ratings.length} ratings lack their glyph or their word, first ${found.ratings[0]}`);
}

/** A page with all that it loads is light enough for an old phone. */
async function weigh(reader, name) {
  const html = await readFile(join(reader.guide, name), 'utf8');
  const loaded = [...html.matchAll(LOADED)].map(([, href]) => posix.join(posix.dirname(name), href));
  const files = [name, ...loaded.filter((file) => !FINDER.test(file))];
  const sizes = await Promise.all(files.map(async (file) => (await stat(join(reader.guide, file))).size));
  const sum = sizes.reduce((sum, size) => sum + size, 0);
  const most = LIST.test(name) ? LIST_WEIGHT : WEIGHT;
  check(sum <= most, `${name}: weighs ${sum} bytes with all that it loads (${sizes[0]} without), more than ${most}`);
}

await inspect(async (reader) => {
  const pages = choose(await reader.unseen(reader.pages));
  const wood = pages.filter((name) => name.startsWith('woods/') && name !== 'woods/index.html').slice(0, 1);
  const printed = [...(await reader.unseen(PRINTED)), ...wood, ...pages.filter((name) => SHEETS.test(name))];
  return [
    ...reader.pages.filter((name) => !HEAVY.test(name)).map((name) => () => weigh(reader, name)),
    ...pages.map((name) => () => read(reader, name)),
    ...(await reader.unseen(reader.pages.filter((name) => WORK.test(name)))).map((name) => () => firstRow(reader, name)),
    ...printed.map((name) => () => print(reader, name)),
  ];
});
