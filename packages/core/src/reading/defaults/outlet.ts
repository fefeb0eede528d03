/** What is left of the opening at the end of the exhaust, by muffler. */
import { PSI, STANDARD_ATMOSPHERE } from '../../base/constants.ts';
import type { Estimate, WordEstimate } from '../../combination/ledger.ts';
import type { ExhaustStyle, MufflerKind, MufflerWord } from '../schema/exhaustSection.ts';
import { airDemand } from './metering.ts';

/** Back-pressure at rated speed [Pa]: 1.0 psi mufflers the gas sees through, 2.5 psi a full system with chambers; common practice, no source. */
const BACK_PRESSURE: Readonly<Record<MufflerKind, number>> = {
  'straight-through': 1 * PSI,
  chambered: 2.5 * PSI,
};
/**
 * Its spread [-]: mufflers of a kind differ by a third and more (common practice, no source), and the air that an engine draws at its
 * rated speed is known to 10 %, worth 20 % of pressure.
 */
const BACK_PRESSURE_SPREAD = 0.4;

/** Back-pressure at rated speed [Pa] of a muffler of which no more than its kind is known. */
export function backPressure(kind: MufflerKind): Estimate {
  const value = BACK_PRESSURE[kind];
  const reason =
    kind === 'chambered'
      ? 'a full system with chambers at rated speed; common practice, no source'
      : 'mufflers the gas sees through, at rated speed; common practice, no source';
  return { value, spread: BACK_PRESSURE_SPREAD * value, reason };
}

/** Gas at the outlet at full load [K]; from memory. */
export const OUTLET_TEMPERATURE = 850;
/** Gas constant of burned gas [J/(kg K)] and of air. */
const BURNED_R = 290;
const AIR_R = 287;
/** Room air the demand refers to [Pa, K]. */
const ROOM = { pressure: STANDARD_ATMOSPHERE, temperature: 289 } as const;
/** Mass of exhaust over mass of air [-]: gasoline at lambda 0.87. */
export const EXHAUST_OVER_AIR = 1.08;
/** Filling at rated speed the back-pressure belongs to [-]. */
export const OUTLET_FILLING = 0.9;

export function muffler(style: ExhaustStyle): WordEstimate<MufflerWord> {
  return style === 'headers'
    ? { value: 'open', reason: 'headers on a stand end in the open' }
    : { value: 'chambered', reason: 'cast manifolds come with a full system; common practice, no source' };
}

/** Gas in a box over the displacement that blows into it [-]: a box with chambers, and one around a straight pipe; from memory. */
export const MUFFLER_VOLUME: Readonly<Record<MufflerKind, number>> = { chambered: 3, 'straight-through': 1 };
/**
 * Cylinders whose displacement a box is made for at least: it has to swallow the puff of one, so that fewer don't get by with less. Singles of 0.25 to 0.4 litres have
 * mufflers of 3 to 5 litres, twins of 0.65 litres 4 (from memory).
 */
export const MUFFLED_AT_LEAST = 4;

/** Volume of one box [m3] by the cylinders that blow into it and the displacement of one [m3]. */
export function mufflerVolume(kind: MufflerKind, cylinders: number, cylinderVolume: number): Estimate {
  const few = cylinders < MUFFLED_AT_LEAST;
  const value = MUFFLER_VOLUME[kind] * cylinderVolume * Math.max(cylinders, MUFFLED_AT_LEAST);
  const served = few ? 'the displacement of four of its cylinders' : 'the displacement it serves';
  const reason = kind === 'chambered' ? `three times ${served}; from memory` : `${served}; from memory`;
  return { value, spread: 0.4 * value, reason };
}

/** Inside diameter of the same pipe [m], by the area of the pipe in front [m2]: a size of tube more or less. */
export function mufflerPipeInside(area: number): Estimate {
  const value = Math.sqrt((4 * area) / Math.PI);
  return {
    value,
    spread: 0.08 * value,
    reason: 'as wide as the pipe in front of it, a size of tube more or less; common practice, no source',
  };
}

/** Tail-pipe, or pipe with holes [m]; from memory. */
export const MUFFLER_PIPE_LENGTH = 0.4;

export function mufflerPipeLength(): Estimate {
  return { value: MUFFLER_PIPE_LENGTH, spread: 0.15, reason: 'usual for a tail-pipe; from memory' };
}

/** Wall of a muffler's pipe at full load [K]; from memory. */
export const MUFFLER_WALL = 650;

/** Wall temperature of a muffler's pipe [K]. */
export function mufflerPipeWall(): Estimate {
  return { value: MUFFLER_WALL, spread: 80, reason: 'full load; from memory' };
}

/**
 * Share of what flows back in at the outlet that is exhaust [-], and its spread. An open pipe blows a jet away from itself and draws
 * from all around, so that the nearest gas is partly air: samples of exhaust are taken a foot or more inside a pipe for
 * that reason (common practice); how much is anybody's guess. A muffler is full of exhaust. From memory.
 */
export const RETURNED = {
  open: { value: 0.5, spread: 0.25 },
  muffled: { value: 0.9, spread: 0.1 },
} as const;

/** Share of what flows back in that is exhaust [-], by what the exhaust ends in. */
export function returnedExhaust(end: keyof typeof RETURNED): Estimate {
  return end === 'open'
    ? { ...RETURNED.open, reason: 'an open pipe draws from all around it; from memory' }
    : { ...RETURNED.muffled, reason: 'a muffler is full of exhaust; from memory' };
}

/** Effective area of all outlets together [m2] that gives a back-pressure [Pa] at an air flow [m3/s]. */
export function outletAreaFor(backPressure: number, airflow: number): number {
  const mass = ((airflow * ROOM.pressure) / (AIR_R * ROOM.temperature)) * EXHAUST_OVER_AIR;
  const density = ROOM.pressure / (BURNED_R * OUTLET_TEMPERATURE);
  return mass / Math.sqrt(2 * density * backPressure);
}

/** Air flow at rated speed [m3/s] that back-pressures refer to. */
export function ratedAirflow(displacement: number, rpm: number): number {
  return airDemand(displacement, rpm, OUTLET_FILLING);
}
