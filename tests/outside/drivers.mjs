// The three engines that a phone may have, each opened and handled alike.
//
// Each has a `name` and a `version`; `open` an address, `reload` it, `run` a function in the page and have what it returns,
// `type` into a field, `click`, `pick` a value of a list, `press` a key, `size` the window, and `close` it all. `paper` gives the
// page as a PDF, and is missing where the engine cannot be told to print.

import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { launch } from './chrome.mjs';
import { Session } from './webkit.mjs';

const require = createRequire(new URL('../../.tools/node/', import.meta.url));

/** A call as text, because a page's policy lets no function be made from its own. */
const called = (use, args) => `(${use})(...${JSON.stringify(args)})`;

/** Without leaving the field, as WebDriver's own way would, since that closes the finder. */
function empty(field) {
  document.querySelector(field).value = '';
}

async function chromium(home) {
  const browser = await launch({ env: at(home) });
  const page = await browser.newPage();
  return {
    name: 'chromium',
    version: browser.version(),
    open: (url) => page.goto(url),
    reload: () => page.reload(),
    run: (use, ...args) => page.evaluate(called(use, args)),
    type: (field, text) => page.fill(field, text),
    click: (what) => page.click(what),
    pick: (field, value) => page.selectOption(field, value),
    press: (key) => page.keyboard.press(key),
    size: (window) => page.setViewportSize(window),
    paper: () => page.pdf({ preferCSSPageSize: true }),
    close: () => browser.close(),
  };
}

async function firefox(home) {
  const { default: puppeteer } = await import(pathToFileURL(require.resolve('puppeteer-core')).href);
  const browser = await puppeteer.launch({
    browser: 'firefox',
    executablePath: process.env.FIREFOX ?? '/usr/bin/firefox-esr',
    userDataDir: home,
    env: at(home),
    // A phone's bars to scroll by take no room.
    extraPrefsFirefox: { 'ui.useOverlayScrollbars': 1 },
  });
  const page = await browser.newPage();
  return {
    name: 'firefox',
    version: (await browser.version()).replace(/^.*\//, ''),
    open: (url) => page.goto(url),
    reload: () => page.reload(),
    run: (use, ...args) => page.evaluate(called(use, args)),
    async type(field, text) {
      await page.evaluate(called(empty, [field]));
      await page.type(field, text);
    },
    click: (what) => page.click(what),
    pick: (field, value) => page.select(field, value),
    press: (key) => page.keyboard.press(key),
    size: (window) => page.setViewport(window),
    paper: () => page.pdf({ preferCSSPageSize: true }),
    close: () => browser.close(),
  };
}

async function webkit(home) {
  const session = await Session.begin(at(home));
  return {
    name: 'webkit',
    version: session.version,
    open: (url) => session.ask('url', { url }),
    reload: () => session.ask('refresh', {}),
    run: (use, ...args) => session.ask('execute/sync', { script: `return ${called(use, args)}`, args: [] }),
    async type(field, text) {
      await this.run(empty, field);
      await session.askOf(field, 'value', { text });
    },
    click: (what) => session.askOf(what, 'click', {}),
    pick: (field, value) => session.askOf(`${field} option[value="${value}"]`, 'click', {}),
    press: (key) => session.press(key),
    size: (window) => session.size(window),
    close: () => session.end(),
  };
}

/** What an engine keeps goes where it is swept up afterwards, and nothing of the reader's own is seen. */
function at(home) {
  const { DISPLAY, WAYLAND_DISPLAY, DBUS_SESSION_BUS_ADDRESS, ...env } = process.env;
  const folders = { HOME: '', XDG_CONFIG_HOME: 'config', XDG_CACHE_HOME: 'cache', XDG_DATA_HOME: 'data', TMPDIR: '' };
  for (const [name, folder] of Object.entries(folders)) env[name] = join(home, folder);
  return { ...env, LC_ALL: 'C.UTF-8' };
}

export const ENGINES = [chromium, firefox, webkit];
