import { describe, expect, it } from 'vitest';
import { type DynoSheet, readDynoSheet } from '../../src/dyno/dynoSheet.ts';
import { comparePulls, leastDifference } from '../../src/dyno/pullComparison.ts';
import { pullMean, smoothTorque } from '../../src/dyno/pullMean.ts';
import { summarisePulls } from '../../src/dyno/pullSummary.ts';
import type { Pull } from '../../src/dyno/readPull.ts';
import { recorrectSheet } from '../../src/dyno/recorrectSheet.ts';
import { randomFrom } from '../../src/numerics/random.ts';

function pull(name: string, points: readonly (readonly [rpm: number, torqueNm: number])[]): Pull {
  return {
    name,
    weather: null,
    points: points.map(([rpm, torqueNm]) => ({
      rpm,
      torqueNm,
      powerKw: (torqueNm * rpm * Math.PI) / 30_000,
      channels: {},
    })),
  };
}

function sheetOf(name: string, pulls: readonly Pull[]): DynoSheet {
  return { name, title: null, standard: 'J607', units: 'trade', pulls, ignored: [], notes: [] };
}

const SPEEDS = [3000, 3500, 4000, 4500, 5000];
/** A hill with its top at 4000. */
const hill = (rpm: number): number => 500 - ((rpm - 4000) / 100) ** 2;

/** `count` pulls whose points scatter by `sigma` of torque. */
function noisy(seed: number, count: number, sigma: number, factor = 1, shift = 0): Pull[] {
  const { normal } = randomFrom(seed);
  return Array.from({ length: count }, (_, i) =>
    pull(
      String(i + 1),
      SPEEDS.map(
        (rpm) => [rpm + i * shift, factor * hill(rpm + i * shift) * (1 + sigma * normal())] as const,
      ),
    ),
  );
}

describe('pulls of other speeds', () => {
  it('that share less than a round step are read in the middle of what they share', () => {
    const [a, b] = [
      pull('a', [
        [3000, 400],
        [3500, 420],
        [4010, 440],
      ]),
      pull('b', [
        [4005, 440],
        [4500, 450],
        [5000, 440],
      ]),
    ];
    const { points } = pullMean([a, b]);
    expect(points.map(({ rpm, pulls }) => [rpm, pulls])).toEqual([[4007.5, 2]]);
  });

  it('far apart are smoothed over the widest round step there is', () => {
    const wide = (shift: number) =>
      pull(
        'w',
        [0, 1, 2].map((i) => [3000 + shift + 4000 * i, 400] as const),
      );
    const { points, smoothedOver } = pullMean([wide(0), wide(500)]);
    expect(points.every(({ torqueNm }) => Math.abs(torqueNm - 400) < 1e-9)).toBe(true);
    expect(smoothedOver).toBeGreaterThanOrEqual(500);
  });
});

describe('pullMean(pulls)', () => {
  it('averages speed by speed and pools the scatter: 98 and 102 scatter by 2.83 % of 100', () => {
    const { points, repeatability, smoothedOver } = pullMean([
      pull('1', [
        [3000, 98],
        [4000, 98],
      ]),
      pull('2', [
        [3000, 102],
        [4000, 102],
      ]),
    ]);
    expect(points.map((p) => p.torqueNm)).toEqual([100, 100]);
    expect(repeatability?.deviation).toBeCloseTo(Math.sqrt(8) / 100, 12);
    expect(smoothedOver).toBe(0);
  });

  it('knows nothing of repeatability from one pull', () => {
    expect(
      pullMean([
        pull('1', [
          [3000, 98],
          [4000, 99],
        ]),
      ]).repeatability,
    ).toBeNull();
  });

  it('finds the scatter that was put in, within 20 % from 40 pulls', () => {
    expect(pullMean(noisy(1, 40, 0.005)).repeatability?.deviation).toBeCloseTo(0.005, 3);
  });

  it('reads pulls taken at different speeds at common ones, along their own straight lines', () => {
    const line = (rpm: number): number => 400 + (rpm - 3000) / 50;
    const at = (speeds: readonly number[]): [number, number][] => speeds.map((n) => [n, line(n)]);
    const { points, smoothedOver } = pullMean([
      pull('1', at([3010, 3490, 4020, 4510])),
      pull('2', at([3100, 3620, 4090, 4600])),
    ]);
    expect(smoothedOver).toBe(500);
    expect(points.map((p) => p.rpm)).toEqual([3500, 4000, 4500]);
    for (const p of points) expect(p.torqueNm).toBeCloseTo(line(p.rpm), 9);
  });

  it('counts speeds 15 rpm apart as one, reads closer rows and ragged pulls at round steps, about thirty of them', () => {
    const at = (speeds: readonly number[]) => speeds.map((rpm) => [rpm, hill(rpm)] as const);
    const rows = (from: number, step: number, count: number) =>
      at(Array.from({ length: count }, (_, i) => from + step * i));
    const mean = (...all: readonly (readonly (readonly [number, number])[])[]) =>
      pullMean(all.map((points, i) => pull(String(i + 1), points)));
    expect(mean(at([3000, 3500, 4000]), at([3015, 3485, 4000])).smoothedOver).toBe(0);
    expect(mean(at([3000, 3500, 4000]), at([3016, 3500, 4000])).smoothedOver).toBe(500);
    // Rows of 30 rpm are a logger's, rows of 31 are speeds that were held.
    expect(mean(rows(3000, 30, 40), rows(3000, 30, 40)).smoothedOver).toBe(100);
    expect(mean(rows(3000, 31, 40), rows(3000, 31, 40)).smoothedOver).toBe(0);
    // One pull of more than sixty rows is read at steps, of sixty at its own.
    expect(mean(rows(3000, 40, 60)).smoothedOver).toBe(0);
    const { points, smoothedOver } = mean(rows(2990, 40, 90));
    // 3560 rpm over thirty are 119.
    expect(smoothedOver).toBe(250);
    expect(points.map(({ rpm }) => rpm)).toEqual(Array.from({ length: 15 }, (_, i) => 3000 + 250 * i));
    expect(mean(rows(2990, 20, 90)).smoothedOver).toBe(100);
  });

  it('refuses pulls without a speed in common', () => {
    const apart = [
      pull('1', [
        [2000, 400],
        [2500, 410],
      ]),
      pull('2', [
        [4000, 400],
        [4500, 410],
      ]),
    ];
    expect(() => pullMean(apart)).toThrow('pulls with speeds in common');
  });
});

describe('smoothTorque(points, rpm, width)', () => {
  it('gives a straight line back exactly and says nothing beyond the ends', () => {
    const points = [3000, 3100, 3200, 3300].map((rpm) => ({ rpm, torqueNm: rpm / 10 }));
    expect(smoothTorque(points, 3150, 200)).toBeCloseTo(315, 9);
    expect(smoothTorque(points, 3500, 200)).toBeNull();
  });
});

describe('summarisePulls(sheet)', () => {
  it('gives peaks, and the mean over a band', () => {
    const { mean, pulls, repeatability } = summarisePulls(sheetOf('a', noisy(2, 3, 0.004)), {
      band: { fromRpm: 3500, toRpm: 4500 },
    });
    expect(pulls).toHaveLength(3);
    expect(mean.peakTorque.rpm).toBe(4000);
    // 400 x 5000 is less than 475 x 4500.
    expect(mean.peakPower.rpm).toBe(4500);
    // Trapezoids of 475, 500, 475.
    expect(mean.band.torqueNm).toBeCloseTo(487.5, -0.7);
    expect(repeatability?.deviation).toBeGreaterThan(0.001);
  });
});

describe('comparePulls(before, after)', () => {
  it('resolves 2 sigma sqrt(1/n1 + 1/n2): 0.816 % from three pulls a side of 0.5 %, 1.41 % from one', () => {
    expect(leastDifference(0.005, 3, 3)).toBeCloseTo(0.00816, 5);
    expect(leastDifference(0.005, 1, 1)).toBeCloseTo(0.01414, 5);
  });

  it('sees a gain of 3 % and not one of 0.1 %', () => {
    const before = sheetOf('before', noisy(3, 3, 0.004));
    const large = comparePulls(before, sheetOf('after', noisy(4, 3, 0.004, 1.03)));
    expect(large.powerKw.gain).toBeCloseTo(0.03, 2);
    expect(large.resolved).toBe(true);
    expect(comparePulls(before, sheetOf('after', noisy(5, 3, 0.004, 1.001))).resolved).toBe(false);
  });

  it('calls a difference real in about 1 of 20 cases where there is none', () => {
    let alarms = 0;
    for (let seed = 0; seed < 400; seed += 1) {
      const one = (at: number) =>
        sheetOf('x', [pull('1', [[3000, 100 * (1 + 0.005 * randomFrom(at).normal())]])]);
      const scatter =
        one(2 * seed).pulls[0].points[0].torqueNm / one(2 * seed + 1).pulls[0].points[0].torqueNm - 1;
      if (Math.abs(scatter) > leastDifference(0.005, 1, 1)) alarms += 1;
    }
    expect(alarms / 400).toBeGreaterThan(0.02);
    expect(alarms / 400).toBeLessThan(0.08);
  });

  it('takes the usual repeatability where no pull is repeated, and says so', () => {
    const { repeatability, repeatabilityAssumed } = comparePulls(
      sheetOf('before', noisy(6, 1, 0.004)),
      sheetOf('after', noisy(7, 1, 0.004)),
    );
    expect([repeatability, repeatabilityAssumed]).toEqual([0.005, true]);
  });

  it('refuses two standards', () => {
    const other: DynoSheet = { ...sheetOf('after', noisy(7, 1, 0)), standard: 'J1349' };
    expect(() => comparePulls(sheetOf('before', noisy(6, 1, 0)), other)).toThrow('the same for both sheets');
  });
});

describe('recorrectSheet(sheet, to)', () => {
  const read = (air: string, standard: string): DynoSheet => {
    const result = readDynoSheet(`# standard: ${standard}\n${air}rpm,torque Nm\n3000,100\n4000,100\n`, {
      name: 'x',
    });
    if (!result.ok) throw new Error(result.problems[0].message);
    return result.value;
  };
  const air = (F: number, inHg: number, humidity: number): string =>
    `# temperature: ${F} degF\n# barometer: ${inHg} inHg\n# humidity: ${humidity} %\n`;

  it.each([
    // Two worked examples, source not noted, to the 60 F, 29.92 inHg dry standard.
    [85, 28.85, 85, 1.1005],
    [55, 30.1, 35, 0.994],
  ])('gives the published factor at %s F, %s inHg, %s %%: %s', (F, inHg, humidity, factor) => {
    const { sheet, factors } = recorrectSheet(read(air(F, inHg, humidity), 'none'), 'J607');
    expect(Math.abs(factors[0] - factor)).toBeLessThan(0.001);
    expect(sheet.pulls[0].points[0].torqueNm).toBeCloseTo(100 * factors[0], 9);
    expect(sheet.standard).toBe('J607');
  });

  it('takes J1349 to J607 by 1.040 in reference air, and says that the air was not known', () => {
    const { factors, sheet } = recorrectSheet(read('', 'J1349'), 'J607');
    expect(factors[0]).toBeCloseTo(1.04, 3);
    expect(sheet.notes.join()).toContain('without the air of the day');
  });

  it('comes back to where it started', () => {
    const start = read(air(85, 28.85, 85), 'J1349');
    const back = recorrectSheet(recorrectSheet(start, 'J607').sheet, 'J1349').sheet;
    expect(back.pulls[0].points[0].torqueNm).toBeCloseTo(100, 9);
  });

  it('asks for the air of the day to or from observed figures', () => {
    expect(() => recorrectSheet(read('', 'none'), 'J607')).toThrow('barometer, temperature and humidity');
  });
});
