/** Exhaust: primaries, collectors, outlet. */

import type { ExhaustSystem } from '../../combination/combination.ts';
import type { Estimate } from '../../combination/ledger.ts';
import { areaFromFlow } from '../../geometry/flowSheet.ts';
import { usualGroups } from '../defaults/firing.ts';
import {
  collectorInside,
  collectorLength,
  collectorWall,
  exhaustStyle,
  mergeVolume,
  primaryInside,
  primaryLength,
  primaryWall,
  tubeWall,
} from '../defaults/header.ts';
import { ratingDrop } from '../defaults/metering.ts';
import { BACK_PRESSURE, muffler, outletAreaFor, ratedAirflow, returnedExhaust } from '../defaults/outlet.ts';
import type { ExhaustStyle, PipeSection } from '../schema/exhaustSection.ts';
import type { ResolveContext } from './context.ts';
import type { ResolvedBlock } from './resolveBlock.ts';

export interface ExhaustInputs {
  readonly block: ResolvedBlock;
  readonly portArea: number;
  readonly ratedSpeed: () => number;
}

export function resolveExhaust(context: ResolveContext, inputs: ExhaustInputs): ExhaustSystem {
  const { file, ledger } = context;
  const section = file.exhaust ?? {};
  const { block } = inputs.block;
  const style = ledger.word('exhaust.style', section.style, exhaustStyle);
  const path = 'exhaust.primary';
  const inside = insideDiameter(context, path, section.primary, () =>
    primaryInside(style, {
      cylinderVolume: inputs.block.cylinderVolume,
      stroke: block.stroke,
      ratedSpeed: style === 'cast' ? 0 : inputs.ratedSpeed(),
      portArea: inputs.portArea,
    }),
  );
  const primary = {
    length: ledger.quantity(`${path}.length`, section.primary?.length, 'length', 'in', () =>
      primaryLength(style, block.bore),
    ),
    area: discArea(inside),
    wallTemperature: ledger.quantity(
      `${path}.wallTemperature`,
      section.primary?.wallTemperature,
      'temperature',
      'K',
      () => primaryWall(style),
    ),
  };
  const collectors = resolveCollectors(context, inputs, style, inside);
  const outlets = collectors === null ? block.cylinders : collectors.groups.length;
  const open = collectors === null ? primary.area : collectors.area;
  const outlet = outletArea(context, inputs, style, outlets, open);
  const returned = ledger.quantity('exhaust.returned', section.returned, 'share', '%', () =>
    returnedExhaust(outlet >= open),
  );
  return { primary, collectors, outletArea: outlet, returned };
}

function resolveCollectors(
  context: ResolveContext,
  { block: { block, banks } }: ExhaustInputs,
  style: ExhaustStyle,
  primaryInsideDiameter: number,
): ExhaustSystem['collectors'] {
  const { file, ledger } = context;
  const stated = file.exhaust?.collector;
  if (stated === 'none') return null;
  if (stated === undefined && block.cylinders === 1) {
    ledger.word('exhaust.collector', undefined, () => ({
      value: 'none',
      reason: 'one cylinder has nothing to share',
    }));
    return null;
  }
  const groups = file.exhaust?.groups ?? usualGroups(banks, style);
  const largest = Math.max(...groups.map((group) => group.length));
  const path = 'exhaust.collector';
  const inside = insideDiameter(context, path, stated, () => collectorInside(primaryInsideDiameter, largest));
  return {
    groups,
    mergeVolume: ledger.quantity(`${path}.mergeVolume`, stated?.mergeVolume, 'volume', 'cc', () =>
      mergeVolume(inside),
    ),
    length: ledger.quantity(`${path}.length`, stated?.length, 'length', 'in', () => collectorLength(style)),
    area: discArea(inside),
    wallTemperature: ledger.quantity(
      `${path}.wallTemperature`,
      stated?.wallTemperature,
      'temperature',
      'K',
      collectorWall,
    ),
  };
}

/** Effective area of one outlet [m2]: its own opening, and the muffler's where there is one. */
function outletArea(
  context: ResolveContext,
  inputs: ExhaustInputs,
  style: ExhaustStyle,
  outlets: number,
  open: number,
): number {
  const { file, ledger } = context;
  const stated = file.exhaust?.muffler;
  const { displacement } = inputs.block;
  if (stated === undefined || typeof stated === 'string') {
    const kind = ledger.word('exhaust.muffler', stated, () => muffler(style));
    if (kind === 'open') return open;
    const area =
      outletAreaFor(BACK_PRESSURE[kind], ratedAirflow(displacement, inputs.ratedSpeed())) / outlets;
    return Math.min(open, area);
  }
  if (stated.flow !== undefined) {
    const drop = ledger.quantity('exhaust.muffler.at', stated.at, 'pressure', 'inHg', () => ({
      ...ratingDrop(4),
      reason: 'mufflers are rated at 1.5 inHg; common practice, no source',
    }));
    return Math.min(open, areaFromFlow(stated.flow, drop));
  }
  const airflow = ledger.quantity('exhaust.muffler.airflow', stated.airflow, 'flow', 'cfm', () => {
    const value = ratedAirflow(displacement, inputs.ratedSpeed());
    return { value, spread: 0.1 * value, reason: 'taken at rated speed with 90 % filling' };
  });
  return Math.min(open, outletAreaFor(stated.backPressure ?? Number.NaN, airflow) / outlets);
}

/** Inside diameter [m] of a tube: as stated, outside less two walls, or the estimate. */
function insideDiameter(
  { ledger }: ResolveContext,
  path: string,
  stated: PipeSection | undefined,
  estimate: () => Estimate,
): number {
  if (stated?.inside === undefined && stated?.diameter !== undefined) {
    const wall = ledger.quantity(`${path}.wall`, stated.wall, 'length', 'in', tubeWall);
    return stated.diameter - 2 * wall;
  }
  return ledger.quantity(`${path}.inside`, stated?.inside, 'length', 'in', estimate);
}

function discArea(diameter: number): number {
  return (Math.PI / 4) * diameter * diameter;
}
