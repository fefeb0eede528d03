/** What kind of parts stand in for those left out: those that the engine was made with, unless something speaks for others. */
import { describe, expect, it } from 'vitest';
import type { Combination } from '../../src/combination/combination.ts';
import { readCombination } from '../../src/reading/readCombination.ts';

function eight(cam: string, rated = ', ratedSpeed: 4400 rpm', heads = ''): Combination {
  const read = readCombination(`
engine: { bore: 4.000 in, stroke: 3.480 in, cylinders: 8, layout: v${rated} }
chamber: { compression: 8.5 }
heads: { valvesPerCylinder: 2, intake: { valve: 1.94 in }, exhaust: { valve: 1.50 in }${heads} }
induction: { carburetor: { barrels: 2 } }
${cam}`);
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return read.value;
}

const assumedOf = ({ assumed }: Combination, path: string) =>
  assumed.find((entry) => entry.path === path)?.value;

/** Of a production cam 112, of another 110: an estimate that nothing but the make decides. */
const lobesApart = (combination: Combination) => assumedOf(combination, 'cam.separation');

describe('a file that states a cam', () => {
  it('is of the engine as it was made where the cam is the one estimated for it: stating it changes nothing', () => {
    const silent = eight('');
    const at050 = assumedOf(silent, 'cam.intake.at050');
    const stated = eight(`cam: { intake: { at050: ${at050} deg } }`);
    expect({ ...stated, assumed: [] }).toEqual({ ...silent, assumed: [] });
    expect(assumedOf(stated, 'cam.intake.at050')).toBeUndefined();
  });

  it('is so up to halfway to the rule of performance cams, 197 and 7.5 deg here, whatever else its card says', () => {
    expect(assumedOf(eight(''), 'cam.intake.at050')).toBe(197);
    expect(lobesApart(eight('cam: { intake: { at050: 204 deg } }'))).toBe(112);
    expect(lobesApart(eight('cam: { intake: { at050: 205 deg } }'))).toBe(110);
    const card = 'at050: 197 deg, advertised: 256 deg, checkedAt: 0.006 in, lobeLift: 0.26 in';
    expect(lobesApart(eight(`cam: { intake: { ${card} }, exhaust: { at050: 203 deg } }`))).toBe(112);
    expect(lobesApart(eight('cam: { intake: { advertised: 256 deg, checkedAt: 0.006 in } }'))).toBe(112);
    expect(lobesApart(eight('cam: { intake: { advertised: 290 deg, checkedAt: 0.006 in } }'))).toBe(110);
  });

  it('goes by the rated speed: a cam of 212 deg is that of an engine made for 5600 rpm, and none for 4400', () => {
    const cam = 'cam: { intake: { at050: 212 deg } }';
    expect(lobesApart(eight(cam, ', ratedSpeed: 5600 rpm'))).toBe(112);
    expect(lobesApart(eight(cam))).toBe(110);
  });

  it('is of other parts where worked ports are stated, a lobe as measured, or a card that says neither duration nor lift', () => {
    const cam = 'cam: { intake: { at050: 197 deg } }';
    expect(lobesApart(eight(cam, undefined, ', ports: bowls-blended'))).toBe(110);
    expect(lobesApart(eight('cam: { intake: { at200: 120 deg } }'))).toBe(110);
  });

  // Halfway, at 204.5 deg, the estimate of lift has 0.246 x 1.94 x (204.5 / 224)^1.5 = 0.4163 in, lobes of 0.2775 with rockers of 1.5.
  it('goes by the lift where it says no duration', () => {
    expect(lobesApart(eight('cam: { intake: { lobeLift: 0.277 in } }'))).toBe(112);
    expect(lobesApart(eight('cam: { intake: { lobeLift: 0.278 in } }'))).toBe(110);
    expect(lobesApart(eight('cam: { intake: { valveLift: 0.416 in } }'))).toBe(112);
    expect(lobesApart(eight('cam: { intake: { valveLift: 0.417 in } }'))).toBe(110);
    const longer = 'cam: { intake: { lobeLift: 0.277 in } }\nvalvetrain: { intakeRatio: 1.6 }';
    expect(lobesApart(eight(longer))).toBe(110);
    expect(lobesApart(eight('cam: { intake: { at050: 197 deg, lobeLift: 0.300 in } }'))).toBe(112);
  });

  // 14.4 m/s of piston are 4900 rpm, 61.4 m/s through the valve, and 204.1 deg of a production cam.
  it('is held to the speed that production engines of its size are rated at where it states none', () => {
    expect(lobesApart(eight('cam: { intake: { at050: 211 deg } }', ''))).toBe(112);
    expect(lobesApart(eight('cam: { intake: { at050: 212 deg } }', ''))).toBe(110);
    expect(lobesApart(eight('cam: { intake: { valveLift: 0.400 in } }', ''))).toBe(112);
    expect(lobesApart(eight('cam: { intake: { valveLift: 0.480 in } }', ''))).toBe(110);
  });

  // 197 deg and 15 are 212, that is 55.3 m/s through the valve; a cam of 224 deg by the rule of performance cams has 65.6.
  it('tells its rated speed by the rule of its kind: the factory cam of an engine rated at 4400 rpm gives that back', () => {
    expect(assumedOf(eight('cam: { intake: { at050: 197 deg } }', ''), 'engine.ratedSpeed')).toBe(4400);
    expect(assumedOf(eight('cam: { intake: { at050: 224 deg } }', ''), 'engine.ratedSpeed')).toBe(5250);
  });
});
