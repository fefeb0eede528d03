import { describe, expect, it } from 'vitest';
import type { Warning } from '../../src/combination/combination.ts';
import { cautionsOf } from '../../src/studies/cautions.ts';
import { altered, curveOf } from './fakeCurves.ts';

/** A curve that asks for so much octane, with warnings by code. */
const curve = (octane: number, ...warnings: readonly Warning[]) => ({
  ...altered(
    curveOf([4000, 5000], () => 200),
    ({ rpm }) => ({ octaneAtBestTiming: rpm === 5000 ? octane : octane - 3 }),
  ),
  warnings,
});
const warning = (code: string, message: string, path = ''): Warning => ({ code, path, message });

describe('what a change is warned of', () => {
  it('is what the engine as it is was not warned of', () => {
    const piston = warning('piston-speed', '26 m/s');
    expect(cautionsOf(curve(90), curve(90, piston))).toEqual(['26 m/s']);
    expect(cautionsOf(curve(90, piston), curve(90, piston))).toEqual([]);
    expect(cautionsOf(curve(90, piston), curve(90))).toEqual([]);
  });

  it.each(['detonation', 'knock-limited'])(
    'of %s is more octane asked for, by more than half a number',
    (code) => {
      const before = curve(91, warning(code, 'asks for 91'));
      expect(cautionsOf(before, curve(91.4, warning(code, 'asks for 91.4')))).toEqual([]);
      expect(cautionsOf(before, curve(91.6, warning(code, 'asks for 91.6')))).toEqual(['asks for 91.6']);
    },
  );

  it.each(['piston-speed', 'lift-beyond-sheet'])('of %s is any other figure than before', (code) => {
    expect(cautionsOf(curve(90, warning(code, '24')), curve(90, warning(code, '25')))).toEqual(['25']);
  });

  it('is not what says the same in other words, nor what is told as a limit that it breaks', () => {
    const assumed = (message: string) => curve(90, warning('correction-assumed', message));
    expect(cautionsOf(assumed('J607'), assumed('J1349'))).toEqual([]);
    expect(cautionsOf(curve(90), curve(90, warning('beyond-limit', 'too fast')))).toEqual([]);
  });

  it('of one side of the engine is new where only the other had it', () => {
    const lift = (side: string) => warning('lift-beyond-sheet', `beyond the ${side} sheet`, `heads.${side}`);
    expect(cautionsOf(curve(90, lift('intake')), curve(90, lift('exhaust')))).toEqual([
      'beyond the exhaust sheet',
    ]);
  });
});
