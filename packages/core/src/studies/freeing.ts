/** What it means that one element is free: the engine as it is, but for that element's loss. */
import type { Combination, Port } from '../combination/combination.ts';
import { flowArea } from '../geometry/flowArea.ts';
import { MINIMUM_OVER_MEAN } from '../reading/defaults/ports.ts';

/** What may stand in the way, and what else an engine loses. `metering`: carburetor or throttle. */
export type RestrictionElement =
  | 'air-cleaner'
  | 'metering'
  | 'restrictor'
  | 'manifold'
  | 'intake-port'
  | 'exhaust-port'
  | 'primary'
  | 'collector-and-muffler'
  | 'charge-heating'
  | 'pumping'
  | 'friction';

/** How an element is freed. */
export interface Freeing {
  readonly element: RestrictionElement;
  /** What free means here, one sentence. */
  readonly meaning: string;
  /**
   * The combination with the element free; null where there is nothing to free. Absent where the gain follows from the
   * forecast itself: taking work off changes no flow.
   */
  readonly free?: (combination: Combination) => Combination | null;
}

/**
 * Area of carburetor or throttle over its own when free [-]: leaves a sixteenth of the depression. Far more would make the
 * plenum part of the outside air and take its waves away, which is another engine.
 */
const METERING_FACTOR = 4;
/** Wall friction left when free [-]; the heat that walls take or give stays. */
const WALL_FRICTION_LEFT = 0.02;
/** Points of the lift at which a free valve's area is laid down, up to half a valve diameter. */
const LIFTS = 60;

/** Every element with what free means for it. Lengths, areas of pipes and valve timing stay, so that tuning stays. */
export const FREEINGS: readonly Freeing[] = [
  {
    element: 'air-cleaner',
    meaning: 'no air cleaner',
    free: (c) => (c.induction.airCleanerArea === null ? null : withInduction(c, { airCleanerArea: null })),
  },
  {
    element: 'metering',
    meaning: `carburetor or throttle of ${METERING_FACTOR} times the flow area; plenum and runners as they are`,
    free: (c) => withInduction(c, { meteringArea: METERING_FACTOR * c.induction.meteringArea }),
  },
  {
    element: 'restrictor',
    meaning: 'no restrictor plate and no sonic restrictor',
    free: ({ induction: { restrictor, ...free }, ...c }) =>
      restrictor === undefined ? null : { ...c, induction: free },
  },
  {
    element: 'manifold',
    meaning:
      'no loss at the mouths of the runners and no wall friction in runner and port; plenum, lengths and areas as they are',
    free: (c) => {
      const { runner } = c.induction;
      const mouthArea = Math.max(runner.mouthArea, runner.entryArea);
      return withInduction(c, { runner: { ...runner, mouthArea, wallFriction: WALL_FRICTION_LEFT } });
    },
  },
  {
    element: 'intake-port',
    meaning:
      'at every lift the valve passes all that its curtain and the smallest area of its port could; lift, timing, length and area of the port as they are',
    free: (c) => ({ ...c, intake: withFreeValve(c.intake) }),
  },
  {
    element: 'exhaust-port',
    meaning: 'as the intake port and valve',
    free: (c) => ({ ...c, exhaust: withFreeValve(c.exhaust) }),
  },
  {
    element: 'primary',
    meaning: 'no wall friction in exhaust port and primary; length and area as they are',
    free: (c) => {
      const { exhaustSystem } = c;
      const primary = { ...exhaustSystem.primary, wallFriction: WALL_FRICTION_LEFT };
      return { ...c, exhaustSystem: { ...exhaustSystem, primary } };
    },
  },
  {
    element: 'collector-and-muffler',
    meaning: 'no muffler and no wall friction in the collector; its length and area as they are',
    free: withOpenOutlet,
  },
  {
    element: 'charge-heating',
    meaning: 'plenum, runners and ports give the charge no heat; their walls are as cool as the outside air',
    free: (c) => {
      const runner = { ...c.induction.runner, wallTemperature: c.weather.temperature };
      return withInduction(c, { heating: 0, runner });
    },
  },
  { element: 'pumping', meaning: 'no work for gas exchange, at the same filling' },
  { element: 'friction', meaning: 'nothing rubs and nothing is driven, at the same filling' },
];

function withInduction(combination: Combination, change: Partial<Combination['induction']>): Combination {
  return { ...combination, induction: { ...combination.induction, ...change } };
}

function withOpenOutlet(combination: Combination): Combination | null {
  const { exhaustSystem } = combination;
  const { collectors, primary } = exhaustSystem;
  const pipe = collectors ?? primary;
  const { muffler, ...open } = exhaustSystem;
  if (collectors === null && muffler === undefined && exhaustSystem.outletArea >= pipe.area) return null;
  const end = collectors?.exitArea ?? primary.steps?.[primary.steps.length - 1]?.area ?? pipe.area;
  const outletArea = Math.max(exhaustSystem.outletArea, end);
  const smooth = collectors === null ? null : { ...collectors, wallFriction: WALL_FRICTION_LEFT };
  return { ...combination, exhaustSystem: { ...open, collectors: smooth, outletArea } };
}

/**
 * The port with a discharge coefficient of one: on the curtain, and higher on the port's smallest area, taken as its usual
 * share of the mean area; never less than measured.
 */
function withFreeValve(port: Port): Port {
  const measured = flowArea(port.flow);
  const lift = Array.from({ length: LIFTS }, (_, i) => ((i + 1) * port.valveDiameter) / (2 * LIFTS));
  const area = lift.map((at) => {
    const curtain = port.valves * Math.PI * port.valveDiameter * at;
    return Math.max(measured(at), Math.min(curtain, MINIMUM_OVER_MEAN * port.portArea));
  });
  return { ...port, flow: { ...port.flow, lift, area } };
}
