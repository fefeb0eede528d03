/** A combination file as a plain document that still knows where each field stood. */

/** A plain value as JSON has them. */
export type Plain = string | number | boolean | null | readonly Plain[] | { readonly [name: string]: Plain };

/** A combination file as written, before its values are checked. Plain and serialisable. */
export interface CombinationDocument {
  /** Name to show in problems. */
  readonly file: string;
  /** The sections, as written. */
  readonly data: { readonly [name: string]: Plain };
  /** Where each field stands, by path, from 1. */
  readonly positions: Readonly<Record<string, { readonly line: number; readonly column: number }>>;
}

/** Dots between the names of a path. */
export function join(path: string, name: string): string {
  return path === '' ? name : `${path}.${name}`;
}
