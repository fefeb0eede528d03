import { describe, expect, it } from 'vitest';
import {
  BEST_PORT,
  defaultIntakeFlow,
  exhaustFromIntake,
  GOOD_PORT,
  portFactor,
  withPipeStub,
} from '../../src/geometry/defaultFlow.ts';
import { flowArea } from '../../src/geometry/flowArea.ts';
import { flowDoubts } from '../../src/geometry/flowDoubts.ts';
import { areaFromFlow, flowFromArea, USUAL_DEPRESSION } from '../../src/geometry/flowSheet.ts';
import type { PortState } from '../../src/reading/defaults/ports.ts';
import { usualSections } from '../support/usualSections.ts';

const CFM = 0.3048 ** 3 / 60;
const IN = 0.0254;
const toCfm = (area: number) => flowFromArea(area, USUAL_DEPRESSION) / CFM;
const sheet = (lifts: readonly number[], cfm: readonly number[]) => ({
  lift: lifts.map((lift) => lift * IN),
  area: cfm.map((flow) => areaFromFlow(flow * CFM, USUAL_DEPRESSION)),
});
const head = () => sheet([0.1, 0.2, 0.3, 0.4, 0.5], [70, 139, 190, 227, 239]);

describe('flowArea(points)', () => {
  it('passes every point, starts in proportion to lift and holds above the last', () => {
    const area = flowArea(head());
    head().lift.forEach((lift, i) => {
      expect(area(lift)).toBeCloseTo(head().area[i], 15);
    });
    expect(toCfm(area(0.05 * IN))).toBeCloseTo(35, 9);
    expect(area(0)).toBe(0);
    expect(area(-1)).toBe(0);
    expect(area(0.7 * IN)).toBe(area(0.5 * IN));
  });

  it('rises between rising points, and dips no deeper than a dip of the sheet', () => {
    const area = flowArea(head());
    for (let i = 1; i <= 600; i++) {
      expect(area((i / 1000) * IN)).toBeGreaterThanOrEqual(area(((i - 1) / 1000) * IN) - 1e-15);
    }
    const turbulent = flowArea(sheet([0.2, 0.4, 0.5, 0.6], [140, 230, 222, 240]));
    for (let lift = 0.4; lift <= 0.6; lift += 0.001) {
      expect(toCfm(turbulent(lift * IN))).toBeGreaterThan(222 - 1e-9);
    }
  });

  it('names the entry out of order', () => {
    expect(() => flowArea({ lift: [0.1, 0.1], area: [1, 2] })).toThrow(
      'lift[1] must be above 0.1 m, got 0.1',
    );
    expect(() => flowArea({ lift: [0.1], area: [Number.NaN] })).toThrow(
      'area[0] must be positive m2, got NaN',
    );
    expect(() => flowArea({ lift: [], area: [] })).toThrow('lift must be at least one point, got 0');
  });
});

describe('flow without a sheet', () => {
  it('gives a fully ported 2.02 in valve the flows of typical ported sheets', () => {
    // Common practice, no source: 66, 132, 193, 245, 278, 297, 306 cfm at lift over diameter 0.05 to 0.35.
    const flow = defaultIntakeFlow(2.02 * IN, 1, usualSections('fully-ported')).area.map(toCfm);
    [66, 132, 193, 245, 278, 297, 306].forEach((cfm, i) => {
      expect(Math.abs(flow[i] - cfm)).toBeLessThan(0.8);
    });
  });

  it('orders the states of ports and counts valves', () => {
    const best = (valves: number, state: PortState) =>
      toCfm(defaultIntakeFlow(1.4 * IN, valves, usualSections(state)).area[6]);
    // What the trade expects of them: 0.8, 0.9 and 1.
    expect(Math.abs(best(1, 'as-cast') / best(1, 'fully-ported') - 0.8)).toBeLessThan(0.01);
    expect(Math.abs(best(1, 'bowls-blended') / best(1, 'fully-ported') - 0.9)).toBeLessThan(0.01);
    expect(best(2, 'fully-ported') / best(1, 'fully-ported')).toBeCloseTo(2.1, 12);
    expect(() => defaultIntakeFlow(0.05, 1.5, GOOD_PORT)).toThrow('valves must be a whole number');
  });

  it('adds the losses of throat and smallest area, each with the square of its area', () => {
    expect(portFactor(GOOD_PORT)).toBe(1);
    // 1 / sqrt(0.85 x 1.125^4 + 0.15 x 1.125^2) = 1 / sqrt(1.361533 + 0.189844).
    expect(portFactor({ throat: 0.8, smallest: 0.576 })).toBeCloseTo(0.80286, 5);
    expect(portFactor({ throat: 0.98, smallest: 0.95 })).toBe(BEST_PORT);
    expect(() => portFactor({ throat: Number.NaN, smallest: 0.6 })).toThrow('throat');
    expect(() => portFactor({ throat: 0.9, smallest: 0 })).toThrow('smallest');
  });

  it('gives an as-cast 1.94 in valve the flows of a production iron head, within 5 %', () => {
    // From memory, +-8 cfm: 65, 122, 168, 195, 203 cfm at 0.100 to 0.500 in.
    const flow = flowArea(defaultIntakeFlow(1.94 * IN, 1, usualSections('as-cast')));
    [65, 122, 168, 195, 203].forEach((cfm, i) => {
      expect(Math.abs(toCfm(flow((i + 1) * 0.1 * IN)) / cfm - 1)).toBeLessThan(0.05);
    });
  });

  it('gives the exhaust 0.75 of the intake at equal lift over diameter, 0.85 with four valves', () => {
    const points = head();
    const two = exhaustFromIntake(points, 2.02 * IN, 1.6 * IN, 1);
    expect(two.area[2] / points.area[2]).toBeCloseTo(0.75, 12);
    expect(two.lift[2] / (1.6 * IN)).toBeCloseTo(points.lift[2] / (2.02 * IN), 12);
    expect(exhaustFromIntake(points, 0.04, 0.03, 2).area[0] / points.area[0]).toBeCloseTo(0.85, 12);
  });

  it('adds 5 % for a pipe stub above 0.15 diameters and little below', () => {
    const bare = sheet([0.08, 0.24, 0.4], [50, 130, 165]);
    const gains = withPipeStub(bare, 1.6 * IN).area.map((area, i) => area / bare.area[i] - 1);
    expect(gains[1]).toBeCloseTo(0.05, 9);
    expect(gains[2]).toBeCloseTo(0.05, 9);
    expect(gains[0]).toBeGreaterThan(0);
    expect(gains[0]).toBeLessThan(0.02);
  });
});

describe('flowDoubts(points, valveDiameter, valves, minimumArea)', () => {
  it('finds nothing wrong with a believable sheet', () => {
    expect(flowDoubts(head(), 1.94 * IN, 1, 1.9 * IN ** 2)).toEqual([]);
  });

  it.each([
    ['above-minimum-area', sheet([0.2, 0.5], [139, 310]), 2.1],
    ['curtain-coefficient', sheet([0.1, 0.5], [90, 239]), null],
    ['flow-falls', sheet([0.4, 0.5], [227, 220]), null],
    ['low-for-depression', sheet([0.2, 0.5], [83, 143]), null],
  ] as const)('reports %s', (code, points, area) => {
    const doubts = flowDoubts(points, 1.94 * IN, 1, area === null ? null : area * IN ** 2);
    expect(doubts.map((doubt) => doubt.code)).toEqual([code]);
  });

  it('takes a fall of up to 1 % for scatter of the bench', () => {
    const of = (cfm: number) => flowDoubts(sheet([0.4, 0.5], [227, cfm]), 1.94 * IN, 1, null).length;
    expect([of(227), of(225), of(224)]).toEqual([0, 0, 1]);
  });

  it('takes 147 cfm per in2 as the ceiling', () => {
    const of = (cfm: number) => flowDoubts(sheet([0.2, 0.6], [150, cfm]), 2.2 * IN, 1, 2 * IN ** 2).length;
    expect(of(2 * 147 - 1)).toBe(0);
    expect(of(2 * 147 + 2)).toBe(1);
  });
});
