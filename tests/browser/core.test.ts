import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Curve, forecast, marchedPoints, readCombination } from '@valvetide/core';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchChromium } from './chromium.ts';
import { type Bundle, bundleCore } from './coreBundle.ts';

/** Sizes above which someone must ask why; raise them with a line in CHANGELOG.md [bytes]. */
const BUDGET = {
  /** A page that reads a combination and forecasts it. */
  forecast: { minified: 461_000, gzipped: 163_000 },
  /** All there is: studies, calibration, dyno sheets, the choice from a shelf. */
  whole: { minified: 783_000, gzipped: 269_000 },
};

// Timing is given: a search ends anywhere within its own threshold, on which the last digit of a power may decide.
const TEXT = `${readFileSync(join(import.meta.dirname, '../../examples/minimum/engine.yaml'), 'utf8')}
burn:
  timing: ca50
  ca50: 8 deg
`;
const RPM = [3000, 5000];

/** An address of our own: whatever is asked of it is answered here, nothing goes to a network. */
const PLACE = 'http://page.test';
const FORECAST = `
import { forecast, readCombination } from '${PLACE}/core.js';
const read = readCombination(${JSON.stringify(TEXT)}, { file: 'engine.yaml' });
if (!read.ok) throw new Error(JSON.stringify(read.problems));
const curve = forecast(read.value, { rpm: ${JSON.stringify(RPM)} });
`;
const FILES: Readonly<Record<string, string>> = {
  '/page.js': `${FORECAST}window.answer(JSON.stringify(curve));`,
  '/worker.js': `${FORECAST}postMessage(JSON.stringify(curve));`,
  '/start.js': `const worker = new Worker('${PLACE}/worker.js', { type: 'module' });
worker.onmessage = ({ data }) => window.answer(data);
worker.onerror = (error) => console.error(error.message);`,
};

describe('the library in a browser', () => {
  let browser: Browser;
  let bundle: Bundle;
  beforeAll(async () => {
    bundle = await bundleCore();
    browser = await launchChromium();
  }, 120_000);
  afterAll(async () => browser?.close());

  it('bundles without a part of Node, in one file that asks for no other', () => {
    expect(bundle.modules.length).toBeGreaterThan(100);
    expect(bundle.modules.filter((path) => /^node:|browser-external|polyfill/.test(path))).toEqual([]);
    expect(bundle.imports).toEqual([]);
  });

  it('stays within its size, and a page that forecasts takes two thirds of it', async () => {
    const kilo = (bytes: number): string => `${(bytes / 1000).toFixed(0)} kB`;
    const sizes = { forecast: await bundleCore(['readCombination', 'forecast']), whole: bundle };
    for (const [what, { minified, gzipped }] of Object.entries(sizes))
      console.info(`library in a browser, ${what}: ${kilo(minified)} minified, ${kilo(gzipped)} gzipped`);
    for (const what of ['forecast', 'whole'] as const) {
      expect(sizes[what].minified).toBeLessThanOrEqual(BUDGET[what].minified);
      expect(sizes[what].gzipped).toBeLessThanOrEqual(BUDGET[what].gzipped);
    }
    // What the guide says, to two in a hundred.
    const guide = readFileSync(join(import.meta.dirname, '../../docs/guide/embedding.md'), 'utf8');
    const said = [...guide.matchAll(/^\| .* \| (\d+) kB +\| (\d+) kB +\|$/gm)].map((row) =>
      row.slice(1).map(Number),
    );
    expect(said).toHaveLength(2);
    [sizes.forecast, sizes.whole].forEach(({ minified, gzipped }, i) => {
      expect(Math.abs(said[i][0] / (minified / 1000) - 1)).toBeLessThan(0.02);
      expect(Math.abs(said[i][1] / (gzipped / 1000) - 1)).toBeLessThan(0.02);
    });
  });

  it.each([
    ['page', '/page.js'],
    ['worker', '/start.js'],
  ])('forecasts in a %s what it forecasts here', async (_place, script) => {
    const page = await browser.newPage();
    const complaints: string[] = [];
    page.on('console', (message) => complaints.push(message.text()));
    page.on('pageerror', (error) => complaints.push(String(error)));
    await page.route('**/*', (route) => {
      const path = new URL(route.request().url()).pathname;
      if (path === '/')
        return route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>-</title>' });
      const body = path === '/core.js' ? bundle.code : FILES[path];
      return body === undefined ? route.abort() : route.fulfill({ contentType: 'text/javascript', body });
    });
    await page.goto(`${PLACE}/`);
    const answer = new Promise<string>((resolve) => {
      void page
        .exposeFunction('answer', resolve)
        .then(() => page.addScriptTag({ type: 'module', url: `${PLACE}${script}` }));
    });
    const curve: Curve = JSON.parse(await answer);
    const read = readCombination(TEXT, { file: 'engine.yaml' });
    if (!read.ok) throw new Error('the example must be sound');
    const here = forecast(read.value, { rpm: RPM });
    const points = marchedPoints(here);
    expect(curve.points.map(({ rpm }) => rpm)).toEqual(RPM);
    marchedPoints(curve).forEach((point, i) => {
      // Another version of the browser's engine rounds powers and exponentials otherwise in the last digit; the march may
      // then end a cycle sooner or later: each within its tolerance of 5e-5 of the periodic cycle, so twice that apart.
      for (const key of ['torqueNm', 'airflowKgPerH', 'peakPressureBar'] as const)
        expect(Math.abs(point[key] / points[i][key] - 1)).toBeLessThan(1e-4);
    });
    expect(curve.assumed).toEqual(JSON.parse(JSON.stringify(here.assumed)));
    expect(complaints).toEqual([]);
    await page.close();
  });
});
