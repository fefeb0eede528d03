/** Throttles along the runners, with trumpets in the open or in an airbox. */
import type { Induction, Stacks } from '../../combination/combination.ts';
import type { Estimate } from '../../combination/ledger.ts';
import type { RunnerMouth } from '../../geometry/tractBench.ts';
import { MOUTH_COEFFICIENT, mouth, throttleAt } from '../defaults/manifold.ts';
import { airboxInlet, airDemand, drawsByTurns, THROTTLE_COEFFICIENT } from '../defaults/metering.ts';
import type { ResolveContext } from './context.ts';
import { FieldFault } from './fieldFault.ts';
import { discArea } from './pipes.ts';
import {
  measuredOrStatedLoss,
  mouthOf,
  type RunnerInputs,
  runnerAreaAt,
  type Tract,
} from './resolveRunner.ts';

/** Runner with the throttle that stands in it. */
export function resolveStacks(
  context: ResolveContext,
  inputs: RunnerInputs,
  metering: { readonly kind: 'carburetor' | 'throttle'; readonly meteringArea: number },
  tract: Tract,
  wall: () => Estimate,
): Induction['runner'] & { readonly stacks: Stacks } {
  const { file, ledger } = context;
  const section = file.induction ?? {};
  const { length, lengthMultiplier, entryArea } = tract;
  const { cylinders } = inputs.block.block;
  const at = resolveThrottleAt(context, length, cylinders);
  const here = runnerAreaAt(tract, at);
  const each = metering.meteringArea / cylinders;
  const bore =
    metering.kind === 'carburetor' ? here : each / (THROTTLE_COEFFICIENT * (section.flowMultiplier ?? 1));
  const loss = measuredOrStatedLoss(context, inputs);
  const word = (): 'bell' | 'plain' => ledger.word('induction.runner.mouth', section.runner?.mouth, mouth);
  const { most, ...opening } =
    loss === undefined
      ? { mouthArea: MOUTH_COEFFICIENT[word()] * entryArea, most: null }
      : mouthBeside(mouthOf(tract, loss, inputs), entryArea, Math.max(0, 1 / each ** 2 - 1 / bore ** 2));
  const inlet = resolveAirboxInlet(context, inputs);
  const stacks: Stacks = {
    at: at * lengthMultiplier,
    bore,
    ...(most === null ? {} : { most }),
    ...(inlet === undefined ? {} : { inlet: { length: inlet.length ?? 0, area: discArea(inlet.inside) } }),
  };
  return {
    ...tract,
    ...opening,
    wallTemperature: ledger.quantity(
      'induction.runner.wallTemperature',
      section.runner?.wallTemperature,
      'temperature',
      'K',
      wall,
    ),
    stacks,
  };
}

/** How far behind the mouth a throttle stands in its runner [m]. */
function resolveThrottleAt({ file, ledger }: ResolveContext, length: number, cylinders: number): number {
  const { throttle, runner } = file.induction ?? {};
  const count = throttle?.count;
  if (count !== undefined && count % cylinders !== 0)
    throw new FieldFault(
      'induction.throttle.count',
      'by-cylinder',
      `is ${count}: with individual-throttles each of the ${cylinders} cylinders has its own`,
    );
  const at = ledger.quantity('induction.runner.throttleAt', runner?.throttleAt, 'length', 'mm', () =>
    throttleAt(length),
  );
  if (at < length) return at;
  throw new FieldFault(
    'induction.runner.throttleAt',
    'inconsistent',
    'lies behind the end of the runner, the face of the head',
  );
}

/** The way into the airbox; where only an air cleaner is known of it, that is all there is. */
function resolveAirboxInlet(
  { file, ledger }: ResolveContext,
  { block: { displacement, block }, ratedSpeed }: RunnerInputs,
): { readonly inside: number; readonly length?: number | undefined } | undefined {
  const { airbox: box, airCleaner } = file.induction ?? {};
  if (box === undefined || box.inlet !== undefined) return box?.inlet;
  if (airCleaner !== undefined && airCleaner !== 'none') return undefined;
  const path = 'induction.airbox.inlet.inside';
  const inside = ledger.quantity(path, undefined, 'length', 'mm', () =>
    // One or two cylinders draw with gaps, as through a throttle for the whole engine.
    airboxInlet(drawsByTurns(block.cylinders) * airDemand(displacement, ratedSpeed())),
  );
  return { inside };
}

/**
 * Mouth and throttle where the measured loss is of both together: the throttle takes what it is rated for, as far as the sheet leaves that
 * beside a mouth without loss, and the mouth what remains.
 */
function mouthBeside(
  { area, friction }: RunnerMouth,
  entryArea: number,
  throttle: number,
): Pick<Induction['runner'], 'mouthArea' | 'wallFriction'> & { readonly most: number } {
  const most = Math.max(0, 1 / area ** 2 - 1 / entryArea ** 2);
  return {
    mouthArea: 1 / Math.sqrt(1 / area ** 2 - Math.min(throttle, most)),
    ...(friction < 1 ? { wallFriction: friction } : {}),
    most,
  };
}
