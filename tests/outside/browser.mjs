// Reads a published guide in a browser, from its folder, as a phone, a laptop and a printer would.
//
// Usage: node browser.mjs GUIDE_DIR

import { readFile, stat } from 'node:fs/promises';
import { join, posix } from 'node:path';
import { axe, check, inspect, LAPTOP, NARROW, overhang, PAPERS, PHONE, plain, sized, unprinted } from './chrome.mjs';

/** Side of the smallest square that a finger meets, and of one for a cold thumb, in CSS px. */
const TARGET = 24;
const MAIN_TARGET = 44;
const TARGETS = 'a[href], button, input:not([type="hidden"]), select, summary, [role="option"]';
const MAIN_TARGETS = '.thumb a, .find input, summary, [role="option"], :is(.choose, .pick) :is(button, input, select)';
const PAGES_A_FOLDER = 2;
const PRINTED = ['index.html', 'pairings.html', 'seasons.html', 'sources.html', 'terms.html', 'methods/rack-log.html'];
/** The sheets that go out of the door, each on one leaf or two. */
const SHEETS = /^(winter|stands)\//;
const LEAVES = 2;
const WORDS_A_SHEET = 60;
/** What a page and its look may weigh on disk, in bytes; these hold the whole guide or their own pictures. */
const WEIGHT = 120_000;
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
    if (name !== 'pocket.html') {
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

async function print(reader, name) {
  await reader.open(name, 'print', { viewport: LAPTOP }, async (page) => {
    const heading = await page.locator('h1').innerText();
    const { file, size, sheets } = await reader.paper(page, name);
    check(sized(size, PAPERS), `${name}: prints on neither A4 nor letter but on ${size.join(' x ')} points`);
    check(plain(sheets[0]).includes(plain(heading)), `${name}: the first printed sheet lacks the heading "${heading}"`);
    const fits = !SHEETS.test(name) || sheets.length <= LEAVES;
    check(fits, `${name}: prints on ${sheets.length} leaves, more than ${LEAVES}`);
    const bare = sheets.slice(0, -1).findIndex((sheet) => sheet.split(/\s+/).length < WORDS_A_SHEET);
    check(bare === -1, `${name}: the printed sheet ${bare + 1} is all but empty`);
    const { lost } = await unprinted(page, file);
    check(lost.length === 0, `${name}: ${lost.length} texts are not on paper, first "${lost[0]?.text.slice(0, 120)}"`);
    const over = await overhang(page, await reader.room(size));
    check(over.length === 0, `${name}: broader than its paper, so that all of it prints smaller: ${over.slice(0, 3).join(' | ')}`);
  });
}

/** No sideways scroll at 320 px, except inside boxes of class `wide`. */
async function narrow(page, name, how) {
  const found = await page.evaluate((width) => {
    const right = (thing) => Math.max(0, ...[...thing.getClientRects()].map((box) => box.right));
    const say = (element) => element.outerHTML.slice(0, 160);
    const scrolls = (element) => /auto|scroll/.test(getComputedStyle(element).overflowX);
    const held = (element) => {
      for (let box = element; box; box = box.parentElement) if (scrolls(box)) return true;
      return false;
    };
    const outside = [...document.body.querySelectorAll('*')].filter((element) => !element.closest('.wide, .defs'));
    // A word can hang out of its element, so the text is measured beside the boxes.
    const hangs = (element) => {
      const text = document.createRange();
      text.selectNodeContents(element);
      return Math.max(right(element), right(text)) > width + 0.5;
    };
    const over = outside.filter((element) => !held(element) && hangs(element));
    const deepest = over.filter((element) => !over.some((other) => other !== element && element.contains(other)));
    return {
      scroll: document.scrollingElement.scrollWidth,
      over: deepest.slice(0, 3).map(say),
      boxes: outside.filter((element) => scrolls(element) && element.scrollWidth > element.clientWidth + 1).map(say),
    };
  }, NARROW.width);
  const wide = found.scroll > NARROW.width;
  check(!wide, `${name}: at ${NARROW.width} px, ${how}, the page is ${found.scroll} px wide: ${found.over.join(' | ')}`);
  check(found.boxes.length === 0, `${name}: at ${NARROW.width} px, ${how}, scrolls sideways outside a wide box: ${found.boxes.join(' | ')}`);
}

/** A handout has no section tabs, because it stands alone. */
async function thumb(page, name) {
  if (name.startsWith('handouts/')) return;
  check((await page.locator('.thumb a').count()) > 0, `${name}: there are no section tabs`);
}

/**
 * Whatever can be touched is large enough or stands clear, as WCAG 2.5.8 has it, with every slip opened; a link in running
 * text is as high as its line and is left out.
 */
async function targets(page, name) {
  const found = await page.evaluate(({ all, main, least }) => {
    document.querySelectorAll('details').forEach((slip) => slip.setAttribute('open', ''));
    const display = (element) => getComputedStyle(element).display;
    const blockOf = (node) => {
      let block = node.parentElement;
      while (/^(inline|contents)$/.test(display(block))) block = block.parentElement;
      return block;
    };
    const worded = new Set();
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let text = texts.nextNode(); text; text = texts.nextNode()) {
      if (/[\p{L}\p{N}]{2}/u.test(text.data) && !text.parentElement.closest(all)) worded.add(blockOf(text));
    }
    const stays = (element) => {
      for (let box = element; box; box = box.parentElement) if (getComputedStyle(box).position === 'fixed') return true;
      return false;
    };
    const measure = (element) => {
      // A tap on the words of a box to tick ticks it.
      const touched = (element.matches('[type="checkbox"], [type="radio"]') && element.closest('label')) || element;
      const { x, y, width, height } = touched.getBoundingClientRect();
      return {
        element,
        touched,
        main: element.matches(main),
        running: display(element) === 'inline' && worded.has(blockOf(element)),
        layer: stays(element),
        boxes: [...touched.getClientRects()].map((box) => ({ left: box.left, top: box.top, right: box.right, bottom: box.bottom })),
        at: { x: x + width / 2, y: y + height / 2 },
        width,
        height,
      };
    };
    const seen = (one) => one.touched.checkVisibility({ visibilityProperty: true }) && one.boxes.some((box) => box.right > 0 && box.bottom + scrollY > 0);
    const list = [...document.querySelectorAll(all)].map(measure).filter(seen);
    const alike = (one, other) => one.element.href !== undefined && one.element.href === other.element.href;
    const nested = (one, other) => one.touched.contains(other.touched) || other.touched.contains(one.touched);
    const others = (one) => list.filter((other) => other.layer === one.layer && !alike(one, other) && !nested(one, other));
    // Where two overlap, the later lies on top and has the part that they share.
    const without = (box, other) => {
      if (other.left >= box.right || other.right <= box.left || other.top >= box.bottom || other.bottom <= box.top) return box;
      const parts = [
        { ...box, right: other.left }, { ...box, left: other.right }, { ...box, bottom: other.top }, { ...box, top: other.bottom },
      ];
      const room = (part) => Math.max(0, part.right - part.left) * Math.max(0, part.bottom - part.top);
      return parts.reduce((most, part) => (room(part) > room(most) ? part : most));
    };
    const fits = (one) => {
      const later = others(one).filter((other) => one.touched.compareDocumentPosition(other.touched) & Node.DOCUMENT_POSITION_FOLLOWING);
      const own = one.boxes.map((box) => later.flatMap((other) => other.boxes).reduce(without, box));
      return own.some((box) => box.right - box.left >= least - 0.05 && box.bottom - box.top >= least - 0.05);
    };
    const small = list.filter((one) => !one.running && !fits(one));
    const far = ({ x, y }, box) => Math.hypot(Math.max(box.left - x, 0, x - box.right), Math.max(box.top - y, 0, y - box.bottom));
    const crowded = (one) => others(one).find((other) =>
      other.boxes.some((box) => far(one.at, box) < least / 2) ||
      (small.includes(other) && Math.hypot(one.at.x - other.at.x, one.at.y - other.at.y) < least));
    const say = (one, other) => ({
      size: [one.width, one.height],
      html: one.element.outerHTML.slice(0, 160),
      beside: other?.element.outerHTML.slice(0, 100),
    });
    return {
      crowded: small.map((one) => [one, crowded(one)]).filter(([, other]) => other).map(([one, other]) => say(one, other)),
      main: list.filter((one) => one.main).map((one) => say(one)),
    };
  }, { all: TARGETS, main: MAIN_TARGETS, least: TARGET });
  const show = (list) => `${list.length} times: ${list.slice(0, 3).map(({ size, html, beside }) =>
    `${size.map((side) => side.toFixed(1)).join(' x ')} px ${html}${beside ? ` beside ${beside}` : ''}`).join(' | ')}`;
  const at = `${name}: at ${PHONE.width} px`;
  check(found.crowded.length === 0, `${at} smaller to the touch than ${TARGET} px and too near to another, ${show(found.crowded)}`);
  const small = found.main.filter(({ size }) => size.some((side) => side < MAIN_TARGET - 0.05));
  check(small.length === 0, `${at} smaller than ${MAIN_TARGET} px, ${show(small)}`);
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
  check(sum <= WEIGHT, `${name}: weighs ${sum} bytes with all that it loads (${sizes[0]} without), more than ${WEIGHT}`);
}

await inspect((reader) => {
  const pages = choose(reader.pages);
  const wood = pages.filter((name) => name.startsWith('woods/') && name !== 'woods/index.html').slice(0, 1);
  return [
    ...reader.pages.filter((name) => !HEAVY.test(name)).map((name) => () => weigh(reader, name)),
    ...pages.map((name) => () => read(reader, name)),
    ...[...PRINTED, ...wood, ...pages.filter((name) => SHEETS.test(name))].map((name) => () => print(reader, name)),
  ];
});
