// Reads a published guide in a browser, from its folder, as a phone, a laptop and a printer would.
//
// Usage: node browser.mjs GUIDE_DIR

import { execFile } from 'node:child_process';
import { access, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { availableParallelism, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { promisify } from 'node:util';

const require = createRequire(new URL('../../.tools/node/', import.meta.url));
const { chromium } = require('playwright-core');
const AXE = await readFile(require.resolve('axe-core/axe.min.js'), 'utf8');
const run = promisify(execFile);

const AXE_TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const NARROW = { width: 320, height: 640 };
const PHONE = { width: 360, height: 740 };
const LAPTOP = { width: 1280, height: 800 };
const TAB_HEIGHT = 44;
const PAGES_A_FOLDER = 5;
const PRINTED = ['index.html', 'pairings.html', 'seasons.html', 'sources.html', 'terms.html', 'methods/rack-log.html'];
/** The sheets that go out of the door, each on one leaf or two. */
const SHEETS = /^(winter|stands)\//;
const LEAVES = 2;
const WORDS_A_SHEET = 60;
const PAPERS = [[595, 842], [612, 792]];

let passed = 0;
let failed = 0;

function check(holds, message) {
  if (holds) {
    passed += 1;
  } else {
    failed += 1;
    console.log(message.replaceAll(/\s+/g, ' '));
  }
}

/**
 * Every page at the top, every sheet, every page of the yard, and of each other folder the index and some others, evenly by
 * name; of the working pages, of which most are alike, all that are not about a mushroom's pairings.
 */
async function choose(guide, under = '') {
  const entries = (await readdir(join(guide, under), { withFileTypes: true })).sort((a, b) => (a.name < b.name ? -1 : 1));
  const names = entries.filter((entry) => entry.isFile() && entry.name.endsWith('.html')).map((entry) => entry.name);
  const always = under === '' || under === 'yard/' || SHEETS.test(under) ? () => true : (name) => under === 'working/' && !name.startsWith('pairings-');
  const whole = names.filter((name) => name !== 'index.html' && always(name));
  const others = names.filter((name) => name !== 'index.html' && !always(name));
  const wanted = Math.min(PAGES_A_FOLDER, others.length);
  const step = wanted > 1 ? (others.length - 1) / (wanted - 1) : 0;
  const chosen = Array.from({ length: wanted }, (_, i) => others[Math.round(i * step)]);
  const pages = [...(names.includes('index.html') ? ['index.html'] : []), ...whole, ...chosen].map((name) => under + name);
  for (const folder of entries.filter((entry) => entry.isDirectory())) {
    pages.push(...(await choose(guide, `${under}${folder.name}/`)));
  }
  return pages;
}

class Reader {
  constructor(guide, browser) {
    this.guide = guide;
    this.root = pathToFileURL(guide).href + '/';
    this.browser = browser;
  }

  /** Opens a page, hands it on, and holds it to making no sound and asking for nothing outside the guide. */
  async open(name, how, options, use) {
    const context = await this.browser.newContext({ offline: true, reducedMotion: 'reduce', ...options });
    const faults = new Set();
    const page = await context.newPage();
    page.on('console', (said) => said.type() === 'error' && faults.add(`console: ${said.text()}`));
    page.on('pageerror', (error) => faults.add(`page error: ${error.message}`));
    page.on('requestfailed', (request) => faults.add(`could not load ${request.url().slice(0, 200)}`));
    page.on('request', (request) => {
      const url = request.url();
      if (!url.startsWith('data:') && !url.startsWith(this.root)) faults.add(`asks for ${url.slice(0, 200)}`);
    });
    try {
      await page.goto(this.root + name.split('/').map(encodeURIComponent).join('/'), { waitUntil: 'load' });
      await use(page);
    } catch (error) {
      faults.add(error.message);
    } finally {
      await context.close();
    }
    check(faults.size === 0, `${name} (${how}): ${[...faults].join('; ')}`);
  }

  async read(name) {
    await this.open(name, 'narrow, without script', { viewport: NARROW, javaScriptEnabled: false }, async (page) => {
      await narrow(page, name, 'without script');
      const headings = page.locator('h1');
      const text = (await headings.count()) === 1 && (await headings.isVisible()) ? await headings.innerText() : '';
      check(text.trim() !== '', `${name}: without script there is no single h1 with text to be seen`);
    });
    await this.open(name, 'phone, light', { viewport: NARROW, colorScheme: 'light' }, async (page) => {
      await narrow(page, name, 'with script');
      await page.setViewportSize(PHONE);
      await thumb(page, name);
      await axe(page, name, 'phone, light');
    });
    await this.open(name, 'laptop, dark', { viewport: LAPTOP, colorScheme: 'dark' }, (page) => axe(page, name, 'laptop, dark'));
  }

  async print(name, paperFolder) {
    await this.open(name, 'print', { viewport: LAPTOP }, async (page) => {
      const heading = await page.locator('h1').innerText();
      const pdf = await page.pdf({ preferCSSPageSize: true, tagged: true, outline: true });
      const starts = pdf.subarray(0, 4).toString('latin1') === '%PDF';
      check(starts, `${name}: what was printed is no PDF`);
      if (!starts) return;
      const file = join(paperFolder, `${name.replaceAll('/', '-')}.pdf`);
      await writeFile(file, pdf);
      const info = (await run('pdfinfo', [file])).stdout;
      const size = info.match(/^Page size:\s+([\d.]+) x ([\d.]+)/m)?.slice(1).map(Number).sort((a, b) => a - b) ?? [];
      const known = PAPERS.some((paper) => paper.every((side, i) => Math.abs(side - size[i]) < 2));
      check(known, `${name}: prints on neither A4 nor letter but on ${size.join(' x ')} points`);
      const text = (await run('pdftotext', [file, '-'], { maxBuffer: 1 << 26 })).stdout;
      const sheets = text.split('\f').slice(0, -1);
      check(plain(sheets[0]).includes(plain(heading)), `${name}: the first printed sheet lacks the heading "${heading}"`);
      const fits = !SHEETS.test(name) || sheets.length <= LEAVES;
      check(fits, `${name}: prints on ${sheets.length} leaves, more than ${LEAVES}`);
      const bare = sheets.slice(0, -1).findIndex((sheet) => sheet.split(/\s+/).length < WORDS_A_SHEET);
      check(bare === -1, `${name}: the printed sheet ${bare + 1} is all but empty`);
    });
  }
}

const plain = (text) => text.normalize('NFKC').replaceAll(/\s+/g, '').toLowerCase();

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
    const outside = [...document.body.querySelectorAll('*')].filter((element) => !element.closest('.wide'));
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

/** The section tabs must be tall enough for a cold thumb; a handout has none, because it stands alone. */
async function thumb(page, name) {
  if (name.startsWith('handouts/')) return;
  const tabs = await page.locator('.thumb a').evaluateAll((links) =>
    links.map((link) => ({ word: link.textContent.trim(), height: link.getBoundingClientRect().height })),
  );
  check(tabs.length > 0, `${name}: there are no section tabs`);
  for (const { word, height } of tabs) {
    check(height >= TAB_HEIGHT, `${name}: the tab "${word}" is ${height} px high at ${PHONE.width} px, less than ${TAB_HEIGHT}`);
  }
}

async function axe(page, name, how) {
  await page.evaluate(AXE);
  const violations = await page.evaluate(async (tags) => {
    const found = await globalThis.axe.run(document, { runOnly: tags, resultTypes: ['violations'], preload: false });
    return found.violations.map(({ id, help, nodes }) => ({
      id,
      help,
      count: nodes.length,
      first: nodes[0].html.slice(0, 200),
      why: nodes[0].failureSummary.slice(0, 300),
    }));
  }, AXE_TAGS);
  check(violations.length === 0, violations
    .map(({ id, help, count, first, why }) => `${name} (${how}): axe ${id}: ${help}; ${count} times, first ${first}; ${why}`)
    .join('; '));
}

async function chromiumPath() {
  const path = process.env.CHROMIUM ?? '/usr/bin/chromium';
  await access(path);
  return path;
}

async function main() {
  if (process.argv.length !== 3) throw new Error(`Usage: node ${fileURLToPath(import.meta.url)} GUIDE_DIR`);
  const guide = resolve(process.argv[2]);
  const pages = await choose(guide);
  if (!pages.includes('index.html')) throw new Error(`There is no guide in ${guide}.`);
  const woods = pages.filter((name) => name.startsWith('woods/') && name !== 'woods/index.html');

  const browser = await chromium.launch({
    executablePath: await chromiumPath(),
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  const paperFolder = await mkdtemp(join(tmpdir(), 'hostwood-paper-'));
  try {
    const reader = new Reader(guide, browser);
    const jobs = [
      ...pages.map((name) => () => reader.read(name)),
      ...[...PRINTED, ...woods.slice(0, 1), ...pages.filter((name) => SHEETS.test(name))].map((name) => () => reader.print(name, paperFolder)),
    ];
    const worker = async () => {
      for (let job = jobs.shift(); job; job = jobs.shift()) await job();
    };
    await Promise.all(Array.from({ length: availableParallelism() }, worker));
  } finally {
    await browser.close();
    await rm(paperFolder, { recursive: true });
  }
  console.log(`${passed} passed, ${failed} failed`);
  process.exitCode = failed === 0 ? 0 : 1;
}

await main();
