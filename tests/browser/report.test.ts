import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchChromium } from './chromium.ts';
import { findBlemishes, findIntruders, findOverflow, groundLuminance } from './inPage.ts';
import { makeReport, makeSampleReports } from './makeReports.ts';

/** Reports by name: what to type and the charts that must come of it. */
const REPORTS: Readonly<Record<string, { words: readonly string[]; figures: readonly string[] }>> = {
  forecast: {
    words: [
      'forecast',
      'examples/hill-climb/engine.yaml',
      ...['--rpm', '3500:6500:1000', '--band', '4500:6500', '--pull', 'examples/hill-climb/pulls.csv'],
    ],
    figures: [
      'torque-and-power',
      'measured-difference',
      'filling',
      'depression',
      'octane-margin',
      'pressure-loop',
      'valve-lift',
      'flow-used-intake',
      'flow-used-exhaust',
    ],
  },
  'forecast in SI': {
    words: ['forecast', 'examples/minimum/engine.yaml', '--rpm', '2000:6000:2000', '--units', 'si'],
    figures: ['torque-and-power', 'filling', 'depression', 'octane-margin', 'pressure-loop', 'valve-lift'],
  },
  'two sheets of pulls': {
    words: ['pulls', 'examples/hill-climb/pulls.csv', 'examples/hill-climb/pulls-mufflers.csv'],
    figures: ['difference', 'torque', 'power', 'scatter'],
  },
  'sheet of pressures': {
    words: ['pressures', 'examples/scrambler/engine.yaml', '--trace', 'examples/scrambler/pressures.csv'],
    figures: ['intake-pressure', 'exhaust-pressure'],
  },
};

/** The charts of the studies' pages. */
const STUDIES: Readonly<Record<string, readonly string[]>> = {
  comparison: ['difference', 'torque', 'power', 'filling', 'depression', 'octane-margin'],
  sweep: ['swept-values', 'swept-curves'],
  'sweep of two': ['swept-values', 'swept-curves'],
  ranking: ['ranking', 'difference', 'pairs', 'torque-and-power', 'filling', 'depression', 'octane-margin'],
  choice: ['builds', 'money', 'choices'],
  restrictions: ['restrictions-by-speed', 'restrictions', 'beside-by-speed', 'filling-losses'],
  calibration: ['fit', 'fit-difference', 'knobs'],
  'back-test': ['gain', 'before-and-after', 'fit', 'fit-difference', 'knobs'],
};

const PAGES = [
  ...Object.entries(REPORTS).map(([name, { figures }]) => ({ name, figures })),
  ...Object.entries(STUDIES).map(([name, figures]) => ({ name, figures })),
];

const PHONE = { width: 400, height: 800 };
const DESK = { width: 1200, height: 900 };
/** Width of A4 less margins of 14 mm, in CSS pixels. */
const PAPER = { width: Math.round(((210 - 28) / 25.4) * 96), height: 1000 };

let browser: Browser;
const paths = new Map<string, string>();

beforeAll(async () => {
  browser = await launchChromium();
  for (const [name, { words }] of Object.entries(REPORTS)) paths.set(name, await makeReport(words));
  for (const [name, path] of Object.entries(await makeSampleReports())) paths.set(name, path);
}, 300_000);
afterAll(async () => browser?.close());

interface Opened {
  readonly page: Page;
  /** Everything the page asked for, its own file left out. */
  readonly requests: readonly string[];
  readonly complaints: readonly string[];
}

async function open(path: string, viewport = DESK, colorScheme: 'light' | 'dark' = 'light'): Promise<Opened> {
  const page = await browser.newPage({ viewport, colorScheme });
  const url = pathToFileURL(path).href;
  const requests: string[] = [];
  const complaints: string[] = [];
  page.on('request', (request) => {
    if (request.url() !== url) requests.push(request.url());
  });
  page.on('console', (message) => complaints.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('dialog', (dialog) => {
    complaints.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  await page.goto(url);
  return { page, requests, complaints };
}

/** Keeps a picture where SCREENS names a folder, for people to look at. */
async function keep(page: Page, name: string): Promise<Buffer> {
  const picture = await page.screenshot({ fullPage: true });
  const folder = process.env['SCREENS'];
  if (folder !== undefined) {
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, `${name.replaceAll(' ', '-')}.png`), picture);
  }
  return picture;
}

const NO_BLEMISH = { small: [], faint: [], outside: [], overlapping: [] };

describe.each(PAGES)('the page of a $name', ({ name, figures }) => {
  const path = (): string => paths.get(name) ?? '';

  it('has every chart, drawn, with its title and its table', async () => {
    const { page } = await open(path());
    for (const id of figures) {
      const figure = page.locator(`figure#${id}`);
      const drawing = figure.locator('svg').first();
      const box = await drawing.boundingBox();
      expect(box?.width, id).toBeGreaterThan(300);
      expect(box?.height, id).toBeGreaterThan(60);
      expect(await drawing.locator('path, line, rect').count(), id).toBeGreaterThan(3);
      expect(await figure.getByRole('img').first().getAttribute('aria-labelledby'), id).not.toBeNull();
      await figure.locator('summary').click();
      expect(await figure.locator('table').isVisible(), id).toBe(true);
      expect(await figure.locator('tbody tr').count(), id).toBeGreaterThan(0);
    }
    await page.close();
  });

  it('asks for nothing, and the browser has nothing to say about it', async () => {
    const { page, requests, complaints } = await open(path());
    await page.waitForTimeout(300);
    expect(requests).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it.each(['light', 'dark'] as const)('is readable on a %s ground', async (scheme) => {
    const { page } = await open(path(), DESK, scheme);
    const ground = await page.evaluate(groundLuminance);
    if (scheme === 'light') expect(ground).toBeGreaterThan(0.9);
    else expect(ground).toBeLessThan(0.2);
    expect(await page.evaluate(findBlemishes, { page: 13, drawing: 13 })).toEqual(NO_BLEMISH);
    const picture = await keep(page, `${name} ${scheme}`);
    expect(picture.length).toBeGreaterThan(20_000);
    await page.close();
  });

  it('fits a telephone of 400 pixels, its type still readable', async () => {
    const { page } = await open(path(), PHONE);
    const { needs, has, wide } = await page.evaluate(findOverflow);
    expect(wide).toEqual([]);
    expect(needs).toBeLessThanOrEqual(has);
    expect(await page.evaluate(findBlemishes, { page: 13, drawing: 11 })).toEqual(NO_BLEMISH);
    await keep(page, `${name} phone`);
    await page.close();
  });

  it('prints on paper: dark on white, nothing cut off at the edge', async () => {
    const { page } = await open(path(), PAPER, 'dark');
    await page.emulateMedia({ media: 'print' });
    expect(await page.evaluate(groundLuminance)).toBeGreaterThan(0.9);
    const { needs, has, wide } = await page.evaluate(findOverflow);
    expect(wide).toEqual([]);
    expect(needs).toBeLessThanOrEqual(has);
    // 11 pixels are 8 points.
    const { small, faint, outside, overlapping } = await page.evaluate(findBlemishes, {
      page: 11,
      drawing: 10,
    });
    expect({ small, faint, outside, overlapping }).toEqual(NO_BLEMISH);
    const sheet = await page.pdf({ format: 'A4', printBackground: false });
    const pages = sheet.toString('latin1').match(/\/Type ?\/Page\b/g)?.length ?? 0;
    expect(pages).toBeGreaterThan(0);
    expect(pages).toBeLessThanOrEqual(10);
    const folder = process.env['SCREENS'];
    if (folder !== undefined) writeFileSync(join(folder, `${name.replaceAll(' ', '-')}.pdf`), sheet);
    await page.close();
  });
});

describe('a combination with a hostile name', () => {
  const names = [
    '<script>alert(1)</script>',
    `"'><img src=x onerror=alert(1)>`,
    '</title></style></svg></script><script>alert(1)</script><!--',
    'محرك السباق',
    'W'.repeat(120),
  ];

  it.each(names)(
    'shows the name as text and runs nothing, %#',
    async (hostile) => {
      const text = `name: ${JSON.stringify(hostile)}
engine: { bore: 86 mm, stroke: 86 mm, cylinders: 4 }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2 }
`;
      const path = await makeReport(['forecast', 'hostile.yaml', '--rpm', '4000'], { 'hostile.yaml': text });
      const { page, requests, complaints } = await open(path, PHONE);
      await page.waitForTimeout(200);
      const { elements, text: shown, title } = await page.evaluate(findIntruders);
      expect(elements).toEqual([]);
      expect(requests).toEqual([]);
      expect(complaints).toEqual([]);
      expect(shown).toContain(hostile);
      expect(title).toBe(`${hostile} - valvetide`);
      const { wide } = await page.evaluate(findOverflow);
      expect(wide).toEqual([]);
      await page.close();
    },
    60_000,
  );

  it.each(names)(
    'shows the title and the pulls of a sheet as text, %#',
    async (hostile) => {
      const text = `# ${hostile}\n# standard: J607\n# pull: ${hostile}\nrpm,torque (lb-ft)\n4000,600\n5000,610\n`;
      const path = await makeReport(['pulls', 'a.csv', 'b.csv'], { 'a.csv': text, 'b.csv': text });
      const { page, requests, complaints } = await open(path, PHONE);
      await page.waitForTimeout(200);
      const { elements, text: shown } = await page.evaluate(findIntruders);
      expect(elements).toEqual([]);
      expect(requests).toEqual([]);
      expect(complaints).toEqual([]);
      // Quotes around a remark are a spreadsheet's, and are taken off as it is read.
      expect(shown).toContain(hostile.replace(/^["']+/, ''));
      expect((await page.evaluate(findOverflow)).wide).toEqual([]);
      await page.close();
    },
    60_000,
  );
});

describe('a drawing written by --svg', () => {
  it('shows by itself, light and dark', async () => {
    const { world } = await import('../../packages/cli/test/fakeIo.ts');
    const { main } = await import('../../packages/cli/src/main.ts');
    const { fakeCore } = await import('../../packages/cli/test/sampleCurve.ts');
    const w = world({ files: { 'engine.yaml': '' } });
    await main(
      ['forecast', 'engine.yaml', '--rpm', '3000,4000,5000', '--svg', 'curve.svg'],
      w.io,
      fakeCore(),
    );
    const url = `data:image/svg+xml;base64,${Buffer.from(w.files.get('curve.svg') ?? '').toString('base64')}`;
    for (const colorScheme of ['light', 'dark'] as const) {
      const page = await browser.newPage({ viewport: DESK, colorScheme });
      await page.goto(url);
      const ground = await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
      expect(ground).toBe(colorScheme === 'light' ? 'rgb(255, 255, 255)' : 'rgb(23, 23, 22)');
      expect(await page.locator('text').count()).toBeGreaterThan(5);
      await page.goto('about:blank');
      await page.setContent(`<img src="${url}">`);
      await keep(page, `svg ${colorScheme}`);
      await page.close();
    }
  });
});
