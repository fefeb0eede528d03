/** The live page as a visitor meets it: one file, no network, the keyboard, a telephone and paper. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchChromium } from './chromium.ts';
import { findBlemishes, findOverflow } from './inPage.ts';

const root = join(import.meta.dirname, '../..');

describe('the live page', () => {
  let browser: Browser;
  let page: Page;
  let folder = '';
  const complaints: string[] = [];
  const asked: string[] = [];

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'valvetide-live-'));
    const file = join(folder, 'live-page.html');
    const made = spawnSync('node', ['tools/livePage.mjs', file], { cwd: root, encoding: 'utf8' });
    expect(made.status, made.stderr).toBe(0);
    browser = await launchChromium();
    page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    page.on('console', (message) => complaints.push(message.text()));
    page.on('pageerror', (error) => complaints.push(String(error)));
    page.on('request', (request) => asked.push(request.url()));
    await page.goto(pathToFileURL(file).href);
    await settled();
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const settled = () => page.waitForFunction(() => document.body.dataset['state'] === 'done');
  const answer = async (): Promise<string> => (await page.textContent('#answer')) ?? '';
  const line = (name: string) => page.getAttribute(`#curve .${name}`, 'points');
  const press = async (slider: string, key: string, times: number): Promise<void> => {
    await page.focus(slider);
    for (let i = 0; i < times; i++) await page.keyboard.press(key);
    await settled();
  };

  it('asks nothing of anybody: itself and its worker are all it loads', () => {
    expect(asked.map((url) => new URL(url).protocol)).toEqual(['file:', 'blob:']);
    expect(complaints).toEqual([]);
  });

  it('follows the keyboard: more compression is another curve and a gain, and the pinned one stays', async () => {
    const before = await line('base');
    await press('#s3', 'ArrowRight', 5);
    expect(await line('base')).toBe(before);
    expect(await line('now')).not.toBe(before);
    // Half a point of compression: the ideal cycle gains 1 to 2 %.
    const [, pct] = /^\+(\d\.\d) % mean power/.exec(await answer()) ?? [];
    expect(Number(pct)).toBeGreaterThan(0.3);
    expect(Number(pct)).toBeLessThan(3);
  });

  it('says how sure the gain is once the sliders rest, and draws it', async () => {
    await page.waitForSelector('#gain .ribbon', { state: 'attached' });
    expect(await answer()).toMatch(/% mean power\s\+\/-\s\d\.\d\s% against the pinned engine$/);
  });

  it('drops what is under way when a slider moves on', async () => {
    await page.focus('#s1');
    for (let i = 0; i < 6; i++) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Home');
    await settled();
    const points = ((await line('now')) ?? '').split(' ');
    expect(points).toHaveLength(6);
    expect(await page.locator('#s1').inputValue()).toBe('300');
  });

  it('names a limit that is broken: a short primary moves the power peak beyond the redline', async () => {
    await press('#s1', 'ArrowRight', 7);
    expect(await page.locator('#s1').inputValue()).toBe('440');
    expect(await page.textContent('#limits')).toContain('limits.redline is 9500 rpm');
  });

  it('pins the engine as set, and goes back to it', async () => {
    await page.click('#back');
    await settled();
    expect(await answer()).toBe('This is the pinned engine: move a slider.');
    await press('#s4', 'ArrowRight', 4);
    await page.click('#pin');
    await settled();
    expect(await answer()).toBe('This is the pinned engine: move a slider.');
    expect(await page.locator('#s4').inputValue()).toBe('100');
  });

  it.each([1280, 400])(
    'at %i px has nothing cut off, too small, too faint or beside the page',
    async (width) => {
      await page.setViewportSize({ width, height: 900 });
      await press('#s0', 'ArrowRight', 3);
      const blemishes = await page.evaluate(findBlemishes, { page: 12, drawing: 10 });
      expect(blemishes).toEqual({ small: [], faint: [], outside: [], overlapping: [] });
      const { needs, has, wide } = await page.evaluate(findOverflow);
      expect(wide).toEqual([]);
      expect(needs).toBeLessThanOrEqual(has);
    },
  );

  it('prints on one sheet, without sliders and with what they are set to', async () => {
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('#s0').isVisible()).toBe(false);
    expect(await page.locator('.row output').first().isVisible()).toBe(true);
    const pdf = (await page.pdf({ format: 'A4' })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    await page.emulateMedia({ media: 'screen' });
  });
});
