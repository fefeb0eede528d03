/** Figures that the page on knock repeats from the validation report, which is held to the program, are those of the report. */
import { describe, expect, it } from 'vitest';
import { readGuide } from './guides.ts';

/** What the program gives in the rows of the report that begin so. */
function given(what: string): number[] {
  const rows = readGuide('docs/validation.md')
    .split('\n')
    .filter((line) => line.startsWith(`| ${what}`));
  return rows.map((line) => Number(line.split('|')[3].trim().split(' ')[0]));
}

/** Cells of a row of the page on knock, without its name. */
function cells(name: string): string[] {
  const row = readGuide('docs/theory/knock.md')
    .split('\n')
    .find((line) => line.startsWith(`| ${name} `));
  return (row ?? '')
    .split('|')
    .slice(2, -1)
    .map((cell) => cell.trim());
}

/** A digit of the figures said, and half of one of those given. */
const CLOSE = 0.16;

const near = (said: readonly number[], real: readonly number[]): boolean =>
  said.length === real.length && said.every((figure, i) => Math.abs(figure - real[i]) < CLOSE);

describe('the page on knock', () => {
  it.each([
    ['a point of compression, 10 to 11:1', 'octane for a point of compression, 10 to 11'],
    ['a spark a degree later', 'octane that a spark a degree later spares'],
    ['10 K of inlet air at one spark', 'octane for 10 K more of inlet air at one spark'],
    ['10 K in the manifold', 'octane for 10 K more in the manifold'],
    ['coolant 10 K warmer at one spark', 'octane for coolant 10 K warmer at one spark'],
    ['lambda 0.9 in place of 0.8', 'octane for lambda 0.9 in place of 0.8'],
  ])('says what the examples ask for: %s', (name, what) => {
    const said = [...(cells(name)[0] ?? '').matchAll(/\d\.\d/g)].map(([figure]) => Number(figure));
    const real = given(what);
    expect(near(said, [Math.min(...real), Math.max(...real)]), `${said} is said, ${real} given`).toBe(true);
  });

  it.each(['research', 'motor'])('says how far the standard engine is off by the %s method', (method) => {
    const said = cells(method).map(Number);
    const real = [80, 85, 90, 95, 98, 100].map(
      (fuel) => given(`${method} method, reference fuel of ${fuel} |`)[0] - fuel,
    );
    expect(near(said, real), `${said} is said, ${real} given`).toBe(true);
  });

  it('says what an old eight asks for with the deposits of cars', () => {
    const words = /the eight asks for (\d+), (\d+), (\d+), (\d+), (\d+) and (\d+),/.exec(
      readGuide('docs/theory/knock.md'),
    );
    const real = [7, 8, 9, 10, 11, 12].map((ratio) => given(`research octane at ${ratio}:1, cars`)[0]);
    expect((words ?? []).slice(1).map(Number)).toEqual(real);
  });
});
