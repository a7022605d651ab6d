// Speaks to WebKit as the W3C's WebDriver has it, on a screen that nobody sees.

import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';

const PATIENCE = 30_000;
const ELEMENT = 'element-6066-11e4-a52e-4f735466cecf';
const KEYS = { ArrowDown: '\uE015', Enter: '\uE007', Escape: '\uE00C' };

/** A program that ends with this one, with all that it started. */
function child(command, args, env, stdio) {
  const started = spawn(command, args, { env, stdio, detached: true });
  const end = () => {
    try {
      process.kill(-started.pid);
    } catch {
      // It has ended by itself.
    }
  };
  process.once('exit', end);
  return { started, end };
}

/** The number of a screen that the server itself found free. */
async function screen(env) {
  const { started, end } = child('Xvfb', ['-displayfd', '3', '-screen', '0', '1280x1024x24', '-nolisten', 'tcp'], env, ['ignore', 'ignore', 'ignore', 'pipe']);
  const [told] = await once(started.stdio[3], 'data', { signal: AbortSignal.timeout(PATIENCE) });
  return { display: `:${String(told).trim()}`, end };
}

async function freePort() {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address();
  server.close();
  return port;
}

async function request(method, url, body) {
  const answer = await fetch(url, { method, body: body && JSON.stringify(body), signal: AbortSignal.timeout(PATIENCE) });
  const { value } = await answer.json();
  if (!answer.ok) throw new Error(`${value.error}: ${value.message}`);
  return value;
}

export class Session {
  constructor(root, capabilities, ends) {
    this.root = root;
    this.version = capabilities.browserVersion;
    this.ends = ends;
  }

  static async begin(env) {
    const { display, end } = await screen(env);
    const port = await freePort();
    const driver = child('WebKitWebDriver', ['--host=127.0.0.1', `--port=${port}`], { ...env, DISPLAY: display }, 'ignore');
    const root = `http://127.0.0.1:${port}/session`;
    const wanted = { 'webkitgtk:browserOptions': { args: ['--automation', '--javascript-can-open-windows-automatically=true'] } };
    const { sessionId, capabilities } = await answered(() => request('POST', root, { capabilities: { alwaysMatch: wanted } }));
    const session = new Session(`${root}/${sessionId}`, capabilities, [driver.end, end]);
    await session.bare();
    return session;
  }

  /** Goes over to a window without the tools above the page, since with them none is as narrow as a phone. */
  async bare() {
    const [first] = await this.ask('window/handles');
    await this.ask('execute/sync', { script: "open('about:blank', '_blank', 'popup,width=360,height=740')", args: [] });
    const handle = await answered(async () => {
      const others = (await this.ask('window/handles')).filter((each) => each !== first);
      if (others.length === 0) throw new Error('no window opens');
      return others[0];
    });
    await this.ask('window', { handle });
  }

  ask(what, body) {
    return request(body ? 'POST' : 'GET', `${this.root}/${what}`, body);
  }

  /** In the middle of the window, because the driver takes what lies under the bar of tabs for seen. */
  async askOf(selector, what, body) {
    const element = await this.ask('element', { using: 'css selector', value: selector });
    const script = "const [part] = arguments; (part.closest('select') ?? part).scrollIntoView({ block: 'center' });";
    await this.ask('execute/sync', { script, args: [element] });
    return this.ask(`element/${element[ELEMENT]}/${what}`, body);
  }

  async press(key) {
    const actions = ['keyDown', 'keyUp'].map((type) => ({ type, value: KEYS[key] }));
    await this.ask('actions', { actions: [{ type: 'key', id: 'keys', actions }] });
  }

  async size({ width, height }) {
    await this.ask('window/rect', { width, height });
  }

  async end() {
    await request('DELETE', this.root).catch(() => {});
    for (const end of this.ends) end();
  }
}

/** What an attempt gives once it no longer fails. */
async function answered(attempt) {
  for (const until = Date.now() + PATIENCE; ; await pause(50)) {
    try {
      return await attempt();
    } catch (error) {
      if (Date.now() > until) throw error;
    }
  }
}
