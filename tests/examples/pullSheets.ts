/**
 * The dyno sheets among the examples, made: no engine was ever run. An engine that differs a little from what its file says is
 * forecast on the days of its pulls, and each reading gets the scatter of a dyno that repeats well.
 */
import type { FieldEdit } from '../../packages/core/src/changes/change.ts';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import type { MarchedPoint } from '../../packages/core/src/forecast/curve.ts';
import { type Random, randomNamed } from '../../packages/core/src/numerics/random.ts';
import { pointsOf } from '../physics/engines.ts';
import { alteredExample } from './alteredExample.ts';

/** What the engine on the stand has that its file doesn't know of. */
const HIDDEN: readonly FieldEdit[] = [
  { kind: 'scale', path: 'heads.intake.flowMultiplier', factor: 0.98 },
  { kind: 'scale', path: 'induction.runner.lengthMultiplier', factor: 1.03 },
  { kind: 'scale', path: 'friction.multiplier', factor: 1.06 },
  { kind: 'set', path: 'burn.efficiency', value: '96.4 %' },
  { kind: 'scale', path: 'exhaust.muffler.backPressure', factor: 1.05 },
];

/** Scatter of a reading from pull to pull, one standard deviation. */
const SCATTER = {
  /** Of a whole pull and of each torque in it, as shares. */
  pull: 0.002,
  torque: 0.003,
  fuel: 0.007,
  airFuel: 0.07,
  vacuumInHg: 0.02,
  oilF: 2,
  waterF: 1.2,
} as const;

const SEED = 1231;
const RPM = Array.from({ length: 13 }, (_, i) => 4500 + 250 * i);
const PULLS = 3;
const LB_PER_KG = 2.204_622_6;
const PA_PER_INHG = 3386.389;

interface Day {
  readonly barometerInHg: number;
  readonly airF: number;
  readonly vapourInHg: number;
}

interface Sheet {
  readonly file: string;
  readonly title: string;
  readonly edits: readonly FieldEdit[];
  /** The first pull; the room warms by a degree or two a pull. */
  readonly day: Day;
}

const SHEETS: readonly Sheet[] = [
  {
    file: 'examples/hill-climb/pulls.csv',
    title: 'Tern Street six, as built',
    edits: [],
    day: { barometerInHg: 29.48, airF: 71, vapourInHg: 0.36 },
  },
  {
    file: 'examples/hill-climb/pulls-mufflers.csv',
    title: 'Tern Street six, wide-core mufflers, nothing else touched',
    // The engine on the stand has 5 % more back-pressure than its file says, with these mufflers as with the others.
    edits: [{ kind: 'set', path: 'exhaust.muffler.backPressure', value: '1.365 psi' }],
    day: { barometerInHg: 29.55, airF: 67, vapourInHg: 0.33 },
  },
];

/**
 * Lines of the sheets by path from the root, null for readings that were not asked for and take no forecast: `isAsked` is called with
 * numbers of the pull, through all sheets, and of the speed, from 0.
 */
export function pullSheets(
  isAsked: (pull: number, speed: number) => boolean = () => true,
): Readonly<Record<string, readonly (string | null)[]>> {
  return Object.fromEntries(
    SHEETS.map((sheet, i) => [
      sheet.file,
      sheetLines(sheet, (pull, speed) => isAsked(i * PULLS + pull, speed)),
    ]),
  );
}

function sheetLines(
  { file, title, edits, day }: Sheet,
  isAsked: (pull: number, speed: number) => boolean,
): readonly (string | null)[] {
  const touched = new Set(edits.map(({ path }) => path));
  const engine = alteredExample('hill-climb', [...HIDDEN.filter(({ path }) => !touched.has(path)), ...edits]);
  const random = randomNamed(SEED, file);
  const pulls = Array.from({ length: PULLS }, (_, pull) => {
    const asked = RPM.filter((_, speed) => isAsked(pull, speed));
    const lines = pullLines(engine, day, pull, asked, random);
    return pull === 0 ? lines : ['', ...lines];
  });
  return [...heading(title), ...pulls.flat()];
}

function heading(title: string): readonly string[] {
  return `# ${title}
# Invented for this example: no engine was run. Made by tools/exampleSheets.mjs, which forecasts this engine with differences its
# file doesn't know of (ports, runner length, friction, burning, mufflers) and adds scatter to each reading, seed ${SEED}.
# standard: J607`.split('\n');
}

function pullLines(
  engine: Combination,
  day: Day,
  index: number,
  asked: readonly number[],
  random: Random,
): readonly (string | null)[] {
  const airF = day.airF + Math.round(1.5 * index);
  const barometer = day.barometerInHg - 0.01 * Math.floor(index / 2);
  const vapour = day.vapourInHg + 0.01 * Math.round(index / 2);
  const weather = {
    pressure: barometer * PA_PER_INHG,
    temperature: (airF - 32) / 1.8 + 273.15,
    vapourPressure: vapour * PA_PER_INHG,
  };
  const points = pointsOf({ ...engine, weather }, asked);
  const level = 1 + SCATTER.pull * random.normal();
  const rows = RPM.map((rpm) => {
    const at = asked.indexOf(rpm);
    // The scatter of a reading is drawn whether it was asked for or not, so that the others keep theirs.
    const text = row(points[Math.max(0, at)], level, random);
    return at < 0 ? null : text;
  });
  return [
    `# pull: ${index + 1}`,
    `# barometer: ${barometer.toFixed(2)} inHg`,
    `# air temperature: ${airF} degF`,
    `# vapor pressure: ${vapour.toFixed(2)} inHg`,
    'rpm,torque (lb-ft),power (hp),fuel (lb/h),A/F,manifold vacuum (inHg),oil temp (degF),water temp (degF)',
    ...rows,
  ];
}

/** Oil warms along a pull, water hardly. */
function row(point: MarchedPoint, level: number, random: Random): string {
  const torque = Number((point.torqueLbFt * level * (1 + SCATTER.torque * random.normal())).toFixed(1));
  const along = (point.rpm - RPM[0]) / (RPM[RPM.length - 1] - RPM[0]);
  return [
    point.rpm,
    torque.toFixed(1),
    ((torque * point.rpm) / HP_RPM).toFixed(1),
    (point.fuelKgPerH * LB_PER_KG * (1 + SCATTER.fuel * random.normal())).toFixed(0),
    (point.airflowKgPerH / point.fuelKgPerH + SCATTER.airFuel * random.normal()).toFixed(1),
    Math.max(0, point.manifoldVacuumInHg + SCATTER.vacuumInHg * random.normal()).toFixed(2),
    (203 + 11 * along + SCATTER.oilF * random.normal()).toFixed(0),
    (174 + 3 * along + SCATTER.waterF * random.normal()).toFixed(0),
  ].join(',');
}

/** Power [hp] is torque [lb-ft] times speed [rpm] over this. */
const HP_RPM = 33_000 / (2 * Math.PI);
