/** Which unknowns of a curve are looked at singly, and which together. */
import type { Baseline } from '../changes/baseline.ts';
import type { Unknown } from './unknown.ts';
import type { Unknowns } from './unknowns.ts';
import { usualRank } from './usualWorth.ts';

/** An estimate, a stated value or a knob of a calibration. */
export type Kind = 'assumed' | 'stated' | 'fitted';

/** What a spread looks at. */
export interface SpreadPlan {
  readonly singly: readonly { readonly unknown: Unknown; readonly kind: Kind }[];
  /** All others by their kind. */
  readonly rest: readonly { readonly kind: Kind; readonly members: readonly Unknown[] }[];
}

/** Unknowns looked at singly beside those of a calibration. */
const SINGLY = 16;

/** The knobs of a calibration and what is usually worth most singly, all else together. */
export function spreadPlan(
  { combination }: Pick<Baseline, 'combination'>,
  { all, calibrated }: Unknowns,
): SpreadPlan {
  const fitted = new Set(calibrated?.ids ?? []);
  const estimates = new Set(combination.assumed.map(({ path }) => path));
  const kindOf = ({ id }: Unknown): Kind =>
    fitted.has(id) ? 'fitted' : estimates.has(id) ? 'assumed' : 'stated';
  const ordered = [...all].sort((a, b) => usualRank(a.id) - usualRank(b.id) || (a.id < b.id ? -1 : 1));
  const others = ordered.filter(({ id }) => !fitted.has(id));
  const singly = [...ordered.filter(({ id }) => fitted.has(id)), ...others.slice(0, SINGLY)];
  const rest = others.slice(SINGLY);
  return {
    singly: singly.map((unknown) => ({ unknown, kind: kindOf(unknown) })),
    rest: (['assumed', 'stated'] as const).map((kind) => ({
      kind,
      members: rest.filter((unknown) => kindOf(unknown) === kind),
    })),
  };
}
