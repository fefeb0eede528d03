/** Whether a valve of another size is forecast with the flow sheet of the old one. */
import type { Combination } from './combination.ts';
import { SIDES } from './sides.ts';
import { lengthText } from './sizeText.ts';

/** Valves this near are one [-]. */
const SAME_SIZE = 1e-3;

/**
 * What to say of a state whose valves are of another size than those of `before` and whose flow is what a sheet said of these; null where there is no such side.
 * Without a sheet flow is estimated by the valve, and nothing is wrong.
 */
export function sameSheetRemark(before: Combination, after: Combination): string | null {
  if (before.bench === undefined || after.bench === undefined) return null;
  const sides = SIDES.filter((side) => {
    const [was, now] = [before[side], after[side]];
    const isOther = Math.abs(now.valveDiameter / was.valveDiameter - 1) > SAME_SIZE;
    return isOther && JSON.stringify(now.flow) === JSON.stringify(was.flow);
  });
  if (sides.length === 0) return null;
  const sheets = sides.map(
    (side) =>
      `the ${side} valve is not the one of its flow sheet, ${lengthText(before[side].valveDiameter, before.units)}`,
  );
  return `${sheets.join(', and ')}: what it flows is what the sheet says, so that its size alone moves next to nothing here. Give the sheet that was flowed with it, or a guess by heads.${sides[0]}.flowMultiplier`;
}
