// Holds the pages of a farm to a length that a thumb gets through.
//
// Usage: node screens.mjs GUIDE_DIR

import { stat } from 'node:fs/promises';
import { join, posix } from 'node:path';
import { check, inspect, PHONE } from './chrome.mjs';

const MOST = 12;
/** What is asked for most often has less; the front page is measured day by day elsewhere. */
const OF_SOME = [
  [/^mushrooms\/index\.html$/, 5],
  [/^mushrooms\//, 14],
  [/^woods\/index\.html$/, 14],
  [/^woods\//, 8],
  [/^yard\/soak-rota/, 4],
];
/** The page of a single record, which is as long as what is known of its one thing. */
const OF_ONE = /^(yard\/)?(batches|handouts|lots|methods|mushrooms|notes|records|stands|strains|troubles|woods)\/(?!(index|20\d\d)\b)/;
/** What is read whole: the edition for a pocket, and what may hurt. */
const WHOLE = ['pocket.html', 'safety.html'];
/** Of pages of one kind the heaviest are the longest. */
const OF_A_KIND = 6;
/** From so many pages on a guide shows whether what grows with the farm is parted. */
const GROWN = 1000;

/** What a page is one of: a leaf, a year and a record share their path but for what tells them apart. */
const limitOf = (name) => OF_SOME.find(([pages]) => pages.test(name))?.[1] ?? MOST;
const kindOf = (name) => OF_ONE.test(name) ? posix.dirname(name) : name.replace(/[^/]*\.html$/, (file) => file.replaceAll(/\d+/g, '#').replace(/^(pairings)-.*/, '$1-#'));

async function heaviest(reader) {
  const grows = (name) => reader.pages.length > GROWN && !OF_ONE.test(name) && !WHOLE.includes(name);
  const names = reader.pages.filter((name) => limitOf(name) !== MOST || grows(name));
  const weighed = await Promise.all(names.map(async (name) => ({ name, size: (await stat(join(reader.guide, name))).size })));
  const kinds = {};
  for (const { name } of weighed.sort((a, b) => b.size - a.size)) (kinds[kindOf(name)] ??= []).push(name);
  return Object.values(kinds).flatMap((names) => names.slice(0, OF_A_KIND));
}

async function measure(reader, name) {
  await reader.open(name, 'length', { viewport: PHONE }, async (page) => {
    const screens = (await page.evaluate(() => document.documentElement.scrollHeight)) / PHONE.height;
    const most = limitOf(name);
    check(screens <= most, `${name}: is ${screens.toFixed(1)} screens of a phone long, more than ${most}`);
  });
}

await inspect(async (reader) => (await heaviest(reader)).map((name) => () => measure(reader, name)));
