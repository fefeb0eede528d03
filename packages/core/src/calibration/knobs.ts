/** The physical multipliers a calibration may move, with what is believed of them beforehand. */
import { DomainError } from '../base/errors.ts';
import type { Assumed } from '../combination/combination.ts';
import { runnerLengthMultiplier } from '../reading/defaults/manifold.ts';
import { burnEfficiency, frictionMultiplier, wallMultiplier } from '../reading/defaults/running.ts';
import type { CombinationDocument, Plain } from '../reading/readDocument.ts';
import { type CalibratedField, MAX_KNOBS } from '../reading/schema/calibrationSection.ts';
import { valueAt } from '../reading/valueAt.ts';

/** Short names of the knobs. */
export const KNOB_NAMES = ['flow', 'heat', 'efficiency', 'friction', 'length'] as const;

/** `flow`: intake flow; `heat`: wall heat; `efficiency`: share of fuel burned; `length`: what waves see of the runner. */
export type KnobName = (typeof KNOB_NAMES)[number];

/** Four that pull a curve in four ways: top end, level, slope, place of the hump. */
export const DEFAULT_KNOBS: readonly KnobName[] = ['flow', 'heat', 'friction', 'length'];

/** A knob before the fit; values as numbers in the file, shares as such. */
export interface Knob {
  readonly name: KnobName;
  readonly path: CalibratedField;
  /** What it is, for people. */
  readonly what: string;
  /** Believed value and standard deviation. */
  readonly value: number;
  readonly spread: number;
  readonly min: number;
  readonly max: number;
  readonly step: number;
}

/** A knob further off than this says that the sheets disagree (trade press: trim, don't bend) [-]. */
export const KNOB_LIMIT = 0.2;

/** Benches differ by 3 to 8 % [-]; common practice, no source. */
const BENCH_SPREAD = 0.05;

interface KnobFacts {
  readonly path: CalibratedField;
  readonly what: string;
  readonly usual: { readonly value: number; readonly spread: number };
  readonly largest: number;
}

function factsOf(name: KnobName): KnobFacts {
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
        usual: { value: 1, spread: BENCH_SPREAD },
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
 * @throws {@link DomainError} for none, a name given twice, or more than four
 */
export function knobsOf(
  names: readonly KnobName[],
  document: CombinationDocument,
  assumed: readonly Assumed[],
): readonly Knob[] {
  if (!(names.length >= 1 && names.length <= MAX_KNOBS && new Set(names).size === names.length)) {
    throw new DomainError(
      'knobs',
      names.join(', ') || 'none',
      `one to ${MAX_KNOBS} different ones of ${KNOB_NAMES.join(', ')}`,
    );
  }
  return names.map((name): Knob => {
    const { path, what, usual, largest } = factsOf(name);
    const entry = assumed.find((item) => item.path === path);
    const scale = entry?.unit === '%' ? 0.01 : 1;
    const stated = entry === undefined ? numberOf(valueAt(document.data, path)) : null;
    const value = stated ?? (typeof entry?.value === 'number' ? entry.value * scale : usual.value);
    const spread = entry === undefined || entry.spread === null ? usual.spread : entry.spread * scale;
    const max = Math.min(largest, value * (1 + KNOB_LIMIT));
    return { name, path, what, value, spread, min: value * (1 - KNOB_LIMIT), max, step: 0.4 * spread };
  });
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
