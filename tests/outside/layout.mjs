// What a page's layout must hold, whatever the font: nothing hangs out, whatever is touched is large enough, paper is kept to.

import { check, LAPTOP, NARROW, overhang, PAPERS, PHONE, placed, plain, sized, unprinted } from './chrome.mjs';

/** Side of the smallest square that a finger meets, a little above the 24 CSS px of WCAG because fonts differ, and of one for a cold thumb. */
const TARGET = 24.5;
const MAIN_TARGET = 44;
const TARGETS = 'a[href], button, input:not([type="hidden"]), select, summary, [role="option"]';
const MAIN_TARGETS = '.thumb :is(a, button), .find input, summary, [role="option"], :is(.choose, .pick) :is(button, input, select)';
/** The sheets that go out of the door, each on one leaf or two. */
export const SHEETS = /^((winter|stands)\/|key\/winter\.html$)/;
const LEAVES = 2;
const WORDS_A_SHEET = 60;

/** The pages of work; those that only list records, or tell of one, have no row of their own. */
export const WORK = /^(winter|stands|methods|yard)\/(?!index\.html|batches|harvests\/|ledger\/|sales|years\/)/;
/** The first of these is the first tree, log row or step. */
const ROWS = 'main tbody > tr, main .steps > li, main .label > div, main .tag, main #ripe ~ h3, main section .plain > li';
const LEADING = 3;
const FORMATS = ['A4', 'Letter'];
/** A word that no page has, to find the first row again on paper. */
const SIGN = 'Q0Q';

/**
 * Of a page of work, three cautions at most stand above its first row, which stands on the first screen of a phone and in
 * the upper half of the first sheet of paper.
 */
export async function firstRow(reader, name) {
  await reader.open(name, 'first row', { viewport: PHONE }, async (page) => {
    const row = await page.evaluate(({ rows, sign }) => {
      const kept = (element) => !element.closest('.rescue, .also, .others, .rules');
      const row = [...document.querySelectorAll(rows)].find(kept);
      // A farm that has not done a thing yet is told so where its rows would stand.
      if (!row) return { gap: document.querySelector('main .gap') !== null };
      const before = (other) => other.compareDocumentPosition(row) & Node.DOCUMENT_POSITION_FOLLOWING && !row.contains(other);
      const head = row.querySelector('th, h3, dt, b, a') ?? row;
      const text = document.createRange();
      text.selectNodeContents(head);
      const { bottom } = text.getClientRects()[0];
      head.prepend(`${sign} `);
      const bar = document.querySelector('.thumb').getBoundingClientRect();
      return {
        cautions: [...document.querySelectorAll('main .cut')].filter(before).length,
        bottom,
        screen: bar.width < innerWidth ? innerHeight : bar.top,
      };
    }, { rows: ROWS, sign: SIGN });
    check(row.gap !== false, `${name}: has no row of work`);
    if (row.gap !== undefined) return;
    check(row.cautions <= LEADING, `${name}: ${row.cautions} cautions stand above the first row`);
    const low = Math.round(row.bottom);
    check(low <= row.screen, `${name}: on a phone the first row ends at ${low} px, below the ${row.screen} px of the screen`);
    for (const format of FORMATS) {
      const { file } = await reader.paper(page, `${format}-${name}`, { preferCSSPageSize: false, format });
      const [sheet] = await placed(file);
      const place = sheet.words.find(({ word }) => word === SIGN)?.bottom ?? Infinity;
      check(place <= sheet.height / 2, `${name}: on ${format} the first row stands at ${place} of ${sheet.height} points`);
    }
  });
}

/** No sideways scroll at 320 px, except inside boxes of class `wide`. */
export async function narrow(page, name, how) {
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

/**
 * Whatever can be touched is large enough or stands clear, as WCAG 2.5.8 has it, with every slip opened; a link in running
 * text is as high as its line and is left out.
 */
export async function targets(page, name) {
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

/** On paper a page is whole, begins with its heading, and takes no more room than it may. */
export async function print(reader, name) {
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
