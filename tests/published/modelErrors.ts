/** The model's own error from the published engines: how far forecasts miss, beyond what was not known of the engines. */
import { readFileSync } from 'node:fs';
import { applyChanges } from '../../packages/core/src/changes/applyChanges.ts';
import { type Baseline, pinBaseline } from '../../packages/core/src/changes/baseline.ts';
import type { Curve } from '../../packages/core/src/forecast/curve.ts';
import type { ModelError } from '../../packages/core/src/forecast/modelError.ts';
import { readDocument } from '../../packages/core/src/reading/readDocument.ts';
import { forecastSpread } from '../../packages/core/src/uncertainty/forecastSpread.ts';
import { gainVariance } from '../../packages/core/src/uncertainty/gainError.ts';
import { wholeForecast } from '../../packages/core/test/forecast/wholeForecast.ts';
import { BELIEVED_ERROR, pooledError } from './believedError.ts';
import { FIRST, first, powerSpeed, SECOND, second, torqueSpeed } from './cases/engineCases.ts';
import { laterEngines, laterFile } from './laterPopulations.ts';
import { minimumFile, population } from './population.ts';
import { once } from './publishedCase.ts';

const HORSEPOWER = 0.74569987158227;

/** A forecast beside its rating, and what is said of its uncertainty. */
export interface SpreadRating {
  /** Forecast over rated power less one [-]. */
  readonly miss: number;
  /** One standard deviation of it without the model's own error [-]. */
  readonly known: number;
}

/** Of those engines of a table that are so many rows apart. */
const EVERY = 3;

/** Production engines of 1985 and 1993 whose rated speed is given, at that speed. */
export async function ratedWithSpread(): Promise<readonly SpreadRating[]> {
  const old = population().rows.map((engine) => ({
    file: minimumFile(engine),
    rpm: engine.rpm,
    powerKw: engine.horsepower * HORSEPOWER,
  }));
  const later = laterEngines(1993).map((engine) => ({
    file: laterFile(engine),
    rpm: engine.rpm ?? Number.NaN,
    powerKw: engine.horsepower * HORSEPOWER,
  }));
  const found: SpreadRating[] = [];
  for (const { file, rpm, powerKw } of [...old, ...later].filter((_, i) => i % EVERY === 0)) {
    const baseline = baselineOf(file);
    const curve: Curve = wholeForecast(baseline.combination, { rpm: [rpm] });
    const spread = await forecastSpread(baseline, curve);
    if (spread === null || curve.peak === null) continue;
    found.push({
      miss: curve.peak.power.powerKw / powerKw - 1,
      known: Math.hypot(spread.power.assumed, spread.power.stated),
    });
  }
  return found;
}

function baselineOf(file: string): Baseline {
  const read = readDocument(file);
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
  const pinned = pinBaseline(read.value);
  if (!pinned.ok) throw new Error(pinned.problems.map((p) => p.message).join('\n'));
  return pinned.value;
}

/** What is left of the misses once what was not known is taken off, belief counted in [-]. */
export function ownError(rated: readonly SpreadRating[]): number {
  const beyond = rated.reduce((sum, { miss, known }) => sum + miss * miss - known * known, 0);
  const { power, engines } = BELIEVED_ERROR;
  const squares = Math.max(0, beyond);
  return pooledError(power, [Math.sqrt(squares), ...rated.slice(1).map(() => 0)], engines);
}

/** Share of engines that lie within so many standard deviations, the model's own error among them [-]. */
export function coverage(rated: readonly SpreadRating[], own: number, deviations: number): number {
  const within = rated.filter(({ miss, known }) => Math.abs(miss) <= deviations * Math.hypot(known, own));
  return within.length / rated.length;
}

/** Forecast less published of the engines whose sheets are published, in the units of the table. */
export function sheetMisses(): Readonly<Record<keyof ModelError, readonly number[]>> {
  const states = [
    { curve: first(), printed: FIRST },
    { curve: second(), printed: SECOND },
  ];
  return {
    torque: states.map(({ curve, printed }) => curve.peak.torque.torqueLbFt / printed.torque - 1),
    power: states.map(({ curve, printed }) => curve.peak.power.powerHp / printed.power - 1),
    torqueSpeed: states.map(({ curve, printed }) => torqueSpeed(curve) - printed.torqueRpm),
    powerSpeed: states.map(({ curve, printed }) => powerSpeed(curve) - printed.powerRpm),
    gain: toldGains().map(({ miss }) => miss),
  };
}

/** A gain forecast and told. */
interface ToldGain {
  /** Forecast less told [-]. */
  readonly miss: number;
  /** What the change moves power by over the speeds looked at, root mean square [-]. */
  readonly moved: number;
}

/** Gains of peak power and torque by a carburetor and by rockers, told of an eight at the limit of its carburetor. */
const toldGains = once((): readonly ToldGain[] => {
  const file = new URL('../data/engines/carburetor-limited-540.yaml', import.meta.url);
  const baseline = baselineOf(readFileSync(file, 'utf8'));
  const rpm = [5500, 5800, 6100, 7200, 7400, 7600, 7800];
  const before = wholeForecast(baseline.combination, { rpm });
  const told = [
    { path: 'induction.carburetor.rating', value: '1250 cfm', power: 0.027, torque: 0.019 },
    { path: 'valvetrain.intakeRatio', value: 1.8, power: 0.002, torque: 0.006 },
  ];
  return told.flatMap(({ path, value, power, torque }) => {
    const edits = [{ kind: 'set', path, value } as const];
    const change = { name: path, edits, cost: null, hours: null, reversible: true, insteadOf: null };
    const applied = applyChanges(baseline, [change]);
    if (!applied.ok) throw new Error(applied.problems.map((p) => p.message).join('\n'));
    const after = wholeForecast(applied.value, { rpm });
    const shares = after.points.map((point, i) => point.powerKw / before.points[i].powerKw - 1);
    const moved = Math.sqrt(shares.reduce((sum, m) => sum + m * m, 0) / shares.length);
    return [
      { miss: after.peak.power.powerKw / before.peak.power.powerKw - 1 - power, moved },
      { miss: after.peak.torque.torqueNm / before.peak.torque.torqueNm - 1 - torque, moved },
    ];
  });
});

/** Share of the gains told that lie within so many standard deviations of what the model itself may miss [-]. */
export function gainCoverage(deviations: number): number {
  const gains = toldGains();
  const within = gains.filter(
    ({ miss, moved }) => Math.abs(miss) <= deviations * Math.sqrt(gainVariance(moved)),
  );
  return within.length / gains.length;
}

/** The table's row of engines with sheets, worked out again. */
export function sheetErrors(): ModelError {
  const misses = sheetMisses();
  const of = (key: keyof ModelError): number =>
    pooledError(BELIEVED_ERROR[key], misses[key], BELIEVED_ERROR.engines);
  return {
    torque: of('torque'),
    power: of('power'),
    torqueSpeed: of('torqueSpeed'),
    powerSpeed: of('powerSpeed'),
    gain: of('gain'),
  };
}
