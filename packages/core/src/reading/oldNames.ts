/** Names that files of earlier editions used, with what to write now. The only place that knows them. */

/** A name that is no longer read. */
export interface OldName {
  /** Path of the field, dots between the names. */
  readonly path: string;
  /** What to write in its place, by the value it had; `*` for any other. */
  readonly now: Readonly<Record<string, string>>;
}

/** Fields that have another name now. */
export const OLD_FIELDS: readonly OldName[] = [
  {
    path: 'heads.preparation',
    now: {
      stock: 'ports: as-cast',
      'pocket-ported': 'ports: bowls-blended',
      ported: 'ports: fully-ported',
      '*': 'ports: as-cast, bowls-blended or fully-ported',
    },
  },
  {
    path: 'chamber.class',
    now: {
      'open-wedge': 'shape: wedge, plug: side, squishArea: 8 %',
      'closed-wedge': 'shape: wedge, plug: side, squishArea: 18 %',
      'fast-burn-wedge': 'shape: wedge, plug: side, squishArea: 28 %',
      hemispherical: 'shape: hemispherical, plug: side, squishArea: 0 %',
      'pent-roof': 'shape: pent-roof, plug: central, squishArea: 12 %',
      '*': 'shape, plug and squishArea',
    },
  },
];

/** Words that a field no longer takes. */
export const OLD_WORDS: readonly OldName[] = [
  {
    path: 'exhaust.muffler',
    now: {
      none: 'muffler: open',
      race: 'muffler: straight-through, or its back-pressure or rated flow',
      street: 'muffler: chambered, or its back-pressure or rated flow',
    },
  },
];

/** What to write in place of a field that had this name; null where it never was one. */
export function newFieldFor(path: string, value: unknown): string | null {
  const old = OLD_FIELDS.find((entry) => entry.path === path);
  if (old === undefined) return null;
  const known = typeof value === 'string' && Object.hasOwn(old.now, value);
  return old.now[known ? value : '*'];
}

/** What to write in place of a word that a field took; null where it never did. */
export function newWordFor(path: string, value: unknown): string | null {
  const old = OLD_WORDS.find((entry) => entry.path === path);
  return old !== undefined && typeof value === 'string' && Object.hasOwn(old.now, value)
    ? old.now[value]
    : null;
}
