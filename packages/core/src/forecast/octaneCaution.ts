/** What the sheets alone say about the fuel, before any forecast: less octane than the trade's rule asks for. */
import type { Combination, Warning } from '../combination/combination.ts';
import type { RuleOfThumb } from './rulesOfThumb.ts';

/**
 * A warning where the fuel has less octane than the rule of thumb allows a modern chamber at this compression; else nothing.
 *
 * The rule knows neither cam nor chamber nor speed, so that it cautions and the forecast decides.
 */
export function octaneCaution({ fuel }: Combination, rules: readonly RuleOfThumb[]): Warning[] {
  const rule = rules.find(({ code }) => code === 'octane');
  if (rule === undefined || rule.low === null || fuel.researchOctane >= rule.low) return [];
  return [
    {
      code: 'octane-short',
      path: 'fuel',
      message: `${fuel.name} has a research octane number of ${fuel.researchOctane}, and the rule of thumb asks for ${Number(rule.low.toFixed(1))} at least: expect knock or spark given back; a forecast says how much`,
    },
  ];
}
