/** The columns of the forecast's table, in trade units or SI, the ones that matter most first. */
import type { MarchedPoint, OperatingPoint } from '@valvetide/core';
import { fixed } from './fixed.ts';
import { figureCell, markedSpeed } from './marched.ts';
import type { Column } from './table.ts';
import {
  toCelsius,
  toFahrenheit,
  toFeetPerMinute,
  toInHg,
  toKpa,
  toPound,
  toPoundPerHpHour,
  toPsi,
  type UnitSystem,
} from './units.ts';

type PointColumn = Column<OperatingPoint>;

/** Columns that tell of the program and not of the engine: nobody decides by them. */
export const CHECKS: ReadonlySet<string> = new Set(['cycles', 'mass error', 'energy error']);

/** A figure in one of the two systems: unit, decimals, value. */
type Figure = readonly [unit: string, decimals: number, value: (point: MarchedPoint) => number];

function column(name: string, unit: string, cell: (point: MarchedPoint) => string): PointColumn {
  return { name, unit, cell: figureCell(cell) };
}

export function pointColumns(units: UnitSystem): PointColumn[] {
  /** A column whose figure differs between the two systems in unit, factor and decimals. */
  const either = (name: string, trade: Figure, si: Figure): PointColumn => {
    const [unit, decimals, value] = units === 'trade' ? trade : si;
    return column(name, unit, (point) => fixed(value(point), decimals));
  };
  return [
    { name: 'speed', unit: 'rpm', cell: markedSpeed },
    either('torque', ['lb-ft', 1, (p) => p.torqueLbFt], ['Nm', 1, (p) => p.torqueNm]),
    either('power', ['hp', 1, (p) => p.powerHp], ['kW', 1, (p) => p.powerKw]),
    column('filling', '%', (p) => fixed(100 * p.volumetricEfficiency, 1)),
    either(
      'vacuum',
      ['inHg', 2, (p) => p.manifoldVacuumInHg],
      ['kPa', 2, (p) => toKpa(p.manifoldVacuumInHg)],
    ),
    either('bmep', ['psi', 1, (p) => toPsi(p.bmepBar)], ['bar', 2, (p) => p.bmepBar]),
    either(
      'bsfc',
      ['lb/hp-h', 3, (p) => toPoundPerHpHour(p.bsfcGPerKwh)],
      ['g/kWh', 0, (p) => p.bsfcGPerKwh],
    ),
    { name: 'inlet Mach', unit: '-', cell: (p) => fixed(p.inletMachIndex, 2) },
    either(
      'piston',
      ['ft/min', 0, (p) => toFeetPerMinute(p.meanPistonSpeedMs)],
      ['m/s', 1, (p) => p.meanPistonSpeedMs],
    ),
    column('spark', 'deg', (p) => fixed(p.sparkDegBtdc, 1)),
    column('octane', 'needed', (p) => `${fixed(p.octaneRequired, 1)}${p.detonates ? '!' : ''}`),
    column('spark given', 'deg back', (p) => fixed(p.sparkGivenBackDeg, 1)),
    column('residual', '%', (p) => fixed(100 * p.residualFraction, 1)),
    either('peak press', ['psi', 0, (p) => toPsi(p.peakPressureBar)], ['bar', 1, (p) => p.peakPressureBar]),
    either('pumping', ['psi', 1, (p) => toPsi(p.pmepBar)], ['bar', 2, (p) => p.pmepBar]),
    either('friction', ['psi', 1, (p) => toPsi(p.fmepBar)], ['bar', 2, (p) => p.fmepBar]),
    either('imep', ['psi', 1, (p) => toPsi(p.imepBar)], ['bar', 2, (p) => p.imepBar]),
    either('air', ['lb/h', 0, (p) => toPound(p.airflowKgPerH)], ['kg/h', 1, (p) => p.airflowKgPerH]),
    either('fuel', ['lb/h', 1, (p) => toPound(p.fuelKgPerH)], ['kg/h', 2, (p) => p.fuelKgPerH]),
    either(
      'plenum',
      ['inHg', 2, (p) => toInHg(p.manifoldPressureKpa)],
      ['kPa', 2, (p) => p.manifoldPressureKpa],
    ),
    either(
      'charge',
      ['F', 0, (p) => toFahrenheit(p.chargeTemperatureK)],
      ['C', 0, (p) => toCelsius(p.chargeTemperatureK)],
    ),
    either(
      'exhaust',
      ['F', 0, (p) => toFahrenheit(p.exhaustTemperatureK)],
      ['C', 0, (p) => toCelsius(p.exhaustTemperatureK)],
    ),
    column('best-spark octane', 'needed', (p) => fixed(p.octaneAtBestTiming, 1)),
    column('torque given', '% back', (p) => fixed(p.torqueGivenBackPct, 1)),
    column('half burned', 'deg ATDC', (p) => fixed(p.ca50DegAtdc, 1)),
    column('burn 10-90', 'deg', (p) => fixed(p.burnDurationDeg, 1)),
    column('peak at', 'deg ATDC', (p) => fixed(p.peakPressureDegAtdc, 1)),
    column('wall heat', '% of fuel', (p) => fixed(100 * p.heatLossFraction, 1)),
    column('cycles', '', (p) => fixed(p.cycles)),
    column('mass error', '', (p) => p.massClosure.toExponential(0)),
    column('energy error', '', (p) => p.energyClosure.toExponential(0)),
  ];
}
