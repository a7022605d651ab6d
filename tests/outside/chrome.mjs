// What the checks in a browser share: the guide and its pages, a page held to its rules, the way to paper, and the count.

import { execFile } from 'node:child_process';
import { access, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { availableParallelism, tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';

const require = createRequire(new URL('../../.tools/node/', import.meta.url));
const { chromium } = require('playwright-core');
const AXE = await readFile(require.resolve('axe-core/axe.min.js'), 'utf8');
const AXE_TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

export const NARROW = { width: 320, height: 640 };
export const PHONE = { width: 360, height: 740 };
export const LAPTOP = { width: 1280, height: 800 };
export const PAPERS = [[595, 842], [612, 792]];

export const run = promisify(execFile);
export const plain = (text) => text.normalize('NFKC').replaceAll(/\s+/g, '').toLowerCase();

let passed = 0;
let failed = 0;

export function check(holds, message) {
  if (holds) {
    passed += 1;
  } else {
    failed += 1;
    console.log(message.replaceAll(/\s+/g, ' '));
  }
}

/** Says how it went; the last thing a script does. */
export function tell() {
  console.log(`${passed} passed, ${failed} failed`);
  process.exitCode = failed === 0 ? 0 : 1;
}

/** The guide named on the command line, and where a second one is named, the guide that was looked at before it. */
export function guidesNamed() {
  const named = process.argv.slice(2);
  if (named.length < 1 || named.length > 2) throw new Error(`Usage: node ${basename(process.argv[1])} GUIDE_DIR [SEEN_GUIDE_DIR]`);
  return named.map((folder) => resolve(folder));
}

/** Every page of a guide by its path from the top, a folder's own pages before those of the folders in it. */
export async function pagesOf(guide, under = '') {
  const entries = (await readdir(join(guide, under), { withFileTypes: true })).sort((a, b) => (a.name < b.name ? -1 : 1));
  const own = entries.filter((entry) => entry.isFile() && entry.name.endsWith('.html')).map((entry) => under + entry.name);
  const folders = entries.filter((entry) => entry.isDirectory());
  const inner = await Promise.all(folders.map((folder) => pagesOf(guide, `${under}${folder.name}/`)));
  return [...own, ...inner.flat()];
}

/** What a page says, without the head and foot that every page has. */
async function mainOf(guide, name) {
  const html = await readFile(join(guide, name), 'utf8').catch(() => '');
  return html.match(/<main.*<\/main>/s)?.[0];
}

export class Reader {
  constructor([guide, before], pages, browser, paperFolder) {
    this.guide = guide;
    this.before = before;
    this.pages = pages;
    this.root = pathToFileURL(guide).href + '/';
    this.browser = browser;
    this.paperFolder = paperFolder;
    this.idle = new Map();
  }

  /** Whether the guide looked at before has a page that says the very same, as it has where all of it comes from the handbook. */
  async seen(name) {
    if (this.before === undefined) return false;
    const [here, there] = await Promise.all([this.guide, this.before].map((guide) => mainOf(guide, name)));
    return here !== undefined && here === there;
  }

  /** Those of the named pages that no guide showed before. */
  async unseen(names) {
    const seen = await Promise.all(names.map((name) => this.seen(name)));
    return names.filter((_, i) => !seen[i]);
  }

  url(name) {
    return this.root + name.split('/').map(encodeURIComponent).join('/');
  }

  /** The page that a tab shows, by its path from the top, with the fragment. */
  nameOf(url) {
    return url.startsWith(this.root) ? decodeURIComponent(url.slice(this.root.length)) : url;
  }

  /** Opens a page, hands it on, and holds it to making no sound and asking for nothing outside the guide. */
  async open(name, how, options, use) {
    const tab = await this.tab(options);
    const { page } = tab;
    const faults = new Set();
    page.on('console', (said) => said.type() === 'error' && faults.add(`console: ${said.text()}`));
    page.on('pageerror', (error) => faults.add(`page error: ${error.message}`));
    page.on('requestfailed', (request) => faults.add(`could not load ${request.url().slice(0, 200)}`));
    page.on('request', (request) => {
      const url = request.url();
      if (!url.startsWith('data:') && !url.startsWith(this.root)) faults.add(`asks for ${url.slice(0, 200)}`);
    });
    try {
      await page.goto(this.url(name), { waitUntil: 'load' });
      await use(page);
    } catch (error) {
      faults.add(error.message);
    }
    page.removeAllListeners();
    await this.leave(tab);
    check(faults.size === 0, `${name} (${how}): ${[...faults].join('; ')}`);
  }

  /** A tab that nobody looks at, on a `day` where one is wanted, as it was when it was new: making one takes longer than most pages take to be read. */
  async tab(options) {
    const kind = JSON.stringify(options);
    const idle = this.idle.get(kind)?.pop();
    if (idle) return idle;
    const { day, ...shown } = options;
    const context = await this.browser.newContext({ offline: true, reducedMotion: 'reduce', ...shown });
    const page = await context.newPage();
    if (day) await page.clock.setFixedTime(new Date(`${day}T12:00:00`));
    return { kind, context, page, viewport: options.viewport, colorScheme: options.colorScheme ?? 'light' };
  }

  /** Puts a tab back, or away where it can no longer be made as it was. */
  async leave(tab) {
    const { kind, context, page, viewport, colorScheme } = tab;
    try {
      await page.goto('about:blank');
      await page.emulateMedia({ media: null, colorScheme });
      await page.setViewportSize(viewport);
      this.idle.set(kind, [...(this.idle.get(kind) ?? []), tab]);
    } catch {
      await context.close();
    }
  }

  /** The room for text on paper of this size in points, in CSS px, by the margins that a style sheet gives. */
  async room(size, look = 'print.css') {
    const print = await readFile(join(this.guide, 'look', look), 'utf8');
    const [, side] = print.match(/@page ?\{\s*margin: ?[\d.]+mm ([\d.]+)mm/);
    return (size[0] / 72 - (2 * side) / 25.4) * 96;
  }

  /** Prints an open page, backgrounds off as in the dialog, and tells the file, the first sheet's size and each sheet's text. */
  async paper(page, name, options = {}) {
    const pdf = await page.pdf({ preferCSSPageSize: true, tagged: true, outline: true, printBackground: false, ...options });
    if (pdf.subarray(0, 4).toString('latin1') !== '%PDF') throw new Error('what was printed is no PDF');
    const file = join(this.paperFolder, `${name.replaceAll('/', '-')}.pdf`);
    await writeFile(file, pdf);
    const info = (await run('pdfinfo', [file])).stdout;
    const size = info.match(/^Page size:\s+([\d.]+) x ([\d.]+)/m)?.slice(1).map(Number).sort((a, b) => a - b) ?? [];
    const text = (await run('pdftotext', [file, '-'], { maxBuffer: 1 << 26 })).stdout;
    return { file, size, sheets: text.split('\f').slice(0, -1) };
  }
}

/** The words of a file by their places in points, sheet by sheet. */
export async function placed(file) {
  const { stdout } = await run('pdftotext', ['-bbox', file, '-'], { maxBuffer: 1 << 28 });
  return stdout.split('<page ').slice(1).map((sheet) => ({
    width: Number(sheet.match(/^width="([\d.]+)"/)[1]),
    height: Number(sheet.match(/height="([\d.]+)"/)[1]),
    words: [...sheet.matchAll(/<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)<\/word>/g)].map(
      ([, left, top, right, bottom, word]) => ({ left: +left, top: +top, right: +right, bottom: +bottom, word }),
    ),
  }));
}

/** What stands in an open page's main part and is not to be read on its paper; `slip` where it lies in a slip. */
export async function unprinted(page, file) {
  await page.emulateMedia({ media: 'print' });
  const texts = await page.evaluate(() => {
    const hidden = (element) => element && (getComputedStyle(element).display === 'none' || hidden(element.parentElement));
    const found = [];
    const walk = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT);
    for (let text = walk.nextNode(); text; text = walk.nextNode()) {
      const element = text.parentElement;
      if (text.data.trim() === '' || element.closest('svg, math') || hidden(element)) continue;
      found.push({ text: text.data, slip: element.closest('details') !== null });
    }
    return found;
  });
  await page.emulateMedia({ media: null });
  // A hyphen at the end of a line is lost on the way back from paper.
  const bare = (text) => plain(text).replaceAll(/[-\u2010]/g, '');
  const sheets = (await run('pdftotext', ['-raw', file, '-'], { maxBuffer: 1 << 26 })).stdout.split('\f').map(bare);
  const whole = sheets.join('');
  // Where a page breaks within a text, what is drawn later, as numbers and cautions are, may stand between its parts.
  // A head of a few letters, such as the sign before a folded text, is told by the long tail that follows it.
  const told = (head, tail) => (head.length > 3 && tail.length > 3) || tail.length > 20;
  const stays = (sheet, head, tail) => sheet.endsWith(head) || (told(head, tail) && sheet.includes(head));
  const breaks = (sheet, next, text) => Array.from(text, (_, at) => [text.slice(0, at), text.slice(at)])
    .some(([head, tail]) => head !== '' && next.includes(tail) && stays(sheet, head, tail));
  const goesOver = (text) => sheets.slice(1).some((next, i) => breaks(sheets[i], next, text));
  return {
    slips: texts.filter(({ slip }) => slip).length,
    lost: texts.filter(({ text }) => !whole.includes(bare(text)) && !goesOver(bare(text))),
  };
}

/**
 * What hangs out at the right where paper has so much room for text, in CSS px. A browser prints a page smaller until its
 * broadest part fits, and cuts off what is too broad even so.
 */
export async function overhang(page, room) {
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: Math.floor(room), height: LAPTOP.height });
  const found = await page.evaluate((room) => {
    const text = document.createRange();
    const right = (element) => {
      text.selectNodeContents(element);
      return Math.max(...[...element.getClientRects(), ...text.getClientRects()].map((box) => box.right));
    };
    // A broad table has broad paper of its own.
    const laid = [...document.querySelectorAll('main *')].filter((element) => element.checkVisibility() && !element.closest('.broad'));
    const over = laid.filter((element) => right(element) > room + 1);
    const deepest = over.filter((element) => !over.some((other) => other !== element && element.contains(other)));
    const wholes = new Set(deepest.map((element) => element.closest('table, figure, pre') ?? element));
    return [...wholes].map((element) => `${Math.round(right(element))} px in ${Math.round(room)}, ${element.outerHTML.slice(0, 120)}`);
  }, room);
  await page.emulateMedia({ media: null });
  return found;
}

export function sized(size, papers) {
  return papers.some((paper) => paper.every((side, i) => Math.abs(side - size[i]) < 2));
}

export async function axe(page, name, how) {
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

export async function launch(options = {}) {
  const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium';
  await access(executablePath);
  return chromium.launch({
    ...options,
    executablePath,
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
}

/** Opens the guide named on the command line and does the jobs that `plan` makes of a reader, as many at once as there are cores. */
export async function inspect(plan) {
  const guides = guidesNamed();
  const [guide] = guides;
  const pages = await pagesOf(guide);
  if (!pages.includes('index.html')) throw new Error(`There is no guide in ${guide}.`);
  const browser = await launch();
  const paperFolder = await mkdtemp(join(tmpdir(), 'hostwood-paper-'));
  try {
    const jobs = await plan(new Reader(guides, pages, browser, paperFolder));
    const worker = async () => {
      for (let job = jobs.shift(); job; job = jobs.shift()) await job();
    };
    await Promise.all(Array.from({ length: availableParallelism() }, worker));
  } finally {
    await browser.close();
    await rm(paperFolder, { recursive: true });
  }
  tell();
}
