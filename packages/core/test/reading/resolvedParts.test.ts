/** Parts of the completed engine that follow from stated ones, each worked by hand in SI. */
import { describe, expect, it } from 'vitest';
import { fileWith, readGood } from './files.ts';

const disc = (diameter: number): number => (Math.PI / 4) * diameter ** 2;
const FOUR = { engine: '{ bore: 88 mm, stroke: 80 mm, cylinders: 4 }', heads: '{ valvesPerCylinder: 4 }' };
const assumedOf = (sections: Readonly<Record<string, string>>, path: string) =>
  readGood(fileWith(sections)).assumed.find((entry) => entry.path === path);

describe('throttles along the runners', () => {
  const runner =
    'runner: { length: 300 mm, entryArea: 16 cm2, exitArea: 12 cm2, throttleAt: 100 mm, lengthMultiplier: 1.1';
  const made = (rest: string, mouth = '') =>
    readGood(
      fileWith({ ...FOUR, induction: `{ manifold: individual-throttles, ${runner}${mouth} }, ${rest} }` }),
    ).induction;

  it('are as wide as their discs, pass 0.85 of them, and stand where waves see them', () => {
    const {
      meteringArea,
      stacks,
      plenums,
      runner: found,
    } = made('throttle: { diameter: 45 mm }, flowMultiplier: 0.9');
    expect(meteringArea / (4 * 0.9 * 0.85 * disc(0.045))).toBeCloseTo(1, 10);
    expect(stacks?.bore).toBeCloseTo(disc(0.045), 12);
    expect(stacks?.at).toBeCloseTo(0.11, 12);
    expect(stacks?.inlet).toBeUndefined();
    expect(plenums).toEqual([]);
    // A rolled mouth passes 0.976 of its area.
    expect(found.mouthArea).toBeCloseTo(0.976 * 16e-4, 10);
    expect(found.wallTemperature).toBeCloseTo(335, 10);
  });

  it('lose more at a plain mouth', () => {
    expect(made('throttle: { diameter: 45 mm }', ', mouth: plain').runner.mouthArea).toBeCloseTo(
      0.745 * 16e-4,
      10,
    );
  });

  it('as barrels of carburetors take the width of the runner there: a third of the way from 16 to 12 cm2', () => {
    const { stacks, meteringArea, kind } = made(
      'carburetor: { rating: 300 cfm, barrels: 2, ratedAt: 3 inHg }',
    );
    expect(kind).toBe('carburetor');
    expect(stacks?.bore).toBeCloseTo((16 - 4 / 3) * 1e-4, 10);
    // A barrel a cylinder is two carburetors of two: 300 cfm at 3 inHg is 11.2 cm2 each.
    expect(meteringArea / 2).toBeGreaterThan(10.5e-4);
    expect(meteringArea / 2).toBeLessThan(12e-4);
  });

  it('draw from an airbox, whose way in is a hole unless an air cleaner is all that is known of it', () => {
    const boxed = made('throttle: { diameter: 45 mm }, airbox: { volume: 8 l }');
    expect(boxed.plenums).toEqual([{ volume: 8e-3, cylinders: [1, 2, 3, 4] }]);
    expect(boxed.stacks?.inlet?.length).toBe(0);
    expect(boxed.stacks?.inlet?.area).toBeGreaterThan(disc(0.04));
    const piped = made(
      'throttle: { diameter: 45 mm }, airbox: { volume: 8 l, inlet: { inside: 70 mm, length: 250 mm } }',
    );
    expect(piped.stacks?.inlet).toEqual({ length: 0.25, area: expect.closeTo(disc(0.07), 12) });
    const cleaned = made(
      'throttle: { diameter: 45 mm }, airbox: { volume: 8 l }, airCleaner: { flow: 600 cfm }',
    );
    expect(cleaned.stacks?.inlet).toBeUndefined();
    const none = made('throttle: { diameter: 45 mm }, airbox: { volume: 8 l }, airCleaner: none');
    expect(none.stacks?.inlet?.length).toBe(0);
  });

  it('draw through a hole four times as wide in area into the airbox of a single, which draws a quarter of the time', () => {
    const hole = (cylinders: number, bore: number): number =>
      readGood(
        fileWith({
          engine: `{ bore: ${bore} mm, stroke: 80 mm, cylinders: ${cylinders}, ratedSpeed: 7000 rpm }`,
          heads: '{ valvesPerCylinder: 4 }',
          induction: '{ manifold: individual-throttles, airbox: { volume: 8 l } }',
        }),
      ).induction.stacks?.inlet?.area ?? 0;
    // Of one displacement and one rated speed: one cylinder of twice the bore of four.
    expect(hole(1, 100) / hole(4, 50)).toBeCloseTo(4, 2);
    expect(hole(6, 50) / hole(4, 50)).toBeCloseTo(1.5, 2);
  });
});

describe('a restrictor', () => {
  it('has a bore under each barrel or throttle as a plate, one as a nozzle, and says so', () => {
    const of = (rest: string) =>
      assumedOf({ ...FOUR, induction: `{ ${rest} }` }, 'induction.restrictor.bores');
    const plate = 'restrictor: { kind: plate, bore: 30 mm }';
    expect(of(`carburetor: { rating: 400 cfm, barrels: 2 }, ${plate}`)).toMatchObject({
      value: 2,
      reason: 'one under each barrel',
    });
    expect(of(`throttle: { diameter: 60 mm }, ${plate}`)).toMatchObject({
      value: 1,
      reason: 'one under each throttle',
    });
    expect(
      of('carburetor: { rating: 400 cfm, barrels: 2 }, restrictor: { kind: sonic, bore: 30 mm }'),
    ).toMatchObject({
      value: 1,
      reason: 'one',
    });
  });
});

describe('a muffler', () => {
  const exhaust = (rest: string) =>
    readGood(fileWith({ ...FOUR, exhaust: `{ collector: { inside: 50 mm }, ${rest} }` })).exhaustSystem;
  const box =
    'box: { kind: chambered, volume: 9 l, pipe: { inside: 45 mm, length: 500 mm, wallTemperature: 640 K } }';
  /** Friction of the tail-pipe [1/m4]. */
  const friction = (fanning: number) => (4 * fanning * 0.5) / 0.045 / disc(0.045) ** 2;

  // A gauge at the wall in front shows the pressure of the box: the jet into it is lost before an open pipe's end too.
  it('with chambers loses what its tail-pipe leaves of a measured pressure', () => {
    // 10 psi at 9 m3/min: 0.15 m3/s of room air are 0.19785 kg/s of exhaust of 0.41105 kg/m3.
    const passes = 0.19785 / Math.sqrt(2 * 0.41105 * 10 * 6894.757);
    const { muffler, outletArea } = exhaust(`muffler: { backPressure: 10 psi, airflow: 9 m3/min }, ${box}`);
    expect(outletArea).toBeCloseTo(disc(0.045), 12);
    expect(muffler).toMatchObject({
      kind: 'chambered',
      volume: expect.closeTo(9e-3, 12),
      pipe: { length: 0.5, wallTemperature: 640 },
    });
    // Tube of a Fanning factor between 0.0055 and 0.007 to hot gas.
    const left = (fanning: number) => 1 / passes ** 2 - friction(fanning);
    const passage = muffler?.passage ?? 0;
    expect(passage).toBeLessThanOrEqual(1 / Math.sqrt(left(0.007)));
    expect(passage).toBeGreaterThanOrEqual(1 / Math.sqrt(left(0.0055)));
  });

  it('around a straight pipe has no jet to lose', () => {
    const straight = box.replace('chambered', 'straight-through');
    const at = (kind: string) =>
      exhaust(`muffler: { backPressure: 10 psi, airflow: 9 m3/min }, ${kind}`).muffler?.passage ?? 0;
    expect(1 / at(straight) ** 2 - 1 / at(box) ** 2).toBeCloseTo(1 / disc(0.05) ** 2, -1);
  });

  it('of a word is sized by the air at rated speed, shared by the outlets', () => {
    const one = exhaust('muffler: chambered');
    const two = readGood(
      fileWith({
        engine: '{ bore: 88 mm, stroke: 80 mm, cylinders: 8 }',
        exhaust: '{ collector: { inside: 50 mm }, muffler: chambered }',
      }),
    ).exhaustSystem;
    // The displacement of an outlet is the same; so is its box of three times that.
    const swept = 4 * disc(0.088) * 0.08;
    expect(one.muffler?.volume).toBeCloseTo(3 * swept, 6);
    expect(two.muffler?.volume).toBeCloseTo(3 * swept, 6);
    expect(one.returned).toBeCloseTo(0.9, 12);
    expect(exhaust('muffler: open').returned).toBeCloseTo(0.5, 12);
    expect(exhaust('muffler: open').outletArea).toBeCloseTo(disc(0.05), 12);
  });
});

describe('an exhaust', () => {
  it('takes the mean of stated lengths, tubes by their walls, and the last size at an open end', () => {
    const { primary, outletArea, collectors } = readGood(
      fileWith({
        ...FOUR,
        exhaust:
          '{ collector: none, muffler: open, primary: { diameter: 42 mm, wall: 1 mm, lengths: [700 mm, 720 mm, 740 mm, 800 mm], steps: [ { after: 300 mm, diameter: 46 mm }, { after: 500 mm, inside: 47 mm } ] } }',
      }),
    ).exhaustSystem;
    expect(primary.length).toBeCloseTo(0.74, 12);
    expect(primary.lengths).toEqual([0.7, 0.72, 0.74, 0.8].map((length) => expect.closeTo(length, 12)));
    expect(primary.area).toBeCloseTo(disc(0.04), 12);
    expect(primary.steps).toEqual([
      { after: 0.3, area: expect.closeTo(disc(0.044), 12) },
      { after: 0.5, area: expect.closeTo(disc(0.047), 12) },
    ]);
    expect(collectors).toBeNull();
    expect(outletArea).toBeCloseTo(disc(0.047), 12);
  });

  it('of a single has no collector, and says so', () => {
    expect(
      assumedOf({ engine: '{ bore: 88 mm, stroke: 80 mm, cylinders: 1 }' }, 'exhaust.collector'),
    ).toMatchObject({
      value: 'none',
      reason: 'one cylinder has nothing to share',
    });
  });

  it('pairs cylinders that fire a turn apart, and joins collectors by a tube', () => {
    const { secondary } = readGood(
      fileWith({ ...FOUR, exhaust: '{ secondary: { inside: 45 mm } }' }),
    ).exhaustSystem;
    expect(secondary?.groups).toEqual([
      [1, 4],
      [2, 3],
    ]);
    expect(secondary?.length).toBeCloseTo(15 * 0.0254, 12);
    expect(secondary?.mergeVolume).toBeCloseTo(1.25 * disc(0.045) * 0.045, 7);
    expect(secondary?.wallTemperature).toBeCloseTo(700, 10);
    const { balance } = readGood(
      fileWith({ exhaust: '{ collector: { inside: 70 mm, length: 400 mm }, balance: {} }' }),
    ).exhaustSystem;
    expect(balance?.area).toBeCloseTo(disc(0.875 * 0.07), 5);
    expect(balance?.at).toBeCloseTo(0.3, 4);
    expect(balance?.length).toBeCloseTo(0.4, 4);
  });
});
