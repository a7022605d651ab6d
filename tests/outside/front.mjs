// Opens the front page on the middle of every month: what it shows, and that a thumb gets through it.
//
// Usage: node front.mjs GUIDE_DIR

import { check, inspect, PHONE } from './chrome.mjs';

const SCREENS = 3;
const NOW = 3;
/** What a guide cannot know, and so must not say. */
const PERMISSION = /\b(allowed|permitted|may|safe)\b/;

/** The lines that a reader sees, with the days of which each holds. */
const shown = (page, name) =>
  page.locator(`.${name} > li`).evaluateAll((rows) =>
    rows.filter((row) => row.checkVisibility()).map(({ dataset, innerText }) => ({ ...dataset, text: innerText })),
  );

async function onDay(reader, day) {
  const how = `index.html on ${day}`;
  await reader.open('index.html', how, { viewport: PHONE, day }, async (page) => {
    const [now, next] = [await shown(page, 'now'), await shown(page, 'next')];
    const idle = await page.locator('.idle').isVisible();
    check(now.length <= NOW, `${how}: ${now.length} lines of now`);
    check(idle === (now.length === 0), `${how}: ${now.length} lines of now, and it ${idle ? 'says' : 'does not say'} that there is none`);
    const other = now.filter(({ from, to }) => day < from || to < day);
    check(other.length === 0, `${how}: says now what holds from ${other[0]?.from} to ${other[0]?.to}`);
    const past = next.filter(({ from }) => from <= day);
    check(past.length === 0, `${how}: says of ${past[0]?.from} that it comes`);
    const order = next.map(({ from }) => from);
    check(order.join() === [...order].sort().join(), `${how}: what comes is not in order: ${order.join(' ')}`);
    const told = [...now, ...next].find(({ text }) => PERMISSION.test(text));
    check(told === undefined, `${how}: gives leave: ${told?.text}`);
    const screens = (await page.evaluate(() => document.documentElement.scrollHeight)) / PHONE.height;
    check(screens <= SCREENS, `${how}: is ${screens.toFixed(2)} screens of a phone long, more than ${SCREENS}`);
  });
}

/** Without script every line stands there, with its date. */
async function plain(reader) {
  await reader.open('index.html', 'without script', { viewport: PHONE, javaScriptEnabled: false }, async (page) => {
    const [now, next] = [await shown(page, 'now'), await shown(page, 'next')];
    check(now.length > 0 && next.length > 0, `index.html without script: ${now.length} lines of now, ${next.length} of what comes`);
  });
}

/** The days in the middle of the months of a year, from the season's first. */
async function days(reader) {
  let first;
  await reader.open('index.html', 'its first day', { viewport: PHONE, javaScriptEnabled: false }, async (page) => {
    const ends = await page.locator('.now > li').evaluateAll((rows) => rows.map(({ dataset }) => dataset.from).sort());
    first = ends.find((from) => from > '1990');
  });
  const [year, month] = first.split('-').map(Number);
  return Array.from({ length: 12 }, (_, i) => new Date(Date.UTC(year, month + i, 15)).toISOString().slice(0, 10));
}

await inspect(async (reader) => [...(await days(reader)).map((day) => () => onDay(reader, day)), () => plain(reader)]);
