// Holds the pages of a farm of many years to a length that a thumb gets through.
//
// Usage: node screens.mjs GUIDE_DIR

import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { check, inspect, PHONE } from './chrome.mjs';

const MOST = 12;
/** The page of a single record, which is as long as what is known of its one thing. */
const OF_ONE = /^(yard\/)?(batches|handouts|lots|methods|mushrooms|notes|records|stands|strains|troubles|woods)\/(?!(index|20\d\d)\b)/;
/** What is read whole: the edition for a pocket, and what may hurt. */
const WHOLE = ['pocket.html', 'safety.html'];
/** Of pages of one kind the heaviest are the longest. */
const OF_A_KIND = 3;

/** What a page is one of: a leaf, a year and a record share their path but for what tells them apart. */
const kindOf = (name) => name.replace(/[^/]*\.html$/, (file) => file.replaceAll(/\d+/g, '#').replace(/^(pairings)-.*/, '$1-#'));

async function heaviest(reader) {
  const names = reader.pages.filter((name) => !OF_ONE.test(name) && !WHOLE.includes(name));
  const weighed = await Promise.all(names.map(async (name) => ({ name, size: (await stat(join(reader.guide, name))).size })));
  const kinds = {};
  for (const { name } of weighed.sort((a, b) => b.size - a.size)) (kinds[kindOf(name)] ??= []).push(name);
  return Object.values(kinds).flatMap((names) => names.slice(0, OF_A_KIND));
}

async function measure(reader, name) {
  await reader.open(name, 'length', { viewport: PHONE }, async (page) => {
    const screens = (await page.evaluate(() => document.documentElement.scrollHeight)) / PHONE.height;
    check(screens <= MOST, `${name}: is ${screens.toFixed(1)} screens of a phone long, more than ${MOST}`);
  });
}

await inspect(async (reader) => (await heaviest(reader)).map((name) => () => measure(reader, name)));
