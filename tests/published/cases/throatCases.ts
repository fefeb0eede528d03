/** Venturis, restrictors and diffusers: coefficients of standards and textbooks beside the estimates, and how flow falls off. */
import { findPass, PASS, passOf } from '../../../packages/core/src/network/throat.ts';
import {
  restrictorDischarge,
  SONIC_RECOVERY,
  VENTURI_COEFFICIENT,
} from '../../../packages/core/src/reading/defaults/inductionParts.ts';
import { bordaLost, filledBore } from '../../../packages/core/test/network/filledBore.ts';
import type { PublishedSource } from '../publishedCase.ts';

/** ISO 9300:2022, equation 7, for a throat [m] that chokes on air of 101 325 Pa and 293.15 K, viscosity 1.82e-5 Pa s. */
function toroidal(diameter: number): number {
  const flow = 239.172 * (Math.PI / 4) * diameter * diameter;
  return 0.9959 - 2.72 / Math.sqrt((4 * flow) / (Math.PI * diameter * 1.82e-5));
}

/** ISO 5167-4: what comes back at the wall of the pipe, by throat over pipe diameter and the share of the pressure difference that is lost. */
const recovered = (beta: number, lost: number): number => (1 - lost) * (1 - beta ** 4);

const share = { unit: '', decimals: 3 };

export const throatCases: PublishedSource = {
  title: 'Nozzles and diffusers of standards',
  source:
    'ISO 5167-3:2003, Venturi nozzles, C = 0.9858 - 0.196 beta^4.5; ISO 5167-4:2003, loss of classical Venturi tubes in pipes of 65 mm; ISO 9300:2022, equation 7; equations and curve as an open library of flow meters gives them (fluids, flow_meter.py). Worked examples: Mathur and Sharma, Internal Combustion Engine (2010), 11.2, 0.80; Keswani, Internal Combustion Engines, 9.2 and 9.3, 0.93 and 0.84',
  note: 'The estimates for restrictors and venturis, each held to its own spread and, where there is one, the uncertainty of the standard.',
  cases: [
    {
      what: 'discharge of a Venturi nozzle that draws still air, beside a sonic restrictor',
      value: 0.9858,
      ...share,
      within: 0.01,
      compute: () => restrictorDischarge('sonic').value,
    },
    ...[0.02, 0.038].map((diameter) => ({
      what: `discharge of a toroidal throat of ${1000 * diameter} mm at the speed of sound, beside a sonic restrictor`,
      value: toroidal(diameter),
      ...share,
      within: 0.013,
      compute: () => restrictorDischarge('sonic').value,
    })),
    ...(
      [
        [0.4, 0.1579],
        [0.5, 0.1429],
      ] as const
    ).map(([beta, lost]) => ({
      what: `given back by a Venturi tube of ${beta} of the pipe's width, beside a sonic restrictor`,
      value: recovered(beta, lost),
      ...share,
      within: 0.08,
      compute: () => SONIC_RECOVERY,
    })),
    {
      what: "coefficient of a carburetor's venturi, mean of three worked examples",
      value: (0.8 + 0.84 + 0.93) / 3,
      ...share,
      within: 0.05,
      compute: () => VENTURI_COEFFICIENT,
    },
  ],
};

const VENTURI_SHARE = 0.84 / 1.21 ** 2;
const INCH = 3386.389;

/** Flow over area [kg/(s m2)] of the program's throat, at a pressure behind over 101 325 Pa. */
function throatFlow(behind: number): number {
  const pass = passOf([{ area: 1, lost: bordaLost(VENTURI_SHARE) }], 'along');
  pass[PASS.gamma] = 1.4;
  pass[PASS.RT] = 287 * 293.15;
  pass[PASS.up] = 101_325;
  pass[PASS.down] = behind * 101_325;
  findPass(pass);
  return pass[PASS.mass];
}

export const fallOffCases: PublishedSource = {
  title: "Fall-off behind a carburetor's venturi",
  exact: true,
  source:
    'closed form: isentropic to the throat, which is 0.574 of the throttle bore, then momentum, mass and energy kept while the jet fills the bore (Borda and Carnot, with density), then lost in still gas; gamma 1.4',
  note: 'The share of the drop that is lost is that of the same jet without compression, 0.51, so that nothing is fitted. No test of a carburetor far beyond its rating could be read: see the theory page of carburetors.',
  cases: [0.95, 0.9, 0.8, 0.7, 0.6, 0.528282].map((throat) => {
    const { behind, flow } = filledBore(throat, VENTURI_SHARE);
    const inches = ((1 - behind) * 101_325) / INCH;
    return {
      what: `flow per throat area at ${inches.toFixed(2)} inHg, throat at ${throat.toFixed(2)} of the pressure in front`,
      value: (flow * 101_325) / Math.sqrt(287 * 293.15),
      unit: 'kg/(s m2)',
      decimals: 1,
      within: 0.0025,
      relative: true,
      compute: () => throatFlow(behind),
    };
  }),
};
