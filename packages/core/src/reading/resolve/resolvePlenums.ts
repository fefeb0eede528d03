/** Between metering and runners: plenums with the cylinders they feed, spacers, inlet ducts, dividers; and tubes between runners. */
import type { Block, Induction } from '../../combination/combination.ts';
import { endCorrection, PLENUM_END } from '../../geometry/tractProfile.ts';
import {
  balanceTubeLength,
  balanceTubePlace,
  dividerDischarge,
  dividerOpening,
  spacerBore,
  spacerKind,
  spacerLoss,
  spacerOpening,
  wholeDivider,
} from '../defaults/inductionParts.ts';
import { plenumVolume } from '../defaults/manifold.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import { fitted, type RunnerBalanceSection, type SpacerSection } from '../schema/inductionParts.ts';
import type { Manifold } from '../schema/inductionSection.ts';
import type { ResolveContext } from './context.ts';
import { FieldFault } from './fieldFault.ts';
import { makeOf } from './makeOf.ts';
import { discArea } from './pipes.ts';
import type { ResolvedBlock } from './resolveBlock.ts';
import type { Metering } from './resolveMetering.ts';

/** What the plenums are made of. */
export interface PlenumInputs {
  readonly block: ResolvedBlock;
  readonly style: Manifold;
  readonly metering: Metering;
}

type PlenumParts = Pick<Induction, 'plenums' | 'feed' | 'spacerArea' | 'dividerArea'>;

export function resolvePlenums(
  context: ResolveContext,
  { block, style, metering }: PlenumInputs,
): PlenumParts {
  const { file, ledger } = context;
  const section = file.induction ?? {};
  const volume = ledger.quantity('induction.plenum', section.plenum, 'volume', 'l', () =>
    plenumVolume(style, block.displacement),
  );
  const groups = section.groups ?? usualGroups(style, block.block);
  if (section.groups !== undefined) checkGroups(section.groups, style, block.block);
  const spacer = resolveSpacer(context, metering);
  // One carburetor stands over both planes: an open spacer lifts it off the divider.
  const shared = style === 'dual-plane' && groups.length === 2 && metering.count === 1;
  const opening = resolveDivider(context, groups.length, shared ? metering : null);
  const lifted = shared ? spacer.slot : 0;
  const dividerArea = opening + lifted;
  if (spacer.feed !== undefined && fitted(section.inletDuct) !== undefined)
    throw new FieldFault(
      'induction.spacer',
      'spacer',
      'has holes in front of the plenum, and so has the inletDuct: give the whole way as the inletDuct',
    );
  const feed = spacer.feed ?? resolveInletDuct(context, groups.length);
  return {
    plenums: groups.map((cylinders) => ({
      volume: ((volume + spacer.volume) * cylinders.length) / block.block.cylinders,
      cylinders,
    })),
    ...(feed === undefined ? {} : { feed }),
    ...(spacer.area === undefined ? {} : { spacerArea: spacer.area }),
    ...(dividerArea > 0 ? { dividerArea } : {}),
  };
}

/** One plenum, or one a cylinder, or one for every other cylinder in firing order where the manifold is split in planes. */
function usualGroups(style: Manifold, { cylinders, firingOrder }: Block): readonly (readonly number[])[] {
  const all = firingOrder.map((_, index) => index + 1);
  if (style === 'individual-runner') return all.map((number) => [number]);
  if (style === 'dual-plane' && cylinders >= 4 && cylinders % 2 === 0)
    return [0, 1].map((plane) => firingOrder.filter((_, index) => index % 2 === plane).sort((a, b) => a - b));
  return [all];
}

function checkGroups(groups: readonly (readonly number[])[], style: Manifold, { cylinders }: Block): void {
  const fault = (message: string): never => {
    throw new FieldFault('induction.groups', 'groups', message);
  };
  if (style === 'individual-runner')
    fault('is given although with individual-runner each cylinder has a plenum of its own');
  const all = groups.flat();
  if (new Set(all).size !== all.length || all.length !== cylinders || Math.max(...all) > cylinders)
    fault(`must hold each of the ${cylinders} cylinders once`);
}

interface Spacer extends Pick<Induction, 'feed'> {
  /** Volume it adds to the plenums [m3]. */
  readonly volume: number;
  readonly area: number | undefined;
  /** Effective area of the slot that it opens above a divider [m2]. */
  readonly slot: number;
}

/** The spacer, where there is one: a taller plenum, or short pipes. */
function resolveSpacer({ file, ledger }: ResolveContext, metering: Metering): Spacer {
  const stated = fitted(file.induction?.spacer);
  if (stated === undefined) return { volume: 0, area: undefined, slot: 0 };
  const path = (field: keyof SpacerSection): FieldPath => `induction.spacer.${field}`;
  const kind = ledger.word(path('kind'), stated.kind, spacerKind);
  const loss = ledger.number(path('loss'), stated.loss, () => spacerLoss(kind));
  const { height } = stated;
  if (kind === 'open') {
    const opening = ledger.quantity(path('opening'), stated.opening, 'area', 'in2', () =>
      spacerOpening(metering.bores * discArea(metering.bore)),
    );
    return {
      volume: height * opening,
      area: loss > 0 ? opening / Math.sqrt(loss) : undefined,
      slot: dividerDischarge().value * height * Math.sqrt(opening),
    };
  }
  const bores = ledger.number(path('bores'), stated.bores, () => ({
    value: metering.bores,
    spread: null,
    reason: metering.kind === 'carburetor' ? 'one under each barrel' : 'one behind each throttle',
  }));
  const bore = ledger.quantity(path('bore'), stated.bore, 'length', 'in', () => spacerBore(metering.bore));
  return {
    volume: 0,
    area: undefined,
    slot: 0,
    feed: { length: height, area: bores * discArea(bore), bores, loss },
  };
}

/** One pipe to each plenum. Waves see a little more than its length, in the plenum. */
function resolveInletDuct({ file }: ResolveContext, plenums: number): Induction['feed'] {
  const stated = fitted(file.induction?.inletDuct);
  if (stated === undefined) return undefined;
  const each = discArea(stated.inside);
  return {
    length: stated.length + endCorrection(each, PLENUM_END),
    area: plenums * each,
    bores: 1,
    loss: 0,
  };
}

/** Barrels of a carburetor with secondaries. */
const WITH_SECONDARIES = 4;

/**
 * Effective area of the opening between two plenums [m2]; 0 for a whole wall.
 *
 * @param over - what stands over both planes of a dual plane
 */
function resolveDivider(context: ResolveContext, plenums: number, over: Metering | null): number {
  const { file, ledger } = context;
  const section = file.induction?.divider;
  const stated = fitted(section);
  const hasSecondaries = over?.kind === 'carburetor' && over.bores === WITH_SECONDARIES;
  const slotted = section === undefined && hasSecondaries && makeOf(context) === 'performance';
  if (section === undefined && hasSecondaries && !slotted)
    ledger.word('induction.divider', undefined, wholeDivider);
  if (stated === undefined && !slotted) return 0;
  if (plenums !== 2)
    throw new FieldFault(
      'induction.divider',
      'divider',
      `parts two plenums, and this engine has ${plenums}: say manifold: dual-plane, or induction.groups`,
    );
  const opening = ledger.quantity('induction.divider.opening', stated?.opening, 'area', 'in2', () =>
    dividerOpening(over?.bore ?? Number.NaN),
  );
  return opening * ledger.number('induction.divider.discharge', stated?.discharge, dividerDischarge);
}

/** Tubes between runners, where the file has them. */
export function resolveRunnerBalance(
  { file, ledger }: ResolveContext,
  { block, banks }: ResolvedBlock,
  { runnerLength, throttleAt }: { readonly runnerLength: number; readonly throttleAt: number },
): Induction['balance'] {
  const stated = fitted(file.induction?.balance);
  if (stated === undefined) return undefined;
  const path = (field: keyof RunnerBalanceSection): FieldPath => `induction.balance.${field}`;
  const fault = (field: keyof RunnerBalanceSection, message: string): never => {
    throw new FieldFault(path(field), 'balance', message);
  };
  const pairs = stated.pairs ?? neighbours(banks);
  if (pairs.length === 0) fault('pairs', 'is missing: this engine has no neighbours in a bank');
  for (const pair of pairs)
    if (pair.length !== 2 || pair[0] === pair[1] || pair.some((number) => number > block.cylinders))
      fault('pairs', `must name two of the ${block.cylinders} cylinders each: ${pair.join(', ')} are not`);
  const free = runnerLength - throttleAt;
  const at = ledger.quantity(path('at'), stated.at, 'length', 'mm', () => balanceTubePlace(free));
  if (!(at < free))
    fault(
      'at',
      throttleAt > 0 ? 'lies in front of the throttle' : 'lies beyond the end of the runner, the plenum',
    );
  return {
    at,
    length: ledger.quantity(path('length'), stated.length, 'length', 'mm', () =>
      balanceTubeLength(block.bore),
    ),
    area: discArea(stated.inside),
    pairs,
  };
}

/** Neighbours of each bank; of banks of one cylinder each, the two. */
function neighbours(banks: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const rows = banks.every((bank) => bank.length === 1) ? [banks.flat()] : banks;
  return rows.flatMap((bank) => bank.slice(1).map((number, i) => [bank[i], number]));
}
