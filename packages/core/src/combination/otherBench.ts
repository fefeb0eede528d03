/** Whether the flow of two states of an engine was measured on two benches, whose errors have nothing in common. */
import type { Combination } from './combination.ts';
import { depressionText } from './sizeText.ts';

/** Depressions this near are one [-]: 28 in of water is printed as 7 kPa too. */
export const DEPRESSION_SLACK = 0.01;

/**
 * How the bench of `after` differs from that of `before`, for people; null where they are one, or either has no sheet. Names decide where both are stated. Without them
 * another depression tells, since a shop keeps to its own.
 */
export function otherBench(before: Combination, after: Combination): string | null {
  const [was, now] = [before.bench, after.bench];
  if (was === undefined || now === undefined) return null;
  if (was.name !== null && now.name !== null)
    return was.name === now.name ? null : `on ${now.name}, in place of ${was.name}`;
  if (Math.abs(now.depression / was.depression - 1) <= DEPRESSION_SLACK) return null;
  const [there, here] = [was, now].map(({ depression }) => depressionText(depression, before.units));
  return `at ${here}, in place of ${there}`;
}

/** What to say of a state whose flow is from another bench. */
export function benchRemark(name: string, differs: string): string {
  return `the heads of ${name} were flowed ${differs}: two benches differ by 3 to 8 % of flow, which may be all there is between them. Flow both on one, or say by heads.bench.name that it was one`;
}
