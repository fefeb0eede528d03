/** What isn't known of a forecast: what is assumed, the sheets' errors and the model's own, from a fixed small number of forecasts. */
import type { Baseline } from '../changes/baseline.ts';
import type { Curve, Fidelity } from '../forecast/curve.ts';
import { meanScatterOf, scatterOf } from '../forecast/cycleScatter.ts';
import { type EvidenceKind, MODEL_ERRORS, type ModelError } from '../forecast/modelError.ts';
import { marchedPoints } from '../forecast/wholeCurve.ts';
import { linearTable } from '../numerics/interpolate.ts';
import { ForecastQueue } from '../studies/forecastQueue.ts';
import { runJobsHere, type StudyControl } from '../studies/job.ts';
import { type Offset, perturbed } from './perturbed.ts';
import { COARSE } from './responseWorld.ts';
import { type SettledBy, settledBy } from './settledBy.ts';
import { signedOffsets } from './signedOffsets.ts';
import { type Unknown, type Unknowns, unknownsOf } from './unknowns.ts';
import { usualRank } from './usualWorth.ts';

/** One standard deviation by its parts, in shares of the figure [-]. */
export interface SpreadParts {
  /** From estimates that stand in for what the file leaves out, and from what a calibration left open. */
  readonly assumed: number;
  /** From the errors of what the file states: sheets, ratings and cards. */
  readonly stated: number;
  /** The model's own. */
  readonly model: number;
  /** From cycles that never repeat, see `scatterPct` of a point; 0 where speeds settle. */
  readonly scatter: number;
  /** All together. */
  readonly total: number;
}

/** The same at a speed, of its torque and so of its power. */
export interface SpreadAtRpm extends SpreadParts {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** One standard deviation of torque [N m]. */
  readonly torqueNm: number;
}

/** What one unknown is worth. */
export interface UnknownWorth {
  /** Field of the file, the first where it moves several. */
  readonly path: string;
  /** Short name: the field, or the error of a sheet. */
  readonly name: string;
  /** Whether it is an estimate, a stated value or a knob of a calibration. */
  readonly kind: 'assumed' | 'stated' | 'fitted';
  /** What would settle it: measuring it, or a pull to calibrate with. */
  readonly settledBy: SettledBy;
  /** What one standard deviation of it does to mean power over the band, sign taken off [%]. */
  readonly powerPct: number;
}

/** The spread of a forecast. Plain and serialisable. */
export interface ForecastSpread {
  /** One a speed of the curve that has figures. */
  readonly points: readonly SpreadAtRpm[];
  /** Of peak torque and peak power, and of their speeds [1/min]: those of the model alone. */
  readonly peak: {
    readonly torque: SpreadParts & { readonly torqueNm: number; readonly speedRpm: number };
    readonly power: SpreadParts & { readonly powerKw: number; readonly speedRpm: number };
  } | null;
  /** Of mean power over the speeds. */
  readonly power: SpreadParts;
  /** What was looked at singly, worth most first. */
  readonly worths: readonly UnknownWorth[];
  /** All others together [% of mean power over the speeds], and how many. */
  readonly rest: { readonly powerPct: number; readonly unknowns: number };
  /** What is known of the engine: decides the error of the model. */
  readonly evidence: EvidenceKind;
  /** How many forecasts it took. */
  readonly forecasts: number;
}

/** How it is worked out. */
export interface ForecastSpreadOptions extends StudyControl {
  /** How many cylinders march; default `representative`. */
  readonly fidelity?: Fidelity | undefined;
  /** Default 1. */
  readonly seed?: number | undefined;
}

/** Unknowns looked at singly beside those of a calibration, and vectors in which all others are moved at once, of each kind. */
const SINGLY = 16;
const VECTORS = 3;
/** Where in the speeds of the curve responses are taken: middles of thirds. */
const SHARES: readonly number[] = [1 / 6, 1 / 2, 5 / 6];
const NOMINAL = 'nominal';

type Kind = UnknownWorth['kind'];

/** Change of torque at the speeds of the responses, in shares of the torque there. */
type Effect = readonly number[];

/**
 * The spread of a curve. The unknowns that are usually worth most are moved singly by one standard deviation; all others are moved
 * together, each up or down by chance: the mean square of what that does is their variance together, without bias (random balance:
 * Satterthwaite, 1959, Technometrics 1, 111; from memory). Null where an abort came first, or the engine could not be marched at one
 * of the three speeds.
 *
 * @example
 * ```ts
 * const spread = await forecastSpread(baseline, forecast(baseline.combination, { rpm: [4000, 5000, 6000] }));
 * console.log(spread?.power.total, spread?.worths[0]);
 * ```
 */
export async function forecastSpread(
  baseline: Baseline,
  curve: Curve,
  options: ForecastSpreadOptions = {},
): Promise<ForecastSpread | null> {
  const { run = runJobsHere, fidelity, seed = 1, ...control } = options;
  const shown = marchedPoints(curve);
  if (shown.length === 0) return null;
  const asked = responseRpm(shown.map((point) => point.rpm));
  const unknowns = unknownsOf(baseline, []);
  const fitted = new Set(unknowns.calibrated?.ids ?? []);
  const ordered = [...unknowns.all].sort(
    (a, b) => usualRank(a.id) - usualRank(b.id) || (a.id < b.id ? -1 : 1),
  );
  const others = ordered.filter(({ id }) => !fitted.has(id));
  const singly = [...ordered.filter(({ id }) => fitted.has(id)), ...others.slice(0, SINGLY)];
  const rest = others.slice(SINGLY);
  const kindOf = ({ id }: Unknown): Kind =>
    fitted.has(id)
      ? 'fitted'
      : baseline.combination.assumed.some(({ path }) => path === id)
        ? 'assumed'
        : 'stated';

  const queue = new ForecastQueue(run, control);
  const ask = (name: string, offsets: readonly Offset[]): boolean => {
    const combination = perturbed(baseline, [], offsets, undefined);
    if (combination === null) return false;
    queue.ask(name, { combination, rpm: asked, ...COARSE, ...(fidelity === undefined ? {} : { fidelity }) });
    return true;
  };
  const isPossible = (unknown: Unknown, z: number): boolean =>
    perturbed(baseline, [], [{ unknown, z }], undefined) !== null;
  ask(NOMINAL, []);
  for (const unknown of singly)
    if (!ask(unknown.id, [{ unknown, z: 1 }])) ask(unknown.id, [{ unknown, z: -1 }]);
  const groups = (['assumed', 'stated'] as const).map((kind) => {
    const members = rest.filter((unknown) => kindOf(unknown) === kind);
    const vectors = members.length === 0 ? [] : Array.from({ length: VECTORS }, (_, v) => `${kind} ${v}`);
    const asked = vectors.filter((name) => ask(name, signedOffsets(members, { seed, name, isPossible })));
    return { kind, members, vectors: asked };
  });
  await queue.run();

  const nominal = queue.curve(NOMINAL);
  if (nominal === null || !queue.complete) return null;
  const rpm = nominal.points.map((point) => point.rpm);
  const effectOf = (name: string): Effect | null => {
    const moved = queue.curve(name);
    return moved?.points.map((point, i) => point.torqueNm / nominal.points[i].torqueNm - 1) ?? null;
  };
  const found = singly.flatMap((unknown) => {
    const effect = effectOf(unknown.id);
    return effect === null ? [] : [{ unknown, kind: kindOf(unknown), effect }];
  });
  const together = groups.map(({ kind, members, vectors }) => ({
    kind,
    count: members.length,
    effects: vectors.flatMap((name) => {
      const effect = effectOf(name);
      return effect === null ? [] : [effect];
    }),
  }));
  // Mean power counts each speed by its power.
  const powers = nominal.points.map(({ powerKw }) => powerKw);
  const inPower = (effect: Effect): number =>
    effect.reduce((sum, share, i) => sum + share * powers[i], 0) / powers.reduce((sum, p) => sum + p, 0);
  const evidence = evidenceOf(baseline);
  const own = MODEL_ERRORS[evidence];
  const partsOf = (read: (effect: Effect) => number, model: number, scatter: number): SpreadParts => {
    const variance = { assumed: 0, stated: 0 };
    for (const { kind, effect } of found) if (kind !== 'fitted') variance[kind] += read(effect) ** 2;
    for (const { kind, effects } of together)
      variance[kind] +=
        effects.reduce((sum, effect) => sum + read(effect) ** 2, 0) / Math.max(1, effects.length);
    variance.assumed += fittedVariance(unknowns, (id) => {
      const at = found.find(({ unknown }) => unknown.id === id);
      return at === undefined ? 0 : read(at.effect);
    });
    const [assumed, stated] = [Math.sqrt(variance.assumed), Math.sqrt(variance.stated)];
    return { assumed, stated, model, scatter, total: Math.hypot(assumed, stated, model, scatter) };
  };
  const scatters = new Map(shown.map((point) => [point.rpm, scatterOf(point)]));
  const at = (n: number, model: number): SpreadParts =>
    partsOf((effect) => between(rpm, effect, n), model, scatters.get(n) ?? 0);
  const points = shown.map((point): SpreadAtRpm => {
    const parts = at(point.rpm, own.torque);
    return { rpm: point.rpm, ...parts, torqueNm: parts.total * Math.abs(point.torqueNm) };
  });
  const restVariance = together.reduce(
    (sum, { effects }) =>
      sum +
      effects.reduce((squares, effect) => squares + inPower(effect) ** 2, 0) / Math.max(1, effects.length),
    0,
  );
  return {
    points,
    peak: peakSpread(curve, at, own),
    power: partsOf(inPower, own.power, meanScatterOf(shown)),
    worths: found
      .map(
        ({ unknown, kind, effect }): UnknownWorth => ({
          path: unknown.path,
          name: unknown.id,
          kind,
          settledBy: settledBy(unknown.path),
          powerPct: 100 * Math.abs(inPower(effect)),
        }),
      )
      .sort((a, b) => b.powerPct - a.powerPct || (a.name < b.name ? -1 : 1)),
    rest: { powerPct: 100 * Math.sqrt(restVariance), unknowns: rest.length },
    evidence,
    forecasts: singly.length + 1 + groups.reduce((sum, { vectors }) => sum + vectors.length, 0),
  };
}

/** A flow sheet and a cam card, or a measured lobe, make an engine known by its sheets. */
export function evidenceOf({ combination, stated }: Pick<Baseline, 'combination' | 'stated'>): EvidenceKind {
  const cam = stated.data['cam'];
  const isCarded = typeof cam === 'object' && cam !== null && 'intake' in cam;
  return combination.intake.flow.measuredTo !== null && isCarded ? 'sheets' : 'estimates';
}

function responseRpm(speeds: readonly number[]): readonly number[] {
  const [from, to] = [speeds[0], speeds[speeds.length - 1]];
  return [...new Set(SHARES.map((share) => Math.round(from + share * (to - from))))];
}

/** Straight between the speeds, held at the nearest beyond them. */
function between(rpm: readonly number[], values: Effect, n: number): number {
  if (rpm.length === 1) return values[0];
  return linearTable(rpm, values).valueAt(Math.min(rpm[rpm.length - 1], Math.max(rpm[0], n)));
}

/** Of the knobs of a calibration, which go together. */
function fittedVariance({ calibrated }: Unknowns, effect: (id: string) => number): number {
  if (calibrated === null) return 0;
  const { ids, correlation } = calibrated;
  const sum = ids.reduce(
    (rows, a, i) => rows + ids.reduce((row, b, k) => row + correlation[i][k] * effect(a) * effect(b), 0),
    0,
  );
  return Math.max(0, sum);
}

function peakSpread(
  { peak }: Curve,
  at: (rpm: number, model: number) => SpreadParts,
  own: ModelError,
): ForecastSpread['peak'] {
  if (peak === null) return null;
  const torque = at(peak.torque.rpm, own.torque);
  const power = at(peak.power.rpm, own.power);
  return {
    torque: { ...torque, torqueNm: torque.total * Math.abs(peak.torque.torqueNm), speedRpm: own.torqueSpeed },
    power: { ...power, powerKw: power.total * Math.abs(peak.power.powerKw), speedRpm: own.powerSpeed },
  };
}
