/** What the length of a secondary does to a curve: its waves' peaks and holes go with the quarter wave of the pipes that ring. */
import { describe, expect, it } from 'vitest';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { quarterWave } from '../../packages/core/test/network/ringing.ts';
import { pointsOf } from '../physics/engines.ts';

const MESH = { intakeCell: 0.06, exhaustCell: 0.08, fewest: 4 };
const STEP = 250;

/** An invented four: pairs meet close to the head, secondaries end in a collector so wide that it is the open to them. */
function torques(exhaust: string, rpm: readonly number[]): readonly number[] {
  const text = `
engine: { cylinders: 4, bore: 86 mm, stroke: 86 mm, ratedSpeed: 7000 rpm }
chamber: { compression: 10.5 }
heads: { valvesPerCylinder: 4, exhaust: { portLength: 65 mm } }
burn: { ca50: 8 deg }
exhaust: { primary: { inside: 41 mm, length: 150 mm }, ${exhaust} }
`;
  const read = readCombination(text, { file: 'four.yaml' });
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return pointsOf(read.value, rpm, { mesh: MESH, onlyCompared: true }).map(({ torqueNm }) => torqueNm);
}

const OPEN = new Map<number, number>();

/** Torque of short open pipes, each speed once. */
function openTorque(rpm: number): number {
  const known = OPEN.get(rpm) ?? torques('collector: none', [rpm])[0];
  OPEN.set(rpm, known);
  return known;
}

/** Where torque over that of short open pipes is most, or least [1/min], by a parabola through three speeds; undefined at an end of the range. */
function turning(length: number, [from, to]: readonly [number, number], way: 1 | -1): number | undefined {
  const rpm = Array.from({ length: 1 + (to - from) / STEP }, (_, i) => from + i * STEP);
  const behind = torques(
    `secondary: { inside: 46 mm, length: ${length} mm, mergeVolume: 96 cc }, collector: { inside: 110 mm, length: 200 mm }`,
    rpm,
  );
  const gain = behind.map((torque, i) => way * (torque / openTorque(rpm[i])));
  const i = gain.indexOf(Math.max(...gain));
  if (i === 0 || i === gain.length - 1) return undefined;
  const [a, b, c] = [gain[i - 1], gain[i], gain[i + 1]];
  return rpm[i] + (STEP * (a - c)) / (2 * (a - 2 * b + c));
}

/** Wave number [1/m] of what rings: port and primary of 215 mm twice, the secondary with its end. */
const waves = (length: number): number =>
  quarterWave({
    primary: 0.215,
    secondary: length / 1000 + 0.6133 * 0.023,
    areas: [(Math.PI / 4) * 0.041 ** 2, (Math.PI / 4) * 0.046 ** 2],
    merge: 96e-6,
  });

describe('longer secondaries', () => {
  it.each([
    ['peak', 1, [3000, 4000], [2000, 3000]],
    ['hole', -1, [4250, 5000], [3000, 4000]],
  ] as const)(
    'move the %s of the wave down as the quarter wave says, within a tenth',
    (_what, way, short, long) => {
      const [fast, slow] = [turning(400, short, way), turning(750, long, way)];
      const ratio = (fast ?? Number.NaN) / (slow ?? Number.NaN);
      // A quarter wave of 1.49 times the frequency.
      expect(waves(400) / waves(750)).toBeCloseTo(1.49, 2);
      expect(Math.abs(ratio / (waves(400) / waves(750)) - 1)).toBeLessThan(0.1);
    },
  );
});
