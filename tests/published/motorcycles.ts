/** Motorcycle engines of tests/data/motorcycles.csv, each forecast from the little that the tables tell. */
import { readFileSync } from 'node:fs';
import type { MarchedPoint } from '../../packages/core/src/forecast/curve.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { wholeForecast } from '../../packages/core/test/forecast/wholeForecast.ts';
import { ratedCleaner } from './population.ts';

/** A metric horsepower, which most of the makers state [W]. */
const METRIC_HORSEPOWER = 735.49875;

/** What the tables tell of one engine. Lengths [mm]. */
export interface Motorcycle {
  readonly row: number;
  readonly cylinders: number;
  readonly bore: number;
  readonly stroke: number;
  readonly compression: number;
  /** Of a cylinder. */
  readonly valves: number;
  readonly horsepower: number;
  /** Speed of the rating [1/min]. */
  readonly rpm: number;
  /** Greatest torque [N m] and its speed [1/min]; null where the table tells none. */
  readonly peak: { readonly torque: number; readonly rpm: number } | null;
}

/** The engines of the table; marked rows are left out. */
export function motorcycles(): readonly Motorcycle[] {
  const file = new URL('../data/motorcycles.csv', import.meta.url);
  const [head, ...lines] = readFileSync(file, 'utf8').trim().split('\n');
  const names = head.split(',');
  return lines.flatMap((line) => {
    const cells = line.split(',');
    const cell = (name: string): string => cells[names.indexOf(name)] ?? '';
    if (cell('mark') !== '') return [];
    const torque = cell('torque');
    return [
      {
        row: Number(cell('row')),
        cylinders: Number(cell('cylinders')),
        bore: Number(cell('bore')),
        stroke: Number(cell('stroke')),
        compression: Number(cell('compression')),
        valves: Number(cell('valves') || 4),
        horsepower: Number(cell('horsepower')),
        rpm: Number(cell('rpm')),
        peak: torque === '' ? null : { torque: Number(torque), rpm: Number(cell('torqueRpm')) },
      },
    ];
  });
}

/** Displacement [m3]. */
export function sweptOf({ cylinders, bore, stroke }: Motorcycle): number {
  return (Math.PI / 4) * bore * bore * stroke * cylinders * 1e-9;
}

/** Power of the rating [kW]. */
export function ratedPower({ horsepower }: Motorcycle): number {
  return (horsepower * METRIC_HORSEPOWER) / 1000;
}

/**
 * The least file that holds what the tables tell, run as type approval has it: net, in air of 25 degC and 99 kPa dry, with an air cleaner, a
 * full exhaust and what the engine drives. A throttle a cylinder, a tube for each exhaust port and fuel of 98 RON, which motorcycles have
 * (common practice, no source); the one with two valves has a carburetor, as its table says.
 */
export function motorcycleFile(e: Motorcycle): string {
  const metering = e.valves > 2 ? `throttle: { count: ${e.cylinders} }` : 'carburetor: { barrels: 1 }';
  return `
name: motorcycle engine ${e.row}
engine: { bore: ${e.bore} mm, stroke: ${e.stroke} mm, cylinders: ${e.cylinders}, ratedSpeed: ${e.rpm} rpm }
chamber: { compression: ${e.compression} }
heads: { valvesPerCylinder: ${e.valves} }
induction: { ${metering}, airbox: { volume: ${(1e4 * sweptOf(e)).toFixed(2)} l }, airCleaner: ${ratedCleaner(sweptOf(e), e.rpm)} }
exhaust: { style: headers, muffler: chambered }
fuel: pump-93
friction: { accessories: true }
weather: { barometer: 99 kPa, temperature: 25 degC, vapourPressure: 0 kPa }
correction: J1349
`;
}

/** The forecast at speeds [1/min]. */
export function forecastMotorcycle(
  e: Motorcycle,
  rpm: readonly number[],
  file = motorcycleFile(e),
): readonly MarchedPoint[] {
  const read = readCombination(file);
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.path}: ${p.message}`).join('\n'));
  return wholeForecast(read.value, { rpm: [...rpm] }).points;
}
