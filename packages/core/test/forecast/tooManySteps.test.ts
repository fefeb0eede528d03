/** Parts so small that a cycle would take hours are said to be so at once. */
import { describe, expect, it } from 'vitest';
import type { Curve } from '../../src/forecast/curve.ts';
import { forecast } from '../../src/forecast/forecast.ts';
import { exampleSheet, exampleText, readGood } from '../reading/files.ts';

/** One speed of an example whose file has another text in one place. */
function changed(from: string, to: string): Curve {
  const text = exampleText('hill-climb');
  if (!text.includes(from)) throw new Error(`no ${from} in the example`);
  return forecast(readGood(text.replace(from, to), exampleSheet('hill-climb')), { rpm: [5000] });
}

describe('a volume of one cubic centimetre between pipes', () => {
  it.each([
    ['plenum: 1.9 l', 'plenum: 1 cc', 'plenum 1'],
    ['length: 22 in', 'length: 22 in\n    mergeVolume: 1 cc', 'merge 1'],
  ])('gives a lost point that names it, in the place of %s', (from, to, name) => {
    const { points, warnings } = changed(from, to);
    expect(points[0]).toMatchObject({
      status: 'lost',
      code: 'too-many-steps',
      cycles: 1,
      reason: `gas in ${name}, 1.0 cc, changes so fast that a cycle would take over 10 times the usual steps: give it more volume`,
    });
    const said = warnings.filter(({ code }) => code === 'too-many-steps').map(({ message }) => message);
    expect(said).toEqual([expect.stringMatching(`^no figures at 5000 rpm: gas in ${name}`)]);
    expect(warnings.map(({ code }) => code)).not.toContain('lost');
  });
});

// Their first cycle is cut evenly, into steps as short as the shortest: twice the steps that such a merge takes later on.
it('a merge of ten cubic centimetres under a four is marched where copies stand for its cylinders', () => {
  const four = readGood(
    JSON.stringify({
      engine: { bore: '78 mm', stroke: '76 mm', cylinders: 4 },
      chamber: { compression: 9.5 },
      heads: { valvesPerCylinder: 2 },
      exhaust: { collector: { mergeVolume: '10 cc', inside: '50 mm', length: '300 mm' } },
      correction: 'none',
    }),
  );
  const { points, warnings } = forecast(four, { rpm: [4000] });
  expect(points.map(({ status }) => status)).toEqual(['settled']);
  expect(warnings.map(({ code }) => code)).not.toContain('every-cylinder-marched');
});
