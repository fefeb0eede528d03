/** Holds the octane an engine asks for to what its owner heard. */

import { atSpeed } from '../combination/atSpeed.ts';
import type { Combination, Warning } from '../combination/combination.ts';
import type { HeardKnock } from '../combination/running.ts';
import { octaneIndex } from '../processes/knock.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';
import type { SimulationOptions } from './simulation.ts';
import { createSimulation } from './simulation.ts';

/** A combination whose offset holds what was heard, and a line about it. */
export interface HeldEngine {
  readonly combination: Combination;
  readonly warnings: readonly Warning[];
}

/** What was heard agrees with the model where it moves the octane asked for by less than this [-]. */
const AGREES = 0.05;

/**
 * The combination with what was heard in its offset.
 *
 * Knock that was just audible sets the octane asked for there to the fuel's; a stated or drawn offset counts from that. No knock says
 * that no more than the fuel's is asked for. It was heard of the engine that the file describes: one that came from it by changes
 * carries the same offset.
 */
export function heldToHeard(
  combination: Combination,
  numerics: Omit<SimulationOptions, 'fidelity'>,
): HeldEngine {
  const { burn } = combination;
  if (burn.heard.length === 0) return { combination, warnings: [] };
  const engine = combination.heardOn ?? combination;
  const spare = burn.heard.map((heard) => ({ heard, octane: spareOctane(engine, heard, numerics) }));
  const known = spare.filter(({ octane }) => Number.isFinite(octane));
  const of = (knock: HeardKnock['knock']) =>
    known.filter(({ heard }) => heard.knock === knock).map(({ octane }) => octane);
  const traces = of('trace');
  const level = traces.length === 0 ? 0 : traces.reduce((sum, octane) => sum + octane / traces.length, 0);
  const offset = Math.min(level + burn.octaneOffset, ...of('none'));
  return {
    combination: { ...combination, burn: { ...burn, octaneOffset: offset, heard: [] } },
    warnings: [heardWarning(burn.heard, offset, burn.octaneOffset)],
  };
}

/** Octane of the fuel there beyond what the model asks for, (R + M) / 2; no number where the march was lost. */
function spareOctane(
  engine: Combination,
  { rpm, advance, octane }: HeardKnock,
  numerics: Omit<SimulationOptions, 'fidelity'>,
): number {
  const { burn, fuel } = engine;
  const timing = { mode: 'spark', rpm: [rpm], advance: [advance] } as const;
  const asWritten: Combination = { ...engine, burn: { ...burn, timing, octaneOffset: 0, heard: [] } };
  const simulation = createSimulation(atSpeed(asWritten, rpm), { ...numerics, fidelity: 'representative' });
  const { cycle, choice } = simulation.runSpeed(rpm);
  if (!Number.isFinite(cycle.totals.work)) return Number.NaN;
  return (octane ?? octaneIndex(fuel.researchOctane, fuel.motorOctane)) - choice.octaneRequired;
}

function heardWarning(heard: readonly HeardKnock[], offset: number, stated: number): Warning {
  const where = heard.map(({ rpm }) => rpm).join(', ');
  const moved = offset - stated;
  const message =
    Math.abs(moved) < AGREES
      ? `what was heard at ${where} rpm agrees with the octane that the model asks for: nothing is changed`
      : `what was heard at ${where} rpm changes the octane asked for by ${signed(moved)} at every speed`;
  const path: FieldPath = 'burn.heard';
  return { code: 'heard-knock', path, message };
}

function signed(value: number): string {
  return `${value < 0 ? '-' : '+'}${Math.abs(value).toFixed(1)}`;
}
