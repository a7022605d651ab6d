// Holds every page to carrying its policy, and plants in copies of pages what the policy must keep out.
//
// Usage: node policy.mjs GUIDE_DIR

import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { check, inspect, PHONE } from './chrome.mjs';

const POLICY = /^<!doctype html>\s*<html lang="en">\s*<head>\s*<meta charset="utf-8">\s*<meta http-equiv="Content-Security-Policy" content="([^"]*)">\s*<meta name="referrer" content="no-referrer">/;
const OPEN = /'unsafe-|\*|https?:|data:(?! *;)/;
const ELSEWHERE = 'https://planted.invalid';
const PLANTED = `
<img src="${ELSEWHERE}/picture.png" alt="" onerror="globalThis.planted = 'handler'">
<link rel="stylesheet" href="${ELSEWHERE}/style.css">
<script src="${ELSEWHERE}/script.js"></script>
<script>globalThis.planted = 'script';</script>
<style>main { --planted: yes; }</style>
<p id="styled" style="--planted: yes">planted</p>
<iframe src="${ELSEWHERE}/frame.html" title="planted"></iframe>`;

/** Inline script and style stand only where a hash names them. */
async function carries(reader) {
  for (const name of reader.pages) {
    const html = await readFile(join(reader.guide, name), 'utf8');
    const policy = html.match(POLICY)?.[1];
    check(policy !== undefined, `${name}: does not begin with its policy`);
    check(!OPEN.test(policy?.replace(/img-src [^;]*/, '') ?? ''), `${name}: its policy is open: ${policy}`);
    const inline = [...html.matchAll(/<(script|style)(?![^>]*\bsrc=)[^>]*>/g)].map(([tag]) => tag);
    check(name.startsWith('handouts/') || inline.length === 0, `${name}: holds ${inline[0]}`);
    const attribute = html.match(/<[a-z][^>]*\s(style|on[a-z]+)="[^>]*>/)?.[0];
    check(attribute === undefined, `${name}: holds ${attribute}`);
  }
}

async function keepsOut(reader, name) {
  const folder = await mkdtemp(join(tmpdir(), 'hostwood-planted-'));
  try {
    await cp(join(reader.guide, 'look'), join(folder, 'look'), { recursive: true });
    const html = await readFile(join(reader.guide, name), 'utf8');
    const file = join(folder, basename(name));
    const flat = html.replaceAll(/(href|src)="(?:\.\.\/)+look\//g, '$1="look/');
    await writeFile(file, flat.replace('</main>', `${PLANTED}</main>`));
    const context = await reader.browser.newContext({ viewport: PHONE, offline: true });
    const page = await context.newPage();
    const asked = [];
    page.on('response', (answer) => answer.url().startsWith(ELSEWHERE) && asked.push(answer.url()));
    page.on('requestfailed', (request) => {
      const why = request.failure()?.errorText ?? '';
      if (request.url().startsWith(ELSEWHERE) && !/csp|blocked/i.test(why)) asked.push(`${request.url()} (${why})`);
    });
    await page.addInitScript(() => {
      globalThis.kept = [];
      addEventListener('securitypolicyviolation', ({ effectiveDirective }) => globalThis.kept.push(effectiveDirective));
    });
    await page.goto(pathToFileURL(file).href, { waitUntil: 'load' });
    const found = await page.evaluate(() => ({
      ran: globalThis.planted,
      kept: [...new Set(globalThis.kept)].sort(),
      styled: [document.querySelector('main'), document.querySelector('#styled')].some((part) => getComputedStyle(part).getPropertyValue('--planted')),
      own: getComputedStyle(document.body).overflowWrap,
    }));
    check(asked.length === 0, `${name}: asks for ${asked.join(', ')}`);
    check(found.ran === undefined, `${name}: a planted ${found.ran} ran`);
    check(!found.styled, `${name}: a planted style holds`);
    check(found.own === 'break-word', `${name}: its own style does not hold`);
    const wanted = ['frame-src', 'img-src', 'script-src-elem', 'style-src-attr', 'style-src-elem'];
    check(wanted.every((part) => found.kept.includes(part)), `${name}: only ${found.kept.join(', ')} kept something out`);
    await context.close();
  } finally {
    await rm(folder, { recursive: true });
  }
}

await inspect(async (reader) => {
  const handouts = reader.pages.filter((name) => name.startsWith('handouts/')).slice(0, 1);
  const planted = ['index.html', 'mushrooms/shiitake.html', ...handouts];
  return [() => carries(reader), ...planted.map((name) => () => keepsOut(reader, name))];
});
