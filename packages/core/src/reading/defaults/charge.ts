/**
 * Charge temperature and vapour: what plenum and walls add, what evaporating fuel takes away, and how much of it is vapour by
 * the valve.
 *
 * **Heating.** A plenum gives the charge `effectiveness (wall - air)`. Its walls, some 0.1 m2 at 50 W/(m2 K), to a flow of 0.2 to
 * 0.35 kg/s: 0.02. Its floor under a carburetor, 0.02 m2 at 300 W/(m2 K), where the barrels' jets of 50 m/s strike it
 * (Stanton number 0.005): 0.025. So an isolated floor of 340 K adds 2.3 K on a day of 60 F, one with coolant under it 2.8 K. Runner
 * and port walls add their own by the ducts, some 8 K, and evaporation takes 7: a race manifold's charge comes to the valve
 * little warmer than the air, and its plenum sweats. The trade's +8 K for it (common practice, no source) would take 3 kW more of
 * a manifold than its surface gives.
 *
 * With an exhaust crossover the trade sees a net rise of 15 K (common practice, no source). Surface alone would give 5 K; what boils
 * off a floor of 430 K and more warms the stream as well. 15 = heating + 8 - 7 makes it 14 K.
 *
 * A dual plane is taken to have exhaust under it, behind headers too. A floor over the engine's valley, as warm as coolant, was tried behind
 * headers: published engines with sheets come out as near, those rated on stands farther off (docs/theory/curve-shape.md). Heads that have no
 * passage for exhaust ask for `manifoldHeat: coolant`.
 *
 * **Vapour.** Drops in the stream give off 15 to 30 % of a gasoline by the heat of the air; the film on floor and walls gives off
 * as much again and more by theirs: of a carburetor's fuel 60 to 95 % is vapour at the end of a heated manifold (Heywood, 1988,
 * chapter 7; from memory). Fuel injected at the port lands on the valve's hot back, and in part goes past it as drops. How much of it hot walls
 * evaporate shows in what direct injection cools beyond that: with half of the fuel, which is 0.65 vapour in all, the program has 15 K for
 * gasoline and 48 K for E85 where 14 and 49 were measured (SAE 2012-01-1275); with 0.35 it had 10 and 34.
 *
 * Of another fuel it is the heat that stays, not the share. A drop takes from the air `cp (T - T_s)` for what it gives off, by the law
 * of Spalding, whatever its latent heat: its own temperature T_s is 15 to 25 K below the air's for gasoline and alcohols alike (from
 * memory). So a kilogram of drops takes the same heat, and the shares go as one over the latent heat. A wall gives its film what its area and
 * temperature give, so much for a kilogram of air. What is left of an alcohol's film reaches the hot valve, see `assembly/valveFilm.ts`.
 */
import type { Induction } from '../../combination/combination.ts';
import type { Estimate, WordEstimate } from '../../combination/ledger.ts';
import { J607_REFERENCE } from '../../combination/referenceAir.ts';
import { latentBesideGasoline } from '../../gas/besideGasoline.ts';
import type { Fuel } from '../../gas/fuel.ts';
import type { Manifold, ManifoldHeat } from '../schema/inductionSection.ts';
import type { Make } from './make.ts';

type Injection = Induction['injection'];

/** Heat taken up from plenum walls, and from a floor that a carburetor blows on, over what would make the air as warm as them [-]. */
export const EFFECTIVENESS = { walls: 0.02, floor: 0.025 } as const;
/** Coolant of a warm engine [K], which the floor of a plenum over it has too; from memory. */
export const COOLANT = 360;
/** Heating by an exhaust crossover [K], see above. */
export const CROSSOVER_HEATING = 14;
/** One standard deviation of the heating by what warms the floor [K]; from memory. Two of the estimate with exhaust reach a floor that nothing warms. */
export const HEATING_SPREAD = { exhaust: 6, coolant: 4, none: 4 } as const;

/** Of a gasoline: share of the latent heat taken from the air before the valve, and share that is vapour there [-]. */
export const EVAPORATION: Readonly<Record<Injection, number>> = { carburetor: 0.3, port: 0.15, direct: 0 };
export const VAPOUR = { heated: 0.75, isolated: 0.55, port: 0.65, direct: 0 } as const;
/** One standard deviation of each [-]; from memory. */
export const EVAPORATION_SPREAD = 0.1;
export const VAPOUR_SPREAD = 0.15;

/** Walls of runner and port on a warm engine [K]; from memory. */
export const RUNNER_WALL = { heated: 350, isolated: 340, injected: 335 } as const;

/** Where the fuel comes in behind a throttle. */
export function injectionKind(): WordEstimate<'port'> {
  return { value: 'port', reason: 'usual behind a throttle body' };
}

/** What warms the floor of a manifold. */
export function manifoldHeat(injection: Injection, style: Manifold, make: Make): WordEstimate<ManifoldHeat> {
  if (injection !== 'carburetor') return { value: 'none', reason: 'usual with injection' };
  return style === 'dual-plane' || make === 'production'
    ? {
        value: 'exhaust',
        reason: 'carburetors of road cars stand on a warmed floor; common practice, no source',
      }
    : { value: 'none', reason: 'usual with such a manifold; common practice, no source' };
}

/** In front of throttles that stand in the runners nothing is warm; runners and ports give their heat on the way. */
export function openHeating(): Estimate {
  return { value: 0, spread: HEATING_SPREAD.none, reason: 'trumpets draw the air around them; from memory' };
}

/**
 * Temperature rise of the charge from plenum floor and walls on a day of 60 F [K].
 *
 * @param wall - of runner and port [K]
 * @param coolant - [K]
 */
export function heating(
  injection: Injection,
  heat: ManifoldHeat,
  wall: number,
  coolant: number = COOLANT,
): Estimate {
  if (heat === 'exhaust')
    return {
      value: CROSSOVER_HEATING,
      spread: HEATING_SPREAD.exhaust,
      reason: "gives the trade's net rise of the charge; common practice, no source",
    };
  const outside = J607_REFERENCE.temperature;
  const floor = heat === 'coolant' ? coolant : wall;
  const under = injection === 'carburetor' ? EFFECTIVENESS.floor : 0;
  return {
    value: EFFECTIVENESS.walls * (wall - outside) + under * (floor - outside),
    spread: HEATING_SPREAD[heat],
    reason: 'what a plenum of usual surface gives to a full flow; derived',
  };
}

const EVAPORATION_REASONS = {
  carburetor:
    'drops of 50 um evaporate in the stream (Heywood), more of finer and less of coarser ones at each speed; less of a fuel with more latent heat; from memory',
  port: 'drops evaporate in the stream (Heywood), less of a fuel with more latent heat; from memory',
  direct: 'the fuel comes in behind the valve',
} as const;

/** Share of the latent heat that the air gives before the valve [-]; behind a carburetor of drops of the usual size, see `combination/carburetion.ts`. */
export function evaporation(injection: Injection, fuel: Fuel): Estimate {
  const { byFuel } = latentBesideGasoline(fuel);
  return {
    value: Math.min(1, byFuel * EVAPORATION[injection]),
    spread: injection === 'direct' ? null : byFuel * EVAPORATION_SPREAD,
    reason: EVAPORATION_REASONS[injection],
  };
}

/** Share that is vapour by the valve: what the air evaporates, and the film on the walls. */
export function vapour(injection: Injection, heat: ManifoldHeat, evaporated: number, fuel: Fuel): Estimate {
  const usual =
    injection === 'carburetor' ? VAPOUR[heat === 'none' ? 'isolated' : 'heated'] : VAPOUR[injection];
  const { byFuel, byAir } = latentBesideGasoline(fuel);
  const share = byFuel * EVAPORATION[injection] + byAir * (usual - EVAPORATION[injection]);
  return {
    value: Math.min(1, Math.max(share, evaporated)),
    spread: injection === 'direct' ? null : byAir * VAPOUR_SPREAD,
    reason:
      injection === 'direct'
        ? 'the fuel comes in behind the valve'
        : 'what air and walls evaporate (Heywood); from memory',
  };
}

/** A casting between coolant and outside air: as far from the one to the other as on a warm engine. */
export function runnerWall(injection: Injection, heat: ManifoldHeat, coolant: number = COOLANT): Estimate {
  const how = injection === 'carburetor' ? (heat === 'none' ? 'isolated' : 'heated') : 'injected';
  const outside = J607_REFERENCE.temperature;
  const share = (RUNNER_WALL[how] - outside) / (COOLANT - outside);
  return {
    value: outside + share * (coolant - outside),
    spread: 12,
    reason:
      coolant === COOLANT ? 'warm engine; from memory' : 'between this coolant and the air; from memory',
  };
}
