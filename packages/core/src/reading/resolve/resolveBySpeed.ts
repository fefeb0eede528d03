/** What the file gives by speed: mixture, and where the lobes stand. */
import type { BySpeed, Combination, Fuel } from '../../combination/combination.ts';
import type { ResolveContext } from './context.ts';
import type { ResolvedGear } from './resolveCam.ts';
import { statedLambda } from './resolveRunning.ts';

/**
 * Tables of what goes with speed; null where nothing does.
 *
 * @param camshafts - `shared`: a phaser moves both lobes at once, so that the one without a table goes with the other
 */
export function resolveBySpeed(
  { file }: Pick<ResolveContext, 'file'>,
  fuel: Fuel,
  gear: ResolvedGear,
  camshafts: 'own' | 'shared',
): NonNullable<Combination['bySpeed']> | null {
  const lambda = tableOf(statedLambda(file, fuel));
  const intake = tableOf(file.cam?.intake?.centreline);
  const exhaust = tableOf(file.cam?.exhaust?.centreline);
  const separation = (gear.intake.centreline + gear.exhaust.centreline) / 2;
  const opposite = (table: BySpeed | undefined): BySpeed | undefined =>
    table === undefined || camshafts === 'own'
      ? undefined
      : { rpm: table.rpm, value: table.value.map((angle) => 2 * separation - angle) };
  const intakeCentreline = intake ?? opposite(exhaust);
  const exhaustCentreline = exhaust ?? opposite(intake);
  if (lambda === undefined && intakeCentreline === undefined && exhaustCentreline === undefined) return null;
  return {
    ...(lambda === undefined ? {} : { lambda }),
    ...(intakeCentreline === undefined ? {} : { intakeCentreline }),
    ...(exhaustCentreline === undefined ? {} : { exhaustCentreline }),
  };
}

function tableOf(value: number | BySpeed | undefined): BySpeed | undefined {
  return typeof value === 'object' ? value : undefined;
}
