/** The engine of the dyno series in the states around those of its two sheets, as far as the articles' peaks were read. */
import { readFileSync } from 'node:fs';
import type { MarchedPoint } from '../../../packages/core/src/forecast/curve.ts';
import type { CombinationDocument } from '../../../packages/core/src/reading/combinationDocument.ts';
import { editDocument } from '../../../packages/core/src/reading/editDocument.ts';
import { readDocument } from '../../../packages/core/src/reading/readDocument.ts';
import { resolveDocument } from '../../../packages/core/src/reading/resolveDocument.ts';
import { comparedPointsOf } from '../../physics/engines.ts';
import { once, type PublishedCase, type PublishedSource } from '../publishedCase.ts';
import { TOP_TOO_STRONG } from './engineCases.ts';

type Edits = readonly (readonly [path: string, value: Parameters<typeof editDocument>[2]])[];

function pointsOf(sheet: string, edits: Edits, rpm: readonly number[]): readonly MarchedPoint[] {
  const text = readFileSync(new URL(`../../data/engines/${sheet}.yaml`, import.meta.url), 'utf8');
  const read = readDocument(text, { file: `${sheet}.yaml` });
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
  const document: CombinationDocument = edits.reduce(
    (edited, [path, value]) => editDocument(edited, path, value),
    read.value,
  );
  const resolved = resolveDocument(document, {});
  if (!resolved.ok) throw new Error(resolved.problems.map((p) => p.message).join('\n'));
  return comparedPointsOf(resolved.value, rpm);
}

const flowOf = (rows: readonly (readonly [lift: number, flow: number])[]) =>
  rows.map(([lift, flow]) => ({ lift: `${lift} in`, flow: `${flow} cfm` }));

/** As the engine came: heads not blended, their flow that of the sheet over 1.05, and a small cam (from memory; an article of 1990 has 192 deg for 194). */
const AS_DELIVERED: Edits = [
  [
    'heads.intake.flow',
    flowOf([
      [0.1, 65],
      [0.2, 122],
      [0.3, 168],
      [0.4, 195],
      [0.5, 203],
    ]),
  ],
  [
    'heads.exhaust.flow',
    flowOf([
      [0.1, 50],
      [0.2, 95],
      [0.3, 118],
      [0.4, 130],
      [0.5, 136],
    ]),
  ],
  ['cam.separation', '112 deg'],
  ['cam.intake', { at050: '194 deg', valveLift: '0.383 in' }],
  ['cam.exhaust', { at050: '202 deg', valveLift: '0.401 in' }],
];
const CAST: Edits = [['exhaust', { style: 'cast' }]];

const delivered = once(() => pointsOf('street-350', [...AS_DELIVERED, ...CAST], [3700, 4100]));
const headers = once(() => pointsOf('street-350', AS_DELIVERED, [3000, 3700, 4500, 5000]));
/** The second state behind the mufflers of the first, and not set up for its heads. */
const bolted = once(() =>
  pointsOf('street-350-second', [['exhaust.muffler', 'chambered']], [3700, 4600, 5600, 5900]),
);

/** The second state as its sheet has it, but for the floor of the manifold: isolated, as over an air gap. */
const unwarmed = once(() =>
  pointsOf('street-350-second', [['induction.manifoldHeat', 'none']], [3700, 5800]),
);

const most = (points: readonly MarchedPoint[], key: 'torqueLbFt' | 'powerHp'): number =>
  Math.max(...points.map((point) => point[key]));

const torque = { unit: 'lb-ft', decimals: 0, within: 0.06, relative: true } as const;
const power = { unit: 'hp', decimals: 0, within: 0.06, relative: true } as const;

const cases: readonly PublishedCase[] = [
  {
    what: 'as delivered: torque at 3700 rpm',
    value: 324,
    ...torque,
    compute: () => delivered()[0].torqueLbFt,
  },
  { what: 'as delivered: power at 4100 rpm', value: 239, ...power, compute: () => delivered()[1].powerHp },
  {
    what: 'with headers and another low manifold: peak torque',
    value: 350,
    ...torque,
    compute: () => most(headers(), 'torqueLbFt'),
  },
  {
    what: 'with headers and another low manifold: peak power',
    value: 265,
    ...power,
    compute: () => most(headers(), 'powerHp'),
  },
  {
    what: 'with the better heads bolted on: peak torque',
    value: 401,
    ...torque,
    compute: () => most(bolted(), 'torqueLbFt'),
  },
  {
    what: 'with the better heads bolted on: peak power',
    value: 384,
    ...power,
    aim: true,
    cause: TOP_TOO_STRONG,
    compute: () => most(bolted(), 'powerHp'),
  },
  {
    what: 'second state, floor isolated: torque at 3700 rpm',
    value: 430,
    ...torque,
    aim: true,
    cause: TOP_TOO_STRONG,
    compute: () => unwarmed()[0].torqueLbFt,
  },
  {
    what: 'second state, floor isolated: power at 5800 rpm',
    value: 408,
    ...power,
    aim: true,
    cause: TOP_TOO_STRONG,
    compute: () => unwarmed()[1].powerHp,
  },
];

export const seriesCases: PublishedSource = {
  title: 'The same engine before, and between its two states',
  source:
    'the same series, parts I, III, IV, V and VIII, as a collection of such articles keeps them (corvettefaq.com)',
  note: 'As delivered it has cast manifolds and a full exhaust. Speeds of peaks are given where the articles give them. The heads of the second state, the iron truck casting of 1996 (part IV), have no passage for exhaust (chevyhardcore.com, Small-Block First-Gen Heads vs. Vortec): its sheet states a floor as warm as the valley of the engine. Isolated, all of its curve is some 2 % higher; with exhaust under it, which the other states have by the estimate, 2 to 3 % lower. Part V says that all states but the second were run as bolted together: spark and jets were set for none of them. Setting both, and wider mufflers, took the better heads from 401 to 430 lb-ft and from 384 to 408 hp; the mufflers alone are worth 3 % of each in the forecast, which is always at best spark.',
  cases,
};
