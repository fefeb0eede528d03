/** Options of a few words, as the library and the renderers take them. */
import type { BandWeighting, Fidelity } from '@valvetide/core';
import type { Flags } from '../commandSpec.ts';
import type { UnitSystem } from '../render/units.ts';

export function unitsOf(flags: Flags): UnitSystem {
  return flags.text('units') === 'si' ? 'si' : 'trade';
}

export function fidelityOf(flags: Flags): Fidelity {
  return flags.text('fidelity') === 'all' ? 'all' : 'representative';
}

export function weightingOf(flags: Flags): BandWeighting {
  return flags.text('weighting') === 'time' ? 'time' : 'speed';
}
