/** What stands for a speed whose cycles never repeat: the mean of many, and how far they scatter. */
import type { CycleTotals } from './cycleTotals.ts';

/** Figures of one cycle. */
export interface CycleFigures {
  readonly totals: CycleTotals;
  /** Mean absolute plenum pressure [Pa]. */
  readonly plenumPressure: number;
}

/** The mean of some cycles. */
export interface MeanCycle extends CycleFigures {
  /** Cycles it is taken of. */
  readonly of: number;
  /** One standard deviation of their work, over the work of compression and expansion and of gas exchange [-]. */
  readonly scatter: number;
}

/** The mean of plain values of one shape, number by number. */
function meanOf<Value>(values: readonly Value[]): Value {
  const [first] = values;
  if (typeof first === 'number')
    return (values.reduce((sum, value) => sum + Number(value), 0) / values.length) as Value;
  if (Array.isArray(first))
    return first.map((_, i) =>
      meanOf((values as readonly (readonly unknown[])[]).map((list) => list[i])),
    ) as Value;
  if (typeof first !== 'object' || first === null) return first;
  const fields = Object.keys(first) as (keyof Value & string)[];
  return Object.fromEntries(fields.map((key) => [key, meanOf(values.map((value) => value[key]))])) as Value;
}

/** The mean of cycles marched one after another, one or more. */
export function meanOfCycles(cycles: readonly CycleFigures[]): MeanCycle {
  const totals = meanOf(cycles.map((cycle) => cycle.totals));
  const works = cycles.map(({ totals: { closedWork, pumpingWork } }) => closedWork + pumpingWork);
  const middle = meanOf(works);
  const deviation = Math.sqrt(meanOf(works.map((work) => (work - middle) ** 2)));
  return {
    of: cycles.length,
    totals,
    plenumPressure: meanOf(cycles.map((cycle) => cycle.plenumPressure)),
    scatter: deviation / (Math.abs(totals.closedWork) + Math.abs(totals.pumpingWork)),
  };
}
