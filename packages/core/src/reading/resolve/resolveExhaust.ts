/** Exhaust: primaries, collectors, outlet. */

import type { ExhaustSystem } from '../../combination/combination.ts';
import { mean } from '../../numerics/mean.ts';
import { evenPairs, usualGroups } from '../defaults/firing.ts';
import {
  balanceInside,
  balanceLength,
  balancePlace,
  collectorInside,
  collectorLength,
  collectorWall,
  exhaustStyle,
  mergeVolume,
  primaryBends,
  primaryInside,
  primaryLength,
  primaryWall,
  secondaryInside,
  secondaryLength,
  TUBE_WALL,
} from '../defaults/header.ts';
import { returnedExhaust } from '../defaults/outlet.ts';
import type { ExhaustStyle, PrimarySection } from '../schema/exhaustSection.ts';
import type { ResolveContext } from './context.ts';
import { discArea, insideDiameter, wallOf } from './pipes.ts';
import type { ResolvedBlock } from './resolveBlock.ts';
import { resolveMuffler } from './resolveMuffler.ts';

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
    length:
      meanLength(section.primary?.lengths) ??
      ledger.quantity(`${path}.length`, section.primary?.length, 'length', 'in', () =>
        primaryLength(style, block, inputs.ratedSpeed),
      ),
    area: discArea(inside),
    wallTemperature: ledger.quantity(
      `${path}.wallTemperature`,
      section.primary?.wallTemperature,
      'temperature',
      'K',
      () => primaryWall(style),
    ),
    bends: ledger.quantity(`${path}.bends`, section.primary?.bends, 'angle', 'deg', () =>
      primaryBends(style),
    ),
    ...primaryForm(section.primary),
  };
  const collectors = resolveCollectors(context, inputs, style, inside);
  const secondary = resolveSecondary(context, inputs, collectors, primary.area);
  const balance = resolveBalance(context, collectors);
  const outlets = collectors === null ? block.cylinders : collectors.groups.length;
  const open =
    collectors === null
      ? (primary.steps?.[primary.steps.length - 1]?.area ?? primary.area)
      : (collectors.exitArea ?? collectors.area);
  const { displacement } = inputs.block;
  const { ratedSpeed } = inputs;
  const outlet = resolveMuffler(context, {
    style,
    displacement,
    cylinders: inputs.block.block.cylinders,
    outlets,
    open,
    ratedSpeed,
  });
  const returned = ledger.quantity('exhaust.returned', section.returned, 'share', '%', () =>
    returnedExhaust(outlet.muffler === undefined ? 'open' : 'muffled'),
  );
  return {
    primary,
    ...(secondary === undefined ? {} : { secondary }),
    collectors,
    ...(balance === undefined ? {} : { balance }),
    ...outlet,
    returned,
  };
}

/** Mean of the lengths of each cylinder's own [m], where the file has them. */
function meanLength(lengths: readonly number[] | undefined): number | undefined {
  return lengths === undefined ? undefined : mean(lengths);
}

/** Sizes behind the first, and lengths by cylinder, where the file has them. A wall left out is the first size's. */
function primaryForm(
  section: PrimarySection | undefined,
): Pick<ExhaustSystem['primary'], 'steps' | 'lengths'> {
  const { steps, lengths, wall = TUBE_WALL } = section ?? {};
  const stepped = steps?.map((step) => ({
    after: step.after,
    area: discArea(step.inside ?? (step.diameter ?? Number.NaN) - 2 * (step.wall ?? wall)),
  }));
  return {
    ...(lengths === undefined ? {} : { lengths }),
    ...(stepped === undefined ? {} : { steps: stepped }),
  };
}

/** First merges, where the file has them: pairs that fire a turn apart, as a builder would pair them. */
function resolveSecondary(
  context: ResolveContext,
  { block: { block } }: ExhaustInputs,
  collectors: ExhaustSystem['collectors'],
  primaryArea: number,
): ExhaustSystem['secondary'] {
  const { file, ledger } = context;
  const stated = file.exhaust?.secondary;
  if (stated === undefined || collectors === null) return undefined;
  const path = 'exhaust.secondary';
  const inside = insideDiameter(context, path, stated, () => secondaryInside(primaryArea));
  return {
    groups: stated.groups ?? evenPairs(collectors.groups, block.firingAngles),
    mergeVolume: ledger.quantity(`${path}.mergeVolume`, stated.mergeVolume, 'volume', 'cc', () =>
      mergeVolume(inside),
    ),
    length: ledger.quantity(`${path}.length`, stated.length, 'length', 'in', secondaryLength),
    area: discArea(inside),
    wallTemperature: wallOf(context, path, stated, collectorWall),
  };
}

/** A tube between two collectors, where the file has one. */
function resolveBalance(
  context: ResolveContext,
  collectors: ExhaustSystem['collectors'],
): ExhaustSystem['balance'] {
  const { file, ledger } = context;
  const stated = file.exhaust?.balance;
  if (stated === undefined || collectors === null) return undefined;
  const path = 'exhaust.balance';
  const inside = insideDiameter(context, path, stated, () => balanceInside(collectors.area));
  return {
    at: ledger.quantity(`${path}.at`, stated.at, 'length', 'in', () => balancePlace(collectors.length)),
    length: ledger.quantity(`${path}.length`, stated.length, 'length', 'in', balanceLength),
    area: discArea(inside),
    wallTemperature: wallOf(context, path, stated, collectorWall),
  };
}

function resolveCollectors(
  context: ResolveContext,
  { block: { block, banks }, ratedSpeed }: ExhaustInputs,
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
    length: ledger.quantity(`${path}.length`, stated?.length, 'length', 'in', () =>
      collectorLength(style, block.cylinders, ratedSpeed),
    ),
    area: discArea(inside),
    wallTemperature: wallOf(context, path, stated, collectorWall),
    ...(stated?.exit === undefined ? {} : { exitArea: discArea(stated.exit) }),
  };
}
