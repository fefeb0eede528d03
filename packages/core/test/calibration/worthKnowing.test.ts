import { describe, expect, it } from 'vitest';
import type { Aim } from '../../src/calibration/calibrationTarget.ts';
import type { Knob } from '../../src/calibration/knobs.ts';
import { worthKnowing } from '../../src/calibration/worthKnowing.ts';

const knob = (name: Knob['name'], path: string | null): Knob => ({ name, path }) as unknown as Knob;
const KNOBS = [
  knob('flow', 'heads.intake.flowMultiplier'),
  knob('friction', 'friction.multiplier'),
  knob('dyno', null),
];
/** One speed, so that a slope of torque is one of mean power: 200 N m, each residual a N m. */
const aims: readonly Aim[] = [{ kind: 'torque', rpm: 4000, measured: 200, sigma: 1 }];

describe('worthKnowing(knobs, target, covariance, jacobian)', () => {
  it('names the knob whose measurement leaves least, worked out by hand', () => {
    // 100 N m a unit of flow known to 0.04, 50 of friction known to 0.06: 2 and 1.5 % of 200 N m.
    const covariance = [
      [0.0016, 0, 0],
      [0, 0.0036, 0],
      [0, 0, 0.01],
    ];
    const found = worthKnowing(KNOBS, { aims }, covariance, [[100, 50, 200]]);
    expect(found).toMatchObject({ knob: 'flow', path: 'heads.intake.flowMultiplier' });
    expect(found?.sigmaPct).toBeCloseTo(2.5, 12);
    expect(found?.leftPct).toBeCloseTo(1.5, 12);
  });

  it('counts what goes together: knobs that the fit holds in balance leave little open', () => {
    // Perfectly opposed: what one adds the other takes, and mean power is known though neither knob is.
    const covariance = [
      [0.0016, -0.0032, 0],
      [-0.0032, 0.0064, 0],
      [0, 0, 0.01],
    ];
    expect(worthKnowing(KNOBS, { aims }, covariance, [[100, 50, 200]])).toBeNull();
  });

  it('names no figure of the model, which nobody can measure, though it leaves most open', () => {
    // 100 N m a unit of flow known to 0.02, 50 of friction known to 0.06: 1 and 1.5 % of 200 N m.
    const covariance = [
      [0.0004, 0, 0],
      [0, 0.0036, 0],
      [0, 0, 0.01],
    ];
    const found = worthKnowing(KNOBS, { aims }, covariance, [[100, 50, 200]]);
    expect(found).toMatchObject({ knob: 'flow' });
    expect(found?.leftPct).toBeCloseTo(1.5, 12);
  });

  it('names the dyno where what it reads is mixed up with what moves power', () => {
    // Friction, 1.5 % of 200 N m, is known as far as the dyno is: correlation 0.8 leaves 0.6 of it.
    const covariance = [
      [1e-8, 0, 0],
      [0, 0.0036, 0.0048],
      [0, 0.0048, 0.01],
    ];
    const found = worthKnowing(KNOBS, { aims }, covariance, [[100, 50, 200]]);
    expect(found).toMatchObject({ knob: 'dyno', path: null });
    expect(found?.leftPct).toBeCloseTo(0.9, 4);
  });

  it('is nothing for peak figures, which say nothing of a mean', () => {
    const peak: readonly Aim[] = [{ kind: 'power peak', rpm: 4000, measured: 200, sigma: 1 }];
    expect(worthKnowing(KNOBS, { aims: peak }, [[1]], [[1]])).toBeNull();
  });
});
