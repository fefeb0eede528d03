/** What the largest values of a shelf ask of its builds: each of them concerns the few groups that move its field. */
import { applyChanges } from '../changes/applyChanges.ts';
import { assignedValues } from '../changes/assignedValues.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import { currentValue } from '../changes/currentValue.ts';
import type { Combination } from '../combination/combination.ts';
import type { Plain } from '../reading/combinationDocument.ts';
import { FIELDS, isField } from '../reading/fields/fieldTable.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import type { Build } from './effectModel.ts';
import { inUnitOf } from './readShelf.ts';
import type { ShelfLimits } from './shelf.ts';

/** A choice of a group; null: what the engine has. */
export type Level = Change | null;

/** The groups of a shelf with their choices. */
export type Groups = readonly { readonly name: string; readonly levels: readonly Level[] }[];

/** A rule, and the groups that it looks at. */
export interface ShelfRule {
  readonly groups: readonly number[];
  /** Whether a build keeps it; what stands in other groups is of no account. */
  readonly keeps: (build: Build) => boolean;
}

/** What a build alters, in the order of the groups. */
export function changesOf(groups: Groups, build: Build): readonly Change[] {
  return build.flatMap((level, g) => groups[g].levels[level] ?? []);
}

export function rulesOf(
  baseline: Baseline,
  groups: Groups,
  { largest }: ShelfLimits,
  sheet: SheetSource | undefined,
): readonly ShelfRule[] {
  return Object.entries(largest).map(([path, most]): ShelfRule => {
    const written = (changes: readonly Change[]): string =>
      JSON.stringify(valueWith(baseline, changes, path, sheet) ?? null);
    const untouched = written([]);
    const moving = groups.flatMap(({ levels }, g) =>
      levels.some((level) => level !== null && written([level]) !== untouched) ? [g] : [],
    );
    // Made once for each build of the groups that move it.
    const known = new Map<string, boolean>();
    const keeps = (build: Build): boolean => {
      const key = moving.map((g) => build[g]).join(' ');
      const own =
        known.get(key) ??
        isWithin(
          valueWith(
            baseline,
            moving.flatMap((g) => groups[g].levels[build[g]] ?? []),
            path,
            sheet,
          ),
          most,
        );
      known.set(key, own);
      return own;
    };
    return { groups: moving, keeps };
  });
}

/**
 * What a field comes to with some changes, as a file would have it: as set, else as it follows from what they set, as compression
 * does from volumes, else as the engine has it.
 */
function valueWith(
  baseline: Baseline,
  changes: readonly Change[],
  path: string,
  sheet: SheetSource | undefined,
): Plain | undefined {
  const assigned = assignedValues(baseline, changes, []).get(path);
  if (assigned !== undefined) return assigned;
  const current = currentValue(baseline, path);
  if (changes.length === 0) return current;
  // Parts that can't be had together are found out where they are to be forecast.
  const applied = applyChanges(baseline, changes, { sheet, effectless: 'allow' });
  if (!applied.ok) return current;
  const [before, after] = [baseline.combination, applied.value].map((engine) => madeOf(engine, path));
  return JSON.stringify(before) === JSON.stringify(after) ? current : (after ?? current);
}

/** A field that no file states: an estimate, or what follows from others. */
function madeOf(combination: Combination, path: string): Plain | undefined {
  const assumed = combination.assumed.find((entry) => entry.path === path);
  if (assumed !== undefined) return `${assumed.value} ${assumed.unit}`;
  return isField(path) ? FIELDS[path].follows?.(combination) : undefined;
}

/** Whether a value is no larger than it may be; one that can't be held against the limit does not keep it. */
function isWithin(value: Plain | undefined, largest: number | string): boolean {
  const [own, most] = [inUnitOf(largest, value), inUnitOf(largest, largest)];
  return own !== null && most !== null && own <= most + 1e-9 * Math.abs(most);
}
