import { expect, it } from 'vitest';
import { createSimulation } from '../../packages/core/src/forecast/simulation.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { engineFile, pointsOf } from './engines.ts';

const INCH = 0.0254;

/** The same value with every number that is not whole written in inches and read again: equal to some 4e-16. */
function throughInches<T>(value: T): T {
  if (typeof value === 'number')
    return (Number.isInteger(value) ? value : (value / INCH) * INCH * (1 + 3e-16)) as T;
  if (Array.isArray(value)) return value.map(throughInches) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, throughInches(inner)])) as T;
}

// One timed for best torque, one at the limit of knock, with lobes of a card and of a table.
it.each(['examples/tow-truck/engine.yaml', 'examples/club-racer/engine.yaml'])(
  'the same engine in inches and in millimetres makes the same torque to 1e-7: %s',
  (file) => {
    const engine = engineFile(file);
    const { fuel, ...measured } = engine;
    const rpm = [3500];
    const again = pointsOf({ ...throughInches(measured), fuel }, rpm);
    pointsOf(engine, rpm).forEach((point, i) => {
      expect(Math.abs(again[i].torqueNm / point.torqueNm - 1)).toBeLessThan(1e-7);
      expect(Math.abs(again[i].ca50DegAtdc - point.ca50DegAtdc)).toBeLessThan(1e-5);
    });
  },
);

// Of the second numbering, a cycle counted from the crank's own zero would try half of an exchange of gas in shorter steps, and see a tenth of
// what they change.
it('an engine whose cylinders are numbered otherwise makes the same torque to the bit', () => {
  const numbered = (firingOrder: readonly number[]) => {
    const read = readCombination(
      JSON.stringify({
        fuel: 'e85',
        engine: { bore: '86 mm', stroke: '86 mm', cylinders: 4, firingOrder },
        chamber: { compression: 12.5 },
        heads: { valvesPerCylinder: 4 },
        induction: { manifold: 'individual-throttles', throttle: { diameter: '45 mm', count: 4 } },
        correction: 'none',
      }),
    );
    if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
    return read.value;
  };
  const [first, second] = [
    [1, 2, 4, 3],
    [2, 4, 1, 3],
  ].map(numbered);
  expect(second.block.firingAngles[0]).toBe(360);
  expect(pointsOf(second, [6350])).toEqual(pointsOf(first, [6350]));
});

// Ten of small bore on one plenum, slow: short cells of the intake ask for every step, and nine copies hand on what one does.
it('rounding does not grow from cycle to cycle where copies stand for cylinders', () => {
  const file = JSON.stringify({
    engine: { bore: '70 mm', stroke: '90 mm', cylinders: 10, rod: '126 mm', ratedSpeed: '3000 rpm' },
    chamber: { compression: 8 },
    heads: { valvesPerCylinder: 2 },
    cam: {
      separation: '92 deg',
      intake: { advertised: '200 deg', checkedAt: '0.15 mm', at050: '171 deg', lobeLift: '9 mm' },
      exhaust: { advertised: '330 deg', checkedAt: '0.15 mm', at050: '254 deg', lobeLift: '9 mm' },
    },
    valvetrain: { intakeRatio: 1, exhaustRatio: 1 },
    correction: 'none',
  });
  const read = readCombination(file);
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
  const ten = read.value;
  const workOf = (stroke: number) => {
    const engine = { ...ten, block: { ...ten.block, stroke } };
    const { cycle, march } = createSimulation(engine, {
      fidelity: 'representative',
      periodic: { maxCycles: 6, tolerance: 1e-9 },
    }).runSpeed(1500);
    expect(march.network.copies.length).toBeGreaterThan(0);
    return cycle.totals.work;
  };
  const { stroke } = ten.block;
  expect(Math.abs(workOf(stroke * (1 + 4e-16)) / workOf(stroke) - 1)).toBeLessThan(1e-10);
});

// At no pressure drop flow through a throttle hangs on rounding: a march that began so makes 2e-13 and more of it.
it.each([
  [4, '55 mm'],
  [8, '80 mm'],
])(
  'rounding does not grow over the first cycles of %i cylinders behind a throttle of %s',
  (cylinders, diameter) => {
    const read = readCombination(
      JSON.stringify({
        engine: { bore: '86 mm', stroke: '80 mm', cylinders },
        chamber: { compression: 9.5 },
        heads: { valvesPerCylinder: 2 },
        induction: { throttle: { diameter } },
        correction: 'none',
      }),
    );
    if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
    const { value } = read;
    const workOf = (stroke: number) =>
      createSimulation(
        { ...value, block: { ...value.block, stroke } },
        { fidelity: 'representative', periodic: { maxCycles: 2, tolerance: 1e-9 } },
      ).runSpeed(3000).cycle.totals.work;
    const { stroke } = value.block;
    const whole = workOf(stroke);
    for (const rounding of [4e-16, 1e-15, 2e-15])
      expect(Math.abs(workOf(stroke * (1 + rounding)) / whole - 1)).toBeLessThan(5e-14);
  },
);
