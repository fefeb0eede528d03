/** Venturis, spacers, restrictors, dividers and balance tubes where the file does not size them. */
import { INCH } from '../../base/constants.ts';
import type { Estimate, WordEstimate } from '../../combination/ledger.ts';
import { flowFromArea } from '../../geometry/flowSheet.ts';
import { PLENUM_END } from '../../geometry/tractProfile.ts';
import type { RestrictorKind, SpacerKind } from '../schema/inductionParts.ts';

/** Effective area of a rating over the area of the venturis [-]: 0.89 to 1.02 in lists of ratings and sizes; from memory. */
export const RATING_OVER_VENTURI = 0.95;
/**
 * Effective over geometric area of a carburetor's venturi [-], the middle one of three in worked examples: 0.80 (Mathur and Sharma, Internal
 * Combustion Engine, 8th ed. (2010), example 11.2, p. 248), 0.84 and 0.93 (Keswani, Internal Combustion Engines, examples 9.3 and 9.2, p. 193).
 * They lie 0.05 either way of it. With nothing in the way a venturi has 0.986 (ISO 5167-3:2003): boosters take the rest.
 */
export const VENTURI_COEFFICIENT = 0.84;

/** Venturi of one barrel [m] by the effective area of a barrel's rating [m2]. */
export function venturi(area: number): Estimate {
  const value = Math.sqrt((4 * area) / (Math.PI * RATING_OVER_VENTURI));
  return {
    value,
    spread: 0.04 * value,
    reason: 'the rating flows 0.95 of the area of the venturis, from memory, and they 0.84 of theirs',
  };
}

/**
 * Rating [m3/s] of one carburetor by the area of its venturis [m2], the law of {@link venturi} the other way. Its spread is that of the lists alone:
 * what a venturi flows for its area is an error of the stated venturi.
 *
 * @param drop - that it is rated at [Pa]
 */
export function ratingOfVenturis(area: number, drop: number): Estimate {
  const value = flowFromArea(RATING_OVER_VENTURI * area, drop);
  return {
    value,
    spread: 0.05 * value,
    reason: 'what flows through 0.95 of the area of its venturis; from memory',
  };
}

/** Throttle bore over venturi [-]: 1.12 to 1.26 in lists of sizes; from memory. */
export const BORE_OVER_VENTURI = 1.21;
/**
 * Length of a barrel over its throttle bore [-]: bodies of 4 to 4.5 in over bores of 1-11/16 in; from memory.
 */
export const HEIGHT_OVER_BORE = 2.5;
/** Share of a barrel's length along which it narrows to its venturi and widens again [-]; from memory. */
const NARROWING = 0.5;

/** Length of one barrel [m] by its throttle bore [m]. */
export function carburetorHeight(bore: number): Estimate {
  const value = HEIGHT_OVER_BORE * bore;
  return { value, spread: 0.2 * value, reason: `${HEIGHT_OVER_BORE} throttle bores; from memory` };
}

/**
 * Length of pipe of the throttle bore's area whose gas weighs on a wave as much as that in a barrel does [m]: length over area, along
 * the barrel, and what moves beyond its ends, both of which stand in a wall.
 */
export function barrelLength(height: number, bore: number, venturi: number): number {
  const narrow = 0.5 * NARROWING * ((bore / venturi) ** 2 - 1);
  return height * (1 + narrow) + PLENUM_END * bore;
}

/** Opening of an open spacer over the area of the bores above it [-]; from memory. */
export const OPENING_OVER_BORES = 1.55;

export function spacerKind(): WordEstimate<SpacerKind> {
  return { value: 'open', reason: 'the commoner of the two; common practice, no source' };
}

/** Hole of a spacer [m] by the diameter of the throttle bore above it. */
export function spacerBore(bore: number): Estimate {
  return { value: bore, spread: 0.04 * bore, reason: 'as wide as the throttle bore above it; from memory' };
}

/** Opening of an open spacer [m2] by the area of all throttle bores. */
export function spacerOpening(bores: number): Estimate {
  const value = OPENING_OVER_BORES * bores;
  return { value, spread: 0.15 * value, reason: '1.55 times the throttle bores above it; from memory' };
}

export function spacerLoss(kind: SpacerKind): Estimate {
  return kind === 'open'
    ? {
        value: 0.1,
        spread: 0.1,
        reason: 'jets that have hardly mixed lose little on a wider way; from memory',
      }
    : { value: 0.05, spread: 0.05, reason: 'edges where the holes meet the bores; from memory' };
}

/**
 * Discharge of a bore [-]. A plate's is halfway between a sharp edge, 0.62, and a short pipe that runs full, 0.82; a rounded mouth is a
 * bellmouth, 0.96 to 0.99 with the head. W. C. Unwin, Hydraulics, Encyclopaedia Britannica, 11th ed., vol. 14 (1911), sections 17, 49 and 19, of
 * water; air that does not choke flows alike. Nozzles of standards have 0.986 (Venturi nozzles, ISO 5167-3:2003) and 0.9959 - 2.720 / sqrt(Re) where they
 * choke, 0.991 at 20 mm (ISO 9300:2022).
 */
export const DISCHARGE: Readonly<Record<RestrictorKind, number>> = { plate: 0.72, sonic: 0.98 };
/**
 * What the diffuser of a sonic restrictor gives back [-]: of classical Venturi tubes of half the pipe's width 86 % comes back but for the speed in the pipe,
 * itself 6 %, and somewhat less in small ones (ISO 5167-4:2003, the curve for pipes of 65 mm).
 */
export const SONIC_RECOVERY = 0.8;

export function restrictorKind(): WordEstimate<RestrictorKind> {
  return { value: 'plate', reason: 'the commoner of the two; common practice, no source' };
}

export function restrictorDischarge(kind: RestrictorKind): Estimate {
  const value = DISCHARGE[kind];
  return kind === 'plate'
    ? {
        value,
        spread: 0.06,
        reason: 'halfway between a sharp edge, 0.62, and a short pipe, 0.82 (Unwin 1911)',
      }
    : {
        value,
        spread: 0.01,
        reason: 'between a rounded mouth, 0.96 to 0.99 (Unwin 1911), and standard nozzles, 0.99 (ISO 9300)',
      };
}

export function restrictorRecovery(kind: RestrictorKind): Estimate {
  return kind === 'plate'
    ? { value: 0, spread: null, reason: 'no diffuser behind a plate' }
    : {
        value: SONIC_RECOVERY,
        spread: 0.08,
        reason: 'as of Venturi tubes half as wide as the pipe (ISO 5167-4)',
      };
}

/** Depth of the slot that makers of manifolds cut into a divider under the secondaries [m]: a quarter to half an inch. */
export const SLOT_DEPTH: number = 0.375 * INCH;

/**
 * Opening in the divider of a dual plane made for more than the engine had [m2]: makers slot it under the secondaries, which took a wide throttle once and
 * stayed (T. Eaton, Intake Manifold Plenum Slots, eatonbalancing.com), between two bores and a quarter to half an inch deep (Lars, in
 * forums.corvetteactioncenter.com, 127045). Whole dividers are made too, and the slots of makers of engines do next to nothing (the same).
 *
 * @param bore - throttle bore of a barrel [m]
 */
export function dividerOpening(bore: number): Estimate {
  const value = SLOT_DEPTH * bore;
  return {
    value,
    spread: 0.5 * value,
    reason:
      'a slot under the secondaries, a throttle bore long and 3/8 in deep, as makers of such manifolds cut it',
  };
}

/** The divider of a dual plane as engines are made with. */
export function wholeDivider(): WordEstimate<'none'> {
  return { value: 'none', reason: 'engines are made with a whole divider; common practice, no source' };
}

export function dividerDischarge(): Estimate {
  return {
    value: 0.65,
    spread: 0.07,
    reason: 'an opening with sharp edges, 0.62 and somewhat more where they are rounded (Unwin 1911)',
  };
}

/** Distance between neighbouring runners over the bore [-]; from memory. */
const PITCH = 1.15;

export function balanceTubeLength(bore: number): Estimate {
  const value = PITCH * bore;
  return { value, spread: 0.3 * value, reason: 'from runner to runner, 1.15 bores; from memory' };
}

/** @param free - length of runner between throttle, or plenum, and the head [m] */
export function balanceTubePlace(free: number): Estimate {
  return { value: 0.5 * free, spread: 0.2 * free, reason: 'halfway between throttle and head; from memory' };
}
