/** Options of a few words or a number, as the library and the renderers take them. */
import type { BandWeighting, Fidelity, SpeedBand } from '@valvetide/core';
import { type CommandFailure, misuse } from '../commandFailure.ts';
import type { Flags } from '../commandSpec.ts';
import { parseBand } from '../input/parseBand.ts';
import type { Detail } from '../render/detail.ts';
import { plainShort } from '../render/plain.ts';
import type { UnitSystem } from '../render/units.ts';

/** `--units`, or what the file asks for. */
export function unitsOf(flags: Flags, asked: UnitSystem): UnitSystem {
  const text = flags.text('units');
  return text === undefined ? asked : text === 'si' ? 'si' : 'trade';
}

/** `--quiet`, `--verbose` or neither. */
export function detailOf(flags: Flags): Detail {
  return flags.on('quiet') ? 'quiet' : flags.on('verbose') ? 'verbose' : 'normal';
}

export function fidelityOf(flags: Flags): Fidelity {
  return flags.text('fidelity') === 'all' ? 'all' : 'representative';
}

export function weightingOf(flags: Flags): BandWeighting {
  return flags.text('weighting') === 'time' ? 'time' : 'speed';
}

/** `--band`; undefined where it was left out. */
export function bandOf(flags: Flags): SpeedBand | undefined {
  const text = flags.text('band');
  return text === undefined ? undefined : parseBand(text);
}

/** A sum of money or hours, null where not asked for. */
export function amount(flags: Flags, name: string): number | null {
  const text = flags.text(name);
  if (text === undefined) return null;
  if (!/^\d+(\.\d+)?$/.test(text)) throw refuse(name, flags, 'write a plain number, such as 2500');
  return Number(text);
}

/** A whole number, null where not asked for. */
export function whole(flags: Flags, name: string, least: number, most: number): number | null {
  const text = flags.text(name);
  if (text === undefined) return null;
  const value = Number(text);
  if (!(/^\d{1,10}$/.test(text) && value >= least && value <= most))
    throw refuse(name, flags, `write a whole number from ${least} to ${most}`);
  return value;
}

/** What is wrong with the value of an option. */
export function refuse(name: string, flags: Flags, why: string): CommandFailure {
  return misuse(`--${name} ${plainShort(flags.text(name) ?? '')}: ${why}`);
}

/** Refuses two forms of the result, and two amounts of progress. */
export function forbidTwoForms(flags: Flags): void {
  forbidTogether(flags, 'json', 'csv');
  forbidTogether(flags, 'quiet', 'verbose');
}

/** Refuses two switches that contradict each other. */
export function forbidTogether(flags: Flags, one: string, other: string): void {
  if (flags.on(one) && flags.on(other)) throw misuse(`--${one} and --${other} can't be used together`);
}
