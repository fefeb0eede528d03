/**
 * The sheet of pressures among the examples, made: no engine was ever run. The scrambler's single with differences its file doesn't know of
 * is traced where two sensors would sit, and each reading gets the noise of a sensor and its amplifier.
 */
import type { FieldEdit } from '../../packages/core/src/changes/change.ts';
import { tracePressures } from '../../packages/core/src/forecast/pressureTrace.ts';
import { linearTable } from '../../packages/core/src/numerics/interpolate.ts';
import { randomNamed } from '../../packages/core/src/numerics/random.ts';
import { alteredExample } from './alteredExample.ts';

const FILE = 'examples/scrambler/pressures.csv';
const SEED = 1238;
const RPM = 6000;

/** What the engine on the stand has: a runner that waves see longer, and a hotter pipe. */
const HIDDEN: readonly FieldEdit[] = [
  { kind: 'scale', path: 'induction.runner.lengthMultiplier', factor: 1.1 },
  { kind: 'scale', path: 'exhaust.primary.wallTemperature', factor: 1.12 },
];

/** Where the sensors sit, from the valves [m]. */
const PLACES = [
  { place: 'intake', fromValveM: 0.095 },
  { place: 'exhaust', fromValveM: 0.26 },
] as const;

/** One standard deviation of a reading [kPa]: the mean of some fifty cycles. */
const NOISE = [0.25, 0.6] as const;
/** Between readings [crank deg]. */
const STEP = 3;

/** Text of the sheet by its path from the root. */
export function pressureSheets(): Readonly<Record<string, string>> {
  const engine = alteredExample('scrambler', HIDDEN);
  const { angleDeg, pressurePa } = tracePressures(engine, { rpm: RPM, places: PLACES });
  const random = randomNamed(SEED, FILE);
  // The encoder of this stand counts from gas-exchange top centre: firing is at 360.
  const tables = pressurePa.map((pressures) => linearTable(angleDeg, pressures));
  const rows = Array.from({ length: 720 / STEP }, (_, i) => {
    const crank = i * STEP;
    const cells = tables.map((table, sensor) =>
      (table.valueAt(crank - 360) / 1000 + NOISE[sensor] * random.normal()).toFixed(2),
    );
    return [crank, ...cells].join(',');
  });
  return {
    [FILE]: `# Tern Street scrambler single, two sensors, mean of fifty cycles at full throttle
# Invented for this example: no engine was run. Made by tools/exampleSheets.mjs, which traces this engine with differences its file
# doesn't know of (how long waves see its runner, how hot its pipe is) and adds noise to each reading, seed ${SEED}.
# speed: ${RPM} rpm
# cylinder: 1
# zero: gas-exchange top centre
# pressures: absolute
# intake from valve: ${1000 * PLACES[0].fromValveM} mm
# exhaust from valve: ${1000 * PLACES[1].fromValveM} mm
crank deg,intake kPa,exhaust kPa
${rows.join('\n')}
`,
  };
}
