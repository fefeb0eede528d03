/** A published figure beside the program's own: what the tests check and the validation report shows. */

/** How the program's value must stand to the published one. */
export type Relation = 'equal' | 'at most' | 'at least';

/** One figure. */
export interface PublishedCase {
  /** What is compared, unique within its source. */
  readonly what: string;
  /** The published or independently computed value, in `unit`. */
  readonly value: number;
  /** Unit as shown; empty for a pure number. */
  readonly unit: string;
  /** Decimals to show. */
  readonly decimals: number;
  /** Allowed difference: in `unit`, or a share of the value where `relative`. Zero with a bound. */
  readonly within: number;
  readonly relative?: boolean;
  /** Default `equal`. */
  readonly relation?: Relation;
  /** An aim that is shown whether it is reached or not, and not required. */
  readonly aim?: boolean;
  /** What is believed to be the cause where an aim is not reached; needed with one. */
  readonly cause?: string;
  /** The program's value, in `unit`. */
  readonly compute: () => number | Promise<number>;
}

/** Figures of one source. */
export interface PublishedSource {
  readonly title: string;
  /** Author, year, page or table; or how the values were worked independently. */
  readonly source: string;
  /** Closed forms and tables, met to the printed digits: their errors are rounding and say nothing of an engine. */
  readonly exact?: boolean;
  /** What a reader should know of the comparison. */
  readonly note?: string;
  readonly cases: readonly PublishedCase[];
}

/** Program's value less the published one, in the unit of `within`. */
export function errorOf(check: PublishedCase, ours: number): number {
  return check.relative ? ours / check.value - 1 : ours - check.value;
}

/** Whether the program's value is near enough. A value that is no number never is. */
export function holds(check: PublishedCase, ours: number): boolean {
  if (check.relation === 'at most') return ours <= check.value;
  if (check.relation === 'at least') return ours >= check.value;
  return Math.abs(errorOf(check, ours)) <= check.within;
}

/** Runs a computation once, when it is first asked for. */
export function once<T>(compute: () => T): () => T {
  let result: { readonly value: T } | null = null;
  return () => {
    result ??= { value: compute() };
    return result.value;
  };
}

/** Half of the last printed digit, with a hair for the rounding of the comparison itself. */
export function printed(decimals: number): number {
  return 0.5001 * 10 ** -decimals;
}
