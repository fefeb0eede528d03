/** What fills the intake and how its fuel reaches the cylinder: vapour with the air, the rest as liquid. */
import type { Combination } from '../combination/combination.ts';
import { sharedLambda } from '../combination/lambdaOf.ts';
import { J607_REFERENCE } from '../combination/referenceAir.ts';
import { withLiquidFuel } from '../gas/buildGasTables.ts';
import { frozenCv, frozenH } from '../gas/frozenBlend.ts';
import type { GasTables } from '../gas/gasTables.ts';
import { fuelVapourPressure, type LiquidFuel, liquidEnthalpy, liquidFuel } from '../gas/liquidFuel.ts';
import type { Spray } from '../network/cylinder.ts';
import type { Fuelling } from '../network/openEnd.ts';
import type { OrificeSpec } from '../network/orifice.ts';
import { findRoot } from '../numerics/root.ts';
import { AIR_R, valveFilm } from './valveFilm.ts';

/** Gas of the intake, what happens at carburetor or throttle, and what goes with it into the cylinder. */
export interface IntakeCharge {
  readonly tables: GasTables;
  readonly metering: NonNullable<OrificeSpec['metering']>;
  readonly fuelling: Fuelling | undefined;
  readonly spray: Spray | undefined;
}

/**
 * Sauter mean diameter of what comes into the cylinder as liquid [m], and the share of its latent heat that walls give [-]: past the
 * valve torn to drops, part of them thrown on piston and liner; injected directly finer, less of it on walls (Heywood, 1988, ch. 7;
 * Zhao, Lai and Harrington, Prog. Energy Combust. Sci. 25 (1999) 437; from memory).
 */
const SPRAYS = {
  carburetor: { diameter: 50e-6, wallShare: 0.3 },
  port: { diameter: 50e-6, wallShare: 0.3 },
  direct: { diameter: 20e-6, wallShare: 0.15 },
} as const;

/** Of the vapour that the air could hold, the share that a carburetor's short way lets it take up [-]; from memory. */
const FULLEST = 0.9;

/** @param tables - of the whole mixture, all of it gas */
export function intakeCharge(combination: Combination, tables: GasTables): IntakeCharge {
  const { fuel, induction, weather } = combination;
  const lambda = sharedLambda(combination);
  const liquid = liquidFuel(fuel);
  const T = weather.temperature;
  const rise = chargeRise(induction.heating, T);
  const { evaporated, vapour } =
    liquid === null
      ? { evaporated: 0, vapour: 1 }
      : withinSaturation(induction, liquid, tables, T + rise, weather.pressure);
  const wet =
    vapour < 1
      ? withLiquidFuel(
          tables,
          { fuel, lambda, vapourPressure: weather.vapourPressure, pressure: weather.pressure },
          vapour,
        )
      : tables;
  const cp = frozenCv(wet, T, 0) + wet.freshR;
  const fresh = (1 - wet.fuelFraction) / (1 - tables.fuelFraction);
  // Of the latent heat of all fuel, per mass of what passes here, the share that the air gives.
  const taken = evaporated * tables.latentHeat * tables.fuelFraction * fresh;
  return {
    tables: wet,
    metering: { gain: 1 / (1 - wet.fuelFraction), enthalpy: frozenH(wet, T, 0) + cp * rise - taken },
    fuelling:
      liquid === null || !(vapour < 1)
        ? undefined
        : {
            gain: fresh,
            enthalpy: liquidEnthalpy(liquid, T),
            boiling: valveFilm(combination, tables, liquid, vapour),
          },
    spray: liquid === null || !(vapour < 1) ? undefined : { liquid, ...SPRAYS[induction.injection] },
  };
}

/** Coolant and oil that warm a manifold [K]; from memory. */
const WARM_ENGINE = 360;
/** Warmest part of a manifold that heats a lot, over what its heating asks for [-]: it stays warmer than the charge. */
const WARMER = 1.25;

/**
 * Rise of the charge from plenum floor and walls [K]: stated for a day of 60 F, and in proportion to how much warmer than the outside
 * air the engine is. Colder air stays the colder charge.
 */
export function chargeRise(heating: number, outside: number): number {
  const mild = J607_REFERENCE.temperature;
  const warm = Math.max(WARM_ENGINE, mild + WARMER * heating);
  return (heating * Math.max(0, warm - outside)) / (warm - mild);
}

/** The stated shares, or what the charge can hold of them: cold charge of an alcohol is full before. */
function withinSaturation(
  { evaporation, vapour }: Combination['induction'],
  liquid: LiquidFuel,
  tables: GasTables,
  T: number,
  pressure: number,
): { readonly evaporated: number; readonly vapour: number } {
  const cp = frozenCv(tables, T, 0) + tables.freshR;
  const cooled = (share: number): number => T - (share * tables.latentHeat * tables.fuelFraction) / cp;
  /** Room left for vapour [Pa] when a share is vapour and another was evaporated by the air's heat. */
  const room = (share: number, byAir: number): number => {
    const moles = share * tables.fuelFraction * liquid.R;
    const part = moles / (moles + (1 - tables.fuelFraction) * AIR_R);
    return FULLEST * fuelVapourPressure(liquid, cooled(byAir)) - part * pressure;
  };
  const most = (left: (share: number) => number, wanted: number): number =>
    left(wanted) >= 0 ? wanted : findRoot(left, 0, wanted, { tolerance: 1e-6 }).bracket[0];
  const evaporated = most((share) => room(share, share), evaporation);
  return {
    evaporated,
    vapour: Math.max(
      evaporated,
      most((share) => room(share, evaporated), vapour),
    ),
  };
}
