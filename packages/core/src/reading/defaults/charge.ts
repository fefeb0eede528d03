/**
 * Charge temperature: what plenum and walls add, and what evaporating fuel takes away.
 *
 * The trade's net rise of the charge over ambient air is +15 K with a carburetor on a heated plane, +8 K isolated, -5 K with
 * E85, -15 K with methanol (spread 6 K; common practice, no source). Runner and port walls give about 3.5 K of it:
 * a Stanton number of 0.003 over 7.5 diameters takes 4 x 0.003 x 7.5 = 9 % of the 40 K between wall and charge. At lambda 0.87,
 * evaporating all of the fuel would cool the charge by F L / (cp + F cf): gasoline 23 K (F 0.078, L 350 kJ/kg),
 * E85 78 K (0.118, 840), methanol 139 K (0.178, 1100). With 30 % of it before the valve:
 *
 * - gasoline, heated: 15 = heating + 3.5 - 7, so heating is 18 K; isolated: 8 = heating + 3.5 - 7, so 11 K;
 * - E85 between the two manifolds: 14.5 + 3.5 - 23 = -5 K, as the trade has it;
 * - methanol with 25 %, since cold charge holds less vapour: 14.5 + 3.5 - 35 = -17 K.
 *
 * A fuel injected at the port evaporates on the hot valve, hence 20 %.
 */
import type { Estimate } from '../../combination/ledger.ts';
import type { Manifold } from '../schema/inductionSection.ts';

/** Heating by plenum floor and walls [K]. */
export const HEATING = { heated: 18, isolated: 11, injected: 9 } as const;
/** Share of the latent heat taken from the air before the valve [-]. */
export const EVAPORATION = { carbureted: 0.3, injected: 0.2, methanol: 0.25 } as const;
/** Spreads [K] and [-]. */
export const HEATING_SPREAD = 6;
export const EVAPORATION_SPREAD = 0.15;
/** Latent heat above which the charge can't hold the vapour of the usual share [J/kg]. */
export const HEAVY_LATENT_HEAT = 1.0e6;
/** Walls of runner and port on a warm engine [K]; from memory. */
export const RUNNER_WALL = { heated: 350, isolated: 340, injected: 335 } as const;

type Warmth = keyof typeof HEATING;

function warmth(kind: 'carburetor' | 'throttle', style: Manifold): Warmth {
  if (kind === 'throttle') return 'injected';
  return style === 'dual-plane' ? 'heated' : 'isolated';
}

export function heating(kind: 'carburetor' | 'throttle', style: Manifold): Estimate {
  const how = warmth(kind, style);
  return {
    value: HEATING[how],
    spread: HEATING_SPREAD,
    reason: `${how} manifold: gives the trade's net rise of the charge with usual evaporation; common practice, no source`,
  };
}

export function evaporation(kind: 'carburetor' | 'throttle', latentHeat: number): Estimate {
  const wet = latentHeat > HEAVY_LATENT_HEAT ? EVAPORATION.methanol : EVAPORATION.carbureted;
  const value = kind === 'throttle' ? EVAPORATION.injected : wet;
  return {
    value,
    spread: EVAPORATION_SPREAD,
    reason: 'gives the net charge temperature seen in the trade; common practice, no source',
  };
}

export function runnerWall(kind: 'carburetor' | 'throttle', style: Manifold): Estimate {
  return { value: RUNNER_WALL[warmth(kind, style)], spread: 12, reason: 'warm engine; from memory' };
}
