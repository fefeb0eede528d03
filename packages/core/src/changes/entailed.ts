/** What must give way when a field is set: the other ways of saying the same thing, and estimates that rested on it. */

import type { Combination } from '../combination/combination.ts';
import type { Plain } from '../reading/combinationDocument.ts';
import type { Entailment } from '../reading/fields/fieldFacts.ts';
import { FIELD_ROWS } from '../reading/fields/fieldTable.ts';
import { RESTS_ON_METERING } from '../reading/fields/inductionFields.ts';
import { areNested, isWithin } from '../reading/fields/isWithin.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';

/** All that the fields set entail, as the table of fields has it; none that is set itself. */
export type Entailed = Required<Pick<Entailment, 'drops' | 'releases' | 'holds'>>;

const ENTAILING = FIELD_ROWS.flatMap(([path, { entails = [] }]) =>
  entails.map((entailment) => ({ path, ...entailment })),
);

/**
 * What gives way when these fields get these values, save what is set itself. A path stands for everything below it too. A carburetor in place
 * of a throttle, or the reverse, also changes how the charge is warmed. For a field that gets the value it has nothing gives way.
 */
export function entailed(
  values: ReadonlyMap<string, Plain>,
  { induction, ownCamshafts }: Pick<Combination, 'induction' | 'ownCamshafts'>,
  now: (path: string) => Plain | undefined,
): Entailed {
  const paths = [...values.keys()];
  const moved = [...values].flatMap(([path, value]) => (isEqual(value, now(path)) ? [] : [path]));
  const shafts = ownCamshafts === true ? 'own' : 'shared';
  const isSet = (field: FieldPath): boolean => paths.some((path) => areNested(path, field));
  const isMoved = (field: FieldPath): boolean => moved.some((path) => areNested(path, field));
  const drops = new Set<FieldPath>();
  const releases = new Set<FieldPath>();
  const holds = new Set<FieldPath>();
  for (const rule of ENTAILING) {
    if (!isMoved(rule.path) || (rule.with !== undefined && !isSet(rule.with))) continue;
    if (rule.to !== undefined && values.get(rule.path) !== rule.to) continue;
    if (rule.beside !== undefined && (now(rule.beside) ?? null) === null) continue;
    if (rule.camshafts !== undefined && rule.camshafts !== shafts) continue;
    for (const path of rule.drops ?? []) drops.add(path);
    for (const path of rule.releases ?? []) releases.add(path);
    for (const path of rule.holds ?? []) holds.add(path);
  }
  const other = induction.kind === 'carburetor' ? 'induction.throttle' : 'induction.carburetor';
  if (paths.some((path) => isWithin(path, other))) for (const path of RESTS_ON_METERING) releases.add(path);
  return {
    drops: [...drops].filter((path) => !isSet(path)),
    releases: [...releases],
    // Beside a separation or an advance that is set too, the other centreline follows from them.
    holds: isSet('cam.separation') || isSet('cam.advance') ? [] : [...holds].filter((path) => !isSet(path)),
  };
}

function isEqual(a: Plain, b: Plain | undefined): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
