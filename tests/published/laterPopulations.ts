/** Production engines of 1993 and 2004 in tests/data, each forecast from displacement, cylinders, valves and, unless it is kept back, rated speed. */
import { readFileSync } from 'node:fs';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { wholeForecast } from '../../packages/core/test/forecast/wholeForecast.ts';

import { ratedCleaner } from './population.ts';

const HORSEPOWER = 745.69987158227;

/** What a table tells of one engine. */
export interface LaterEngine {
  readonly year: 1993 | 2004;
  readonly cylinders: number;
  readonly litres: number;
  readonly valves: number;
  readonly horsepower: number;
  /** Speed of the rating [1/min]; null where it is kept back. */
  readonly rpm: number | null;
}

/** Rated beside forecast power [kW]. */
export interface Rated {
  readonly engine: LaterEngine;
  readonly rated: number;
  readonly ours: number;
}

/** The engines of a table that are naturally aspirated gasoline piston engines, each once; marked rows are left out. */
export function laterEngines(year: 1993 | 2004): readonly LaterEngine[] {
  const file = new URL(`../data/cars-${year}.csv`, import.meta.url);
  const [head, ...lines] = readFileSync(file, 'utf8').trim().split('\n');
  const names = head.split(',');
  const unique = new Map<string, LaterEngine>();
  for (const line of lines) {
    const cells = line.split(',');
    const cell = (name: string): string => cells[names.indexOf(name)] ?? '';
    if (cell('mark') !== '') continue;
    const engine: LaterEngine = {
      year,
      cylinders: Number(cell('cylinders')),
      litres: Number(cell('litres')),
      valves: Number(cell('valves')),
      horsepower: Number(cell('horsepower')),
      rpm: Number(cell('rpm')),
    };
    unique.set(Object.values(engine).join(), engine);
  }
  return [...unique.values()];
}

/** Bore over stroke by cylinders: medians of the table of 1985. */
const BORE_OVER_STROKE: Readonly<Record<number, number>> = { 3: 0.96, 4: 0.97, 5: 0.94, 6: 1.05, 8: 1.13 };
/** Usual compression ratio by year, with two valves and with more; from memory, within half a point. */
const COMPRESSION = { 1993: [8.9, 9.6], 2004: [9.4, 10.2] } as const;

/**
 * The least file that holds what the table tells, run as it was rated: SAE net, in the reference air of SAE J1349, with
 * accessories, a full exhaust and an air cleaner. Bore, stroke and compression are not in the tables. All engines sold there in these
 * years were injected (from memory).
 */
export function laterFile({ year, cylinders, litres, valves, rpm }: LaterEngine): string {
  const ratio = BORE_OVER_STROKE[cylinders] ?? 1.13;
  const bore = Math.cbrt((4e6 * litres * ratio) / (Math.PI * cylinders));
  // Where no speed is given, that of 15 m/s.
  const speed = rpm ?? (30_000 * 15 * ratio) / bore;
  const cleaner = ratedCleaner(litres / 1000, speed);
  const rated = rpm === null ? '' : `, ratedSpeed: ${rpm} rpm`;
  return `
name: an engine of ${year}
engine: { bore: ${bore.toFixed(2)} mm, stroke: ${(bore / ratio).toFixed(2)} mm, cylinders: ${cylinders}${rated} }
chamber: { compression: ${COMPRESSION[year][valves > 2 ? 1 : 0]} }
heads: { valvesPerCylinder: ${valves} }
induction: { throttle: {}, airCleaner: ${cleaner} }
exhaust: { style: cast, muffler: chambered }
friction: { accessories: true }
weather: { barometer: 99 kPa, temperature: 25 degC, vapourPressure: 0 kPa }
correction: J1349
`;
}

/** Engines of a table that tell the same are forecast once [kW]. */
const forecasts = new Map<string, number>();

/** Power forecast at the rated speed; without one, the most power around the speed the program takes for it. */
export function forecastLater(engine: LaterEngine): Rated {
  const file = laterFile(engine);
  const ours = forecasts.get(file) ?? mostPower(file, engine.rpm);
  forecasts.set(file, ours);
  return { engine, rated: (engine.horsepower * HORSEPOWER) / 1000, ours };
}

function mostPower(file: string, rated: number | null): number {
  const read = readCombination(file);
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.path}: ${p.message}`).join('\n'));
  const { value: combination } = read;
  const guess = Number(combination.assumed.find(({ path }) => path === 'engine.ratedSpeed')?.value);
  const rpm = rated === null ? [0.9, 1, 1.1].map((share) => Math.round(share * guess)) : [rated];
  const { points } = wholeForecast(combination, { rpm });
  return Math.max(...points.map(({ powerKw }) => powerKw));
}
