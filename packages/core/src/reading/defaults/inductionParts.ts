/** Venturis, spacers, restrictors, dividers and balance tubes where the file does not size them. */
import type { Estimate, WordEstimate } from '../../combination/ledger.ts';
import type { RestrictorKind, SpacerKind } from '../schema/inductionParts.ts';

/** Effective area of a rating over the area of the venturis [-]: 0.89 to 1.02 in lists of ratings and sizes; from memory. */
export const RATING_OVER_VENTURI = 0.95;
/** Effective over geometric area of a venturi with its boosters in the way [-]; from memory. */
export const VENTURI_COEFFICIENT = 0.84;

/** Venturi of one barrel [m] by the effective area of a barrel's rating [m2]. */
export function venturi(area: number): Estimate {
  const value = Math.sqrt((4 * area) / (Math.PI * RATING_OVER_VENTURI));
  return {
    value,
    spread: 0.03 * value,
    reason: 'the rating flows 0.95 of the area of the venturis; from memory',
  };
}

/** Throttle bore over venturi [-]: 1.12 to 1.26 in lists of sizes; from memory. */
export const BORE_OVER_VENTURI = 1.21;
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
 * water; air that does not choke flows alike.
 */
export const DISCHARGE: Readonly<Record<RestrictorKind, number>> = { plate: 0.72, sonic: 0.97 };
/** What the diffuser of a sonic restrictor gives back [-]; from memory. */
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
    : { value, spread: 0.01, reason: 'a rounded mouth, 0.96 to 0.99 (Unwin 1911, after Weisbach)' };
}

export function restrictorRecovery(kind: RestrictorKind): Estimate {
  return kind === 'plate'
    ? { value: 0, spread: null, reason: 'no diffuser behind a plate' }
    : {
        value: SONIC_RECOVERY,
        spread: 0.08,
        reason: 'a diffuser of 6 to 8 degrees to the side; from memory',
      };
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
