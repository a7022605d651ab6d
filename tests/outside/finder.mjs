// Looks things up in a published guide as a grower would: by the finder, by A to Z, by the filters, and by the keyboard alone.
//
// Usage: node finder.mjs GUIDE_DIR

import { readFile, readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { axe, check, inspect, LAPTOP, NARROW, PHONE } from './chrome.mjs';

/**
 * What is typed, and what must then come first; an expression where more than one answer is as good. Two spellings are those of
 * the edition in inches and of the one in centimetres.
 */
const FIRST = [
  // Names.
  ['shiitake', 'mushrooms/shiitake.html'],
  ["lion's mane", 'mushrooms/lions-mane.html'],
  ['Wine cap', 'mushrooms/wine-cap.html'],
  ['nameko', 'mushrooms/nameko.html'],
  ['red oak', 'woods/red-oak.html'],
  ['SUGAR MAPLE', 'woods/sugar-maple.html'],
  ['birch', /^woods\/.*birch\.html$/],
  // Scientific names.
  ['quercus rubra', 'woods/red-oak.html'],
  ['Lentinula', 'mushrooms/shiitake.html'],
  ['hericium erinaceus', 'mushrooms/lions-mane.html'],
  ['Acer saccharum', 'woods/sugar-maple.html'],
  ['pleurotus ostreatus', 'mushrooms/tree-oyster.html'],
  ['fagus grandifolia', 'woods/american-beech.html'],
  // Other names.
  ['hen of the woods', 'mushrooms/maitake.html'],
  ['enoki', 'mushrooms/velvet-foot.html'],
  ['king stropharia', 'mushrooms/wine-cap.html'],
  ['ironwood', /^woods\/.*hornbeam\.html$/],
  ['popple', 'woods/quaking-aspen.html'],
  ['linden', 'woods/basswood.html'],
  ['pioppino', 'mushrooms/poplar-mushroom.html'],
  // Beginnings.
  ['n', 'mushrooms/nameko.html'],
  ['q', 'woods/quaking-aspen.html'],
  ['shi', 'mushrooms/shiitake.html'],
  ['mai', 'mushrooms/maitake.html'],
  ['bas', 'woods/basswood.html'],
  ['red o', /^woods\/red-oaks?\.html$/],
  // Slips of the finger and of the ear.
  ['shitake', 'mushrooms/shiitake.html'],
  ['lions main', 'mushrooms/lions-mane.html'],
  ['maitaki', 'mushrooms/maitake.html'],
  ['reshi', 'mushrooms/reishi.html'],
  ['quarcus', /^woods\/.*oak\.html$/],
  ['quarcus rubra', 'woods/red-oak.html'],
  ['inocluation', /^(winter\/inoculation\.html|terms\.html#term-inoculation)$/],
  // Questions in two words.
  ['lions mane beech', /^working\/pairings-lions-mane\.html#(.*-)?beech$/],
  ['oyster aspen', 'mushrooms/aspen-oyster.html'],
  ['alder shiitake', /^working\/pairings-shiitake\.html#(.*-)?alder$/],
  ['shiitake red oak', 'working/pairings-shiitake.html#red-oak'],
  ['maitake oak', /^working\/pairings-maitake\.html#.*oaks?$/],
  // Troubles.
  ['slugs', 'troubles/slugs.html'],
  ['maggots', 'troubles/maggots.html'],
  ['squirrels', 'troubles/spawn-picked-out.html'],
  ['deer', 'troubles/deer-browse.html'],
  ['bark falls off', 'troubles/bark-loose.html'],
  [['green mold', 'green mould'], /^troubles\/green-/],
  ['no mushrooms', /^troubles\/(never-fruited|no-flush-after-soak)\.html$/],
  // The sheets of the day, and how the work is done.
  ['felling', 'winter/felling.html'],
  ['order', 'winter/supply.html'],
  ['soak', /^(yard\/soak-rota|methods\/soaking)\.html$/],
  ['log tags', 'yard/log-tags.html'],
  ['stock-take', 'yard/cards.html'],
  ['walk sheet', 'yard/cards.html'],
  ['harvest', 'yard/harvests.html'],
  ['totem', 'methods/totem.html'],
  ['pocket', 'pocket.html'],
  // Terms.
  ['bolt', 'terms.html#term-bolt'],
  ['spawn run', 'terms.html#term-spawn-run'],
  ['dbh', 'terms.html#term-dbh'],
  // Cautions.
  ['kickback', 'safety.html#caution-saw-kickback'],
  ['ticks', 'safety.html#caution-ticks-lyme'],
  ['drowning', 'safety.html#caution-soak-drowning'],
  ['electric shock', 'safety.html#caution-drill-shock'],
];
/** What growers type, in their own words, and the pages of which one must come first or second. */
const ASKED = JSON.parse(await readFile(new URL('queries.json', import.meta.url), 'utf8'));
const MOST = 12;
/** Slips of many fingers, and the word that is nearest to each. */
const NEAREST = [['shhiitttaki', 'shiitake'], ['stroferria', 'stropharia']];
const NOTHING = 'zzqxjv';
const OPTIONS = '#found [role="option"]';
const QUESTION = 'lions mane beech';
const ANSWERS = /^working\/pairings-lions-mane\.html#(.*-)?beech$/;
const MONTHS = "(January|February|March|April|May|June|July|August|September|October|November|December)";
const INOCULATION = new RegExp(`inoculat\\w*\\b.{0,60}?(\\d{1,2} ${MONTHS}|${MONTHS} \\d{1,2})`, "is");
const RATINGS = /\b(thrives|does well|gets by|fails|mentioned|untried)\b/;
/** Every page in these folders has a name that A to Z must list. */
const NAMED = /^(mushrooms|woods|strains|methods|notes|stands|troubles)\/(?!index\.html$)/;
const TARGET = 44;
const OUTLINE = 2;
/** More stops than any page has. */
/** Numbers of logs that each have a row. */
const ONE_BY_ONE = 30;
const STOPS = 900;
const INDEX_A_HUNDRED_PAGES = 60_000;

const fits = (wanted, got) => (wanted instanceof RegExp ? wanted.test(got ?? '') : got === wanted);

/** Waits as long as a reader would; whether it came true is for a check to say. */
async function soon(page, holds, argument) {
  await page.waitForFunction(holds, argument, { timeout: 3000 }).catch(() => {});
}

/** On a telephone the finder opens from its tab. */
async function ready(page) {
  if (!(await page.locator('#find').isVisible())) await page.click('.to-find');
  await page.focus('#find');
  await soon(page, () => globalThis.finder?.search !== undefined);
}

async function options(page) {
  return page.locator(OPTIONS).evaluateAll((list) =>
    list.map((option) => ({ href: (option.closest('a') ?? option.querySelector('a')).href, height: option.getBoundingClientRect().height })),
  );
}

async function status(page) {
  await soon(page, () => document.querySelector('.find .count').textContent !== '');
  return page.locator('.find .count').innerText();
}

/** The table above, typed into the first page. */
async function lookUp(reader) {
  await reader.open('index.html', 'finder', { viewport: PHONE }, async (page) => {
    await ready(page);
    check(await page.locator('.find').isVisible(), 'index.html: the finder is not to be seen');
    const british = !(await page.evaluate(() => document.body.textContent.includes('US units')));
    for (const [words, wanted] of FIRST) {
      const typed = [words].flat().at(british ? -1 : 0);
      const there = wanted instanceof RegExp || reader.pages.includes(wanted.split('#')[0]);
      check(there, `finder: this guide has no page ${wanted} for "${typed}"`);
      await page.fill('#find', typed);
      const found = await options(page);
      const got = found.slice(0, 3).map(({ href }) => reader.nameOf(href));
      check(fits(wanted, got[0]), `finder: "${typed}" finds ${got.join(', ') || 'nothing'} and not ${wanted} first`);
      check(found.length <= MOST, `finder: "${typed}" offers ${found.length} at once, more than ${MOST}`);
    }
    for (const { query, answers, only } of ASKED) {
      if (only && !reader.guide.endsWith(only)) continue;
      await page.fill('#find', query);
      const got = (await options(page)).slice(0, 2).map(({ href }) => reader.nameOf(href));
      const right = got.some((name) => answers.some((answer) => name === answer || name.split('#')[0] === answer));
      check(right, `finder: "${query}" finds ${got.join(', ') || 'nothing'} and not ${answers.join(' or ')}`);
    }
    for (const [slip, word] of NEAREST) {
      await page.fill('#find', slip);
      await soon(page, (word) => document.querySelector('.find .count').textContent.includes(word), word);
      const told = await status(page);
      check(told.includes(`“${word}”`), `finder: "${slip}" is told "${told}", which does not offer ${word}`);
      check((await options(page)).length > 0, `finder: "${slip}" offers nothing`);
    }
  });
}

/** What a reader hears, presses and taps. */
async function handle(reader) {
  await reader.open('woods/red-oak.html', 'finder, by keys', { viewport: PHONE }, async (page) => {
    await ready(page);
    const open = () => page.evaluate(() => [!document.querySelector('#found').hidden, document.querySelector('#find').ariaExpanded]);
    const marked = () => page.evaluate(() => document.querySelector('#find').getAttribute('aria-activedescendant'));
    await page.fill('#find', 'oak');
    check(String(await open()) === 'true,true', 'finder: what is found is not shown, or not said to be');
    const found = await options(page);
    const low = found.find(({ height }) => height < TARGET);
    check(!low, `finder: an option is ${low?.height} px high at ${PHONE.width} px, less than ${TARGET}`);
    const said = await status(page);
    check(/^(\d+ of )?\d+ found$/.test(said), `finder: "oak" says "${said}"`);
    await axe(page, 'woods/red-oak.html', 'phone, finder open');
    const ids = await page.locator(OPTIONS).evaluateAll((list) => list.map((option) => option.id));
    await page.keyboard.press('ArrowDown');
    check((await marked()) === ids[0], 'finder: the first press of Down does not mark the first option');
    await page.keyboard.press('ArrowUp');
    check((await marked()) === ids.at(-1), 'finder: Up from the first option does not mark the last');
    const selected = await page.locator(`${OPTIONS}[aria-selected="true"]`).evaluateAll((list) => list.map((option) => option.id));
    check(String(selected) === ids.at(-1), `finder: the options ${selected} are selected, not the marked one alone`);
    await page.fill('#find', '');
    check(String(await open()) === 'false,false', 'finder: an empty field does not close the list');
    await page.fill('#find', 'oak');
    await page.keyboard.press('Escape');
    check(String(await open()) === 'false,false' && (await page.inputValue('#find')) === '', 'finder: Escape does not empty and close');
    await page.fill('#find', 'oak');
    await page.keyboard.press('Tab');
    const left = await page.evaluate(() => document.activeElement.id !== 'find' && document.activeElement.closest('#found') === null);
    check(left && String(await open()) === 'false,false', 'finder: Tab does not leave and close');
    await ready(page);
    await page.fill('#find', 'shiitake');
    await page.keyboard.press('Enter');
    await page.waitForURL(/shiitake\.html/, { timeout: 3000 }).catch(() => {});
    const came = reader.nameOf(page.url());
    check(came === 'mushrooms/shiitake.html', `finder: Enter on "shiitake" leads to ${came}`);
    await ready(page);
    await page.fill('#find', NOTHING);
    await soon(page, () => /nothing/i.test(document.querySelector('.find .count').textContent));
    const none = await page.locator('.find .count').innerText();
    check(/nothing found/i.test(none) && /A to Z/.test(none), `finder: where nothing is found it says "${none}"`);
    check(String(await open()) === 'false,false', 'finder: where nothing is found the list is open');
    await page.keyboard.press('Enter');
    await page.waitForURL(/a-to-z/, { timeout: 3000 }).catch(() => {});
    const gone = reader.nameOf(page.url());
    check(gone === 'a-to-z.html', `finder: Enter where nothing is found leads to ${gone}`);
  });
}

/** A grower asks on the first page; one tap on the first answer shows how well, and when. */
async function twoTaps(reader) {
  await reader.open('index.html', 'two taps', { viewport: PHONE, hasTouch: true, isMobile: true }, async (page) => {
    await page.tap('.to-find');
    await soon(page, () => globalThis.finder?.search !== undefined);
    await page.keyboard.type(QUESTION);
    await page.tap(`${OPTIONS} >> nth=0`, { timeout: 3000 });
    await page.waitForURL(/#/, { timeout: 3000 }).catch(() => {});
    const came = reader.nameOf(page.url());
    check(ANSWERS.test(came), `two taps: "${QUESTION}" leads to ${came}`);
    const answer = await page.evaluate(() => {
      const target = document.querySelector(':target');
      return { text: target?.innerText ?? '', top: target?.getBoundingClientRect().top, tall: innerHeight };
    });
    check(answer.top >= -1 && answer.top < answer.tall / 2, `two taps: the answer begins ${answer.top} px down the screen`);
    check(RATINGS.test(answer.text), `two taps: no rating in words in ${came}`);
    check(INOCULATION.test(answer.text), `two taps: no date of inoculation in ${came}`);
  });
}

/** Without script every page still leads to a list of all names. */
async function aToZ(reader) {
  for (const name of reader.pages.filter((page) => !page.startsWith('handouts/'))) {
    const html = await readFile(join(reader.guide, name), 'utf8');
    const tabs = html.match(/<nav class="thumb".*?<\/nav>/s)?.[0] ?? '';
    const up = '../'.repeat(name.split('/').length - 1);
    check(tabs.includes(`href="${up}a-to-z.html"`), `${name}: its tabs do not lead to a-to-z.html`);
  }
  await reader.open('a-to-z.html', 'without script', { viewport: NARROW, javaScriptEnabled: false }, async (page) => {
    check(!(await page.locator('.find').isVisible()), 'a-to-z.html: the finder shows without script');
    const links = await page.locator('main li a').evaluateAll((list) => list.map((link) => ({ text: link.textContent, href: link.href })));
    const key = ({ text }) => text.normalize('NFD').replaceAll(/[\p{M}'’]/gu, '').toLowerCase().match(/[\p{L}\p{N}]+/gu)?.join(' ') ?? '';
    const wrong = links.findIndex((link, i) => i > 0 && key(link) < key(links[i - 1]));
    check(wrong < 0, `a-to-z.html: "${links[wrong]?.text}" stands after "${links[wrong - 1]?.text}"`);
    const listed = new Set(links.map(({ href }) => reader.nameOf(href).split('#')[0]));
    const missing = reader.pages.filter((name) => NAMED.test(name) && !listed.has(name));
    check(missing.length === 0, `a-to-z.html: ${missing.length} pages are not listed, first ${missing[0]}`);
  });
}

/** How a stop of the keyboard looks: its outline, and whether it lies in the open. */
function stop() {
  const element = document.activeElement;
  if (!element || element === document.body) return undefined;
  const { outlineStyle, outlineWidth } = getComputedStyle(element);
  const bar = document.querySelector('.thumb');
  const covers = bar && getComputedStyle(bar).position === 'fixed' && !bar.contains(element);
  const { top: barTop, left: barLeft, width: barWidth } = bar?.getBoundingClientRect() ?? {};
  const floor = covers && barWidth > innerWidth / 2 ? barTop : innerHeight;
  const wall = covers && barWidth <= innerWidth / 2 ? barLeft : innerWidth;
  const { left, right, top, bottom } = element.getBoundingClientRect();
  const within = (from, to, end) => (to - from <= end ? from >= -1 && to <= end + 1 : from < end && to > 0);
  return {
    html: element.outerHTML.slice(0, 120),
    href: element.href ?? '',
    outline: outlineStyle === 'none' ? 0 : parseFloat(outlineWidth),
    leads: element.matches('[popovertarget]'),
    open: within(top, bottom, floor) && within(left, right, wall),
    box: [left, top, right, bottom].map(Math.round),
  };
}

/** Goes from stop to stop by Tab until a link leads to what is wanted, holds each stop to being seen, and presses Enter. */
async function tabTo(reader, page, wanted) {
  const from = reader.nameOf(page.url());
  const dim = [];
  const hidden = [];
  let there = false;
  for (let i = 0; i < STOPS && !there; i += 1) {
    await page.keyboard.press('Tab');
    const now = await page.evaluate(stop);
    if (!now) break;
    if (now.outline < OUTLINE) dim.push(`${now.outline} px ${now.html}`);
    if (!now.open) hidden.push(`${now.box} ${now.html}`);
    there = wanted.test(reader.nameOf(now.href));
    if (now.leads) await page.keyboard.press('Enter');
  }
  check(there, `${from}: Tab reaches no link to ${wanted}`);
  check(dim.length === 0, `${from}: ${dim.length} stops have an outline under ${OUTLINE} px, first ${dim[0]}`);
  check(hidden.length === 0, `${from}: ${hidden.length} stops are out of sight or under the tabs, first ${hidden.slice(0, 2).join(' | ')}`);
  if (!there) throw new Error(`the walk ends at ${from}`);
  await page.keyboard.press('Enter');
  await page.waitForURL((url) => wanted.test(reader.nameOf(url.href)), { timeout: 3000, waitUntil: 'load' });
}

async function walk(reader, how, viewport) {
  await reader.open('index.html', `keyboard, ${how}`, { viewport }, async (page) => {
    await tabTo(reader, page, /^pairings\.html$/);
    await tabTo(reader, page, /^woods\/(?!index)/);
    const wood = reader.nameOf(page.url());
    await tabTo(reader, page, /^working\/pairings-/);
    const came = await page.evaluate(() => document.querySelector(':target')?.getBoundingClientRect().top);
    check(came >= -1 && came < viewport.height / 2, `${reader.nameOf(page.url())}: what was asked for begins ${came} px down the screen`);
    await page.goBack();
    check(reader.nameOf(page.url()) === wood, `${wood}: going back leads to ${reader.nameOf(page.url())}`);
  });
}

/** The pairs of the table as the page's own marks tell them. */
function pairs() {
  const heads = Object.fromEntries([...document.querySelectorAll('.matrix thead [data-mushroom]')].map(({ dataset }) => [dataset.mushroom, dataset]));
  return [...document.querySelectorAll('.matrix tbody td')].map((cell) => {
    const { mushroom, rating, sources, agree } = cell.dataset;
    const { methods = '', months = '' } = heads[mushroom] ?? {};
    return {
      wood: cell.closest('tr').dataset.wood,
      mushroom,
      rating: rating === undefined ? -1 : Number(rating),
      sources: Number(sources ?? 0),
      agree: agree !== undefined,
      methods: methods.split(' '),
      months: months.split(' '),
    };
  }).filter((pair) => pair.rating >= 0 || pair.sources > 0);
}

const HOLDS = {
  wood: (pair, woods) => woods.includes(pair.wood),
  method: (pair, [method]) => pair.methods.includes(method),
  month: (pair, [month]) => pair.months.includes(month),
  least: (pair, [least]) => pair.rating >= Number(least),
  sources: (pair, [sources]) => (sources === 'agree' ? pair.agree : pair.sources >= Number(sources)),
};

async function set(page, field, values) {
  if (field !== 'wood') {
    await page.selectOption(`.choose [name="${field}"]`, values[0]);
    return;
  }
  const slip = page.locator('.choose details:not([open]):has([name="wood"]) summary');
  if (await slip.count()) await slip.click();
  for (const value of values) await page.check(`.choose [name="wood"][value="${value}"]`);
}

/** What the page shows: the line that counts, and the pairs to be seen in the table or in the lists. */
async function shown(page) {
  return page.evaluate(() => {
    const seen = (element) => element.checkVisibility({ visibilityProperty: true });
    const cells = [...document.querySelectorAll('.matrix tbody td')].filter(({ dataset }) => dataset.rating || Number(dataset.sources) > 0);
    const items = [...document.querySelectorAll('.by-host [data-mushroom]')];
    return {
      line: document.querySelector('.choose .count').textContent,
      cells: cells.filter((cell) => [...cell.children].some(seen)).length,
      items: items.filter(seen).length,
    };
  });
}

/** Each filter alone and all together show what they should, and the address alone brings it back. */
async function choosing(reader) {
  await reader.open('pairings.html', 'choosing', { viewport: LAPTOP }, async (page) => {
    check(await page.locator('.choose').isVisible(), 'pairings.html: the filters are not to be seen');
    const all = await page.evaluate(pairs);
    const offered = await page.evaluate(() => {
      const values = (field) => [...document.querySelectorAll(`.choose [name="${field}"] option`)].map(({ value }) => value).filter(Boolean);
      const woods = [...document.querySelectorAll('.choose [name="wood"]')].map(({ value }) => value);
      return { wood: woods, method: values('method'), month: values('month'), least: values('least'), sources: values('sources') };
    });
    const tries = [
      { wood: offered.wood.slice(0, 1) },
      { wood: [offered.wood[0], offered.wood.at(-1)] },
      ...['method', 'month', 'least', 'sources'].flatMap((field) => offered[field].map((value) => ({ [field]: [value] }))),
      { wood: offered.wood.slice(0, 3), month: offered.month.slice(-3, -2), least: ['2'], sources: ['2'] },
    ];
    for (const wanted of tries) {
      const told = JSON.stringify(wanted);
      await page.click('.choose [type="reset"]');
      await soon(page, () => !location.hash.includes('='));
      for (const [field, values] of Object.entries(wanted)) await set(page, field, values);
      const left = all.filter((pair) => Object.entries(wanted).every(([field, values]) => HOLDS[field](pair, values))).length;
      const line = `${left} of ${all.length} pair`;
      const now = await shown(page);
      check(now.line.startsWith(line), `pairings.html: ${told} says "${now.line}", not "${line}s"`);
      check(now.cells === left, `pairings.html: ${told} shows ${now.cells} pairs in the table, not ${left}`);
      const hash = new URLSearchParams((await page.evaluate(() => location.hash)).slice(1));
      const kept = Object.entries(wanted).every(([field, values]) => hash.get(field) === values.join(' '));
      check(kept, `pairings.html: ${told} stands in the address as "${hash}"`);
    }
    const before = await shown(page);
    await page.setViewportSize(PHONE);
    await page.reload();
    // A telephone shows the table as well, and the list one tap away.
    await page.locator('.by-host').evaluate((slip) => (slip.open = true));
    const after = await shown(page);
    check(after.line === before.line, `pairings.html: "${before.line}" becomes "${after.line}" when the address is opened anew`);
    check(after.items === before.cells, `pairings.html: a phone lists ${after.items} pairs, not ${before.cells}`);
    const ticked = await page.locator('.choose [name="wood"]:checked').evaluateAll((boxes) => boxes.map(({ value }) => value));
    const chosen = await page.locator('.choose select').evaluateAll((fields) => Object.fromEntries(fields.map(({ name, value }) => [name, value])));
    const last = tries.at(-1);
    const same = String(ticked) === String(last.wood) && ['month', 'least', 'sources'].every((field) => chosen[field] === last[field][0]);
    check(same, `pairings.html: the fields come back as ${ticked} and ${JSON.stringify(chosen)}`);
    await page.click('.choose [type="reset"]');
    await soon(page, () => !location.hash.includes('='));
    const whole = await shown(page);
    check(whole.items === all.length, `pairings.html: after "Show everything" a phone lists ${whole.items} pairs, not ${all.length}`);
  });
}

/** A number of logs picks its row, or the next larger, in every table of the day's sheet; as far as thirty each has its own. */
async function picking(reader) {
  const name = 'winter/inoculation.html';
  await reader.open(name, 'picking', { viewport: LAPTOP }, async (page) => {
    check(await page.locator('.pick').isVisible(), `${name}: the field for the number of logs is not to be seen`);
    const tables = () => page.evaluate(() => [...document.querySelectorAll('table.rows')].map((table) =>
      [...table.querySelectorAll('tr[data-logs]')].map((row) => ({ logs: Number(row.dataset.logs), seen: row.checkVisibility() }))));
    const counts = (await tables())[0]?.map(({ logs }) => logs) ?? [];
    const [least, most] = [Math.min(...counts), Math.max(...counts)];
    const between = counts.map((count) => count + 1).find((count) => count < most && !counts.includes(count));
    const rowsRight = async (typed, how) => {
      for (const rows of await tables()) {
        const wanted = Math.min(...rows.map(({ logs }) => logs).filter((logs) => logs >= typed), Math.max(...rows.map(({ logs }) => logs)));
        const seen = rows.filter((row) => row.seen).map(({ logs }) => logs);
        check(String(seen) === String(wanted), `${name}: ${typed} logs ${how} show the rows ${seen}, not ${wanted}`);
      }
    };
    check(counts.length > 1, `${name}: no table has rows to pick`);
    const lacks = Array.from({ length: ONE_BY_ONE }, (_, i) => i + 1).filter((count) => !counts.includes(count));
    check(lacks.length === 0, `${name}: has no row for ${lacks.join(', ')} logs`);
    const usual = (await tables()).map((rows) => rows.filter(({ seen }) => seen).length);
    check(usual.every((rows) => rows > 1 && rows < ONE_BY_ONE), `${name}: shows ${usual.join(', ')} rows before any is asked for`);
    for (const typed of [least, 17, between, most, most + 1]) {
      await page.fill('.pick [name="logs"]', String(typed));
      await rowsRight(typed, 'typed');
      const line = await page.locator('.pick .count').innerText();
      const told = counts.includes(typed) ? /^The row for \d+ logs?\b/ : new RegExp(`none for ${typed}\\b`);
      check(told.test(line), `${name}: ${typed} logs typed, and it says "${line}"`);
    }
    await page.goto('about:blank');
    await page.goto(`${reader.url(name)}#logs=${between}`);
    await rowsRight(between, 'in the address');
    await page.click('.pick [type="reset"]');
    await soon(page, () => !location.hash.includes('='));
    const back = (await tables()).map((rows) => rows.filter(({ seen }) => seen).length);
    check(String(back) === String(usual), `${name}: "Show the usual rows" shows ${back.join(', ')}, not ${usual.join(', ')}`);
  });
}

/** One script, whose bytes the pages carry together. */
async function weigh(reader) {
  const scripts = (await readdir(reader.guide)).filter((file) => file.endsWith('.js'));
  check(String(scripts) === 'finder.js', `the scripts at the top of the guide are ${scripts}, not finder.js alone`);
  const { size } = await stat(join(reader.guide, 'finder.js'));
  const most = (INDEX_A_HUNDRED_PAGES * reader.pages.length) / 100;
  check(size <= most, `finder.js is ${size} bytes for ${reader.pages.length} pages, more than ${most}`);
}

await inspect((reader) => [
  () => walk(reader, 'phone', PHONE),
  () => lookUp(reader),
  () => choosing(reader),
  () => handle(reader),
  () => picking(reader),
  () => walk(reader, 'laptop', LAPTOP),
  () => twoTaps(reader),
  () => aToZ(reader),
  () => weigh(reader),
]);
