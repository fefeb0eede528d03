import { describe, expect, it } from 'vitest';
import { flowArea } from '../../src/geometry/flowArea.ts';
import { readCombination } from '../../src/reading/readCombination.ts';

const IN = 0.0254;

/** An engine without a flow sheet. */
function engine(heads: string, intake: string, valve = '2 in') {
  const read = readCombination(`
engine: { bore: 4 in, stroke: 3.5 in, cylinders: 8 }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2, ${heads} intake: { valve: ${valve}${intake} } }
`);
  if (!read.ok) throw new Error(read.problems.map(({ path, message }) => `${path} ${message}`).join('\n'));
  return read.value;
}

const assumed = (heads: string, intake: string): readonly string[] =>
  engine(heads, intake).assumed.map(({ path }) => path);
const highFlow = (heads: string, intake: string): number =>
  Math.max(...engine(heads, intake).intake.flow.area);

describe('the flow of an engine without a sheet', () => {
  it('rests on throat and smallest area where both were measured, and asks for no word', () => {
    const measured = ', throat: 1.8 in, minimumArea: 2.036 in2';
    expect(assumed('', measured)).not.toContain('heads.ports');
    expect(highFlow('', measured) / highFlow('ports: fully-ported,', '')).toBeCloseTo(1, 3);
    // A word beside them changes nothing.
    expect(engine('ports: as-cast,', measured).intake).toEqual(engine('', measured).intake);
  });

  it('gains with a wider throat and with a larger smallest area', () => {
    const at = (throat: number, area: number) =>
      highFlow('', `, throat: ${throat} in, minimumArea: ${area} in2`);
    expect(at(1.75, 2)).toBeGreaterThan(at(1.7, 2));
    expect(at(1.7, 2.1)).toBeGreaterThan(at(1.7, 2));
  });

  it('asks for the word where one of them is missing, as cast where nothing is said', () => {
    expect(assumed('', ', throat: 1.8 in')).toContain('heads.ports');
    expect(assumed('', ', throat: 1.8 in')).toContain('heads.intake.minimumArea');
    expect(assumed('ports: bowls-blended,', '')).not.toContain('heads.ports');
    expect(highFlow('', '')).toBe(highFlow('ports: as-cast,', ''));
  });

  it('takes the smallest area from a measured mean section or volume where that is all there is', () => {
    const byArea = engine('', ', throat: 1.8 in, portArea: 2.3 in2');
    const byVolume = engine('', ', throat: 1.8 in, portLength: 5 in, portVolume: 11.5 in3');
    expect(byArea.assumed.map(({ path }) => path)).toContain('heads.intake.areaRatio');
    expect(byVolume.intake.flow.area[6] / byArea.intake.flow.area[6]).toBeCloseTo(1, 9);
  });

  it('goes with the rated speed of an engine as it was made, where that is stated', () => {
    const throatAt = (speed: string, rest = ''): number => {
      const read = readCombination(`
engine: { bore: 4 in, stroke: 3.6 in, cylinders: 8${speed} }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2, intake: { valve: 2 in } }
${rest}`);
      if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
      return Number(read.value.assumed.find(({ path }) => path === 'heads.intake.throat')?.value);
    };
    // 12.192 m/s at 4000 rpm, where 14.4 is usual.
    expect(throatAt(', ratedSpeed: 4000 rpm') / (2 * 0.8 * Math.sqrt(12.192 / 14.4))).toBeCloseTo(1, 2);
    expect(throatAt('')).toBeCloseTo(1.6, 3);
    expect(throatAt(', ratedSpeed: 4000 rpm', 'cam: { intake: { at050: 224 deg } }')).toBeCloseTo(1.6, 3);
  });

  it('of a larger valve over the same throat and port is the same at full lift: the port governs', () => {
    const port = ', throat: 1.7 in, minimumArea: 1.9 in2';
    const top = (valve: string) => Math.max(...engine('', port, valve).intake.flow.area);
    expect(top('2.1 in') / top('2 in')).toBeCloseTo(1, 9);
    const low = (valve: string) => flowArea(engine('', port, valve).intake.flow)(0.1 * IN);
    expect(low('2.1 in')).toBeGreaterThan(low('2 in'));
  });
});
