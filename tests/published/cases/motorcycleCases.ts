/** Motorcycle engines, which turn twice as fast as those of cars, forecast from next to nothing. */
import type { MarchedPoint } from '../../../packages/core/src/forecast/curve.ts';
import { forecastMotorcycle, type Motorcycle, motorcycles, ratedPower } from '../motorcycles.ts';
import { median } from '../population.ts';
import { once, type PublishedCase, type PublishedSource } from '../publishedCase.ts';

/** Forecast over rated power, and over the torque of the table at its speed where it has one [-]. */
const results = once(() =>
  motorcycles().map((engine) => {
    const { peak, rpm } = engine;
    const points = forecastMotorcycle(engine, peak === null ? [rpm] : [peak.rpm, rpm]);
    const at = (speed: number): MarchedPoint | undefined => points.find((point) => point.rpm === speed);
    return {
      engine,
      ratio: (at(rpm)?.powerKw ?? Number.NaN) / ratedPower(engine),
      torque: peak === null ? null : (at(peak.rpm)?.torqueNm ?? Number.NaN) / peak.torque,
    };
  }),
);

const PISTON_SPEED = 21;

function ratios(which: (engine: Motorcycle) => boolean = () => true): number[] {
  return results()
    .filter(({ engine }) => which(engine))
    .map(({ ratio }) => ratio);
}

const isFast = ({ stroke, rpm }: Motorcycle): boolean => (stroke * rpm) / 30_000 > PISTON_SPEED;

const torques = (): number[] => results().flatMap(({ torque }) => torque ?? []);

function middleCase(what: string, most: number, all: () => number[]): PublishedCase {
  return {
    what,
    value: 0,
    unit: '%',
    decimals: 1,
    within: most,
    compute: () => 100 * (median(all()) - 1),
  };
}

function medianCase(what: string, most: number, which?: (engine: Motorcycle) => boolean): PublishedCase {
  return middleCase(`${what}, median of forecast over rated power less one`, most, () => ratios(which));
}

function shareCase(what: string, least: number, all: () => number[] = ratios): PublishedCase {
  return {
    what,
    value: least,
    unit: '%',
    decimals: 0,
    within: 0,
    relation: 'at least',
    compute: () => {
      const found = all();
      return (100 * found.filter((ratio) => Math.abs(ratio - 1) <= 0.15).length) / found.length;
    },
  };
}

const KIND_UNKNOWN =
  'fours for the track are rated at 13 to 14 bar, twins and singles for the road at 9 to 11 at the same piston speed, and no column tells which an engine is: their cams, valves and ports are not in the tables';

export const motorcycleCases: PublishedSource = {
  title: 'Motorcycle engines',
  source:
    "two open tables of makers' figures, told in tests/data/motorcycles.md: a data service for motorcycles and a course's extract of a catalogue",
  note: 'Forecast from bore, stroke, cylinders, compression, valves and the speed of the rating, a throttle a cylinder, 5500 to 14 500 rpm and 13 to 27 m/s of piston speed. Power is net at the crankshaft, in metric horsepower where the maker does not say. Which rows are left out was settled before any was forecast.',
  cases: [
    medianCase('61 engines', 5),
    shareCase('engines within 15 % of their rating', 80),
    {
      ...shareCase('asked for, engines within 15 % of their rating', 90),
      aim: true,
      cause: KIND_UNKNOWN,
    },
    {
      ...medianCase(`rated above ${PISTON_SPEED} m/s of piston speed`, 5, isFast),
      aim: true,
      cause: KIND_UNKNOWN,
    },
    middleCase('29 engines, median of forecast over stated torque at its speed less one', 5, torques),
    shareCase('engines within 15 % of their stated torque at its speed', 90, torques),
    medianCase('one cylinder', 10, ({ cylinders }) => cylinders === 1),
    medianCase('two cylinders', 10, ({ cylinders }) => cylinders === 2),
    {
      ...medianCase('four cylinders', 8, ({ cylinders }) => cylinders === 4),
      aim: true,
      cause: KIND_UNKNOWN,
    },
  ],
};
