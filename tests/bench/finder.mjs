// Times the finder key by key, in a browser, on an index of 10,000 entries. It prints and asserts nothing.
//
// Usage: node tests/bench/finder.mjs

import { copyFile, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const require = createRequire(new URL('../../.tools/node/', import.meta.url));
const { chromium } = require('playwright-core');

const SCRIPT = new URL('../../themes/endgrain/endgrain.js', import.meta.url);
const SEARCH = await readFile(new URL('../../themes/endgrain/search.js', import.meta.url), 'utf8');
const ENTRIES = 10_000;
const STEMS = 11_000;
const TEXT_WORDS = 20;
const FRAME = 16;
const ROUNDS = 5;
const KINDS = ['mushroom', 'wood', 'pair', 'sheet', 'term', 'note'];
const SKIP = ['a', 'an', 'and', 'in', 'of', 'on', 'the', 'to'];
const ONSETS = ['', 'b', 'br', 'd', 'f', 'g', 'gl', 'h', 'k', 'l', 'm', 'n', 'p', 'pr', 'r', 's', 'sh', 'st', 't', 'tr', 'v', 'w'];
const NUCLEI = ['a', 'e', 'i', 'o', 'u', 'ea', 'oo'];
const CODAS = ['', '', '', 'l', 'm', 'n', 'r', 's', 'ck', 'nd'];
const ENDINGS = ['s', 'ing', 'ed'];

/** A generator of numbers from 0 to 1 that is the same at every run. */
function seeded(seed) {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

const random = seeded(11);
const below = (count) => Math.floor(random() * count);
const pick = (list) => list[below(list.length)];

function newWord() {
  const syllable = () => pick(ONSETS) + pick(NUCLEI) + pick(CODAS);
  return Array.from({ length: 1 + below(3) }, syllable).join('') + pick(ONSETS);
}

/** A word with one letter wrong, missing, too much, or changed with its neighbour. */
function slip(word) {
  const at = 1 + below(word.length - 2);
  const [before, letter, after] = [word.slice(0, at), word[at], word.slice(at + 1)];
  const other = pick([...'aeioulmnrst'].filter((each) => each !== letter));
  return pick([before + other + after, before + after, before + other + letter + after, before + after[0] + letter + after.slice(1)]);
}

/** Stems with their forms; one in twenty is a slip away from the one before. */
function makeStems() {
  const taken = new Set(SKIP);
  const stems = [];
  while (stems.length < STEMS) {
    const last = stems.at(-1)?.[0] ?? '';
    const word = last.length > 4 && below(20) === 0 ? slip(last) : newWord();
    const forms = [word, ...ENDINGS.filter(() => random() < 0.28).map((ending) => word + ending)].filter((form) => !taken.has(form));
    if (word.length < 3 || forms[0] !== word) continue;
    forms.forEach((form) => taken.add(form));
    stems.push(forms);
  }
  return stems;
}

/** Few stems are common and most are rare, as in prose. */
const commonStem = () => Math.floor(STEMS ** random()) - 1;

function makeEntries() {
  return Array.from({ length: ENTRIES }, (_, at) => ({
    names: Array.from({ length: 1 + below(3) }, () => below(STEMS)),
    also: Array.from({ length: below(3) }, () => below(STEMS)),
    text: Array.from({ length: TEXT_WORDS }, commonStem),
    kind: Math.floor((at * KINDS.length) / ENTRIES),
  }));
}

function encodeNumbers(numbers) {
  return numbers.map((number, i) => (number - (i ? numbers[i - 1] : 0)).toString(36)).join('.');
}

/** Texts that each tell how many letters they share with the one before. */
function encodeTexts(texts) {
  let last = '';
  return texts.map((text) => {
    let shared = 0;
    while (shared < 35 && shared < text.length && text[shared] === last[shared]) shared += 1;
    last = text;
    return shared.toString(36) + text.slice(shared);
  });
}

function encodeWords(entries, stems) {
  const lists = new Map();
  entries.forEach((entry, at) => {
    ['names', 'also', 'text'].forEach((field, i) => {
      for (const stem of new Set(entry[field])) {
        if (!lists.has(stem)) lists.set(stem, [[], [], []]);
        lists.get(stem)[i].push(at);
      }
    });
  });
  const inOrder = [...lists].sort(([a], [b]) => (stems[a][0] < stems[b][0] ? -1 : 1));
  const forms = encodeTexts(inOrder.flatMap(([stem]) => stems[stem]));
  const groups = inOrder.map(([stem, fields]) => [forms.splice(0, stems[stem].length).join(','), ...fields.map(encodeNumbers)].join(' '));
  return groups.join(';');
}

function titleOf(entry, stems) {
  const words = entry.names.map((stem) => stems[stem][0]).join(' ');
  return words[0].toUpperCase() + words.slice(1);
}

function scriptOf(entries, stems) {
  const titles = encodeTexts(entries.map((entry) => titleOf(entry, stems)));
  const index = {
    kinds: KINDS,
    worth: KINDS.map(() => 1),
    skip: SKIP.join(' '),
    pages: entries.map((_, i) => `pages/${i}.html`),
    entries: entries.map((entry, i) => [titles[i], entry.kind, i]),
    ways: [],
    words: encodeWords(entries, stems),
  };
  return `globalThis.finder = ${JSON.stringify(index)};\n${SEARCH}`;
}

const PAGE = `<!doctype html><meta charset="utf-8"><title>Finder</title><script src="endgrain.js" defer></script>
<form class="find" role="search" action="a-to-z.html" data-root="" hidden>
<label for="find">Find</label>
<input id="find" type="search" autocomplete="off" spellcheck="false" role="combobox" aria-autocomplete="list" aria-expanded="false" aria-controls="found">
<ul id="found" role="listbox" aria-label="Found" hidden></ul>
<p class="count" role="status"></p>
</form>`;

function makeQueries(entries, stems) {
  const some = (count, make) => Array.from({ length: count }, make);
  const word = () => stems[pick(pick(entries).names)][0];
  const long = () => {
    for (;;) {
      const found = word();
      if (found.length > 5) return found;
    }
  };
  return [
    ...some(10, () => titleOf(pick(entries), stems)),
    ...some(8, () => long().slice(0, 4)),
    ...some(8, () => `${stems[commonStem()][0]} ${word()}`),
    ...some(10, () => slip(long())),
    ...some(4, () => `qz${newWord()}xj`),
  ];
}

/** Runs in the page: types a query and gives for each key how long it took until the list stood. */
function type(query) {
  const input = document.querySelector('#find');
  return [...query].map((_, i) => {
    input.value = query.slice(0, i + 1);
    const start = performance.now();
    input.dispatchEvent(new InputEvent('input', { bubbles: true }));
    return { typed: input.value, time: performance.now() - start, shown: document.querySelector('#found').children.length };
  });
}

function print(keys) {
  const sorted = keys.toSorted((a, b) => a.time - b.time);
  const at = (share) => sorted[Math.min(Math.floor(share * sorted.length), sorted.length - 1)].time.toFixed(1);
  const worst = sorted.at(-1);
  console.log(`${keys.length} keys: median ${at(0.5)} ms, 95th percentile ${at(0.95)} ms, worst ${at(1)} ms at "${worst.typed}"`);
  console.log(`${keys.filter(({ time }) => time > FRAME).length} keys over ${FRAME} ms, ${keys.filter(({ shown }) => !shown).length} with nothing found`);
}

async function measureOnce(browser, folder, queries) {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(pathToFileURL(join(folder, 'index.html')).href);
  await page.focus('#find');
  await page.waitForFunction(() => globalThis.finder?.search !== undefined);
  const keys = [];
  for (const query of queries) keys.push(...(await page.evaluate(type, query)));
  await context.close();
  return keys;
}

/** A key counts as the quickest of some fresh pages, since other work on the machine only adds to it. */
async function measure(folder, queries) {
  const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium';
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-dev-shm-usage', '--disable-gpu'] });
  try {
    const rounds = [];
    for (let i = 0; i < ROUNDS; i += 1) rounds.push(await measureOnce(browser, folder, queries));
    print(rounds[0].map((key, i) => ({ ...key, time: Math.min(...rounds.map((round) => round[i].time)) })));
  } finally {
    await browser.close();
  }
}

const stems = makeStems();
const entries = makeEntries();
const script = scriptOf(entries, stems);
const folder = await mkdtemp(join(tmpdir(), 'finder-'));
try {
  await writeFile(join(folder, 'finder.js'), script);
  await copyFile(SCRIPT, join(folder, 'endgrain.js'));
  await writeFile(join(folder, 'index.html'), PAGE);
  console.log(`${entries.length} entries, ${stems.flat().length} forms, finder.js ${Math.round(script.length / 1000)} kB`);
  await measure(folder, makeQueries(entries, stems));
} finally {
  await rm(folder, { recursive: true });
}
