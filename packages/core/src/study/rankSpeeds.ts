/** The speeds a ranking is read at. */
import { DomainError } from '../base/errors.ts';
import { inspectCombination } from '../forecast/inspection.ts';
import type { SpeedBand } from './band.ts';
import type { Baseline } from './baseline.ts';
import type { RankSpeeds } from './rankStudy.ts';

/** Middles of the thirds of the band. */
const RESPONSE_SHARES: readonly number[] = [1 / 6, 1 / 2, 5 / 6];
/** Points over the band that gains are averaged from. */
const GAIN_SHARES: readonly number[] = [0, 0.25, 0.5, 0.75, 1];

/** Band and speeds as asked for; default the band of an inspection, and five speeds over the band with a look beyond it. */
export function rankSpeeds(
  baseline: Baseline,
  { band: asked, rpm }: { readonly band?: SpeedBand; readonly rpm?: readonly number[] },
): RankSpeeds {
  const usual =
    asked === undefined || rpm === undefined ? inspectCombination(baseline.combination).band : null;
  const band = asked ?? {
    fromRpm: rpm?.[0] ?? usual?.fromRpm ?? Number.NaN,
    toRpm: rpm?.[rpm.length - 1] ?? usual?.toRpm ?? Number.NaN,
  };
  if (!(band.fromRpm > 0 && band.toRpm > band.fromRpm))
    throw new DomainError('band', band.fromRpm, `a band that rises, to ${band.toRpm}`);
  const at = (share: number): number => Math.round(band.fromRpm + share * (band.toRpm - band.fromRpm));
  // A change may lose where nobody asked for its gain.
  const margin = 0.1 * (band.toRpm - band.fromRpm);
  const below = usual !== null && usual.fromRpm < band.fromRpm - margin ? [Math.round(usual.fromRpm)] : [];
  const above = usual !== null && usual.toRpm > band.toRpm + margin ? [Math.round(usual.toRpm)] : [];
  return {
    band,
    gains: rpm ?? [...below, ...GAIN_SHARES.map(at), ...above],
    responses: RESPONSE_SHARES.map(at),
  };
}
