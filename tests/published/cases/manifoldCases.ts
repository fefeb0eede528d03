/** One engine under a dual plane and under a single plane, with what is printed of its whole curve. */
import { readFileSync } from 'node:fs';
import type { MarchedPoint } from '../../../packages/core/src/forecast/curve.ts';
import { readCombination } from '../../../packages/core/src/reading/readCombination.ts';
import { comparedPointsOf } from '../../physics/engines.ts';
import { once, type PublishedSource } from '../publishedCase.ts';
import { GAIN_TOO_GREAT, TOP_TOO_STRONG } from './engineCases.ts';

const RPM = [3200, 4200, 4800, 5300, 5900, 6100] as const;

function curveUnder(manifold: 'dual-plane' | 'single-plane'): readonly MarchedPoint[] {
  const file = new URL('../../data/engines/two-manifolds-306.yaml', import.meta.url);
  const read = readCombination(
    readFileSync(file, 'utf8').replace('manifold: dual-plane', `manifold: ${manifold}`),
  );
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
  return comparedPointsOf(read.value, RPM);
}

const dual = once(() => curveUnder('dual-plane'));
const single = once(() => curveUnder('single-plane'));
const at = (curve: readonly MarchedPoint[], rpm: (typeof RPM)[number]): MarchedPoint =>
  curve[RPM.indexOf(rpm)];

const TOO_LOW =
  'what warms the floor of the dual plane is not told: as warm as coolant it has 3 % more torque at every speed';

/** Torque of the dual plane over that of the single plane at each speed [lb-ft]. */
const over = once(() => RPM.map((rpm) => at(dual(), rpm).torqueLbFt - at(single(), rpm).torqueLbFt));

/** Speed up to which the dual plane has more torque, on straight lines between the speeds [1/min]. */
function crossing(): number {
  const more = over();
  const next = more.findIndex((gain, i) => i > 0 && gain < 0 && more[i - 1] >= 0);
  if (next < 0) return more[0] < 0 ? RPM[0] : RPM[RPM.length - 1];
  const [low, high] = [RPM[next - 1], RPM[next]];
  return low + ((high - low) * more[next - 1]) / (more[next - 1] - more[next]);
}

const torque = { unit: 'lb-ft', decimals: 0, within: 0.06, relative: true, aim: true } as const;

export const manifoldCases: PublishedSource = {
  title: 'An eight under two manifolds',
  source:
    'R. Holdener, Single-Plane or Dual-Plane Intake Upgrade, Mustang & Fords, January 2009; sheet in tests/data/engines',
  note: 'The speeds where the printed curve passes 350 and 375 lb-ft are taken as points of it. Lengths of runners, primaries and collectors are estimates.',
  cases: [
    {
      what: 'dual plane: torque at 3200 rpm',
      value: 350,
      ...torque,
      cause: TOO_LOW,
      compute: () => at(dual(), 3200).torqueLbFt,
    },
    {
      what: 'dual plane: torque at 4200 rpm',
      value: 375,
      ...torque,
      cause: TOO_LOW,
      compute: () => at(dual(), 4200).torqueLbFt,
    },
    {
      what: 'dual plane: torque at 4800 rpm',
      value: 394,
      ...torque,
      cause: TOO_LOW,
      compute: () => at(dual(), 4800).torqueLbFt,
    },
    {
      what: 'dual plane: torque at 5900 rpm',
      value: 375,
      ...torque,
      cause: TOO_LOW,
      compute: () => at(dual(), 5900).torqueLbFt,
    },
    {
      what: 'dual plane: power at 6100 rpm',
      value: 427,
      ...torque,
      unit: 'hp',
      cause: TOO_LOW,
      compute: () => at(dual(), 6100).powerHp,
    },
    {
      what: 'single plane: torque at 5300 rpm',
      value: 391,
      ...torque,
      cause: TOP_TOO_STRONG,
      compute: () => at(single(), 5300).torqueLbFt,
    },
    {
      what: 'speed up to which the dual plane has more torque',
      value: 5300,
      unit: 'rpm',
      decimals: 0,
      within: 400,
      aim: true,
      cause: TOO_LOW,
      compute: crossing,
    },
    {
      what: 'most torque that the dual plane has over the single plane',
      value: 26,
      unit: 'lb-ft',
      decimals: 0,
      within: 10,
      aim: true,
      cause: TOO_LOW,
      compute: () => Math.max(...over()),
    },
    {
      what: 'gain of peak power by the single plane, to 6100 rpm',
      value: 100 * (436 / 427 - 1),
      unit: '%',
      decimals: 1,
      within: 3,
      aim: true,
      cause: GAIN_TOO_GREAT,
      compute: () => 100 * (at(single(), 6100).powerHp / at(dual(), 6100).powerHp - 1),
    },
  ],
};
