/** A large eight of modern heads under a mild cam, with what is printed of its curve. */
import type { MarchedPoint } from '../../../packages/core/src/forecast/curve.ts';
import { comparedPointsOf, engineFile } from '../../physics/engines.ts';
import { once, type PublishedSource } from '../publishedCase.ts';

const RPM = [3300, 5500] as const;

const points = once((): readonly MarchedPoint[] =>
  comparedPointsOf(engineFile('tests/data/engines/single-plane-540.yaml'), RPM),
);

export const largeEightCases: PublishedSource = {
  title: 'A large eight with a mild cam',
  source:
    'R. Holdener, Dart 540ci Mild to Wild Big-Block Engine Builds, Super Chevy, November 2010; sheet in tests/data/engines',
  note: 'The speeds where the printed curve passes 600 lb-ft are taken as points of it. Compression follows from the printed chambers and a guess at the rest, 9.1:1; half a point more is 1.8 % of torque.',
  cases: RPM.map((rpm, i) => ({
    what: `torque at ${rpm} rpm`,
    value: 600,
    unit: 'lb-ft',
    decimals: 0,
    within: 0.06,
    relative: true,
    aim: true,
    cause: 'the flow below full lift and the compression are not printed',
    compute: () => points()[i].torqueLbFt,
  })),
};
