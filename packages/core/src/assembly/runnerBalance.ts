/** Balance tubes from the side of one runner to the side of another. */
import type { Combination } from '../combination/combination.ts';
import { INTAKE_FLOW, pipeFanning, ROUGHNESS } from '../geometry/pipeFriction.ts';
import type { IntakeCharge } from './intakeCharge.ts';
import { cellCount, type Mesh, wall } from './mesh.ts';
import { type NetworkPlan, put } from './networkPlan.ts';
import { straightPipe } from './tracts.ts';

/** Effective over geometric area of a small tube's mouth in the side of a runner [-]: a sharp edge; from memory. */
const TUBE_MOUTH = 0.8;

/**
 * Puts the tubes into the plan; returns their ducts.
 *
 * @param runners - the duct at the valve of each cylinder, in the order of their numbers
 */
export function putRunnerBalance(
  plan: NetworkPlan,
  { combination, mesh, charge }: { combination: Combination; mesh: Mesh; charge: IntakeCharge },
  runners: readonly number[],
): readonly number[] {
  const { intake, induction } = combination;
  const { balance, runner } = induction;
  if (balance === undefined) return [];
  const { length, area, at, pairs } = balance;
  const profile = straightPipe(length, area);
  const fromValve = (intake.portLength + at) * runner.lengthMultiplier;
  return pairs.map((pair) => {
    const duct = put(plan.ducts, {
      name: `balance tube ${pair.join(' to ')}`,
      profile,
      cells: cellCount(profile, mesh.intakeCell, 2),
      ...wall(pipeFanning(ROUGHNESS.tube, area, INTAKE_FLOW), INTAKE_FLOW, area, runner),
      tables: charge.tables,
    });
    pair.forEach((number, i) => {
      const joined = runners[number - 1];
      const along = plan.ducts[joined].profile;
      const index = put(plan.cells, { duct: joined, at: along[along.length - 1].x - fromValve });
      const opening = { area: TUBE_MOUTH * area };
      put(plan.ends, { duct, at: i === 1 ? 'right' : 'left', to: { kind: 'cell', index }, opening });
    });
    return duct;
  });
}
