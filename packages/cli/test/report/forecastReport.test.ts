import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { type ForecastReport, forecastReport } from '../../src/report/forecastReport.ts';
import { sampleCurve, samplePoint } from '../sampleCurve.ts';
import { sampleInspection, sampleTrace, sampleValves } from './sampleEngine.ts';

const RPM = [3000, 4000, 5000, 6000];

function sample(change: Partial<ForecastReport> = {}): ForecastReport {
  return {
    curve: sampleCurve(RPM),
    band: 'Band 3000 to 6000 rpm by 1000, chosen for the test.',
    inspection: sampleInspection(),
    fuel: { name: 'pump-93', octane: 93, knockSetsSpark: true },
    trace: () => sampleTrace(),
    valves: () => sampleValves(),
    counted: null,
    measured: null,
    spread: null,
    ...change,
  };
}

const text = (page: string): string =>
  page
    .replace(/<(style|svg)\b.*?<\/\1>/gs, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');

describe('forecastReport(report, units)', () => {
  it('gives the answer before anything else, then what it rests on', async () => {
    const words = text(await forecastReport(sample(), 'trade'));
    expect(words).toMatch(/^ sample - valvetide sample Peak 612 lb-ft at 5000 rpm, 685 hp at 6000 rpm/);
    expect(words).toContain(
      'Torque and power corrected to SAE J607 practice, 60 F / 29.92 inHg dry, factor 1.0123',
    );
    expect(words).toContain('Not a true peak: power still rises at the highest speed, 6000 rpm.');
  });

  it('has each chart once, with a title, a description and a table of its figures', async () => {
    const page = await forecastReport(sample(), 'trade');
    const figures = [...page.matchAll(/<figure id="([\w-]+)">(.*?)<\/figure>/gs)];
    expect(figures.map(([, id]) => id)).toEqual([
      'torque-and-power',
      'filling',
      'depression',
      'octane-margin',
      'pressure-loop',
      'valve-lift',
      'flow-used-intake',
      'flow-used-exhaust',
    ]);
    for (const [, id, inside] of figures) {
      expect(inside, id).toMatch(
        /<svg [^>]*role="img"[^>]*><title id="[\w-]+">[^<]+<\/title><desc id="[\w-]+">[^<]+/,
      );
      expect(inside, id).toMatch(/<details><summary>.*<table>.*<td/s);
    }
    const ids = [...page.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('shows every figure of every speed in the full table', async () => {
    const page = await forecastReport(sample(), 'si');
    const section = /<section id="figures">(.*?)<\/section>/s.exec(page)?.[1] ?? '';
    for (const name of ['torque', 'filling', 'octane', 'pumping', 'wall heat', 'energy error'])
      expect(section).toMatch(new RegExp(`<th scope="col" class="">${name}`));
    expect(section.match(/<th scope="row"[^>]*>3000</g)).toHaveLength(4);
  });

  it('shows nothing in inches, cfm or inches of mercury where results are in SI', async () => {
    const words = text(await forecastReport(sample(), 'si'));
    expect(words).toContain('Flow at full lift, 6.97 kPa');
    expect(words).toMatch(/l\/s at 5\.08 kPa/);
    const sheet = words.slice(words.indexOf('The engine as read'), words.indexOf('All figures by speed'));
    expect(sheet).not.toMatch(/\b(in|in2|in3|cfm|inHg|inH2O)\b/);
    expect(words).toContain('flow at 6.97 kPa. Bars');
  });

  it('lists assumed values, doubts, what is left out and the cautions', async () => {
    const warnings = [{ code: 'flow', path: 'heads.intake', message: 'lift beyond the sheet' }];
    const words = text(await forecastReport(sample({ curve: sampleCurve(RPM, { warnings }) }), 'trade'));
    expect(words).toContain('heads.intake: lift beyond the sheet');
    expect(words).toMatch(/engine ?\. rod\s+6\.385 in ± 0\.1 in\s+1\.65 times the stroke/);
    for (const caution of ['Clearance is checked by hand.', 'Over-rev.', 'Detonation.', 'The cell.'])
      expect(words).toContain(caution);
    expect(words).toContain('Local codes and the licensed trade decide. valvetide 0.1.0.');
    expect(words).toContain('valve float, spring surge');
  });

  it('marks speeds that did not settle and speeds that detonate', async () => {
    const points = RPM.map((rpm) =>
      samplePoint(rpm, { status: rpm === 4000 ? 'unsettled' : 'settled', detonates: rpm === 3000 }),
    );
    const page = await forecastReport(sample({ curve: sampleCurve(RPM, { points }) }), 'trade');
    expect(page).toContain('>4000 ?<');
    expect(page).toMatch(/>98\.0!</);
  });

  it('allows the browser neither network nor script, and knows its one style sheet by digest', async () => {
    const page = await forecastReport(sample(), 'trade');
    const style = /<style>(.*?)<\/style>/s.exec(page)?.[1] ?? '';
    const digest = createHash('sha256').update(style).digest('base64');
    expect(page).toContain(
      `content="default-src 'none'; style-src 'sha256-${digest}'; base-uri 'none'; form-action 'none'"`,
    );
    expect(page).not.toMatch(/<script|<link|<iframe|<img| on\w+=|javascript:|@import|url\((?!#)| style="/i);
    // Names of vocabularies are no addresses that anything is loaded from.
    expect(page.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:|\/\/[a-z]/i);
  });

  it('needs one speed only', async () => {
    const page = await forecastReport(sample({ curve: sampleCurve([5000]) }), 'trade');
    expect(page).not.toMatch(/NaN|Infinity|undefined/);
  });
});

describe('a hostile name', () => {
  const names = [
    '<script>alert(1)</script>',
    `"'><img src=x onerror=alert(1)>`,
    '</title></style></svg><script>alert(1)</script><!--',
    'محرك السباق \u202eneddih\u202c',
    'x'.repeat(5000),
    '&lt;b&gt; {{2}} \u0000',
  ];
  const own = /<[!/]?([a-zA-Z][\w-]*)/g;

  it.each(names)('is text wherever it stands, %#', async (name) => {
    const hostile = sample({
      curve: sampleCurve(RPM, {
        combination: name,
        assumed: [{ path: name, value: name, unit: name, spread: 1, reason: name }],
        warnings: [{ code: 'x', path: name, message: name }],
      }),
      band: name,
      inspection: sampleInspection({ combination: name }),
    });
    const page = await forecastReport(hostile, 'trade');
    const tags = (markup: string): string[] =>
      [...new Set([...markup.matchAll(own)].map(([, tag]) => tag))].sort();
    const harmless = await forecastReport(
      sample({
        curve: sampleCurve(RPM, {
          assumed: [{ path: 'a', value: 1, unit: '', spread: 1, reason: 'b' }],
          warnings: [{ code: 'x', path: 'a', message: 'b' }],
        }),
      }),
      'trade',
    );
    expect(tags(page)).toEqual(tags(harmless));
    expect(page).not.toMatch(/(?!\n)[\p{Cc}\p{Cf}]/u);
    const shown = name
      .replaceAll('\u202e', '\\u202e')
      .replaceAll('\u202c', '\\u202c')
      .replaceAll('\u0000', '\\u0000');
    const read = page
      .replaceAll('&lt;', '<')
      .replaceAll('&gt;', '>')
      .replaceAll('&quot;', '"')
      .replaceAll('&#39;', "'")
      .replaceAll('&amp;', '&');
    // Heading, title of the page, band, ledger and warning.
    expect(read.split(shown).length - 1).toBeGreaterThanOrEqual(7);
  });
});
