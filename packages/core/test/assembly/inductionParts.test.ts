/** Parts of the induction as the network has them, and steady flow through each against closed forms. */
import { describe, expect, it } from 'vitest';
import { assembleNetwork, type EngineNetwork } from '../../src/assembly/assemble.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import { FIRST_ANGLES, FIRST_TIMING, planBurn } from '../../src/cycle/burnPlan.ts';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { INTAKE_FLOW, pipeFanning, ROUGHNESS } from '../../src/geometry/pipeFriction.ts';
import { type DuctSpec, fillDuct } from '../../src/network/duct.ts';
import { createNetwork, type Network, rates } from '../../src/network/network.ts';
import { SIDE } from '../../src/network/side.ts';
import { fillVolume } from '../../src/network/volume.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { idealGas } from '../network/idealGas.ts';
import { ductSpec, marchTime } from '../network/networks.ts';

const MESH = { intakeCell: 0.04, exhaustCell: 0.1, fewest: 4 };

function engineOf(induction: string, cylinders = 8): Combination {
  const text = [
    `engine: { bore: 4 in, stroke: 3.5 in, cylinders: ${cylinders} }`,
    'chamber: { compression: 10 }',
    'heads: { valvesPerCylinder: 2 }',
    `induction: ${induction}`,
    '',
  ].join('\n');
  const read = readCombination(text, { file: 'e.yaml' });
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

function networkOf(engine: Combination, fidelity: 'representative' | 'all' = 'all'): EngineNetwork {
  const { fuel, lambda, weather } = engine;
  const { pressure, vapourPressure } = weather;
  const tables = buildGasTables({ fuel, lambda, vapourPressure, pressure });
  return assembleNetwork(engine, tables, fidelity, planBurn(FIRST_ANGLES, FIRST_TIMING, 0.97), MESH);
}

/** The engine with barrels whose gas has no weight, so that a flow through them follows at once. */
function weightless(engine: Combination): Combination {
  const { barrels: _, ...induction } = engine.induction;
  return { ...engine, induction };
}

/** Mass that comes into each plenum [kg/s] when the plenums stand at these pressures and nothing moves in the runners. */
function intoPlenums(
  engine: EngineNetwork,
  pressures: readonly number[],
): { network: Network; flows: number[] } {
  const network = createNetwork(engine.spec);
  const y = new Float64Array(network.size);
  const air = network.reservoirs[0].side;
  network.volumes.forEach((v, i) => {
    fillVolume(v, y, pressures[engine.plenums.indexOf(i)] ?? air[SIDE.p], 290, 0);
  });
  const runnersOf = new Map(engine.spec.ends.map((end) => [end.duct, end.to]));
  network.ducts.forEach((duct, i) => {
    const to =
      engine.spec.ends.find((end) => end.duct === i && end.to.kind === 'volume')?.to ?? runnersOf.get(i);
    const plenum = to?.kind === 'volume' ? engine.plenums.indexOf(to.index) : -1;
    fillDuct(duct, y, plenum >= 0 ? pressures[plenum] : air[SIDE.p], 290, 0);
  });
  for (const { offset } of network.cylinders) y.set([1e-3, 200, 0], offset);
  const d = new Float64Array(network.size);
  rates(network, 0, y, d);
  return { network, flows: engine.plenums.map((i) => d[network.volumes[i].offset]) };
}

const flux = (ratio: number): number => Math.sqrt(7 * ratio ** (2 / 1.4) * (1 - ratio ** (0.4 / 1.4)));
const CHOKED = flux((2 / 2.4) ** 3.5);

const SINGLE = 'manifold: single-plane, plenum: 2 l';

describe('a carburetor far below its rating', () => {
  const engine = weightless(
    engineOf(`{ carburetor: { rating: 400 cfm, barrels: 4, ratedAt: 1.5 inHg }, ${SINGLE} }`),
  );
  const { pressure, temperature } = engine.weather;
  const own = networkOf(engine);
  const air = createNetwork(own.spec).reservoirs[0].side;
  const gain = own.spec.orifices[0].metering?.gain ?? Number.NaN;
  const flowAt = (drop: number): number => intoPlenums(own, [pressure - drop]).flows[0] / gain;
  const nozzle = (drop: number): number =>
    (engine.induction.meteringArea * pressure * flux(1 - drop / pressure)) /
    Math.sqrt(air[SIDE.R] * temperature);

  it('passes its rating at the drop of the rating, within 0.1 %', () => {
    const rated = (1.5 * 3386.389 * pressure) / 101_325;
    expect(Math.abs(flowAt(rated) / nozzle(rated) - 1)).toBeLessThan(1e-3);
  });

  it('falls behind a nozzle of the rating, and stands at the sonic flow of its venturis', () => {
    const { meteringArea, venturi } = engine.induction;
    const sonic =
      ((venturi?.overMetering ?? 0) * meteringArea * pressure * CHOKED) /
      Math.sqrt(air[SIDE.R] * temperature);
    expect(flowAt(0.42 * pressure) / sonic).toBeCloseTo(1, 3);
    expect(flowAt(0.47 * pressure) / sonic).toBeCloseTo(1, 3);
    const behind = [0.1, 0.2, 0.3].map((share) => flowAt(share * pressure) / nozzle(share * pressure));
    expect(behind[0]).toBeGreaterThan(0.985);
    expect(behind[1]).toBeLessThan(behind[0]);
    expect(behind[2]).toBeLessThan(behind[1]);
    expect(behind[2]).toBeGreaterThan(0.9);
  });
});

describe('a restrictor', () => {
  it('in front of a throttle passes no more than a sonic throat, 0.484 C A p0 / sqrt(R T0 / 2)', () => {
    const engine = engineOf(
      `{ throttle: { diameter: 60 mm }, restrictor: { kind: sonic, bore: 20 mm, discharge: 0.97, recovery: 80 % }, ${SINGLE} }`,
    );
    const { pressure, temperature } = engine.weather;
    const own = networkOf(engine);
    const [{ metering }] = own.spec.orifices;
    const { network, flows } = intoPlenums(own, [0.85 * pressure]);
    const R = network.reservoirs[0].side[SIDE.R];
    const closed = (0.97 * (Math.PI / 4) * 0.02 ** 2 * pressure * 0.684731) / Math.sqrt(R * temperature);
    expect(Math.abs(flows[0] / (metering?.gain ?? 0) / closed - 1)).toBeLessThan(1e-5);
  });

  it('under a carburetor is one connection with it, shared by two plenums', () => {
    const { spec } = networkOf(
      weightless(engineOf('{ manifold: dual-plane, restrictor: { bore: 1 in, discharge: 0.7 } }')),
    );
    expect(spec.orifices).toHaveLength(2);
    for (const { throats } of spec.orifices) {
      expect(throats).toHaveLength(2);
      expect(throats?.[1]).toEqual({
        area: expect.closeTo(0.7 * 2 * (Math.PI / 4) * 0.0254 ** 2, 12),
        lost: 1,
      });
    }
  });

  it('at the inlet of an airbox comes before its pipe, or its hole', () => {
    const boxed = (inlet: string) =>
      networkOf(
        engineOf(
          `{ manifold: individual-throttles, restrictor: { kind: sonic, bore: 26 mm }, airbox: { volume: 9 l, inlet: { ${inlet} } } }`,
          4,
        ),
      ).spec;
    const piped = boxed('inside: 80 mm, length: 300 mm');
    expect(piped.feeds).toHaveLength(1);
    expect(piped.orifices).toHaveLength(0);
    expect(boxed('inside: 80 mm').orifices[0].throats?.map(({ lost }) => lost)).toEqual([
      expect.closeTo(0.2, 9),
      1,
    ]);
  });
});

describe('an opening between two planes', () => {
  it('passes what its area does, and what comes to one leaves the other', () => {
    const engine = engineOf(
      '{ throttle: { diameter: 1 in }, manifold: dual-plane, divider: { opening: 2 in2, discharge: 0.65 } }',
    );
    // A bank stands for both: its cylinders draw from both planes.
    const cheap = networkOf(engine, 'representative');
    expect([cheap.spec.cylinders.length, cheap.plenums.length]).toEqual([4, 2]);
    const own = networkOf(engine);
    const p = engine.weather.pressure;
    const { network, flows } = intoPlenums(own, [0.9 * p, 0.85 * p]);
    const closedFrom = (gain: number, ratio: number, up: number, area: number, RT: number): number =>
      (gain * area * up * flux(ratio)) / Math.sqrt(RT);
    const { side } = network.volumes[own.plenums[0]];
    const through =
      (0.65 * 2 * 0.0254 ** 2 * 0.9 * p * Math.sqrt((2 * side[SIDE.gamma]) / (side[SIDE.gamma] - 1))) /
      Math.sqrt(side[SIDE.R] * side[SIDE.T]);
    const ratio = 0.85 / 0.9;
    const y = ratio ** (1 / side[SIDE.gamma]);
    const opening = through * Math.sqrt(y * (y - ratio));
    const air = network.reservoirs[0].side;
    const gain = own.spec.orifices[0].metering?.gain ?? 0;
    const half = engine.induction.meteringArea / 2;
    const RT = air[SIDE.R] * air[SIDE.T];
    expect(Math.abs((closedFrom(gain, 0.9, p, half, RT) - flows[0]) / opening - 1)).toBeLessThan(5e-3);
    expect(Math.abs((flows[1] - closedFrom(gain, 0.85, p, half, RT)) / opening - 1)).toBeLessThan(5e-3);
  });
});

describe('a spacer with holes', () => {
  it('is one pipe to each plenum, of all its holes, and rubs as several', () => {
    const { spec } = networkOf(
      weightless(
        engineOf(
          `{ carburetor: { rating: 650 cfm, barrels: 4 }, ${SINGLE}, spacer: { kind: four-hole, height: 1 in, bore: 1.7 in } }`,
        ),
      ),
    );
    expect(spec.orifices).toHaveLength(0);
    expect(spec.feeds).toHaveLength(1);
    const pipe = spec.ducts.filter(({ name }) => name === 'inlet duct');
    expect(pipe).toHaveLength(1);
    expect(pipe[0].profile).toEqual([
      { x: 0, area: expect.closeTo(4 * (Math.PI / 4) * (1.7 * 0.0254) ** 2, 12) },
      { x: 0.0254, area: expect.closeTo(4 * (Math.PI / 4) * (1.7 * 0.0254) ** 2, 12) },
    ]);
    // Each hole has the friction of its own diameter, and four of them twice the wall of one of their area.
    const hole = (Math.PI / 4) * (1.7 * 0.0254) ** 2;
    expect(pipe[0].fanning).toBeCloseTo(2 * pipeFanning(ROUGHNESS.cast, hole, INTAKE_FLOW), 9);
  });
});

describe('the barrels of a carburetor', () => {
  const UNDER = `carburetor: { rating: 650 cfm, barrels: 4, height: 4 in }, manifold: dual-plane, plenum: 2 l`;
  const pipesOf = (engine: Combination) =>
    networkOf(engine).spec.ducts.filter(({ name }) => name === 'inlet duct');
  const weight = ({ profile }: { profile: readonly { x: number; area: number }[] }): number =>
    profile[profile.length - 1].x / profile[0].area;

  it('are one pipe to each plane, half of them each, that neither rubs nor is warm', () => {
    const engine = engineOf(`{ ${UNDER} }`);
    const pipes = pipesOf(engine);
    expect(pipes).toHaveLength(2);
    for (const pipe of pipes) {
      const { length = 0, area = 0 } = engine.induction.barrels ?? {};
      expect(pipe.profile[0].area / area).toBeCloseTo(0.5, 9);
      expect(pipe.profile[1].x).toBe(length);
      expect(pipe.fanning).toBeLessThan(0.03 * 0.0065);
      expect(pipe.heatMultiplier).toBe(0);
    }
  });

  it('weigh on what comes through holes beneath them as well, and only the holes rub', () => {
    const spaced = engineOf(`{ ${UNDER}, spacer: { kind: four-hole, height: 1 in, bore: 1.7 in } }`);
    const [both] = pipesOf(spaced);
    const [holes] = pipesOf(weightless(spaced));
    const [alone] = pipesOf(engineOf(`{ ${UNDER} }`));
    expect(weight(both) / (weight(holes) + weight(alone))).toBeCloseTo(1, 9);
    const rubbing = ({ fanning, profile }: DuctSpec): number => fanning * profile[profile.length - 1].x;
    expect(rubbing(both) / rubbing(holes)).toBeCloseTo(1, 9);
  });

  it('swing above a plenum with the note of a resonator, k L tan(k L) = A L / V, within 1 %', () => {
    const GAS = idealGas({ R: 287, freshGamma: 1.4, burnedGamma: 1.3, heat: 2.5e6 });
    const [length, area, volume] = [0.15, 3e-3, 2.4e-3];
    const network = createNetwork({
      tables: GAS,
      reservoirs: [
        { p: 1e5, T: 300, b: 0, R: 287, gamma: 1.4, supplies: true },
        { p: 1e5, T: 300, b: 0 },
      ],
      volumes: [{ name: 'plenum', size: volume }],
      ducts: [ductSpec(length, [area, area], 6)],
      feeds: [
        {
          from: { kind: 'reservoir', index: 0 },
          becomes: { kind: 'reservoir', index: 1 },
          throats: [{ area, lost: 1 }],
          duct: 0,
          gain: 1,
        },
      ],
      ends: [{ duct: 0, at: 'right', to: { kind: 'volume', index: 0 }, opening: { area } }],
    });
    const y = new Float64Array(network.size);
    fillVolume(network.volumes[0], y, 1e5 + 50, 300, 0);
    fillDuct(network.ducts[0], y, 1e5, 300, 0);
    // A L / V of 3/16 asks for k L of 0.4203.
    const note = (0.4203 * Math.sqrt(1.4 * 287 * 300)) / (2 * Math.PI * length);
    // From the first time that the volume is back at the pressure outside to the third is a whole swing.
    const crossings: number[] = [];
    const step = 0.002 / note;
    let before = 50;
    for (let i = 1; crossings.length < 3 && i < 1500; i++) {
      marchTime(network, y, step, 1);
      const over = network.volumes[0].side[SIDE.p] - 1e5;
      if (over * before < 0) crossings.push((i - over / (over - before)) * step);
      before = over;
    }
    expect(note * (crossings[2] - crossings[0])).toBeGreaterThan(0.99);
    expect(note * (crossings[2] - crossings[0])).toBeLessThan(1.01);
  });
});

describe('balance tubes', () => {
  it('join the runners two and two, so far from the valve as is said', () => {
    const engine = engineOf(
      '{ manifold: individual-throttles, runner: { length: 240 mm, throttleAt: 100 mm }, balance: { inside: 8 mm, at: 50 mm, length: 100 mm } }',
      4,
    );
    const { spec } = networkOf(engine, 'representative');
    expect(spec.cells).toHaveLength(6);
    const [{ duct, at }] = spec.cells;
    const { profile } = spec.ducts[duct];
    expect(profile[profile.length - 1].x - at).toBeCloseTo(engine.intake.portLength + 0.05, 9);
    // A mouth with a sharp edge passes 0.8 of the tube.
    const mouths = spec.ends.filter(({ to }) => to.kind === 'cell');
    expect(mouths).toHaveLength(6);
    const open = 0.8 * (Math.PI / 4) * 0.008 ** 2;
    for (const { opening } of mouths) expect(opening).toEqual({ area: expect.closeTo(open, 12) });
  });

  it('pass what two edges and a jet let through, within 0.5 %', () => {
    const GAS = idealGas({ R: 287, freshGamma: 1.4, burnedGamma: 1.3, heat: 2.5e6 });
    const [runner, tube, drop] = [2e-3, 5e-5, 800];
    const network = createNetwork({
      tables: GAS,
      reservoirs: [
        { p: 1e5 + drop, T: 300, b: 0, supplies: true },
        { p: 1e5, T: 300, b: 0 },
      ],
      ducts: [
        ductSpec(0.2, [runner, runner], 4),
        ductSpec(0.2, [runner, runner], 4),
        ductSpec(0.1, [tube, tube], 4),
      ],
      cells: [
        { duct: 0, at: 0.12 },
        { duct: 1, at: 0.12 },
      ],
      ends: [
        { duct: 0, at: 'left', to: { kind: 'reservoir', index: 0 }, opening: { area: runner } },
        { duct: 0, at: 'right', to: { kind: 'reservoir', index: 0 }, opening: { area: 0 } },
        { duct: 1, at: 'left', to: { kind: 'reservoir', index: 1 }, opening: { area: runner } },
        { duct: 1, at: 'right', to: { kind: 'reservoir', index: 1 }, opening: { area: 0 } },
        { duct: 2, at: 'left', to: { kind: 'cell', index: 0 }, opening: { area: 0.8 * tube } },
        { duct: 2, at: 'right', to: { kind: 'cell', index: 1 }, opening: { area: 0.8 * tube } },
      ],
    });
    const y = new Float64Array(network.size);
    for (const duct of network.ducts) fillDuct(duct, y, 1e5, 300, 0);
    marchTime(network, y, 0.06, 0.5);
    const { rho, u } = network.ducts[2];
    // The speed at both edges, 1 / 0.8 of that in the tube, is lost; the tube's own is there between them.
    const expected = Math.sqrt((2 * drop) / (rho[2] * (2 / 0.8 ** 2 - 1)));
    expect(Math.abs(u[2] / expected - 1)).toBeLessThan(5e-3);
  });
});
