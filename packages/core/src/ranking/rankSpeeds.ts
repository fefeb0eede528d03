/** The speeds a ranking is read at. */
import { DomainError } from '../base/errors.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { SpeedBand } from '../forecast/band.ts';
import { inspectCombination } from '../forecast/inspection.ts';
import type { RankSpeeds } from './rankStudy.ts';

/** Middles of the thirds of the band: pipes in tune make a curve too wavy for fewer. */
const RESPONSE_SHARES: readonly number[] = [1 / 6, 1 / 2, 5 / 6];
/** Points over the band that gains are averaged from. */
const GAIN_SHARES: readonly number[] = [0, 0.25, 0.5, 0.75, 1];
/** A speed as near to the band as this share of its width adds nothing. */
const NEAR = 0.1;

/**
 * Band and speeds as asked for; default the band of an inspection, and five speeds over the band. Where the engine's own
 * band begins well below, one speed there too: a change may lose where nobody asked for its gain.
 */
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
  if (!(band.fromRpm > 0 && band.toRpm >= band.fromRpm))
    throw new DomainError('band', band.fromRpm, `a band that rises, to ${band.toRpm}`);
  const width = band.toRpm - band.fromRpm;
  const isBelow = usual !== null && usual.fromRpm < band.fromRpm - NEAR * width;
  return {
    band,
    gains: rpm ?? [...(isBelow ? [Math.round(usual.fromRpm)] : []), ...spreadOver(band, GAIN_SHARES)],
    responses: responseSpeeds(band),
  };
}

/** Speeds that responses to unknowns are taken at [1/min]. */
export function responseSpeeds(band: SpeedBand): readonly number[] {
  return spreadOver(band, RESPONSE_SHARES);
}

function spreadOver({ fromRpm, toRpm }: SpeedBand, shares: readonly number[]): readonly number[] {
  return [...new Set(shares.map((share) => Math.round(fromRpm + share * (toRpm - fromRpm))))];
}
