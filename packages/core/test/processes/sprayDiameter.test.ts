import { describe, expect, it } from 'vitest';
import { sprayDiameter } from '../../src/processes/sprayDiameter.ts';

/** Fuel over air by volume of gasoline at lambda 0.87: 1.2 kg/m3 over 750 kg/m3 over 12.8. */
const USUAL_LOAD = 1.25e-4;

describe('drops that air tears from a jet of fuel', () => {
  // In the units it was published in, dyn/cm, g/cm3, poise and um: 585/65 sqrt(22/0.75) = 48.74, and
  // 597 (0.005/sqrt(22 x 0.75))^0.45 (1000 x 1.25e-4)^1.5 = 597 x 0.04904 x 0.04419 = 1.29.
  it('measure 50 um where the air of a usual venturi is 65 m/s fast', () => {
    expect(sprayDiameter(65, USUAL_LOAD)).toBeCloseTo(50.03e-6, 7);
  });

  it('are as much coarser as the air is slower, and coarser where there is more of them', () => {
    const alone = (speed: number): number => sprayDiameter(speed, 0);
    expect(alone(20) / alone(60)).toBeCloseTo(3, 12);
    // A tenth of the air, as a booster's own, carries all of the fuel: 1.29 x 10^1.5 = 40.8 um more.
    expect(sprayDiameter(100, 10 * USUAL_LOAD) - alone(100)).toBeCloseTo(40.8e-6, 6);
  });
});
