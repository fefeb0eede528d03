import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { FUEL_NAMES, fuelNamed } from '../../packages/core/src/gas/fuels.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { pointsOf } from '../physics/engines.ts';

const folder = fileURLToPath(new URL('../../examples/tow-truck/', import.meta.url));

/** The tow truck's file with another fuel, read like any file. */
function burning(fuel: string): Combination {
  const text = readFileSync(`${folder}engine.yaml`, 'utf8').replace(/^fuel: .*$/m, fuel);
  const read = readCombination(text, {
    file: 'engine.yaml',
    sheet: (name) => readFileSync(`${folder}${name}`, 'utf8'),
  });
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
  return read.value;
}

describe('fuels of the file', () => {
  it.each(FUEL_NAMES)('reads %s', (name) => {
    expect(burning(`fuel: ${name}`).fuel).toEqual(fuelNamed(name));
  });

  it('holds pump gasolines from 87 to 93, race gasolines, E85, ethanol and methanol', () => {
    for (const name of ['pump-87', 'pump-89', 'pump-91', 'pump-93', 'e85', 'ethanol', 'methanol']) {
      expect(FUEL_NAMES).toContain(name);
    }
    expect(FUEL_NAMES.filter((name) => name.startsWith('race-')).length).toBeGreaterThanOrEqual(2);
    for (const index of [87, 89, 91, 93]) {
      const { researchOctane, motorOctane } = fuelNamed(`pump-${index}`);
      expect((researchOctane + motorOctane) / 2).toBe(index);
    }
  });

  it('forecasts a fuel of the user by its atoms, heats and octane as it does the same fuel by name', () => {
    const { lowerHeatingValue, latentHeat } = fuelNamed('pump-91');
    // The gasoline surrogate by its atoms: 0.626 C8H18 + 0.374 C7H8.
    const [C, H] = [8 * 0.626 + 7 * 0.374, 18 * 0.626 + 8 * 0.374];
    const own = burning(
      [
        'fuel:',
        '  name: our own',
        `  atoms: { C: ${C}, H: ${H}, O: 0 }`,
        `  heatingValue: ${lowerHeatingValue / 1e6} MJ/kg`,
        `  latentHeat: ${latentHeat / 1e3} kJ/kg`,
        '  researchOctane: 96',
        '  motorOctane: 86',
      ].join('\n'),
    );
    const [mine] = pointsOf(own, [4000]);
    const [named] = pointsOf(burning('fuel: pump-91'), [4000]);
    expect(mine.torqueNm / named.torqueNm).toBeCloseTo(1, 3);
    expect(mine.octaneRequired).toBeCloseTo(named.octaneRequired, 0);
  });

  // Normal heptane has no octane by definition of the scale; its heats are from memory.
  it('forecasts a fuel of octane 0, which no spark keeps from detonating', () => {
    const heptane = burning(
      [
        'fuel:',
        '  name: heptane',
        '  atoms: { C: 7, H: 16, O: 0 }',
        '  heatingValue: 44.6 MJ/kg',
        '  latentHeat: 318 kJ/kg',
        '  researchOctane: 0',
        '  motorOctane: 0',
      ].join('\n'),
    );
    const [point] = pointsOf(heptane, [4000]);
    expect(point.detonates).toBe(true);
    expect(point.octaneRequired).toBeGreaterThan(0);
    expect(point.sparkGivenBackDeg).toBeGreaterThan(10);
  });
});
