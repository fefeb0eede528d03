/** The examples' cycles: do they close, and does a finer calculation move them? */
import { DEFAULT_MESH } from '../../../packages/core/src/assembly/mesh.ts';
import { MARCH_DEFAULTS } from '../../../packages/core/src/cycle/march.ts';
import type { MarchedPoint } from '../../../packages/core/src/forecast/curve.ts';
import { engineFile, pointsOf } from '../../physics/engines.ts';
import { once, type PublishedCase, type PublishedSource } from '../publishedCase.ts';

/** Near the torque peak, and above. */
const EXAMPLES = [
  ['minimum', [4500, 6000]],
  ['tow-truck', [2750, 4750]],
  ['hill-climb', [5000, 7000]],
  ['club-racer', [5500, 7500]],
] as const;

const FINER_MESH = {
  intakeCell: DEFAULT_MESH.intakeCell / 2,
  exhaustCell: DEFAULT_MESH.exhaustCell / 2,
  fewest: 2 * (DEFAULT_MESH.fewest ?? 1),
};
const FINER_MARCH = {
  ...MARCH_DEFAULTS,
  courant: MARCH_DEFAULTS.courant / 2,
  maxStep: MARCH_DEFAULTS.maxStep / 2,
  maxBurnStep: MARCH_DEFAULTS.maxBurnStep / 2,
};

const bound = { value: 1e-4, unit: '', decimals: 7, within: 0, relation: 'at most' } as const;

function casesOf(name: string, rpm: readonly number[]): readonly PublishedCase[] {
  const engine = once(() => engineFile(`examples/${name}/engine.yaml`));
  const usual = once(() => pointsOf(engine(), rpm));
  const largest = (of: (point: MarchedPoint, i: number) => number): number =>
    Math.max(...usual().map((point, i) => Math.abs(of(point, i))));
  const move = (finer: readonly MarchedPoint[]): number =>
    100 * largest((point, i) => finer[i].torqueNm / point.torqueNm - 1);
  const percent = { unit: '%', decimals: 2, within: 0, relation: 'at most' } as const;
  const where = `${name}, ${rpm.join(' and ')} rpm`;
  return [
    {
      what: `${where}: mass in less mass out, over mass in`,
      ...bound,
      compute: () => largest((p) => p.massClosure),
    },
    {
      what: `${where}: first law over fuel energy`,
      ...bound,
      compute: () => largest((p) => p.energyClosure),
    },
    {
      what: `${where}: torque moved by twice the cells`,
      value: 0.7,
      ...percent,
      compute: () => move(pointsOf(engine(), rpm, { mesh: FINER_MESH })),
    },
    {
      what: `${where}: torque moved by half the step`,
      value: 0.3,
      ...percent,
      compute: () => move(pointsOf(engine(), rpm, { march: FINER_MARCH })),
    },
    {
      what: `${where}: torque moved by marching every cylinder`,
      value: 1,
      ...percent,
      compute: () => move(pointsOf(engine(), rpm, { fidelity: 'all' })),
    },
  ];
}

export const cycleCases: PublishedSource = {
  title: 'Cycles of the examples',
  source: 'conservation of mass and energy; the program against itself, refined',
  note: 'Largest over both speeds.',
  cases: EXAMPLES.flatMap(([name, rpm]) => casesOf(name, rpm)),
};
