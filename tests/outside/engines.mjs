// Goes through a guide from its folder in each of the engines that a phone may have.
//
// Usage: node engines.mjs GUIDE_DIR

import { createHash } from 'node:crypto';
import { rmSync } from 'node:fs';
import { cp, mkdir, mkdtemp, readdir, readFile, writeFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { guidesNamed, LAPTOP, pagesOf, PHONE, plain, run } from './chrome.mjs';
import { ENGINES } from './drivers.mjs';

const PATIENCE = 5_000;
/** Longer than the whole takes on a slow machine; an engine that hangs must not hold up the rest. */
const WHOLE = 300_000;
const LEADS = [
  ['shiitake', 'mushrooms/shiitake.html'],
  ['shitaki', 'mushrooms/shiitake.html'],
  ['red oak', 'woods/red-oak.html'],
  ['how long to soak', 'yard/soak-rota.html'],
];
const LOGS = 17;
/** What an engine may pass over, since text is only broken less well. */
const SPARED = /^(orphans|widows|text-wrap):/;

/** Stands first in every page of the copy that is looked at, since not every engine tells from outside what goes wrong in it. */
const LISTENS = `globalThis.heard = [];
addEventListener('error', ({ target, message }) => heard.push(message ?? 'could not load ' + (target.src ?? target.href)), true);
addEventListener('unhandledrejection', ({ reason }) => heard.push(String(reason)));
addEventListener('securitypolicyviolation', ({ effectiveDirective }) => heard.push(effectiveDirective));`;
const LISTENER = createHash('sha256').update(LISTENS).digest('base64');
const POLICY = /<meta http-equiv="Content-Security-Policy"[^>]*>/;

const listening = (html) =>
  html.replace(POLICY, (policy) => `${policy.replace('script-src ', `script-src 'sha256-${LISTENER}' `)}<script>${LISTENS}</script>`);

/** One engine at one guide, and how many checks it passed. */
class Phone {
  constructor(engine, guide) {
    this.engine = engine;
    this.guide = guide;
    this.passed = 0;
    this.failed = 0;
  }

  check(holds, message) {
    if (holds) {
      this.passed += 1;
    } else {
      this.failed += 1;
      console.log(`${this.engine.name}: ${message.replaceAll(/\s+/g, ' ')}`);
    }
  }

  /** Opens a page, and hears what goes wrong in it until it has been used. */
  async at(name, use) {
    try {
      await this.engine.open(this.guide.url(name));
      await use(name);
      const heard = await this.run(() => globalThis.heard);
      this.check(heard?.length === 0, `${name}: ${heard?.join('; ') ?? 'nothing listens'}`);
    } catch (error) {
      this.check(false, `${name}: ${error.message}`);
    }
  }

  run(use, ...args) {
    return this.engine.run(use, ...args);
  }

  /** Waits as long as a reader would; between two pages nothing can be asked. */
  async soon(holds, ...args) {
    for (const until = Date.now() + PATIENCE; Date.now() < until; await pause(30)) {
      if (await this.run(holds, ...args).catch(() => false)) return true;
    }
    return false;
  }

  /** The page that is open, by its path from the top. */
  async here() {
    return this.guide.nameOf(await this.run(() => location.href.split('#')[0]));
  }

  async leads(name, how) {
    const came = await this.soon((url) => document.readyState === 'complete' && location.href.split('#')[0] === url, this.guide.url(name));
    this.check(came, `${how} leads to ${await this.here()}, not to ${name}`);
  }
}

/** The guide's copy, with what listens in its pages. */
class Guide {
  constructor(folder, pages) {
    this.folder = folder;
    this.pages = pages;
    this.root = pathToFileURL(folder).href + '/';
  }

  static async copied(from, folder) {
    const pages = await pagesOf(from);
    if (!pages.includes('index.html')) throw new Error(`There is no guide in ${from}.`);
    await cp(from, folder, { recursive: true });
    const guide = new Guide(folder, pages);
    for (const name of pages) await guide.write(name, listening(await guide.read(name)));
    return guide;
  }

  read(name) {
    return readFile(join(this.folder, name), 'utf8');
  }

  write(name, html) {
    return writeFile(join(this.folder, name), html);
  }

  url(name) {
    return this.root + name;
  }

  nameOf(url) {
    return url.startsWith(this.root) ? url.slice(this.root.length) : url;
  }

  first(folder) {
    return this.pages.find((name) => name.startsWith(folder));
  }
}

/** The colours of the page are those of the tokens, and nothing hangs out at the side. */
async function styled(phone, name) {
  const found = await phone.run(() => {
    const probe = document.createElement('i');
    document.body.append(probe);
    const token = (word) => {
      probe.setAttribute('class', '');
      probe.style.color = `var(--${word})`;
      return getComputedStyle(probe).color;
    };
    const tokens = ['paper', 'ink'].map(token);
    probe.remove();
    const { color, overflowWrap } = getComputedStyle(document.body);
    const { backgroundColor } = getComputedStyle(document.documentElement);
    const { scrollWidth, clientWidth } = document.documentElement;
    return { tokens, worn: [backgroundColor, color], overflowWrap, scrollWidth, clientWidth, innerWidth };
  });
  phone.check(String(found.worn) === String(found.tokens) && found.tokens[0] !== found.tokens[1], `${name}: wears ${found.worn}, not ${found.tokens}`);
  phone.check(found.overflowWrap === 'break-word', `${name}: its styles do not hold`);
  return found;
}

async function narrow(phone, name) {
  const { scrollWidth, clientWidth, innerWidth } = await styled(phone, name);
  phone.check(innerWidth === PHONE.width, `${name}: the window is ${innerWidth} px broad, not ${PHONE.width}`);
  phone.check(scrollWidth <= clientWidth, `${name}: is ${scrollWidth} px broad in ${clientWidth}`);
}

/** Every declaration of the styles, with the first value of each variable put in, since one that is left open suits any engine. */
async function declarations(guide) {
  const names = (await readdir(join(guide.folder, 'look'))).filter((name) => name.endsWith('.css'));
  const sheets = await Promise.all(names.map((name) => guide.read(`look/${name}`)));
  const blocks = sheets.flatMap((css) => [...css.replaceAll(/@page[^{]*\{[^}]*\}/g, '').matchAll(/\{([^{}]*)\}/g)]);
  const all = blocks.flatMap(([, block]) => block.split(/;(?=\s*(?:[\w-]+:|$))/).map((each) => each.trim()).filter(Boolean));
  const value = (name) => all.find((each) => each.startsWith(`${name}:`))?.slice(name.length + 1).trim();
  const filled = (text) => text.replaceAll(/var\((--[\w-]+)\)/g, (open, name) => (value(name) ? filled(value(name)) : open));
  return [...new Set(all.filter((each) => !each.startsWith('--')).map((each) => filled(each).replace('!important', '')))];
}

/** An engine drops what it does not know without a word. */
async function known(phone) {
  const all = await declarations(phone.guide);
  await phone.at('index.html', async () => {
    const unknown = await phone.run((all) => all.filter((each) => !CSS.supports(`(${each})`)), all);
    const lost = unknown.filter((each) => !SPARED.test(each));
    phone.check(all.length > 300 && lost.length === 0, `look: of ${all.length} declarations ${lost.length} say nothing, first ${lost.slice(0, 3).join('; ')}`);
  });
}

async function front(phone) {
  await phone.at('index.html', async (name) => {
    await narrow(phone, name);
    const found = await phone.run(() => {
      const now = new Date();
      const day = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
      const shown = (list) => [...document.querySelectorAll(`.${list} > li`)].filter((row) => row.checkVisibility()).map(({ dataset }) => ({ ...dataset }));
      const all = document.querySelectorAll('.now > li').length;
      return { day, date: now.getDate(), all, now: shown('now'), next: shown('next'), head: document.querySelector('h1 .day').textContent };
    });
    phone.check(RegExp(`\\b${found.date}\\b`).test(found.head), `${name}: is headed "${found.head}" on ${found.day}`);
    phone.check(found.now.length < found.all, `${name}: shows all ${found.all} lines of now`);
    const held = found.now.every(({ from, to }) => from <= found.day && found.day <= to) && found.next.every(({ from }) => found.day < from);
    phone.check(held, `${name}: shows lines of other days on ${found.day}`);
  });
}

/** The year's bars: drawn, hatched and solid, with today's mark over them. */
async function strip(phone) {
  await phone.at('index.html', async (name) => {
    const found = await phone.run(() => {
      const strip = [...document.querySelectorAll('svg.almanac[data-from]')].find((svg) => svg.checkVisibility());
      const box = (part) => part.getBoundingClientRect();
      const bars = [...strip.querySelectorAll('.bar')].map((bar) => ({ fill: getComputedStyle(bar).fill, hatched: bar.matches('.possible'), solid: bar.matches('.best'), ...box(bar).toJSON() }));
      const mark = strip.querySelector('.today');
      return { bars, strip: box(strip).toJSON(), mark: mark && { fill: getComputedStyle(mark).fill, ...box(mark).toJSON() } };
    });
    const { bars, mark } = found;
    phone.check(bars.length > 2 && bars.every(({ width, height }) => width > 0 && height > 3), `${name}: a bar of the year has no size`);
    phone.check(mark?.width > 2 && mark.left >= found.strip.left - mark.width && mark.right <= found.strip.right + mark.width, `${name}: today is not marked in the year`);
    const [hatched, solid] = [bars.filter((bar) => bar.hatched), bars.filter((bar) => bar.solid)];
    phone.check(hatched.length > 0 && hatched.every(({ fill }) => /^url\("?#hatch/.test(fill)), `${name}: a possible season is not hatched`);
    phone.check(solid.length > 0 && solid.every(({ fill }) => /^rgb\(/.test(fill) && fill !== mark?.fill), `${name}: a best season is not solid`);
  });
}

async function opened(phone, name) {
  await phone.engine.click('.to-find');
  const ready = await phone.soon(() => document.activeElement.id === 'find' && globalThis.finder?.search !== undefined);
  phone.check(ready, `${name}: the finder does not open from its tab with its index`);
}

async function finder(phone) {
  const first = () => phone.run(() => document.querySelector('#found [role="option"]')?.href.split('#')[0] ?? '');
  await phone.at('index.html', async (name) => {
    await opened(phone, name);
    for (const [words, wanted] of LEADS) {
      await phone.engine.type('#find', words);
      await phone.soon((url) => document.querySelector('#found [role="option"]')?.href.split('#')[0] === url, phone.guide.url(wanted));
      const found = phone.guide.nameOf(await first());
      phone.check(found === wanted, `${name}: "${words}" finds ${found || 'nothing'} first, not ${wanted}`);
    }
    await phone.engine.click('#found [role="option"]');
    await phone.leads(LEADS.at(-1)[1], 'a tap on what was found');
  });
  await phone.at('woods/red-oak.html', async (name) => {
    await opened(phone, name);
    await phone.engine.type('#find', 'shiitake');
    await phone.engine.press('ArrowDown');
    const marked = await phone.run(() => [document.querySelector('#find').getAttribute('aria-activedescendant'), document.querySelector('#found [role="option"]')?.id]);
    phone.check(marked[0] === marked[1], `${name}: Down marks ${marked[0]}, not ${marked[1]}`);
    await phone.engine.press('Enter');
    await phone.leads('mushrooms/shiitake.html', 'Enter');
  });
}

async function choosing(phone) {
  const told = () => phone.run(() => {
    const cells = [...document.querySelectorAll('.matrix tbody td')].filter(({ dataset }) => dataset.rating || Number(dataset.sources) > 0);
    const seen = (cell) => [...cell.children].some((part) => part.checkVisibility({ visibilityProperty: true }));
    const { value } = document.querySelector('.choose [name="least"]');
    return { line: document.querySelector('.choose .count').textContent, shown: cells.filter(seen).length, value };
  });
  await phone.at('pairings.html', async (name) => {
    const wanted = await phone.run(() => {
      const value = [...document.querySelectorAll('.choose [name="least"] option')].at(-1).value;
      return { value, left: [...document.querySelectorAll('.matrix tbody td')].filter(({ dataset }) => dataset.rating >= value).length };
    });
    await phone.engine.pick('.choose [name="least"]', wanted.value);
    const chosen = await told();
    phone.check(wanted.left > 0 && chosen.line.startsWith(`${wanted.left} of `), `${name}: says "${chosen.line}", not ${wanted.left}`);
    phone.check(chosen.shown === wanted.left, `${name}: shows ${chosen.shown} pairs, not ${wanted.left}`);
    await phone.engine.reload();
    const again = await told();
    phone.check(JSON.stringify(again) === JSON.stringify(chosen), `${name}: ${JSON.stringify(chosen)} becomes ${JSON.stringify(again)} when it is loaded anew`);
  });
  await phone.at('winter/inoculation.html', async (name) => {
    await phone.engine.type('.pick [name="logs"]', String(LOGS));
    const rows = await phone.run(() => [...document.querySelectorAll('table.rows')].map((table) =>
      [...table.querySelectorAll('tr[data-logs]')].filter((row) => row.checkVisibility()).map(({ dataset }) => Number(dataset.logs))));
    phone.check(rows.length > 0 && rows.every((seen) => String(seen) === String(LOGS)), `${name}: ${LOGS} logs show the rows ${rows.join(' and ').slice(0, 80)}`);
  });
}

/** What is ticked narrows the woods that are left, and stays ticked when the page is loaded anew. */
async function narrowing(phone) {
  const told = () => phone.run(() => {
    const left = [...document.querySelectorAll('.left > li')].filter((wood) => wood.checkVisibility()).length;
    return { line: document.querySelector('.narrow .count').textContent, left, dim: document.querySelectorAll('.narrow .off').length };
  });
  await phone.at('key/ways.html', async (name) => {
    const whole = await told();
    const wanted = await phone.run(() => {
      const sets = [...document.querySelectorAll('.narrow input[data-woods]')].map((answer) => {
        const question = answer.closest('details');
        question.open = true;
        const kept = new Set(`${answer.dataset.woods} ${question.dataset.unknown}`.split(' ').filter(Boolean)).size;
        return { answer: `.narrow [name="${answer.name}"][value="${answer.value}"]`, kept };
      });
      return sets.sort((one, other) => one.kept - other.kept)[0];
    });
    phone.check(whole.dim === 0 && wanted.kept < whole.left, `${name}: begins with ${whole.left} woods and ${whole.dim} answers dimmed`);
    await phone.engine.click(wanted.answer);
    const ticked = await told();
    phone.check(ticked.left === wanted.kept && ticked.dim > 0, `${name}: ${wanted.answer} leaves ${ticked.left}, not ${wanted.kept}`);
    phone.check(ticked.line.startsWith(`${wanted.kept} of ${whole.left} left`), `${name}: says "${ticked.line}"`);
    await phone.engine.reload();
    const again = await told();
    phone.check(JSON.stringify(again) === JSON.stringify(ticked), `${name}: ${JSON.stringify(ticked)} becomes ${JSON.stringify(again)} when it is loaded anew`);
    await phone.engine.click('.narrow [type="reset"]');
    await phone.soon((line) => document.querySelector('.narrow .count').textContent === line, whole.line);
    phone.check((await told()).left === whole.left, `${name}: "Begin again" leaves ${(await told()).left}`);
  });
}

/** A sheet of the day's work, and the way on from its bar. */
async function sheet(phone) {
  await phone.at('winter/felling.html', async (name) => {
    await narrow(phone, name);
    const open = () => phone.run(() => document.querySelector('#sections').matches(':popover-open'));
    phone.check(!(await open()), `${name}: More is open before it is asked for`);
    await phone.engine.click('[popovertarget="sections"]');
    await phone.soon(() => document.querySelector('#sections').matches(':popover-open'));
    phone.check(await open(), `${name}: More does not open`);
    const low = await phone.run(() => document.querySelector('#sections').getBoundingClientRect().bottom - document.querySelector('.thumb').getBoundingClientRect().top);
    phone.check(Math.abs(low) < 4, `${name}: what More opens ends ${low} px under the bar's edge`);
    await phone.engine.click('#sections a[href$="woods/index.html"]');
    await phone.leads('woods/index.html', 'a tap in More');
  });
}

/** A handout carries its script and its styles, each named by its hash. */
async function handout(phone) {
  await phone.engine.size(LAPTOP);
  await phone.at(phone.guide.first('handouts/'), async (name) => {
    await styled(phone, name);
    await phone.soon(() => !document.querySelector('.fits').hidden);
    const fits = await phone.run(() => document.querySelector('.fits').checkVisibility() && document.querySelector('.fits').textContent);
    phone.check(/^(Fits on|Promised) \d/.test(fits), `${name}: says "${fits}" of how it fits`);
  });
  await phone.engine.size(PHONE);
}

/** A page of the key, where the guide has one. */
async function key(phone) {
  const name = phone.guide.first('key/');
  if (name === undefined) return;
  await phone.at(name, () => narrow(phone, name));
}

async function paper(phone) {
  if (!phone.engine.paper) return;
  await phone.at('winter/felling.html', async (name) => {
    const title = await phone.run(() => document.querySelector('h1').textContent);
    const file = join(phone.guide.folder, `${phone.engine.name}.pdf`);
    await writeFile(file, await phone.engine.paper());
    const { stdout } = await run('pdftotext', [file, '-']);
    phone.check(plain(stdout).includes(plain(title)), `${name}: "${title}" is not to be found on its paper`);
  });
}

/** Hears who asks for a picture that lies elsewhere. */
async function elsewhere() {
  const asked = [];
  const server = createServer(({ url }, answer) => {
    asked.push(url);
    answer.end();
  });
  await new Promise((listens) => server.listen(0, '127.0.0.1', listens));
  return { asked, root: `http://127.0.0.1:${server.address().port}`, close: () => server.close() };
}

/** What is planted in a page neither runs nor loads; without its policy it would do both. */
async function policy(phone) {
  const { asked, root, close } = await elsewhere();
  const planted = `<img src="${root}/picture.png" alt="" onerror="globalThis.planted = true"><script>globalThis.planted = true;</script></main>`;
  const html = (await phone.guide.read('index.html')).replace('</main>', planted);
  const found = async (name, html) => {
    await phone.guide.write(name, html);
    await phone.engine.open(phone.guide.url(name));
    await phone.soon(() => document.images[0].complete);
    const { ran, heard } = await phone.run(() => ({ ran: globalThis.planted === true, heard: globalThis.heard }));
    return { ran, heard, asked: asked.splice(0).length > 0 };
  };
  try {
    const kept = await found('planted.html', html);
    phone.check(!kept.ran, 'planted.html: what was planted ran');
    phone.check(!kept.asked, 'planted.html: asks for a picture that lies elsewhere');
    const wanted = ['img-src', 'script-src'];
    phone.check(wanted.every((part) => kept.heard.some((heard) => heard.startsWith(part))), `planted.html: only ${kept.heard.join(', ')} kept something out`);
    const bare = await found('bare.html', html.replace(POLICY, ''));
    phone.check(bare.ran && bare.asked, `bare.html: without a policy it ${bare.ran ? 'runs' : 'does not run'} and ${bare.asked ? 'asks' : 'does not ask'}`);
  } catch (error) {
    phone.check(false, `planted.html: ${error.message}`);
  } finally {
    close();
  }
}

const SERIES = [known, front, strip, finder, choosing, narrowing, sheet, handout, key, paper, policy];

async function through(begin, guide, scratch) {
  const home = join(scratch, begin.name);
  await mkdir(home);
  const engine = await begin(home);
  try {
    const phone = new Phone(engine, guide);
    await engine.size(PHONE);
    for (const part of SERIES) await part(phone);
    console.log(`${engine.name} ${engine.version}: ${phone.passed} passed, ${phone.failed} failed`);
    return phone.failed;
  } finally {
    await engine.close();
  }
}

const [from] = guidesNamed();
const scratch = await mkdtemp(join(tmpdir(), 'hostwood-engines-'));
const sweep = () => rmSync(scratch, { recursive: true, force: true, maxRetries: 5 });

/** What the engines keep is swept up after the last of them has been ended, as each is when this ends. */
function stop() {
  process.once('exit', sweep);
  process.exit(1);
}

for (const signal of ['SIGINT', 'SIGTERM']) process.once(signal, stop);
setTimeout(() => {
  console.log('An engine hangs.');
  stop();
}, WHOLE).unref();

let failed = 0;
try {
  const guide = await Guide.copied(from, join(scratch, 'guide'));
  for (const begin of ENGINES) failed += await through(begin, guide, scratch);
} finally {
  sweep();
}
console.log(failed === 0 ? `The same in ${ENGINES.length} engines.` : `${failed} checks failed in ${ENGINES.length} engines.`);
process.exitCode = failed === 0 ? 0 : 1;
