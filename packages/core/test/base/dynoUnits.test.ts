/** Units of dyno sheets, each against its definition or a handbook's figure. */
import { describe, expect, it } from 'vitest';
import { type DynoDimension, dynoUnit, isDynoUnit } from '../../src/base/dynoUnits.ts';

/** Ten of the unit are so much in the kept one: 1/min, N m, kW, kg/h, kPa, K, g/kWh, deg, plain number. */
const TEN: readonly (readonly [DynoDimension, readonly string[], number])[] = [
  ['speed', ['rpm', '1/min', 'r/min', 'min-1'], 10],
  ['speed', ['krpm'], 10_000],
  ['torque', ['lb-ft', 'lbs ft', 'lbf.ft', 'ft-lb', 'ft lbs', 'ft·lbf'], 13.558179],
  ['torque', ['Nm', 'N·m'], 10],
  ['torque', ['kgm', 'mkg'], 98.0665],
  ['power', ['hp', 'bhp'], 7.4569987],
  ['power', ['PS', 'cv'], 7.3549875],
  ['power', ['kW'], 10],
  ['mass-flow', ['lb/h', 'lb/hr', 'lbs/h', 'lbs/hr', 'pph'], 4.5359237],
  ['mass-flow', ['kg/h', 'kg/hr'], 10],
  ['mass-flow', ['g/s'], 36],
  // 0.0763 lb a cubic foot (0.07631 by the density), in sixty minutes.
  ['mass-flow', ['scfm'], 10 * 60 * 0.07631 * 0.45359237],
  ['pressure', ['inHg', '"Hg'], 33.86389],
  ['pressure', ['inH2O'], 2.4908891],
  ['pressure', ['kPa'], 10],
  ['pressure', ['hPa', 'mbar'], 1],
  ['pressure', ['bar'], 1000],
  ['pressure', ['psi', 'psig'], 68.947573],
  ['pressure', ['mmHg', 'torr'], 1.3332239],
  ['temperature', ['F', 'degF', '°F'], 260.92778],
  ['temperature', ['C', 'degC', '°C'], 283.15],
  ['temperature', ['K'], 10],
  ['specific-consumption', ['lb/hp-h', 'lb/hp-hr'], 6082.7739],
  ['specific-consumption', ['g/kWh'], 10],
  ['angle', ['deg', 'deg BTDC', '°'], 10],
  ['ratio', ['%'], 0.1],
  ['ratio', [':1'], 10],
];

describe('ten of a unit', () => {
  it.each(TEN.flatMap(([dimension, names, ten]) => names.map((name) => [dimension, name, ten] as const)))(
    'of %s in %s are %f',
    (dimension, name, ten) => {
      const unit = dynoUnit(dimension, name);
      expect(unit).not.toBeNull();
      const kept = 10 * (unit?.factor ?? 0) + (unit?.offset ?? 0);
      expect(Math.abs(kept / ten - 1)).toBeLessThan(1e-4);
      expect(isDynoUnit(name)).toBe(true);
    },
  );

  it('of another dimension, or of none, are no unit', () => {
    expect(dynoUnit('torque', 'hp')).toBeNull();
    expect(dynoUnit('torque', 'constructor')).toBeNull();
    expect(isDynoUnit('cubit')).toBe(false);
  });
});
