import type { Combination } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { world } from './fakeIo.ts';
import { fakeCore, lostPoint, sampleCurve, samplePoint } from './sampleCurve.ts';

/** The sample curve has 612 lb-ft at 5000 rpm and 600 at 4000 and 6000. */
const pulls = '# standard: J607\nrpm,torque (lb-ft)\n4000,600\n5000,600\n6000,600\n';
const files = { 'engine.yaml': 'engine: {}\n', 'pulls.csv': pulls };
const words = ['forecast', 'engine.yaml', '--rpm', '3000:6000:1000'];
const core = fakeCore({
  readCombination: () => ({
    ok: true,
    value: {
      correction: 'J607',
      units: 'trade',
      burn: { timing: { mode: 'knock-limited' } },
      fuel: { name: 'pump-93', researchOctane: 98, motorOctane: 88 },
    } as Combination,
  }),
});

async function forecast(more: readonly string[], extra: Readonly<Record<string, string>> = {}) {
  const w = world({ files: { ...files, ...extra } });
  const code = await main([...words, ...more], w.io, core);
  return { code, out: w.out(), words: w.out().replace(/\s+/g, ' '), err: w.err(), files: w.files };
}

describe('valvetide forecast --band', () => {
  it('tells the means over the band', async () => {
    // Torque 600, 612, 600: (600 + 2 x 612 + 600) / 4 by trapezia.
    const { code, words: text } = await forecast(['--band', '4000:6000']);
    expect(code).toBe(EXIT.ok);
    expect(text).toContain('Mean over 4000 to 6000 rpm: 606.0 lb-ft,');
  });

  it('has them in JSON and CSV, and shades the band', async () => {
    const { out } = await forecast(['--band', '4000:6000', '--json']);
    expect(JSON.parse(out).band).toMatchObject({ fromRpm: 4000, toRpm: 6000, measured: null });
    expect(JSON.parse(out).band.torqueNm / 1.3558179).toBeCloseTo(606, 3);
    const [header, first] = (await forecast(['--band', '4000:6000', '--csv'])).out.split('\r\n');
    expect(header).toMatch(/,bandFromRpm,bandToRpm,bandTorqueNm,bandPowerKw$/);
    expect(first).toMatch(/,4000,6000,821\.6/);
    const drawn = await forecast(['--band', '4000:6000', '--svg', 'a.svg']);
    expect(drawn.files.get('a.svg')).toContain('>band<');
  });

  it('widens the speeds that nobody named until they cover it', async () => {
    const w = world({ files });
    await main(['forecast', 'engine.yaml', '--band', '2600:7200', '--csv'], w.io, core);
    const speeds = w
      .out()
      .split('\r\n')
      .slice(1, -1)
      .map((line) => Number(line.split(',')[0]));
    expect([speeds[0], speeds[speeds.length - 1]]).toEqual([2500, 7200]);
  });

  it('says of a pull at the wheels that it is one', async () => {
    const sheet = { 'pulls.csv': pulls.replace('torque (', 'wheel torque (') };
    const { words: text } = await forecast(['--pull', 'pulls.csv'], sheet);
    expect(text).toContain('The sheet is at the wheels, where 10 to 16 % less');
    expect((await forecast(['--pull', 'pulls.csv'])).words).not.toContain('at the wheels');
  });

  it('refuses a band without a speed in it', async () => {
    const { code, err } = await forecast(['--band', '7000:8000']);
    expect(code).toBe(EXIT.usage);
    expect(err).toContain('--band 7000:8000: none of the speeds lies in it');
  });
});

describe('valvetide forecast --pull', () => {
  it('says how far the forecast is off the sheet, in the mean and by speed', async () => {
    // Off by 0, 2 and 0 %: root of 4 / 3, mean of 2 / 3.
    const { code, words: text, out } = await forecast(['--pull', 'pulls.csv']);
    expect(code).toBe(EXIT.ok);
    expect(text).toContain(
      'Measured: pulls.csv, one pull. The forecast of torque is off by 1.2 % (root mean square over 3 speeds), +0.7 % in the mean.',
    );
    expect(out).toMatch(/^ *5000 +600\.0 +612\.0 +\+12\.0 +\+2\.0$/m);
  });

  it('reads the sheet between its speeds, and nowhere else', async () => {
    const sheet = '# standard: J607\nrpm,torque (lb-ft)\n3500,500\n4500,700\n';
    const { out } = await forecast(['--pull', 'own.csv', '--json'], { 'own.csv': sheet });
    const { bySpeed, rootMeanSquarePct } = JSON.parse(out).measured;
    expect(bySpeed.map(({ rpm }: { rpm: number }) => rpm)).toEqual([4000]);
    expect(bySpeed[0].differencePct).toBeCloseTo(0, 4);
    expect(rootMeanSquarePct).toBeCloseTo(0, 4);
  });

  it('holds the means over a band to those of the sheet', async () => {
    const { words: text } = await forecast(['--pull', 'pulls.csv', '--band', '4000:6000']);
    expect(text).toContain('; measured 600.0 lb-ft,');
    // More speeds in the sheet than in the forecast change nothing: both are read at the same ones.
    const finer = pulls.replace('5000,600', '4500,700\n5000,600');
    const same = await forecast(['--pull', 'finer.csv', '--band', '4000:6000'], { 'finer.csv': finer });
    expect(same.words).toContain('; measured 600.0 lb-ft,');
    const further = await forecast(['--pull', 'pulls.csv', '--band', '3000:6000']);
    expect(further.words).not.toContain('; measured');
  });

  it('leaves CSV columns empty where the sheet has no speed', async () => {
    const [header, first, second] = (await forecast(['--pull', 'pulls.csv', '--csv'])).out.split('\r\n');
    expect(header).toMatch(
      /,measuredTorqueNm,torqueAboveMeasuredNm,torqueAboveMeasuredPct,rootMeanSquarePct$/,
    );
    expect(first).toMatch(/,,,,1\.15/);
    expect(second).toMatch(/,813\.49[^,]*,-?[^,]+,[^,]+,1\.15/);
  });

  it('leaves out a lost speed', async () => {
    const lossy = fakeCore({
      ...core,
      forecastOn: async (_open, _workers, _combination, { rpm }) =>
        sampleCurve(rpm, {
          points: rpm.map((n) => (n === 5000 ? lostPoint(n) : samplePoint(n))),
        }),
    });
    const w = world({ files });
    await main([...words, '--pull', 'pulls.csv', '--json'], w.io, lossy);
    const { bySpeed } = JSON.parse(w.out()).measured;
    expect(bySpeed.map(({ rpm }: { rpm: number }) => rpm)).toEqual([4000, 6000]);
  });

  it('puts measured marks and their difference on the page', async () => {
    const { files: written } = await forecast(['--pull', 'pulls.csv', '--report', 'out.html']);
    const page = written.get('out.html') ?? '';
    expect(page).toContain('>torque measured<');
    expect(page).toContain('<figure id="measured-difference">');
  });

  it.each([
    ['rpm,torque (lb-ft)\n4000,600\n5000,600\n', EXIT.input, 'say --standard'],
    [
      '# standard: J607\nrpm,torque (lb-ft)\n8000,600\n9000,600\n',
      EXIT.input,
      'has none of the speeds forecast',
    ],
    ['# standard: J1349\nrpm,torque (lb-ft)\n4000,600\n5000,600\n', EXIT.ok, ''],
  ])('takes %j as it should', async (sheet, code, complaint) => {
    const done = await forecast(['--pull', 'own.csv'], { 'own.csv': sheet });
    expect(done.err).toContain(complaint);
    expect(done.code).toBe(code);
  });
});
