/** The physical multipliers a calibration may move, with what is believed of them beforehand. */

import { DomainError } from '../base/errors.ts';
import type { Assumed } from '../combination/combination.ts';
import type { CombinationDocument, Plain } from '../reading/combinationDocument.ts';
import { runnerLengthMultiplier } from '../reading/defaults/manifold.ts';
import { burnEfficiency, frictionMultiplier, wallMultiplier } from '../reading/defaults/running.ts';
import { FIELDS } from '../reading/fields/fieldTable.ts';
import type { CalibratedField } from '../reading/schema/calibratedFields.ts';
import { MAX_KNOBS } from '../reading/schema/calibrationSection.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';
import { valueAt } from '../reading/valueAt.ts';

/** Short names of the knobs. */
export const KNOB_NAMES = ['flow', 'metering', 'heat', 'efficiency', 'friction', 'length', 'dyno'] as const;

/**
 * `flow`: intake flow; `metering`: flow of carburetor or throttle; `heat`: wall heat; `efficiency`: share of fuel burned; `length`:
 * what waves see of the runner; `dyno`: what the dyno shows over what the engine gives.
 */
export type KnobName = (typeof KNOB_NAMES)[number];

/** What pulls a curve in different ways: top end, level, slope, place of the hump; and the dyno, which pulls its level alone. */
export const DEFAULT_KNOBS: readonly KnobName[] = ['flow', 'metering', 'heat', 'friction', 'length', 'dyno'];

/** A knob before the fit; values as numbers in the file, shares as such. */
export interface Knob {
  /** Short name. */
  readonly name: KnobName;
  /** Field of the file; null for the dyno, which is no part of the engine. */
  readonly path: CalibratedField | null;
  /** What it is, for people. */
  readonly what: string;
  /** Believed value and standard deviation. */
  readonly value: number;
  /** One standard deviation of what is believed, in the unit of the value. */
  readonly spread: number;
  /** Lowest value the fit may take. */
  readonly min: number;
  /** Highest value the fit may take. */
  readonly max: number;
  /** Step of the difference that gives its slope. */
  readonly step: number;
  /** How torque answers to it: heat, friction and burned share are factors of what they scale; a length that is hardly known moves humps. */
  readonly effect: 'straight' | 'bent' | undefined;
}

/** A knob further off than this says that the sheets disagree (common practice, no source: trim, don't bend) [-]. */
export const KNOB_LIMIT = 0.2;

/** Honest dynos differ by 2 to 4 % [-]; common practice, no source. None is believed that is off by 10 %. */
export const DYNO_SPREAD = 0.03;
const DYNO_LIMIT = 0.1;

/** A hump of the curve is about a tenth of its speed wide: what moves it by more than that does not answer in a straight line [-]. */
const WIDTH_OF_HUMP = 0.1;

/**
 * What a dyno shows at the driven wheels over what the engine has [-]: driveline and tyres take 10 to 16 % as a rule, more behind an automatic gearbox; common
 * practice, no source. With the dyno's own error.
 */
export const AT_WHEELS = { value: 0.87, spread: 0.05 } as const;
const WHEELS_LIMIT = 0.15;

/** Where a dyno has its brake. */
type Place = 'engine' | 'wheels';

interface KnobFacts {
  readonly path: CalibratedField | null;
  readonly what: string;
  readonly usual: { readonly value: number; readonly spread: number };
  readonly largest: number;
}

/** One standard deviation of an estimate over its value [-]; none where the file states it. */
function relativeSpread(assumed: readonly Assumed[], path: FieldPath): number {
  const entry = assumed.find((item) => item.path === path);
  return typeof entry?.value === 'number' && entry.spread !== null ? entry.spread / entry.value : 0;
}

/** How far a stated value is usually off, from the table of fields [-]. */
function usualError(path: FieldPath): number {
  return FIELDS[path].errors?.find(({ by }) => by === 'scale')?.sigma ?? 0;
}

/** Of a stated rating, or of the estimate that stands in for one; flow goes with the square of a bore. */
function meteringSpread(assumed: readonly Assumed[]): number {
  const rating = relativeSpread(assumed, 'induction.carburetor.rating');
  const bore = relativeSpread(assumed, 'induction.throttle.diameter');
  return Math.max(usualError('induction.carburetor.rating'), rating, 2 * bore);
}

/** What the loss of an estimated manifold may be off, in shares of the flow [-]: the flow knob scales port and manifold together. */
function manifoldSpread(assumed: readonly Assumed[]): number {
  const entry = assumed.find(({ path }) => path === 'induction.flowLoss');
  return typeof entry?.value === 'number' ? (entry.spread ?? 0) / (100 - entry.value) : 0;
}

/** What an estimate that the knob stands in for may be off beside the knob itself [-]. */
function standInSpread(name: KnobName, assumed: readonly Assumed[]): number {
  if (name === 'flow') return manifoldSpread(assumed);
  return name === 'length' ? relativeSpread(assumed, 'induction.runner.length') : 0;
}

function factsOf(name: KnobName, assumed: readonly Assumed[], place: Place): KnobFacts {
  const usual = (estimate: { readonly value: number; readonly spread: number | null }) => ({
    value: estimate.value,
    spread: estimate.spread ?? 0,
  });
  const open = Number.POSITIVE_INFINITY;
  switch (name) {
    case 'flow':
      return {
        path: 'heads.intake.flowMultiplier',
        what: 'intake flow',
        usual: { value: 1, spread: usualError('heads.intake.flowMultiplier') },
        largest: open,
      };
    case 'metering':
      return {
        path: 'induction.flowMultiplier',
        what: 'flow of carburetor or throttle',
        usual: { value: 1, spread: meteringSpread(assumed) },
        largest: open,
      };
    case 'dyno':
      return {
        path: null,
        what: place === 'wheels' ? 'what this dyno reads at the wheels' : 'what this dyno reads',
        usual: place === 'wheels' ? AT_WHEELS : { value: 1, spread: DYNO_SPREAD },
        largest: open,
      };
    case 'heat':
      return { path: 'heat.multiplier', what: 'wall heat', usual: usual(wallMultiplier()), largest: open };
    case 'efficiency':
      return {
        path: 'burn.efficiency',
        what: 'share of fuel burned',
        usual: usual(burnEfficiency()),
        largest: 1,
      };
    case 'friction':
      return {
        path: 'friction.multiplier',
        what: 'friction',
        usual: usual(frictionMultiplier()),
        largest: open,
      };
    case 'length':
      return {
        path: 'induction.runner.lengthMultiplier',
        what: 'tuning length of runner and port',
        usual: usual(runnerLengthMultiplier()),
        largest: open,
      };
  }
}

/**
 * Knobs of a document whose calibration, if any, was taken out: believed at what the file states, else at the estimate,
 * with the spread of the estimate.
 *
 * @throws {@link DomainError} for none beside the dyno, a name given twice, or one unknown
 */
export function knobsOf(
  names: readonly KnobName[],
  document: CombinationDocument,
  assumed: readonly Assumed[],
  place: Place = 'engine',
): readonly Knob[] {
  const ofEngine = names.filter((name) => name !== 'dyno').length;
  if (!(ofEngine >= 1 && ofEngine <= MAX_KNOBS && new Set(names).size === names.length)) {
    throw new DomainError(
      'knobs',
      names.join(', ') || 'none',
      `one or more different ones of ${KNOB_NAMES.join(', ')}`,
    );
  }
  // The engine must not be bent to what its driveline takes.
  const all = place === 'wheels' && !names.includes('dyno') ? [...names, 'dyno' as const] : names;
  return all.map((name): Knob => {
    const { path, what, usual, largest } = factsOf(name, assumed, place);
    const entry = path === null ? undefined : assumed.find((item) => item.path === path);
    const scale = entry?.unit === '%' ? 0.01 : 1;
    const stated = entry === undefined && path !== null ? numberOf(valueAt(document.data, path)) : null;
    const value = stated ?? (typeof entry?.value === 'number' ? entry.value * scale : usual.value);
    const own = entry === undefined || entry.spread === null ? usual.spread : entry.spread * scale;
    const spread = Math.hypot(own, value * standInSpread(name, assumed));
    // A sheet is not off by more; an estimate may be.
    const ofDyno = place === 'wheels' ? WHEELS_LIMIT : DYNO_LIMIT;
    const limit = name === 'dyno' ? ofDyno : Math.max(KNOB_LIMIT, (2 * spread) / value);
    const max = Math.min(largest, value * (1 + limit));
    const min = value * (1 - limit);
    return {
      name,
      path,
      what,
      value,
      spread,
      min,
      max,
      step: 0.4 * spread,
      effect: effectOf(name, spread / value),
    };
  });
}

function effectOf(name: KnobName, spread: number): Knob['effect'] {
  if (name === 'length') return spread > WIDTH_OF_HUMP ? 'bent' : undefined;
  return name === 'flow' || name === 'metering' ? undefined : 'straight';
}

/** A knob's value as it would stand in a file. */
export function knobText(path: CalibratedField, value: number): Plain {
  return path === 'burn.efficiency' ? `${rounded(100 * value)} %` : rounded(value);
}

/** Five digits: finer than any fit, and the same number for whoever reads the file. */
function rounded(value: number): number {
  return Number(value.toPrecision(5));
}

function numberOf(value: Plain | undefined): number | null {
  if (typeof value === 'number') return value;
  const share = typeof value === 'string' ? /^\s*([\d.]+)\s*%\s*$/u.exec(value) : null;
  return share === null ? null : Number(share[1]) / 100;
}
