/** The speeds of a study, and the band that counts. */
import type { Combination, SpeedBand } from '@valvetide/core';
import type { Flags, Invocation } from '../commandSpec.ts';
import { parseRpm, parseSpeeds } from '../input/parseRpm.ts';
import { fixed } from '../render/fixed.ts';
import { bandOf, refuse } from './readFlags.ts';

/** Speeds and band, with a sentence on where they come from where nobody named them. */
export interface ChosenSpeeds {
  readonly rpm: readonly number[];
  readonly band: SpeedBand;
  readonly reason: string;
  /** The same for a terminal, where another band can be asked for. */
  readonly hinted: string;
}

/** Somebody named them. */
const NAMED = { reason: '', hinted: '' } as const;

/** Steps a band is covered in where nobody names the speeds. */
const STEPS = 8;
const ROUND_STEPS = [50, 100, 200, 250, 500, 1000];

export function chooseSpeeds(combination: Combination, { flags, core }: Invocation): ChosenSpeeds {
  const rpm = parseSpeeds(flags.texts('rpm'));
  const band = bandOf(flags);
  if (rpm !== undefined) {
    forbidBandOutside(flags, rpm);
    return { rpm, band: band ?? { fromRpm: rpm[0], toRpm: rpm[rpm.length - 1] }, ...NAMED };
  }
  if (band !== undefined) return { rpm: roundSpeeds(band), band, ...NAMED };
  const { fromRpm, toRpm, stepRpm, reason } = core.inspectCombination(combination).band;
  const why = `Band ${fixed(fromRpm)} to ${fixed(toRpm)} rpm, ${reason}`;
  const usual = parseRpm(`${fromRpm}:${toRpm}:${stepRpm}`);
  return {
    rpm: usual,
    band: { fromRpm: usual[0], toRpm: usual[usual.length - 1] },
    reason: `${why}.`,
    hinted: `${why}; --band names another.`,
  };
}

/** Refuses a `--band` that ends before the first of rising speeds, or begins behind the last. */
export function forbidBandOutside(flags: Flags, rpm: readonly number[]): void {
  const band = bandOf(flags);
  if (band !== undefined && !(band.fromRpm <= rpm[rpm.length - 1] && band.toRpm >= rpm[0]))
    throw refuse('band', flags, 'none of the speeds lies in it');
}

/** Speeds over a band in round steps, both ends included. */
function roundSpeeds({ fromRpm, toRpm }: SpeedBand): readonly number[] {
  const width = toRpm - fromRpm;
  if (width === 0) return [fromRpm];
  const step = ROUND_STEPS.find((round) => round * STEPS >= width) ?? ROUND_STEPS[ROUND_STEPS.length - 1];
  // A last step shorter than a quarter is no step of its own.
  const count = Math.ceil(width / step - 0.25);
  return [...Array.from({ length: Math.max(1, count) }, (_, i) => fromRpm + i * step), toRpm];
}
