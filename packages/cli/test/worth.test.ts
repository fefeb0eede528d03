import type { ForecastSpread, UnknownWorth } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import { worthText } from '../src/render/spreadText.ts';
import { sampleCurve } from './sampleCurve.ts';

const PART = { assumed: 0.03, stated: 0.02, model: 0.05, scatter: 0, total: 0.062 };
const worth = (name: string, powerPct: number, change: Partial<UnknownWorth> = {}): UnknownWorth => ({
  path: name,
  name,
  kind: 'stated',
  settledBy: 'measuring',
  powerPct,
  ...change,
});
const SPREAD: ForecastSpread = {
  evidence: 'sheets',
  forecasts: 23,
  peak: null,
  points: [],
  power: PART,
  rest: { powerPct: 0.8, unknowns: 20 },
  worths: [
    worth('flow bench', 2.4),
    worth('heat.multiplier', 1.5, { kind: 'assumed', settledBy: 'pull' }),
    worth('engine.rod', 1.2, { kind: 'assumed' }),
    worth('compression', 0.6),
    worth('carburetor rating', 0.4),
    worth('cam phase', 0.3),
    worth('exhaust.returned', 0.04, { kind: 'assumed' }),
  ],
};

const CURVE = sampleCurve([3000], {
  assumed: ['heat.multiplier', 'engine.rod', 'exhaust.returned'].map((path) => ({
    path,
    value: 1,
    unit: '',
    spread: 0.1,
    reason: 'made up',
  })),
});

describe('what to measure first', () => {
  it('is a handful, worth most first, and says how many there are besides', () =>
    expect(worthText(SPREAD, CURVE, { width: 100, detail: 'normal' })).toBe(`\
Measure this first: flow bench (as stated), worth +/-2.4 % of power
then: engine.rod (assumed), worth +/-1.2 % of power
then: compression (as stated), worth +/-0.6 % of power
then: carburetor rating (as stated), worth +/-0.4 % of power
Calibrating on a pull settles the most: heat.multiplier (assumed), worth +/-1.5 % of power
22 others less, 20 of them together +/-0.8 %; --verbose lists them
`));

  it('is all that was looked at by itself where all is asked for', () => {
    const lines = worthText(SPREAD, CURVE, { width: 100, detail: 'verbose' }).trimEnd().split('\n');
    expect(lines).toHaveLength(SPREAD.worths.length + 1);
    expect(lines).toContain('then: cam phase (as stated), worth +/-0.3 % of power');
    expect(lines.at(-1)).toBe('20 others, moved together: +/-0.8 %');
  });

  it('is nothing where nothing is worth measuring', () =>
    expect(
      worthText({ ...SPREAD, worths: [worth('cam phase', 0.04)] }, CURVE, { width: 100, detail: 'verbose' }),
    ).toBe(''));
});
