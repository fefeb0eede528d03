/** Nozzle flow, and vessels emptied and filled through it: closed forms of ideal gases. */
import { criticalPressureRatio, isentropicFluxFunction } from '../../../packages/core/src/gas/isentropic.ts';
import { orificeFlow } from '../../../packages/core/src/network/orifice.ts';
import { stillGas } from '../../../packages/core/src/network/side.ts';
import { idealGas } from '../../../packages/core/test/network/idealGas.ts';
import { AIR_R, blowDown, fill } from '../../../packages/core/test/network/vessels.ts';
import { once, type PublishedSource, printed } from '../publishedCase.ts';

const air = once(() => idealGas({ R: AIR_R, freshGamma: 1.4, burnedGamma: 1.4, heat: 0 }));

/** Flow function of the network's own orifice at a pressure ratio, gamma 1.4 [-]. */
function flowFunction(ratio: number): number {
  const upstream = stillGas(air(), 2e5, 400, 0);
  const m = orificeFlow(upstream, stillGas(air(), ratio * 2e5, 400, 0), 1e-4);
  return (m * Math.sqrt(AIR_R * 400)) / (1e-4 * 2e5);
}

const PSI = [
  [0.99, 0.140662],
  [0.95, 0.307641],
  [0.9, 0.422581],
  [0.8, 0.560661],
  [0.7, 0.638317],
  [0.6, 0.676915],
] as const;

const CHOKED = [
  [1.4, 0.528282, 0.684731, 0.578704],
  [1.35, 0.536851, 0.676145, 0.581933],
  [1.3, 0.545728, 0.667262, 0.585228],
  [1.25, 0.554929, 0.658065, 0.588591],
] as const;

export const nozzleCases: PublishedSource = {
  title: 'Nozzle flow',
  exact: true,
  source:
    'closed form of the isentropic nozzle (Heywood 1988, appendix C, from memory), worked with SciPy 1.17',
  cases: [
    ...PSI.map(([ratio, psi]) => ({
      what: `flow function at a pressure ratio of ${ratio}, gamma 1.4, of the network's orifice`,
      value: psi,
      unit: '',
      decimals: 6,
      within: printed(6),
      compute: () => flowFunction(ratio),
    })),
    ...CHOKED.flatMap(([gamma, critical, choked, overSound]) => [
      {
        what: `critical pressure ratio, gamma ${gamma}`,
        value: critical,
        unit: '',
        decimals: 6,
        within: printed(6),
        compute: () => criticalPressureRatio(gamma),
      },
      {
        what: `choked flow function, gamma ${gamma}`,
        value: choked,
        unit: '',
        decimals: 6,
        within: printed(6),
        compute: () => isentropicFluxFunction(0, gamma),
      },
      {
        what: `choked flow over density and sound speed in front, gamma ${gamma}`,
        value: overSound,
        unit: '',
        decimals: 6,
        within: printed(6),
        compute: () => isentropicFluxFunction(0, gamma) / Math.sqrt(gamma),
      },
    ]),
    {
      what: 'most filling that choked flow lets through: inlet Mach index 1, open 240 deg',
      value: 0.772,
      unit: '',
      decimals: 3,
      within: printed(3),
      compute: () => (isentropicFluxFunction(0, 1.4) / Math.sqrt(1.4)) * (240 / 180),
    },
    {
      what: 'choked flow of air from 101 325 Pa and 293.15 K',
      value: 239.172,
      unit: 'kg/(s m2)',
      decimals: 3,
      within: 0.001,
      compute: () => orificeFlow(stillGas(air(), 101_325, 293.15, 0), stillGas(air(), 3e4, 293.15, 0), 1),
    },
  ],
};

/** V / (A sqrt(gamma R T0) (2 / (gamma + 1))^((gamma + 1) / (2 (gamma - 1)))) of the vessel blown down [s]. */
const TAU = 2.553467e-3;

const BLOWN = [
  [0.25, 0.72683598, 0.92901727, 0.7823708],
  [0.5, 0.53431001, 0.86533261, 0.617462],
  [1, 0.29781876, 0.75614367, 0.39386531],
] as const;

const share = { unit: '', decimals: 6, within: 1e-6 };

export const vesselCases: PublishedSource = {
  title: 'Vessels through an orifice',
  exact: true,
  source:
    'closed forms: choked blow-down with gamma 1.3, P/P0 = (1 + (gamma - 1) t / (2 tau))^(-2 gamma / (gamma - 1)); filling of an adiabatic tank with gamma 1.4',
  note: 'Marched by the same Runge-Kutta steps as an engine.',
  cases: [
    ...BLOWN.flatMap(([time, p, T, m]) => {
      // The form holds while the flow chokes: into a low enough pressure it does to the last.
      const state = once(() => blowDown(time * TAU, time < 1 ? 1.013e5 : 2e4));
      return [
        { what: `pressure after ${time} time constants`, value: p, ...share, compute: () => state().p / 5e5 },
        { what: `temperature after ${time}`, value: T, ...share, compute: () => state().T / 1200 },
        { what: `mass after ${time}`, value: m, ...share, compute: () => state().m },
      ];
    }),
    {
      what: 'pressure of 0.5 l from 5 bar and 1200 K through 5 cm2, after 0.5 ms',
      value: 389_054.3,
      unit: 'Pa',
      decimals: 1,
      within: 1,
      compute: () => blowDown(5e-4).p,
    },
    {
      what: 'its temperature then',
      value: 1132.496,
      unit: 'K',
      decimals: 3,
      within: 0.001,
      compute: () => blowDown(5e-4).T,
    },
    {
      what: 'temperature of an evacuated tank filled from 300 K, while choked',
      value: 420,
      unit: 'K',
      decimals: 2,
      within: 1e-3,
      relative: true,
      compute: () => fill(101_325, 10, 300, 0.1, 2000).T,
    },
    {
      what: 'the same when full',
      value: 420,
      unit: 'K',
      decimals: 2,
      within: 1e-3,
      relative: true,
      compute: () => fill(101_325, 10, 300, 1, 2000).T,
    },
    {
      what: 'choked flow into it through 0.1 cm2',
      value: 2.36425e-3,
      unit: 'kg/s',
      decimals: 8,
      within: 1e-8,
      compute: () => fill(101_325, 1000, 300, 1e-3, 1).mdot,
    },
    {
      what: 'pressure gained while choked, 0.1 cm2 into 1 l',
      value: 285_041.5,
      unit: 'Pa/s',
      decimals: 0,
      within: 5,
      compute: () => (fill(101_325, 1000, 300, 0.1, 500).p - 1000) / 0.1,
    },
    {
      what: 'temperature of a tank that held 0.3 of the pressure, when full',
      value: 375,
      unit: 'K',
      decimals: 3,
      within: 0.005,
      compute: () => fill(1e5, 0.3e5, 300, 2, 4000).T,
    },
  ],
};
