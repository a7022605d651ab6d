// Reckons the contrast of a published guide's colours anew, by light, in the dark and on paper.
//
// Usage: node tokens.mjs GUIDE_DIR

import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { check, guidesNamed, tell } from './chrome.mjs';

const READ_LONG = 7;
const READ = 4.5;
const SEEN = 3;
const FAMILIES = ['f-cut', 'f-inoculate', 'f-fruit', 'f-rest', 'f-soak'];
const WANTED = [
  ...['ink', 'ink-2'].flatMap((token) => [[token, 'paper', READ_LONG], [token, 'panel', READ_LONG]]),
  ...['link', 'visited', 'stop', 'care', 'good'].flatMap((token) => [[token, 'paper', READ], [token, 'panel', READ]]),
  ...['rule', 'focus', ...FAMILIES].map((token) => [token, 'paper', SEEN]),
];
/** A hair is decoration, so it must be there but may be faint. */
const COLOURS = [...new Set([...WANTED.flatMap(([token, on]) => [token, on]), 'hair'])];
const ROOTS = {
  'by light': /^:root$/,
  'in the dark': /^@media \(prefers-color-scheme: ?dark\) :root$/,
  'on paper': /^@media print :root$/,
};

/** The declarations of a style sheet by the rules around them, written one after the other. */
function rules(css) {
  const found = new Map();
  const around = [];
  for (const [, text, end] of css.replaceAll(/\/\*.*?\*\//gs, '').matchAll(/([^{};]*)([{};])/g)) {
    const said = text.trim().replaceAll(/\s+/g, ' ');
    if (end === '{') {
      around.push(said);
    } else if (said !== '') {
      const where = around.join(' ');
      const [name, ...value] = said.split(':');
      found.set(where, { ...found.get(where), [name.trim()]: value.join(':').trim() });
    }
    if (end === '}') around.pop();
  }
  return found;
}

/** Relative luminance as WCAG has it; not a number where no colour is read. */
function luminance(colour = '') {
  const digits = /^#(?:[0-9a-f]{3}){1,2}$/i.test(colour) ? colour.slice(1) : undefined;
  if (!digits) return NaN;
  const pairs = digits.length === 3 ? [...digits].map((digit) => digit + digit) : digits.match(/../g);
  const [red, green, blue] = pairs
    .map((pair) => parseInt(pair, 16) / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one, other) {
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

const found = rules(await readFile(join(guidesNamed()[0], 'look/tokens.css'), 'utf8'));
for (const [when, root] of Object.entries(ROOTS)) {
  const tokens = [...found].find(([where]) => root.test(where))?.[1] ?? {};
  const value = (token) => tokens[`--${token}`];
  const known = (token) => luminance(value(token)) >= 0;
  for (const token of COLOURS) {
    check(known(token), `tokens.css: ${when}, --${token} is ${value(token) ?? 'missing'}, not a colour in hexadecimal digits`);
  }
  for (const [token, on, wanted] of WANTED.filter((pair) => known(pair[0]) && known(pair[1]))) {
    const ratio = contrast(value(token), value(on));
    check(ratio >= wanted, `tokens.css: ${when}, --${token} on --${on} has a contrast of ${ratio.toFixed(2)}, less than ${wanted}`);
  }
}
tell();
