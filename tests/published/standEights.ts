/** Carbureted eights that their makers rated on a stand, in tests/data, each forecast from what a catalogue tells. */
import { readFileSync } from 'node:fs';
import type { MarchedPoint } from '../../packages/core/src/forecast/curve.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { comparedPointsOf } from '../physics/engines.ts';

/** Forecast over rated, at the speeds of the ratings [-]. */
export interface StandRating {
  readonly torque: number;
  readonly power: number;
}

/** Bore from which an eight is large [in]: rockers of 1.7 in place of 1.5, primaries of 2 in place of 1-3/4 in, 800 in place of 750 cfm. */
const LARGE_BORE = 4.1;

/** Published flow of the iron casting at 28 inH2O, from memory: lift [in], intake and exhaust [cfm]. */
const IRON_FLOW = [
  [0.1, 70, 49],
  [0.2, 139, 105],
  [0.3, 190, 137],
  [0.4, 227, 151],
  [0.5, 239, 160],
] as const;

type Cell = (name: string) => string;

/** The lines of the table, by the names of its columns. */
function rows(): readonly Cell[] {
  const text = readFileSync(new URL('../data/stand-eights.csv', import.meta.url), 'utf8');
  const [head, ...lines] = text.trim().split('\n');
  const names = head.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    return (name: string): string => cells[names.indexOf(name)] ?? '';
  });
}

function pointsOf(file: string, rpm: readonly number[]): readonly MarchedPoint[] {
  const read = readCombination(file);
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
  return comparedPointsOf(read.value, rpm);
}

/** The engine that was tried under a single plane too, by its rated power [hp], and speeds at its top [1/min]. */
const TRIED = '385';
const TOP = [5600, 6000] as const;

/** Most power of that engine under a single plane over that under its own dual plane [-]. */
export function singlePlaneGain(): number {
  const cell = rows().find((row) => row('power') === TRIED);
  if (cell === undefined) throw new Error('that engine is not in the table');
  const file = fileOf(cell);
  const most = (text: string): number => Math.max(...pointsOf(text, TOP).map(({ powerHp }) => powerHp));
  return most(file.replace('manifold: dual-plane', 'manifold: single-plane')) / most(file);
}

/** Each engine at the two speeds of its rating. */
export function standRatings(): readonly StandRating[] {
  return rows().map((cell) => {
    const [low, high] = pointsOf(fileOf(cell), [Number(cell('torqueRpm')), Number(cell('powerRpm'))]);
    return {
      torque: low.torqueLbFt / Number(cell('torque')),
      power: high.powerHp / Number(cell('power')),
    };
  });
}

/** What the catalogue leaves out is left to the estimates. */
function fileOf(cell: Cell): string {
  const large = Number(cell('bore')) > LARGE_BORE;
  const ratio = large ? 1.7 : 1.5;
  const flow = (column: 1 | 2): string => {
    if (cell('heads') !== 'iron') return '';
    const rows = IRON_FLOW.map((row) => `{ lift: ${row[0]} in, flow: ${row[column]} cfm }`);
    return `, flow: [${rows.join(', ')}]`;
  };
  return `name: an eight on a stand
engine: { bore: ${cell('bore')} in, stroke: ${cell('stroke')} in, cylinders: 8, layout: v }
chamber: { compression: ${cell('compression')} }
heads:
  valvesPerCylinder: 2
  bench: { depression: 28 inH2O }
  intake: { valve: ${cell('intakeValve')} in${flow(1)} }
  exhaust: { valve: ${cell('exhaustValve')} in${flow(2)} }
cam:
  lifter: ${cell('lifter')}
  separation: ${cell('separation')} deg
  cardRatio: ${ratio}
  intake: { at050: ${cell('intakeDuration')} deg, valveLift: ${cell('intakeLift')} in }
  exhaust: { at050: ${cell('exhaustDuration')} deg, valveLift: ${cell('exhaustLift')} in }
valvetrain: { type: pushrod, intakeRatio: ${ratio}, exhaustRatio: ${ratio} }
induction: { carburetor: { rating: ${large ? 800 : 750} cfm, barrels: 4 }, manifold: dual-plane }
exhaust: { style: headers, primary: { diameter: ${large ? '2 in' : '1-3/4 in'} } }
correction: J607
`;
}
