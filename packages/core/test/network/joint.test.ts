/** Ducts end to end: nothing is lost where nothing stands between them, and the stated loss where something does. */
import { describe, expect, it } from 'vitest';
import { fillDuct } from '../../src/network/duct.ts';
import { accountOf, createNetwork } from '../../src/network/network.ts';
import { SIDE } from '../../src/network/side.ts';
import { idealGas } from './idealGas.ts';
import { ductSpec, marchTime } from './networks.ts';
import { sendPulse } from './pulseBench.ts';

const GAS = idealGas({ R: 287, freshGamma: 1.4, burnedGamma: 1.3, heat: 2.5e6 });
const AREA = 1.5e-3;

describe('a joint of two ducts', () => {
  it('without loss passes a pulse whole and sends nothing back', () => {
    const bench = {
      tables: GAS,
      length: 2,
      cell: 0.02,
      width: 0.5,
      time: 7e-3,
      areas: [AREA, AREA],
    } as const;
    const { before, behind } = sendPulse({ ...bench, middle: { joints: [{ left: 0, right: 1, loss: 0 }] } });
    expect(Math.max(...behind) / Math.max(...before)).toBeGreaterThan(0.97);
    expect(Math.min(...before) / Math.max(...before)).toBeGreaterThan(-0.01);
  });

  it.each([
    [0.4, 1, 1.5e3],
    [2.5, 1, 4e3],
    [2.5, -1, 4e3],
  ])('takes %f dynamic pressures from a steady stream, within 0.5 %% (way %i)', (loss, way, drop) => {
    const high = { p: 1e5, T: 300, b: 0, supplies: true };
    const low = { p: 1e5 - drop, T: 300, b: 0 };
    const network = createNetwork({
      tables: GAS,
      reservoirs: way > 0 ? [high, low] : [low, high],
      ducts: [ductSpec(0.2, [AREA, AREA], 6), ductSpec(0.3, [AREA, AREA], 9)],
      ends: [
        { duct: 0, at: 'left', to: { kind: 'reservoir', index: 0 }, opening: { area: AREA } },
        { duct: 1, at: 'right', to: { kind: 'reservoir', index: 1 }, opening: { area: AREA } },
      ],
      joints: [{ left: 0, right: 1, loss }],
    });
    const y = new Float64Array(network.size);
    for (const duct of network.ducts) fillDuct(duct, y, 1e5, 300, 0);
    marchTime(network, y, 0.25, 0.5);
    const start = y.slice();
    marchTime(network, y, 0.01, 0.5);
    const [{ before: left, behind: right }] = network.joints;
    const total = (face: Float64Array): number => face[SIDE.p] + 0.5 * face[SIDE.rho] * face[SIDE.w] ** 2;
    const lost = way * (total(left) - total(right));
    const upstream = way > 0 ? left : right;
    const dynamic = 0.5 * upstream[SIDE.rho] * upstream[SIDE.w] ** 2;
    expect(Math.abs(lost / dynamic / loss - 1)).toBeLessThan(0.005);
    // From still gas to still gas a jet is lost too: the drop is 1 + loss dynamic pressures of incompressible flow, 1 % apart at these speeds.
    expect(Math.abs(drop / dynamic / (1 + loss) - 1)).toBeLessThan(0.02);
    const { massIn, massOut, energyIn, energyOut } = accountOf(network, start, y);
    expect(massOut / massIn).toBeCloseTo(1, 4);
    expect(energyOut / energyIn).toBeCloseTo(1, 4);
  });
});
