/** In which order changes are to be tested, for people. */
import type { RankingResult, TestStep } from '@valvetide/core';
import { counted } from './counted.ts';
import { fixed } from './fixed.ts';
import { plain } from './plain.ts';
import { signed } from './signed.ts';

/** A part of the order of tests under its title. */
export interface OrderPart {
  readonly id: 'order' | 'beyond' | 'leave';
  readonly title: string;
  readonly lines: readonly string[];
}

/** The tests in their order with what they take; apart from them what the dyno can't tell, and what to leave. */
export function orderParts({ order, best }: RankingResult): readonly OrderPart[] {
  const { steps, stop, beyond, leave } = order;
  const outside = (inBestSet: boolean): string => (best === null || inBestSet ? '' : ', not in the best set');
  const line = ({ change, expectedGainPct, inBestSet, why }: TestStep, pulls: number | null): string => {
    const much = pulls === null ? '' : `, ${counted(pulls, 'pull')}`;
    const gain = expectedGainPct === null ? '' : `, ${signed(expectedGainPct, 1)} %`;
    const own = change === null ? 'Baseline' : `${plain(change)}${gain}`;
    return `${own}${much}${change === null ? '' : outside(inBestSet)}: ${plain(why)}.`;
  };
  const apart = (id: OrderPart['id'], title: string, found: readonly TestStep[]): OrderPart => ({
    id,
    title,
    lines: found.map((step) => `- ${line(step, null)}`),
  });
  return [
    {
      id: 'order' as const,
      title: 'Order of tests',
      lines: [
        ...steps.map((step, i) => `${String(i + 1).padStart(2)}. ${line(step, step.pulls)}`),
        ...(steps.length === 0 ? [] : [billLine(order)]),
      ],
    },
    apart('beyond', `Stop there: ${plain(stop ?? '')}.`, beyond),
    apart('leave', 'Leave', leave.map(withoutGainOfNothing)),
  ].filter(({ lines }) => lines.length > 0);
}

/** What is not modelled has no gain to show. */
function withoutGainOfNothing(step: TestStep): TestStep {
  return step.why.startsWith('not modelled')
    ? { ...step, expectedGainPct: null, inBestSet: true }
    : { ...step, inBestSet: true };
}

function billLine({ bill: { pulls, fittingHours, cellHours, cost } }: RankingResult['order']): string {
  const hours =
    fittingHours === null || cellHours === null
      ? 'hours not stated of all'
      : `${fixed(fittingHours, 1)} hours to fit and ${fixed(cellHours - fittingHours, 1)} to pull`;
  const money = cost === null ? 'cost not stated of all' : `${fixed(cost)} to buy`;
  return `In all ${counted(pulls, 'pull')}, ${hours}, ${money}.`;
}
