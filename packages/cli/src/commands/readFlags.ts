/** Options of a few words or a number, as the library and the renderers take them. */
import type { BandWeighting, Fidelity } from '@valvetide/core';
import { CommandFailure } from '../commandFailure.ts';
import type { Flags } from '../commandSpec.ts';
import { EXIT } from '../exitCodes.ts';
import type { Detail } from '../render/detail.ts';
import { plainShort } from '../render/plain.ts';
import type { UnitSystem } from '../render/units.ts';

/** `--units`, or what the file asks for. */
export function unitsOf(flags: Flags, asked: UnitSystem = 'trade'): UnitSystem {
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
  return new CommandFailure(EXIT.usage, [`--${name} ${plainShort(flags.text(name) ?? '')}: ${why}`]);
}
