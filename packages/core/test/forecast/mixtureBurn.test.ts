import { expect, it } from 'vitest';
import { forecast } from '../../src/forecast/forecast.ts';
import { createSimulation } from '../../src/forecast/simulation.ts';
import { readExample } from '../reading/files.ts';

/** The burn of the scrambler's single at a mixture, with half of it burned 9 deg after top centre. */
function burnAt(lambda: number): { readonly duration: number; readonly efficiency: number } {
  const engine = readExample('scrambler');
  const burn = { ...engine.burn, timing: { mode: 'ca50', angle: 9 } as const };
  const [point] = forecast(
    { ...engine, lambda, burn },
    {
      rpm: [4000],
      mesh: { intakeCell: 0, exhaustCell: 0 },
      onlyCompared: true,
    },
  ).points;
  if (point.status === 'lost') throw new Error('lost');
  return { duration: point.burnDurationDeg, efficiency: point.imepBar / point.fuelKgPerH };
}

// Gasoline burns fastest about a tenth to a fifth rich (Metghalchi and Keck, Combustion and Flame 48 (1982) 191, from memory), and
// what fuel a rich mixture has no air for does no work.
it('a mixture a sixth rich burns faster than one as much lean, and gets less out of its fuel', () => {
  const [rich, lean] = [burnAt(1 / 1.17), burnAt(1.17)];
  expect(rich.duration).toBeLessThan(0.9 * lean.duration);
  expect(rich.efficiency).toBeLessThan(0.9 * lean.efficiency);
});

it.each([
  // A scatter of 0.07 leaves 0.399 of it unburned where there is just enough air: 0.97 of 0.97207. Far from there it leaves nothing.
  [1, 0.94291],
  [0.7, 0.97],
  [1.4, 0.97],
])('a burn at lambda %f releases %f of the heat, of 97 %% stated', (lambda, share) => {
  const engine = readExample('scrambler');
  const { march } = createSimulation(
    { ...engine, lambda, burn: { ...engine.burn, efficiency: 0.97 } },
    { fidelity: 'representative', mesh: { intakeCell: 0, exhaustCell: 0 } },
  ).startSpeed(4000);
  expect(march.network.cylinders[0].burn.efficiency).toBeCloseTo(share, 5);
});
