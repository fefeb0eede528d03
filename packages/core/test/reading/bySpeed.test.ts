/** Values by engine speed: mixture, spark, and the camshafts of a variable timing. */
import { describe, expect, it } from 'vitest';
import { eachScaled as scaled, eachSum as sum } from '../../src/base/quantityArithmetic.ts';
import { atSpeed } from '../../src/combination/atSpeed.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { fileWith } from './files.ts';

function engineOf(sections: Readonly<Record<string, string>>): Combination {
  const read = readCombination(fileWith(sections), { file: 'e.yaml' });
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

function refusal(sections: Readonly<Record<string, string>>): readonly string[] {
  const read = readCombination(fileWith(sections), { file: 'e.yaml' });
  return read.ok ? [] : read.problems.map(problemLine);
}

const CAMS = '{ separation: 110 deg, intake: { centreline: { 2000 rpm: 100 deg, 6000 rpm: 112 deg } } }';

describe('a value by speed', () => {
  it('is read in any order, in any unit of speed, and goes straight between, held beyond', () => {
    const engine = engineOf({ mixture: '{ lambda: { 6000 rpm: 0.86, 3000 rpm: 0.92 } }' });
    const at = (rpm: number): number => atSpeed(engine, rpm).lambda;
    expect([1000, 3000, 4000, 6000, 9000].map(at)).toEqual([0.92, 0.92, expect.closeTo(0.9, 12), 0.86, 0.86]);
    // Where no speed is in question the middle stands for it.
    expect(engine.lambda).toBeCloseTo(0.89, 12);
    expect(engine.assumed.map(({ path }) => path)).not.toContain('mixture.lambda');
    const fuel = engineOf({ mixture: '{ airFuelRatio: { 3000 rpm: 13.2, 6000 rpm: 12.6 } }' });
    const one = engineOf({ mixture: '{ airFuelRatio: 13.2 }' });
    expect(atSpeed(fuel, 3000).lambda).toBeCloseTo(one.lambda, 12);
  });

  it('of spark that is one for all speeds needs no speed', () => {
    const { timing } = engineOf({ burn: '{ spark: 32 deg }' }).burn;
    expect(timing).toEqual({ mode: 'spark', rpm: [0], advance: [32] });
  });

  it('of spark says what a list of rpm and advance says', () => {
    const list = '{ spark: [{ rpm: 3000 rpm, advance: 30 deg }, { rpm: 6000 rpm, advance: 36 deg }] }';
    const table = engineOf({ burn: '{ spark: { 3000 rpm: 30 deg, 6000 rpm: 36 deg } }' });
    expect(table.burn.timing).toEqual(engineOf({ burn: list }).burn.timing);
  });

  it('turns the one camshaft with both lobes, and of two only its own', () => {
    const shared = engineOf({ cam: CAMS });
    const angles = ({ intake, exhaust }: Combination): readonly number[] => [
      intake.centreline,
      exhaust.centreline,
    ];
    expect(angles(shared)).toEqual([106, 114]);
    expect(angles(atSpeed(shared, 2000))).toEqual([100, 120]);
    expect(angles(atSpeed(shared, 7000))).toEqual([112, 108]);
    const own = engineOf({ cam: CAMS, heads: '{ valvesPerCylinder: 4 }' });
    expect(angles(atSpeed(own, 2000))).toEqual([100, 114]);
    const exhaust = CAMS.replace('intake', 'exhaust');
    expect(angles(atSpeed(engineOf({ cam: exhaust }), 6000))).toEqual([108, 112]);
  });

  it('leaves an engine without any as it is, the very same, but for the drops behind venturis', () => {
    const carbureted = engineOf({});
    expect(atSpeed(carbureted, 3000).induction).not.toEqual(carbureted.induction);
    const engine = engineOf({ induction: '{ throttle: { diameter: 70 mm } }' });
    expect(atSpeed(engine, 3000)).toBe(engine);
    expect(engine.bySpeed).toBeUndefined();
  });

  it('is scaled and added to speed by speed', () => {
    const table = { '3000 rpm': '30 deg', '6000 rpm': '36 deg' };
    expect(sum(table, '2 deg')).toEqual({ ok: true, value: { '3000 rpm': '32 deg', '6000 rpm': '38 deg' } });
    expect(scaled({ '3000 rpm': 0.9 }, 1.1)).toEqual({ ok: true, value: { '3000 rpm': 0.99 } });
    expect(sum({ '3000 rpm': '30 deg' }, 2).ok).toBe(false);
  });

  it.each([
    [
      { mixture: '{ lambda: { 3000: 0.9 } }' },
      'e.yaml:4:22 mixture.lambda.3000 needs the unit of its speed: 3000 rpm',
    ],
    [
      { mixture: '{ lambda: { 3000 upm: 0.9 } }' },
      "e.yaml:4:22 mixture.lambda.3000 upm is no speed such as 3000 rpm: '3000 upm'",
    ],
    [{ mixture: '{ lambda: {} }' }, 'e.yaml:4:12 mixture.lambda needs a speed with its value'],
    [
      { mixture: '{ lambda: rich }' },
      'e.yaml:4:12 mixture.lambda needs a value such as 0.87, or one by speed such as { 3000 rpm: 0.9, 6000 rpm: 0.86 }',
    ],
    [
      { mixture: '{ lambda: 12.9 }' },
      'e.yaml:4:12 mixture.lambda is impossible: 12.9 must be at most 1.6 (an air-fuel ratio? write airFuelRatio: 12.9)',
    ],
    [
      { mixture: '{ lambda: { 3000 rpm: 12.9 } }' },
      'e.yaml:4:22 mixture.lambda.3000 rpm is impossible: 12.9 must be at most 1.6 (an air-fuel ratio? write airFuelRatio: 12.9)',
    ],
    [
      { burn: '{ spark: { 3000 rpm: 34 } }' },
      'e.yaml:4:18 burn.spark.3000 rpm needs an angle with its unit, such as 34 deg: 34 alone could be anything',
    ],
    [
      { burn: '{ spark: { 3000 rpm: 34 deg, 3000.0 rpm: 35 deg } }' },
      'e.yaml:4:36 burn.spark.3000.0 rpm is a speed given twice',
    ],
    [
      { cam: '{ intake: { centreline: { 2000 rpm: 10 deg } } }' },
      "e.yaml:4:32 cam.intake.centreline.2000 rpm is impossible: '10 deg' is outside 60 deg to 170 deg",
    ],
    [
      { cam: '{ intake: { centreline: 106 } }' },
      'e.yaml:4:18 cam.intake.centreline needs a value such as 106 deg, or one by speed such as { 2000 rpm: 98 deg, 6000 rpm: 110 deg }: 106 alone could be anything',
    ],
  ])('is told what is wrong with it: %j', (sections, line) => {
    expect(refusal(sections)).toEqual([line]);
  });
});

describe('what is not forecast', () => {
  it.each([
    [{ nitrous: '{ jet: 100 hp }' }, 'e.yaml:4:1 nitrous speaks of nitrous oxide, which is not forecast'],
    [
      { induction: '{ turbocharger: yes }' },
      'e.yaml:4:14 induction.turbocharger speaks of forced induction, which is not forecast',
    ],
    [
      { induction: '{ boost: 8 psi }' },
      'e.yaml:4:14 induction.boost speaks of forced induction, which is not forecast',
    ],
    [
      { induction: '{ supercharger: { ratio: 1.2 } }' },
      'e.yaml:4:14 induction.supercharger speaks of forced induction, which is not forecast',
    ],
  ])('is named: %j', (sections, line) => {
    const hint =
      'engines here breathe the air around them; forecast this one without it, and leave the field out';
    expect(refusal(sections)).toEqual([`${line} (${hint})`]);
  });
});
