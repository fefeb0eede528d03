/** What the exhaust ends in: the open, or a muffler as a box whose loss is the rated or measured one. */
import type { ExhaustSystem, MufflerBox } from '../../combination/combination.ts';
import { areaFromFlow } from '../../geometry/flowSheet.ts';
import {
  BENCH_FLOW,
  EXHAUST_FLOW,
  type PipeFlow,
  pipeFanning,
  ROUGHNESS,
} from '../../geometry/pipeFriction.ts';
import { ratingDrop } from '../defaults/metering.ts';
import {
  backPressure,
  muffler,
  mufflerPipeInside,
  mufflerPipeLength,
  mufflerPipeWall,
  mufflerVolume,
  outletAreaFor,
  ratedAirflow,
} from '../defaults/outlet.ts';
import type { ExhaustStyle, MufflerKind, MufflerSection } from '../schema/exhaustSection.ts';
import type { ResolveContext } from './context.ts';
import { discArea, insideDiameter } from './pipes.ts';

export interface MufflerInputs {
  readonly style: ExhaustStyle;
  /** Displacement of the engine [m3], its cylinders, and how many outlets share them. */
  readonly displacement: number;
  readonly cylinders: number;
  readonly outlets: number;
  /** Area of the pipe that ends in the open or in the muffler [m2]. */
  readonly open: number;
  readonly ratedSpeed: () => number;
}

/** Box and opening of one outlet. */
export function resolveMuffler(
  context: ResolveContext,
  inputs: MufflerInputs,
): Pick<ExhaustSystem, 'muffler' | 'outletArea'> {
  const stated = context.file.exhaust?.muffler;
  const { open } = inputs;
  const kind = context.file.exhaust?.box?.kind;
  if (stated !== undefined && typeof stated !== 'string')
    return boxed(context, inputs, statedLoss(context, inputs, stated), kind);
  const word = context.ledger.word('exhaust.muffler', stated, () => muffler(inputs.style));
  if (word === 'open') return { outletArea: open };
  const pressure = context.ledger.quantity(
    'exhaust.box.backPressure',
    context.file.exhaust?.box?.backPressure,
    'pressure',
    'psi',
    () => backPressure(word),
  );
  const airflow = ratedAirflow(inputs.displacement, inputs.ratedSpeed());
  const taken = outletAreaFor(pressure, airflow) / inputs.outlets;
  return boxed(context, inputs, { passes: fromStillGas(taken, open), of: EXHAUST_FLOW }, word);
}

/** What a muffler takes of a flow. */
interface MufflerLoss {
  /** Effective area from still gas [m2]. */
  readonly passes: number;
  /** The gas that it was found with: air on a bench, or exhaust. */
  readonly of: PipeFlow;
}

/**
 * Effective area from still gas [m2] of what takes a pressure that was read at the wall of the pipe in front [m2, and that pipe's area]: a gauge
 * there shows what is above the air outside, and not the speed of the gas, which is lost behind an open pipe too.
 */
function fromStillGas(taken: number, open: number): number {
  return 1 / Math.sqrt(1 / (taken * taken) + 1 / (open * open));
}

/** Loss of one muffler, by its rating or its back-pressure. */
function statedLoss(
  { ledger }: ResolveContext,
  { displacement, outlets, open, ratedSpeed }: MufflerInputs,
  stated: MufflerSection,
): MufflerLoss {
  if (stated.flow !== undefined) {
    const drop = ledger.quantity('exhaust.muffler.at', stated.at, 'pressure', 'inHg', () => ({
      ...ratingDrop(4),
      reason: 'what mufflers are rated at; common practice, no source',
    }));
    return { passes: areaFromFlow(stated.flow, drop), of: BENCH_FLOW };
  }
  const airflow = ledger.quantity('exhaust.muffler.airflow', stated.airflow, 'flow', 'cfm', () => {
    const value = ratedAirflow(displacement, ratedSpeed());
    return { value, spread: 0.1 * value, reason: 'taken at rated speed with 90 % filling' };
  });
  const taken = outletAreaFor(stated.backPressure ?? Number.NaN, airflow) / outlets;
  return { passes: fromStillGas(taken, open), of: EXHAUST_FLOW };
}

/** Loss of the pipes alone over that of the rating from which on they are taken to contradict each other [-]: 5 % of flow. */
const NOTED_LOSS = 1.1;

/**
 * The box that passes what `passes` would [m2]. What the pipes lose by themselves is taken off: the jet into a box and the friction
 * of its tail-pipe, or the friction of the pipe with holes. A muffler that passes more than a box with two open pipes
 * can't be one with chambers.
 */
function boxed(
  context: ResolveContext,
  { displacement, cylinders, outlets, open }: MufflerInputs,
  { passes, of }: MufflerLoss,
  built: MufflerKind | undefined,
): Pick<ExhaustSystem, 'muffler' | 'outletArea'> {
  const { ledger } = context;
  const stated = context.file.exhaust?.box ?? {};
  const path = 'exhaust.box';
  const inside = insideDiameter(context, `${path}.pipe`, stated.pipe, () => mufflerPipeInside(open));
  const length = ledger.quantity(
    `${path}.pipe.length`,
    stated.pipe?.length,
    'length',
    'in',
    mufflerPipeLength,
  );
  const area = discArea(inside);
  const friction = (4 * pipeFanning(ROUGHNESS.tube, area, of) * length) / (inside * area * area);
  const chambers = 1 / (passes * passes) - 1 / (open * open) - friction;
  const possible = chambers >= 1 / (area * area);
  const kind =
    built ??
    ledger.word(`${path}.kind`, undefined, () => ({
      value: possible ? ('chambered' as const) : ('straight-through' as const),
      reason: possible
        ? 'it loses as much as a box with chambers does'
        : 'it passes more than a box with chambers would',
    }));
  const volume = ledger.quantity(`${path}.volume`, stated.volume, 'volume', 'l', () =>
    mufflerVolume(kind, cylinders / outlets, displacement / cylinders),
  );
  const straight = 1 / (passes * passes) - friction;
  const left = kind === 'chambered' ? chambers : straight;
  const passage = left > 1 / (area * area) ? 1 / Math.sqrt(left) : area;
  const own = 1 / (area * area) + friction + (kind === 'chambered' ? 1 / (open * open) : 0);
  const over = own * passes * passes;
  if (over > NOTED_LOSS)
    ledger.warn(
      'muffler-loss',
      'exhaust.muffler',
      `passes more than ${kind === 'chambered' ? 'a box with chambers' : 'its pipe'} can: pipes of these sizes alone take ${over.toFixed(1)} times the pressure that it stands for`,
    );
  const wallTemperature = ledger.quantity(
    `${path}.pipe.wallTemperature`,
    stated.pipe?.wallTemperature,
    'temperature',
    'K',
    mufflerPipeWall,
  );
  const box: MufflerBox = { kind, volume, passage, pipe: { length, area, wallTemperature } };
  return { muffler: box, outletArea: area };
}
