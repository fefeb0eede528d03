/** What meters the air: carburetors with their venturis, or throttles; the air cleaner; a restrictor in series. */
import type { Block, Induction } from '../../combination/combination.ts';
import { isentropicFluxFunction } from '../../gas/isentropic.ts';
import { areaFromFlow, BENCH_AIR } from '../../geometry/flowSheet.ts';
import { findRoot } from '../../numerics/root.ts';
import {
  BORE_OVER_VENTURI,
  barrelLength,
  carburetorHeight,
  ratingOfVenturis,
  restrictorDischarge,
  restrictorKind,
  restrictorRecovery,
  VENTURI_COEFFICIENT,
  venturi as venturiOf,
} from '../defaults/inductionParts.ts';
import {
  airCleanerDrop,
  airDemand,
  barrels,
  carburetorRating,
  drawsByTurns,
  inductionKind,
  ratingDrop,
  runnerThrottleDiameter,
  THROTTLE_COEFFICIENT,
  throttleArea,
  throttleDiameter,
} from '../defaults/metering.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import { fitted, type RestrictorSection } from '../schema/inductionParts.ts';
import type { CarburetorSection, InductionSection, Manifold } from '../schema/inductionSection.ts';
import type { ResolveContext } from './context.ts';
import { FieldFault } from './fieldFault.ts';
import { makeOf } from './makeOf.ts';
import { discArea } from './pipes.ts';

/** What the metering is sized by. */
export interface MeteringInputs {
  readonly block: { readonly block: Block; readonly displacement: number };
  readonly valves: number;
  readonly ratedSpeed: () => number;
}

export interface Metering
  extends Pick<Induction, 'kind' | 'count' | 'meteringArea' | 'venturi' | 'venturiArea' | 'barrels'> {
  /** Bores under which a spacer or a plate has its holes, all together, and the diameter of one [m]. */
  readonly bores: number;
  readonly bore: number;
}

/** Each cylinder has its own throttle, or barrel. */
function isIndividual(style: Manifold): boolean {
  return style === 'individual-runner' || style === 'individual-throttles';
}

export function kindOf(section: InductionSection, valves: number): 'carburetor' | 'throttle' {
  if (section.carburetor !== undefined) return 'carburetor';
  return section.throttle !== undefined ? 'throttle' : inductionKind(valves).value;
}

export function resolveMetering(
  context: ResolveContext,
  inputs: MeteringInputs,
  manifold: {
    readonly kind: 'carburetor' | 'throttle';
    readonly style: Manifold;
    /** Of a runner where a throttle stands in it [m2]. */
    readonly runnerArea: () => number;
  },
): Metering {
  const { kind, style, runnerArea } = manifold;
  const factor = context.file.induction?.flowMultiplier ?? 1;
  const made =
    kind === 'throttle' ? throttles(context, inputs, style, runnerArea) : carburetors(context, inputs, style);
  const { venturiArea } = made;
  return {
    kind,
    ...made,
    meteringArea: factor * made.meteringArea,
    ...(venturiArea === undefined ? {} : { venturiArea: factor * venturiArea }),
  };
}

function carburetors(
  context: ResolveContext,
  inputs: MeteringInputs,
  style: Manifold,
): Omit<Metering, 'kind'> {
  const { file, ledger } = context;
  const section = file.induction?.carburetor ?? {};
  const { cylinders } = inputs.block.block;
  const { displacement } = inputs.block;
  const path = (field: keyof CarburetorSection): FieldPath => `induction.carburetor.${field}`;
  const each = ledger.number(path('barrels'), section.barrels, () =>
    barrels(displacement, cylinders, section.count),
  );
  const count =
    section.count ??
    (isIndividual(style)
      ? ledger.number(path('count'), undefined, () => ({
          value: Math.max(1, Math.ceil(cylinders / each)),
          spread: null,
          reason: 'a barrel a cylinder',
        }))
      : 1);
  const drop = ledger.quantity(path('ratedAt'), section.ratedAt, 'pressure', 'inHg', () => ratingDrop(each));
  const { venturi: stated } = section;
  const rating = ledger.quantity(path('rating'), section.rating, 'flow', 'cfm', () =>
    stated === undefined
      ? carburetorRating(
          drawsByTurns(isIndividual(style) ? 1 : cylinders) * airDemand(displacement, inputs.ratedSpeed()),
          drop,
          count,
          carburetorUse(context, style, each),
        )
      : ratingOfVenturis(each * discArea(stated), drop),
  );
  const area = areaFromFlow(rating, drop);
  // Along a runner the carburetor is a loss of its stream, however it comes about.
  const hasVenturi = style !== 'individual-throttles';
  const narrow = hasVenturi
    ? ledger.quantity(path('venturi'), stated, 'length', 'in', () => venturiOf(area / each))
    : venturiOf(area / each).value;
  const throat = VENTURI_COEFFICIENT * each * discArea(narrow);
  const made = {
    meteringArea: count * area,
    venturiArea: count * each * discArea(narrow),
    count,
    bores: each * count,
    bore: BORE_OVER_VENTURI * narrow,
  };
  if (!hasVenturi) return made;
  const height = ledger.quantity(path('height'), section.height, 'length', 'in', () =>
    carburetorHeight(made.bore),
  );
  return {
    ...made,
    venturi: { overMetering: throat / area, lost: lostBehind(throat / area, drop) },
    barrels: { length: barrelLength(height, made.bore, narrow), area: made.bores * discArea(made.bore) },
  };
}

function carburetorUse(
  context: ResolveContext,
  style: Manifold,
  barrels: number,
): 'shared' | 'few' | 'alone' {
  if (isIndividual(style)) return 'alone';
  return barrels <= 2 && makeOf(context) === 'production' ? 'few' : 'shared';
}

/** Least and most of the drop to a venturi that may be lost behind it [-]; beyond them rating and venturi are not of one carburetor. */
const LOST = { least: 0.3, most: 4 } as const;

/**
 * Share of the drop to the venturi that is lost, so that at the drop of the rating the flow is the rating: its throat chokes where the
 * rest of the drop is left.
 */
function lostBehind(overMetering: number, drop: number): number {
  const { pressure, gamma } = BENCH_AIR;
  const rated = isentropicFluxFunction(1 - drop / pressure, gamma) / overMetering;
  const critical = (2 / (gamma + 1)) ** (gamma / (gamma - 1));
  const atThroat = (ratio: number): number => isentropicFluxFunction(ratio, gamma) - rated;
  const lost =
    atThroat(critical) <= 0
      ? 0
      : drop / pressure / (1 - findRoot(atThroat, critical, 1 - 1e-9, { tolerance: 1e-12 }).x);
  if (lost >= LOST.least && lost <= LOST.most) return lost;
  const message =
    lost < LOST.least
      ? 'is too small for this rating: it would have to give nearly all of its drop back'
      : 'is too large for this rating: the venturi is the narrowest place of a barrel';
  throw new FieldFault('induction.carburetor.venturi', 'venturi', message);
}

function throttles(
  { file, ledger }: ResolveContext,
  inputs: MeteringInputs,
  style: Manifold,
  runnerArea: () => number,
): Omit<Metering, 'kind'> {
  const section = file.induction?.throttle ?? {};
  const { cylinders } = inputs.block.block;
  const count =
    section.count ??
    (isIndividual(style)
      ? ledger.number('induction.throttle.count', undefined, () => ({
          value: cylinders,
          spread: null,
          reason: 'one a cylinder',
        }))
      : 1);
  const diameter = ledger.quantity('induction.throttle.diameter', section.diameter, 'length', 'mm', () =>
    isIndividual(style)
      ? runnerThrottleDiameter(runnerArea())
      : throttleDiameter(
          throttleArea(drawsByTurns(cylinders) * airDemand(inputs.block.displacement, inputs.ratedSpeed())),
          count,
        ),
  );
  const meteringArea = count * THROTTLE_COEFFICIENT * discArea(diameter);
  return { meteringArea, count, bores: count, bore: diameter };
}

export function airCleanerArea({ file, ledger }: ResolveContext): number | null {
  const cleaner = file.induction?.airCleaner;
  if (cleaner === undefined || cleaner === 'none') {
    ledger.word('induction.airCleaner', cleaner, () => ({
      value: 'none',
      reason: 'none on a stand; in a car it costs about 1 % of pressure',
    }));
    return null;
  }
  const drop = ledger.quantity('induction.airCleaner.at', cleaner.at, 'pressure', 'inHg', airCleanerDrop);
  return areaFromFlow(cleaner.flow, drop);
}

/** A restrictor, where the file has one: a plate stands behind carburetor or throttle, a sonic one in front. */
export function resolveRestrictor(
  { file, ledger }: ResolveContext,
  { kind: metering, bores: under }: Metering,
): Induction['restrictor'] {
  const stated = fitted(file.induction?.restrictor);
  if (stated === undefined) return undefined;
  const path = (field: keyof RestrictorSection): FieldPath => `induction.restrictor.${field}`;
  const kind = ledger.word(path('kind'), stated.kind, restrictorKind);
  const bores = ledger.number(path('bores'), stated.bores, () => ({
    value: kind === 'plate' ? under : 1,
    spread: null,
    reason: kind === 'plate' ? `one under each ${metering === 'carburetor' ? 'barrel' : 'throttle'}` : 'one',
  }));
  const discharge = ledger.number(path('discharge'), stated.discharge, () => restrictorDischarge(kind));
  const recovery = ledger.quantity(path('recovery'), stated.recovery, 'share', '%', () =>
    restrictorRecovery(kind),
  );
  return {
    area: bores * discharge * discArea(stated.bore),
    lost: 1 - recovery,
    place: kind === 'plate' ? 'behind' : 'front',
  };
}
