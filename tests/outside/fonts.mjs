// Holds the layout of ten pages in a font that is not the one of the other checks; FONTCONFIG_FILE says which.
//
// Usage: node fonts.mjs GUIDE_DIR

import { check, inspect, NARROW, PHONE, run } from './chrome.mjs';
import { narrow, print, targets } from './layout.mjs';

/** On a screen; those of the sheets and the rest on paper too, except the pocket edition, which is a book. */
const PAGES = [
  'index.html', 'pairings.html', 'pocket.html', 'seasons.html', 'woods/red-oak.html', 'mushrooms/shiitake.html', 'winter/felling.html',
  'winter/inoculation.html', 'winter/supply.html', 'yard/soak-rota.html',
];

async function look(reader, name) {
  await reader.open(name, 'another font', { viewport: NARROW }, async (page) => {
    await narrow(page, name, 'in another font');
    await page.setViewportSize(PHONE);
    await targets(page, name);
  });
  if (name !== 'pocket.html') await print(reader, name);
}

/** The program that lists fonts knows the same file as the browser. */
async function one() {
  const { stdout } = await run('fc-list', [':', 'family']);
  const families = new Set(stdout.trim().split('\n').map((line) => line.split(/[ ,]/)[0]));
  check(families.size === 1 && !families.has(''), `not one kind of font but ${[...families].join(', ') || 'none'}`);
}

await inspect((reader) => [one, ...PAGES.map((name) => () => look(reader, name))]);
