/** Ports that nobody measured, beside the speed the engine is meant for. */
import { INCH } from '../../base/constants.ts';
import type { Combination } from '../../combination/combination.ts';
import { USUAL_PORT } from '../defaults/ports.ts';
import { ratedPace } from '../defaults/ratedSpeed.ts';
import { valveDiameter } from '../defaults/valves.ts';
import type { ResolveContext } from '../resolve/context.ts';
import type { FieldPath } from '../schema/fieldPath.ts';

/** Throat area assumed, over what a port cast for that speed would have, below which it is told [-]: the rule itself is good to a tenth. */
const LEAST_SHARE = 0.8;

/**
 * Warns where the throat assumed is far from what the rule of {@link throatByPace}, past its own end, would give an engine with valves of usual size: it has larger valves
 * or worked ports, which nobody can guess, and a forecast without them reads low.
 */
export function checkPorts(
  { file, ledger }: ResolveContext,
  { block, chamber, intake, exhaust }: Combination,
): void {
  if (intake.flow.measuredTo !== null || file.heads?.intake?.throat !== undefined) return;
  const assumed = (path: FieldPath): number =>
    Number(ledger.assumed.find((entry) => entry.path === path)?.value);
  const rated = file.engine.ratedSpeed ?? assumed('engine.ratedSpeed');
  const { valves } = intake;
  const { value: valve } = valveDiameter(
    block.bore,
    'intake',
    valves,
    valves + exhaust.valves,
    chamber.shape,
  );
  const pace = ratedPace({ ...block, valves, valveDiameter: valve }, rated);
  const throat = (assumed('heads.intake.throat') * INCH) / (USUAL_PORT['as-cast'].throat * valve);
  const share = (throat * throat) / pace;
  if (!(share < LEAST_SHARE)) return;
  const rpm = Math.round(rated / 50) * 50;
  const message = `is not measured, and what is assumed of the ports is small for ${rpm} rpm: an engine of that speed has about ${(1 / share).toFixed(1)} times the area, by larger valves or worked ports. The forecast reads low until the file has its flow sheet, or ${file.heads?.intake?.valve === undefined ? 'heads.intake.valve and ' : ''}heads.ports`;
  ledger.warn('ports-small', 'heads.intake.flow', message);
}
