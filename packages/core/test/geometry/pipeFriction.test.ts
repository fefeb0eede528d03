import { expect, it } from 'vitest';
import {
  EXHAUST_FLOW,
  INTAKE_FLOW,
  pipeFanning,
  pipeReynolds,
  ROUGHNESS,
} from '../../src/geometry/pipeFriction.ts';

const disc = (diameter: number): number => (Math.PI / 4) * diameter ** 2;

// Colebrook and White, solved by iteration: 1 / sqrt(f) = -2 log10(roughness / 3.7 + 2.51 / (Re sqrt(f))), a quarter of f is Fanning's.
it.each([
  { roughness: 1e-3, reynolds: 30_000, colebrook: 0.00649 },
  { roughness: 3e-3, reynolds: 150_000, colebrook: 0.00676 },
  { roughness: 1e-3, reynolds: 1e9, colebrook: 0.00491 },
  { roughness: 0, reynolds: 100_000, colebrook: 0.0045 },
])(
  'has the friction of Colebrook and White within 1.5 % at a roughness of $roughness diameters and a Reynolds number of $reynolds',
  ({ roughness, reynolds, colebrook }) => {
    const diameter = 0.05;
    const flow = { speed: reynolds / diameter, viscosity: 1 };
    const ours = pipeFanning(roughness * diameter, disc(diameter), flow);
    expect(Math.abs(ours / colebrook - 1)).toBeLessThan(0.015);
  },
);

it('gives hot gas in a primary of 1-5/8 in a quarter more friction than the roughness of its wall alone would', () => {
  const area = disc(0.0388);
  expect(pipeReynolds(area, EXHAUST_FLOW)).toBeCloseTo(32_333, -1);
  expect(pipeFanning(ROUGHNESS.tube, area, EXHAUST_FLOW)).toBeCloseTo(0.006425, 5);
  const rough = pipeFanning(ROUGHNESS.tube, area, { speed: 1e9, viscosity: 1 });
  expect(pipeFanning(ROUGHNESS.tube, area, EXHAUST_FLOW) / rough).toBeGreaterThan(1.25);
});

it('rubs more in a narrow runner than in a wide one, since castings are as rough whatever their size', () => {
  const of = (diameter: number): number => pipeFanning(ROUGHNESS.cast, disc(diameter), INTAKE_FLOW);
  expect(of(0.045)).toBeCloseTo(0.006601, 5);
  expect(of(0.02)).toBeGreaterThan(1.2 * of(0.045));
});
