/** Parts that are computed from other parts' fields, and stay what they were when only those others change. */
import type { Combination, Lobe } from '../combination/combination.ts';
import { areNested } from '../reading/fields/isWithin.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';

/** Fields that describe the mouth of the runner. */
const MOUTH: readonly FieldPath[] = [
  'induction.manifold',
  'induction.runner.mouth',
  'induction.runner.entryArea',
  'induction.flowLoss',
];
/** Fields that describe how the exhaust side flows. */
const EXHAUST_FLOW: readonly FieldPath[] = ['heads.exhaust', 'heads.ports', 'heads.valvesPerCylinder'];

/**
 * `after` with what `before` had, where none of `paths` names it.
 *
 * The runner's mouth: a manifold's loss is stated as a share of the flow of the port it was tried on, so that a better port
 * alone would come out with a better manifold. The exhaust flow: without a sheet it is a share of the intake's. A lobe measured at
 * the valve: it was brought to the lobe with the rockers and the lash it was measured with, and other ones act on it.
 */
export function keepUntouched(
  before: Combination,
  after: Combination,
  paths: readonly string[],
): Combination {
  const touches = (fields: readonly FieldPath[]): boolean =>
    fields.some((field) => paths.some((path) => areNested(path, field)));
  // A new sheet may bring the loss with the manifold bolted on, measured.
  const sheetHasLoss =
    touches(['heads.flow', 'heads.intake.flow']) &&
    !after.assumed.some(({ path }) => path === 'induction.flowLoss');
  const mouth = touches(MOUTH) || sheetHasLoss ? after.induction.runner : before.induction.runner;
  const exhaustByIntake = before.exhaust.flow.measuredTo === null && after.exhaust.flow.measuredTo === null;
  const flow = exhaustByIntake && !touches(EXHAUST_FLOW) ? before.exhaust.flow : after.exhaust.flow;
  const { wallFriction: _, ...runner } = after.induction.runner;
  const { mouthArea, wallFriction } = mouth;
  const kept = { ...runner, mouthArea, ...(wallFriction === undefined ? {} : { wallFriction }) };
  const lobeOf = (side: 'intake' | 'exhaust'): Lobe =>
    before[side].lobe.kind === 'table' && !touches([`cam.${side}`]) ? before[side].lobe : after[side].lobe;
  return {
    ...after,
    intake: { ...after.intake, lobe: lobeOf('intake') },
    exhaust: { ...after.exhaust, lobe: lobeOf('exhaust'), flow },
    induction: { ...after.induction, runner: kept },
  };
}
