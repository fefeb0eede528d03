/** Induction: metering, air cleaner, plenums, runners, charge temperature. */

import type { Block, Fuel, Induction } from '../../combination/combination.ts';
import type { Estimate } from '../../combination/ledger.ts';
import {
  evaporation as evaporationOf,
  heating,
  injectionKind,
  manifoldHeat,
  openHeating,
  runnerWall,
  vapour,
} from '../defaults/charge.ts';
import { manifoldStyle, throttleAt } from '../defaults/manifold.ts';
import type { InductionSection, Manifold } from '../schema/inductionSection.ts';
import type { ResolveContext } from './context.ts';
import { FieldFault } from './fieldFault.ts';
import { makeOf } from './makeOf.ts';
import { once } from './once.ts';
import {
  airCleanerArea,
  kindOf,
  type Metering,
  resolveMetering,
  resolveRestrictor,
} from './resolveMetering.ts';
import { resolvePlenums, resolveRunnerBalance } from './resolvePlenums.ts';
import { type RunnerInputs, resolveRunner, resolveTract, runnerAreaAt } from './resolveRunner.ts';
import { resolveStacks } from './resolveStacks.ts';

/** What the induction is sized by. */
interface InductionInputs extends RunnerInputs {
  /** Of a cylinder [-]. */
  readonly valves: number;
  readonly fuel: Fuel;
}

/** Everything from the outside air to the head; estimates are listed in the order they are made. */
export function resolveInduction(context: ResolveContext, inputs: InductionInputs): Induction {
  const { file, ledger } = context;
  const section = file.induction ?? {};
  const { block } = inputs.block;
  const kind = kindOf(section, inputs.valves);
  const style = styleOf(context, inputs, kind);
  const tract = once(() => resolveTract(context, inputs, style));
  const metering = resolveMetering(context, inputs, {
    kind,
    style,
    runnerArea: () => runnerAreaAt(tract(), section.runner?.throttleAt ?? throttleAt(tract().length).value),
  });
  const { count, meteringArea, venturi, barrels, venturiArea } = metering;
  const injection = injectionOf(context, kind);
  const isOpen = style === 'individual-throttles';
  const parts = isOpen
    ? { plenums: airbox(section, block) }
    : resolvePlenums(context, { block: inputs.block, style, metering });
  const heat = ledger.word('induction.manifoldHeat', section.manifoldHeat, () =>
    manifoldHeat(injection, style, makeOf(context)),
  );
  const wall = (): Estimate => runnerWall(injection, heat, file.heat?.coolant);
  const { stacks, ...runner } = isOpen
    ? resolveStacks(context, inputs, { kind, meteringArea }, tract(), wall)
    : { stacks: null, ...resolveRunner(context, inputs, style, tract(), wall) };
  const evaporation = ledger.quantity('induction.evaporation', section.evaporation, 'share', '%', () =>
    evaporationOf(injection, inputs.fuel),
  );
  const cleaner = airCleanerArea(context);
  const restrictor = restrictorOf(context, metering, parts.plenums);
  const balance = resolveRunnerBalance(context, inputs.block, {
    runnerLength: runner.length,
    throttleAt: stacks === null ? 0 : stacks.at / runner.lengthMultiplier,
  });
  return {
    kind,
    count,
    meteringArea,
    ...(venturi === undefined ? {} : { venturi }),
    ...(barrels === undefined ? {} : { barrels }),
    ...(restrictor === undefined ? {} : { restrictor }),
    airCleanerArea: cleaner,
    ...parts,
    ...(stacks === null ? {} : { stacks }),
    runner,
    ...(balance === undefined ? {} : { balance }),
    injection,
    ...(venturiArea === undefined ? {} : { venturiArea }),
    evaporation,
    vapour: Math.max(
      evaporation,
      ledger.quantity('induction.vapour', section.vapour, 'share', '%', () =>
        vapour(injection, heat, evaporation, inputs.fuel),
      ),
    ),
    heating: ledger.quantity('induction.heating', section.heating, 'temperature-difference', 'K', () =>
      isOpen ? openHeating() : heating(injection, heat, runner.wallTemperature, file.heat?.coolant),
    ),
  };
}

/** Where the fuel comes in: a carburetor says so by itself. */
function injectionOf(
  { file, ledger }: ResolveContext,
  kind: 'carburetor' | 'throttle',
): Induction['injection'] {
  if (kind === 'carburetor') return 'carburetor';
  return ledger.word('induction.injection', file.induction?.injection, injectionKind);
}

/** A restrictor, which needs a plenum or an airbox to stand in front of. */
function restrictorOf(
  context: ResolveContext,
  metering: Metering,
  plenums: Induction['plenums'],
): Induction['restrictor'] {
  const restrictor = resolveRestrictor(context, metering);
  if (restrictor === undefined || plenums.length > 0) return restrictor;
  throw new FieldFault(
    'induction.restrictor',
    'restrictor',
    'stands in front of an airbox, and these throttles have none: a bore in each runner is the throttle diameter',
  );
}

/** The style of manifold that the file states, or the usual one. */
function styleOf(
  { file, ledger }: ResolveContext,
  { block, ratedSpeed }: InductionInputs,
  kind: 'carburetor' | 'throttle',
): Manifold {
  const section = file.induction ?? {};
  return ledger.word('induction.manifold', section.manifold, () =>
    manifoldStyle(kind, {
      cylinders: block.block.cylinders,
      isV: block.layout === 'v',
      isPlain: isPlain(section),
      count: section[kind]?.count,
      ratedSpeed,
    }),
  );
}

/** Nothing is said of a plenum, or of what stands under a carburetor or in front of a throttle body. */
function isPlain({ plenum, groups, spacer, inletDuct, restrictor, divider }: InductionSection): boolean {
  return [plenum, groups, spacer, inletDuct, restrictor, divider].every((part) => part === undefined);
}

/** A box in front of all trumpets, or none. */
function airbox({ airbox: box }: InductionSection, block: Block): Induction['plenums'] {
  return box === undefined
    ? []
    : [{ volume: box.volume, cylinders: block.firingOrder.map((_, index) => index + 1) }];
}
