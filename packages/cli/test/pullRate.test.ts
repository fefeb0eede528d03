/** What pulls hold back, as people read it beside a calibration, a back-test and a forecast. */
import { readFileSync } from 'node:fs';
import type { HeldBack } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import { CORE } from '../src/core.ts';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { backtestHeldBack } from '../src/render/backtestText.ts';
import { heldBackLine } from '../src/render/pullRate.ts';
import { world } from './fakeIo.ts';
import { measuringCore } from './measuredRunner.ts';
import { sampleBacktest } from './report/sampleStudies.ts';

const HELD: HeldBack = {
  rates: [300],
  inertia: 0.28,
  inertiaSpread: 0.098,
  reason: 'by bore and stroke',
  torqueNm: 8.796,
};

const example = (name: string): string =>
  readFileSync(new URL(`../../../examples/hill-climb/${name}`, import.meta.url), 'utf8');

/** Words of a command over the example's engine and its pulls, with a line more in their head. */
async function said(words: readonly string[], line = '# sweep rate: 300 rpm/s'): Promise<string> {
  const names = ['engine.yaml', 'flow.csv'];
  const files = Object.fromEntries(names.map((name) => [name, example(name)]));
  const pulls = (name: string): string => example(name).replace('# standard', `${line}\n# standard`);
  const w = world({
    files: {
      ...files,
      'pulls.csv': pulls('pulls.csv'),
      'after.csv': pulls('pulls-mufflers.csv').replace('300 rpm/s', '600 rpm/s'),
    },
  });
  const code = await main(words, w.io, measuringCore(CORE));
  if (code !== EXIT.ok && code !== EXIT.input) throw new Error(w.err());
  return w.out().replace(/\s+/g, ' ');
}

describe('what a pull holds back', () => {
  it('is told with its rate, its amount and what it rests on, in the units asked for', () => {
    expect(heldBackLine(HELD, 'trade')).toBe(
      'Measured torque is brought to steady running: a pull that rises by 300 rpm/s holds back 6.5 lb-ft, taken by what turns with the crank (6.6 lb-ft2, assumed, give or take 2.3 lb-ft2; engine.inertia states it).',
    );
    expect(heldBackLine({ ...HELD, inertiaSpread: null, reason: null }, 'si')).toBe(
      'Measured torque is brought to steady running: a pull that rises by 300 rpm/s holds back 8.8 Nm, taken by what turns with the crank (0.28 kg m2, as the file states).',
    );
    expect(heldBackLine(null, 'trade')).toBe('');
  });

  it('comes back where speed falls, and is a mean of pulls at several rates', () => {
    expect(heldBackLine({ ...HELD, rates: [-300], torqueNm: -8.796 }, 'trade')).toContain(
      'a pull that falls by 300 rpm/s gives back 6.5 lb-ft,',
    );
    expect(heldBackLine({ ...HELD, rates: [300, 600], torqueNm: 13.19 }, 'trade')).toContain(
      'pulls of 300 to 600 rpm/s hold back 9.7 lb-ft in the mean,',
    );
  });

  it('of a back-test is told once where both sides have the same, else of each', () => {
    const of = (before: HeldBack | null, after: HeldBack | null) =>
      backtestHeldBack(sampleBacktest({ heldBack: { before, after } }), 'trade');
    expect(of(null, null)).toEqual([]);
    expect(of(HELD, HELD)).toEqual([heldBackLine(HELD, 'trade')]);
    const [before, after] = of(HELD, null);
    expect(before).toMatch(/^Before: measured torque is brought to steady running/);
    expect(after).toBe('After: nothing is said of how fast the pulls went, or nothing was held back.');
  });

  it('stands under the answer of calibrate, and nothing does where nobody says a rate', async () => {
    // 4.5 lb-ft2 of the six by the estimate: 0.190 kg m2 at 31.416 rad/s2, by the factor of that day's air, 1.04.
    const text = await said(['calibrate', 'engine.yaml', '--pull', 'pulls.csv']);
    expect(text).toContain('a pull that rises by 300 rpm/s holds back 4.6 lb-ft, taken by what turns');
    expect(await said(['calibrate', 'engine.yaml', '--pull', 'pulls.csv'], '')).not.toContain('holds back');
  });

  it('is in JSON and in the words of a back-test, each side by its own rate', async () => {
    const words = ['backtest', 'engine.yaml', '--change', 'exhaust.muffler.backPressure=1.3 psi'];
    const sheets = ['--before', 'pulls.csv', '--after', 'after.csv', '--band', '5000:7500'];
    const text = await said([...words, ...sheets]);
    expect(text).toContain(
      'Before: measured torque is brought to steady running: a pull that rises by 300 rpm/s',
    );
    expect(text).toContain(
      'After: measured torque is brought to steady running: a pull that rises by 600 rpm/s',
    );
    const { heldBack } = JSON.parse(await said([...words, ...sheets, '--json']));
    expect(heldBack.after.torqueNm / heldBack.before.torqueNm).toBeCloseTo(2, 1);
  });

  it('is added to what a forecast is held to, and said there', async () => {
    const words = ['forecast', 'engine.yaml', '--rpm', '6000', '--quick', '--pull', 'pulls.csv'];
    const text = await said(words);
    expect(text).toMatch(
      /in the mean\. Measured torque is brought to steady running: a pull that rises by 300 rpm\/s/,
    );
    const said300 = JSON.parse(await said([...words, '--json'])).measured;
    const silent = JSON.parse(await said([...words, '--json'], '')).measured;
    expect(silent.heldBack).toBeNull();
    expect(said300.bySpeed[0].measuredNm - silent.bySpeed[0].measuredNm).toBeCloseTo(
      said300.heldBack.torqueNm,
      6,
    );
  });
});
