/** The block: sizes, firing order and angles, banks. */

import { counted } from '../../base/counted.ts';
import type { Block } from '../../combination/combination.ts';
import { sweptVolume } from '../../geometry/sliderCrank.ts';
import { rodLength } from '../defaults/clearance.ts';
import { layout, usualBanks, usualFiringOrder } from '../defaults/firing.ts';
import { type TurningSizes, turningInertia } from '../defaults/inertia.ts';
import type { Layout } from '../schema/engineSection.ts';
import type { ResolveContext } from './context.ts';

/** The block with what other resolvers need of it. */
export interface ResolvedBlock {
  readonly block: Block;
  readonly layout: Layout;
  readonly banks: readonly (readonly number[])[];
  /** One cylinder, and the whole engine [m3]. */
  readonly cylinderVolume: number;
  readonly displacement: number;
}

export function resolveBlock({ file, ledger }: ResolveContext): ResolvedBlock {
  const { bore, stroke, cylinders, rod, firingOrder, firingIntervals, banks } = file.engine;
  const kind = ledger.word('engine.layout', file.engine.layout, () => layout(cylinders));
  const order = statedOrder(firingOrder) ?? assumedOrder(cylinders, kind, ledger);
  const rodMetres = ledger.quantity('engine.rod', rod, 'length', 'in', () => rodLength(stroke));
  const cylinderVolume = sweptVolume({ bore, stroke });
  const angles = firingAngles(order, firingIntervals ?? order.map(() => 720 / cylinders));
  return {
    block: {
      cylinders,
      bore,
      stroke,
      rodLength: rodMetres,
      firingOrder: order,
      firingAngles: angles,
      ...resolveInertia({ file, ledger }, { bore, stroke, cylinders, rodLength: rodMetres }),
    },
    layout: kind,
    banks: banks ?? usualBanks(cylinders, kind, angles),
    cylinderVolume,
    displacement: cylinderVolume * cylinders,
  };
}

/** What turns; asked for only where pulls of a known rate are to be read with it. */
function resolveInertia(
  { file, ledger }: Pick<ResolveContext, 'file' | 'ledger'>,
  sizes: TurningSizes,
): Pick<Block, 'inertia'> {
  const stated = file.engine.inertia;
  if (stated === undefined && file.pullRate === undefined) return {};
  return {
    inertia: ledger.quantity('engine.inertia', stated, 'inertia', 'lb-ft2', () => turningInertia(sizes)),
  };
}

/** Cylinder numbers of a firing order as written, or null; anything but digits parts them. */
export function statedOrder(written: string | readonly number[] | 1 | undefined): readonly number[] | null {
  if (written === undefined) return null;
  if (typeof written === 'number') return [written];
  if (typeof written !== 'string') return written;
  return written
    .split(/[^0-9]+/u)
    .filter((part) => part !== '')
    .map(Number);
}

function assumedOrder(cylinders: number, kind: Layout, ledger: ResolveContext['ledger']): readonly number[] {
  const order = usualFiringOrder(cylinders, kind) ?? [];
  ledger.word('engine.firingOrder', undefined, () => ({
    value: order.join('-'),
    reason: `usual for ${counted(cylinders, 'cylinder')}, ${kind}; common practice, no source`,
  }));
  return order;
}

/** Angle of each cylinder's firing top centre [deg], by cylinder number. */
function firingAngles(order: readonly number[], intervals: readonly number[]): readonly number[] {
  const angles = order.map(() => 0);
  let angle = 0;
  order.forEach((cylinder, index) => {
    angles[cylinder - 1] = angle;
    angle += intervals[index];
  });
  return angles;
}
