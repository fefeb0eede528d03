import { describe, expect, it } from 'vitest';
import { dynoColumn } from '../../src/dyno/dynoColumns.ts';

const kind = (header: string): string | null => dynoColumn(header, 0)?.kind ?? null;

describe('dynoColumn(header)', () => {
  it.each([
    ['rpm', 'rpm'],
    ['Engine RPM', 'rpm'],
    ['engine speed (1/min)', 'rpm'],
    ['n (1/min)', 'rpm'],
    ['torque (lb-ft)', 'torque'],
    ['torque_lbft', 'torque'],
    ['Corr TQ (Nm)', 'torque'],
    ['Trq [ft.lbs]', 'torque'],
    ['Pwr (kW)', 'power'],
    ['corrected torque, Nm', 'torque'],
    ['Md (Nm)', 'torque'],
    ['lb-ft', 'torque'],
    ['power [kW]', 'power'],
    ['P [kW]', 'power'],
    ['horsepower', 'power'],
    ['wheel hp', 'power'],
    ['air temp (degF)', 'airTemperatureK'],
    ['oil pressure psi', 'oilPressureKpa'],
    ['A/F', 'airFuelRatio'],
  ])('knows a column by its words, or by its unit where they say nothing known: %s', (header, is) =>
    expect(kind(header)).toBe(is),
  );

  it.each([
    'friction torque (lb-ft)',
    'roller speed (rpm)',
    'turbo rpm',
    'driveshaft torque Nm',
    'acceleration (rpm/s)',
    'loss power hp',
    'target rpm',
    'speed (mph)',
    'remark',
  ])('leaves alone what is not the crank in a pull: %s', (header) => expect(kind(header)).toBeNull());

  it.each([
    ['power kw', 1],
    ['volumetric efficiency', 0.01],
    ['spark advance', 1],
  ])('has the one unit it can have where none is said: %s', (header, factor) =>
    expect(dynoColumn(header, 0)?.unit?.factor).toBe(factor),
  );

  it('has the unit of the header, behind a blank, in brackets or after a line below', () => {
    for (const header of ['torque lb-ft', 'torque (ft-lb)', 'torque_lbft', 'M, lb-ft']) {
      expect(dynoColumn(header, 0)?.unit?.factor).toBeCloseTo(1.3558179483, 9);
    }
    expect(dynoColumn('torque', 0)?.unit).toBeNull();
    expect(dynoColumn('wheel hp', 0)).toMatchObject({ wheel: true });
  });
});
