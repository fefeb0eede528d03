/** What is put in the place of lines a cam card leaves out. */

import { describe, expect, it } from 'vitest';
import { buildLobe } from '../../src/geometry/lobe.ts';
import { lobeDuration } from './lobeMeasures.ts';
import { card, IN } from './lobes.ts';

describe('estimates for what a card leaves out', () => {
  // Common practice, no source: duration at 0.050 less duration at 0.200 in is 78 to 92 deg on flat tappets, 66 to 78 on rollers.
  it.each([
    [268, 0.006, 224, 0.318, 'flat', 78, 92],
    [284, 0.02, 250, 0.36, 'flat', 78, 92],
    [282, 0.006, 230, 0.36, 'roller', 66, 78],
    [300, 0.02, 270, 0.45, 'roller', 66, 78],
  ] as const)(
    'a lobe of %f deg advertised at %f in, %f at 0.050, %f in lift, %s, loses %f to %f deg up to 0.200',
    (advertised, height, standard, lift, follower, least, most) => {
      const lobe = buildLobe(
        card(
          [
            [advertised, height],
            [standard, 0.05],
          ],
          lift,
        ),
        follower,
      );
      const difference = standard - lobeDuration(lobe, 0.2 * IN);
      expect(difference).toBeGreaterThanOrEqual(least);
      expect(difference).toBeLessThanOrEqual(most);
      expect(lobe.estimated.map((point) => point.lift / IN)).toEqual([expect.closeTo(0.2, 9)]);
    },
  );

  // Common practice, no source: advertised less 0.050 is 52 to 66 deg on hydraulic flat tappets, 50 to 56 on hydraulic rollers.
  it.each([
    ['flat', 52, 66],
    ['roller', 50, 56],
  ] as const)(
    'a card without advertised duration gets the usual ramp of a %s follower',
    (follower, least, most) => {
      const lobe = buildLobe(card([[224, 0.05]], 0.34), follower);
      const extra = lobeDuration(lobe, 0.006 * IN) - 224;
      expect(extra).toBeGreaterThanOrEqual(least);
      expect(extra).toBeLessThanOrEqual(most);
      expect(lobe.estimated.length).toBe(2);
    },
  );

  it('carries the first two lines of a low lobe on to its seat by the power law of ramps', () => {
    const lines: [number, number][] = [
      [240, 0.006],
      [200, 0.05],
    ];
    const lobe = buildLobe(card(lines, 0.19), 'flat');
    expect(lobe.estimated).toEqual([]);
    // 20 deg of gap over (0.050 / 0.006)^(1 / 2.5) - 1 = 1.33522, in front of half of 240 deg.
    expect(lobe.openingHalf).toBeCloseTo(120 + 14.979, 3);
  });

  it('estimates nothing where the card tells enough', () => {
    expect(
      buildLobe(
        card(
          [
            [282, 0.006],
            [230, 0.05],
            [158, 0.2],
          ],
          0.36,
        ),
      ).estimated,
    ).toEqual([]);
  });

  it('draws a roller fuller than a flat tappet from the same card', () => {
    const same = card(
      [
        [282, 0.006],
        [230, 0.05],
      ],
      0.36,
    );
    const [flat, roller] = (['flat', 'roller'] as const).map((follower) =>
      lobeDuration(buildLobe(same, follower), 0.2 * IN),
    );
    expect(roller - flat).toBeGreaterThan(8);
    expect(roller - flat).toBeLessThan(16);
  });
});
