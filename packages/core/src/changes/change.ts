/** A change: a named edit of a combination, as a builder would buy, grind or bolt it on. */
import type { Plain } from '../reading/combinationDocument.ts';

/** One field altered. `scale` and `add` start from the value the combination has, stated or assumed. */
export type FieldEdit =
  | { readonly kind: 'set'; readonly path: string; readonly value: Plain }
  | { readonly kind: 'scale'; readonly path: string; readonly factor: number }
  | {
      readonly kind: 'add';
      readonly path: string /** A quantity with its unit, `2 deg`. */;
      readonly amount: Plain;
    };

/** A named edit of a combination, with what it costs and whether it can be undone. */
export interface Change {
  /** Name it goes by in every result. */
  readonly name: string;
  /** What it does to the file, all at once. */
  readonly edits: readonly FieldEdit[];
  /** In the shop's money; null where not stated. */
  readonly cost: number | null;
  /** Hours of work; null where not stated. */
  readonly hours: number | null;
  /** Can be taken off again without loss. */
  readonly reversible: boolean;
  /** Changes of one group exclude each other; null: goes with every other. */
  readonly insteadOf: string | null;
  /** Where the change was read, for problems; absent where it was not read from a file. */
  readonly source?: ChangeSource;
}

/** The file a change stands in, with the lines and columns of its edits by path, from 1; the empty path is the change. */
export interface ChangeSource {
  /** Name of the changes file. */
  readonly file: string;
  /** Where each field stands, by path, from 1. */
  readonly positions: Readonly<Record<string, { readonly line: number; readonly column: number }>>;
}
