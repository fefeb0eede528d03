/** When no credible knob brings a forecast to what was measured: which sheet is likely wrong. */
import type { Disagreement, FitPoint } from './calibrationResult.ts';
import type { Knob, KnobName } from './knobs.ts';

/** How a forecast misses before any knob moves, by the shape of the miss over speed [-]. */
export interface Miss {
  /** Forecast over measured less one, mean. */
  readonly level: number;
  /** The same, upper half of the speeds less lower half. */
  readonly tilt: number;
  /** What is left beside the two, root mean square. */
  readonly waves: number;
}

/** Misses after the fit beyond so many of the allowed deviations, root mean square, mean that no knob has the shape. */
const UNFITTED = 2;
/** Correction standards are 4 to 5 % apart. */
const STANDARD_GAP = { low: 0.03, high: 0.06 } as const;

export function disagreementOf(
  knobs: readonly Knob[],
  held: readonly (-1 | 0 | 1)[],
  points: readonly FitPoint[],
): Disagreement | null {
  const stuck = knobs.flatMap((knob, i) => (held[i] === 0 ? [] : [{ knob, way: held[i] }]));
  // A share of fuel burned ends at one by nature, which is no disagreement.
  const beyond = stuck.filter(({ knob, way }) => !(knob.name === 'efficiency' && way === 1));
  const miss = missOf(points);
  if (beyond.length > 0) {
    const wants = beyond.map(({ knob, way }) => `${knob.what} ${way > 0 ? 'above +20 %' : 'below -20 %'}`);
    return {
      knobs: beyond.map(({ knob }) => knob.name),
      message: `The sheets disagree: the fit would need ${wants.join(' and ')}, more than any such figure is usually off. Nothing was written.`,
      culprits: [...levelCulprits(miss), ...beyond.flatMap(({ knob, way }) => culpritsOf(knob.name, way))],
    };
  }
  const worst = Math.sqrt(
    points.reduce((sum, p) => sum + ((p.after - p.measured) / p.sigma) ** 2, 0) / points.length,
  );
  if (worst <= UNFITTED) return null;
  const at = points.reduce((a, b) =>
    Math.abs((b.after - b.measured) / b.sigma) > Math.abs((a.after - a.measured) / a.sigma) ? b : a,
  );
  const off = 100 * (at.after / at.measured - 1);
  return {
    knobs: [],
    message: `The sheets disagree: after the fit the forecast still misses by ${worst.toFixed(1)} times what scatter and model error allow, most at ${Math.round(at.rpm)} rpm (${off > 0 ? '+' : ''}${off.toFixed(1)} %). No knob has that shape. Nothing was written.`,
    culprits: [
      'cam card: duration, checking height and installed centreline move the whole curve along the speeds',
      'runner, primary and collector lengths: a length off by a third puts humps where the dyno has holes',
      'the pull itself: ignition breaking up, valve float, mixture going lean or rich at that speed',
    ],
  };
}

/** Level, tilt and the rest of the miss before the fit. */
export function missOf(points: readonly Pick<FitPoint, 'kind' | 'rpm' | 'measured' | 'before'>[]): Miss {
  const figures = points.filter((point) => !point.kind.endsWith('speed'));
  const misses = figures.map((point) => point.before / point.measured - 1);
  const mean = (values: readonly number[]): number =>
    values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
  const middle = mean(figures.map((point) => point.rpm));
  const level = mean(misses);
  const upper = mean(misses.filter((_, i) => figures[i].rpm > middle));
  const lower = mean(misses.filter((_, i) => figures[i].rpm <= middle));
  const tilt = upper - lower;
  const rest = misses.map((miss, i) => miss - level - (figures[i].rpm > middle ? tilt / 2 : -tilt / 2));
  return { level, tilt, waves: Math.sqrt(mean(rest.map((r) => r * r))) };
}

/** A miss of one size at all speeds has its own causes. */
function levelCulprits({ level, tilt, waves }: Miss): string[] {
  const size = Math.abs(level);
  if (!(size > 2 * Math.abs(tilt) && size > 2 * waves)) return [];
  const gap = size >= STANDARD_GAP.low && size <= STANDARD_GAP.high;
  return [
    gap
      ? `correction standard: the forecast is ${(100 * level).toFixed(1)} % off at all speeds alike, and J607 shows 4 to 5 % more than J1349`
      : `bore, stroke or compression ratio: the forecast is ${(100 * level).toFixed(1)} % off at all speeds alike`,
  ];
}

function culpritsOf(name: KnobName, way: -1 | 0 | 1): readonly string[] {
  const more = way > 0;
  switch (name) {
    case 'flow':
      return more
        ? [
            'flow sheet: its test depression, a port tested without radius plate, or a sheet of another head',
            'carburetor or throttle: a rating at another pressure drop, or more of them',
          ]
        : [
            'throttle not opening fully, a clogged air cleaner or a restrictive exhaust left out of the file',
            'flow sheet: its test depression (10 against 28 inH2O), or a larger bore fixture',
            'cam card: lift or duration stated larger than what is in the engine',
          ];
    case 'heat':
    case 'efficiency':
      return (name === 'heat') === more
        ? [
            'mixture and spark: lean, rich or retarded against what the file says',
            'compression ratio, or ring seal',
            'correction standard of the dyno sheet',
          ]
        : [
            'correction standard of the dyno sheet',
            'displacement and compression ratio',
            'dyno calibration: load cell and its arm',
          ];
    case 'friction':
      return more
        ? [
            'a fast sweep: rotating inertia takes torque at all speeds',
            'accessories driven by the engine, cold oil, a windage problem',
            'torque at the wheels rather than at the flywheel',
          ]
        : [
            'correction standard of the dyno sheet',
            'dyno calibration: load cell and its arm',
            'accessories said to be driven that are not',
          ];
    case 'length':
      return [
        'runner and port length',
        'cam phase: installed centreline, or which lobe is where',
        'primary and collector length',
      ];
  }
}
