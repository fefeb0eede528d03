/**
 * Thermodynamic coefficients of the gas species, as data.
 *
 * NASA 7-coefficient polynomials of McBride, Gordon and Reno, NASA TM-4513 (1993), taken from the file
 * `nasa_gas.yaml` of the open chemistry library Cantera (commit 11a2381, BSD licence), argon from its
 * `gri30.yaml` (GRI-Mech 3.0). `source` is the reference code printed with each species there.
 * Standard pressure 1 bar; enthalpies include the enthalpy of formation at 298.15 K.
 */
import type { AtomCounts } from './atoms.ts';
import type { NasaPolynomial } from './nasaPolynomial.ts';

/** One species as printed in the source. */
export interface SpeciesData extends NasaPolynomial {
  readonly name: string;
  readonly description: string;
  /** Reference code of the coefficients in the source. */
  readonly source: string;
  /** Atoms in a molecule. */
  readonly atoms: AtomCounts;
}

/** Every species of the gas model. */
export const SPECIES_DATA: readonly SpeciesData[] = [
  {
    name: 'N2',
    description: 'nitrogen',
    source: 'TPIS78',
    atoms: { C: 0, H: 0, O: 0, N: 2, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [
      3.53100528, -0.000123660987, -5.02999437e-7, 2.43530612e-9, -1.40881235e-12, -1046.97628, 2.96747468,
    ],
    high: [
      2.95257626, 0.00139690057, -4.92631691e-7, 7.86010367e-11, -4.60755321e-15, -923.948645, 5.87189252,
    ],
  },
  {
    name: 'O2',
    description: 'oxygen',
    source: 'TPIS89',
    atoms: { C: 0, H: 0, O: 2, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [3.78245636, -0.00299673415, 9.847302e-6, -9.68129508e-9, 3.24372836e-12, -1063.94356, 3.65767573],
    high: [
      3.66096083, 0.000656365523, -1.41149485e-7, 2.05797658e-11, -1.29913248e-15, -1215.97725, 3.41536184,
    ],
  },
  {
    // a7 of the GRI-Mech line is for 1 atm (4.366); ln 1.01325 brings it to 1 bar like the rest. A constant cp needs
    // no range of its own, so it is given that of the others.

    name: 'Ar',
    description: 'argon',
    source: '120186 (GRI-Mech 3.0)',
    atoms: { C: 0, H: 0, O: 0, N: 0, Ar: 1 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [2.5, 0, 0, 0, 0, -745.375, 4.379163],
    high: [2.5, 0, 0, 0, 0, -745.375, 4.379163],
  },
  {
    name: 'CO2',
    description: 'carbon dioxide',
    source: 'L 7/88',
    atoms: { C: 1, H: 0, O: 2, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [2.35677352, 0.00898459677, -7.12356269e-6, 2.45919022e-9, -1.43699548e-13, -48371.9697, 9.90105222],
    high: [
      4.63659493, 0.00274131991, -9.95828531e-7, 1.60373011e-10, -9.16103468e-15, -49024.9341, -1.93534855,
    ],
  },
  {
    name: 'H2O',
    description: 'water vapour',
    source: 'L 8/89',
    atoms: { C: 0, H: 2, O: 1, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [
      4.19864056, -0.0020364341, 6.52040211e-6, -5.48797062e-9, 1.77197817e-12, -30293.7267, -0.849032208,
    ],
    high: [
      2.67703787, 0.00297318329, -7.7376969e-7, 9.44336689e-11, -4.26900959e-15, -29885.8938, 6.88255571,
    ],
  },
  {
    name: 'CO',
    description: 'carbon monoxide',
    source: 'TPIS79',
    atoms: { C: 1, H: 0, O: 1, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [3.57953347, -0.00061035368, 1.01681433e-6, 9.07005884e-10, -9.04424499e-13, -14344.086, 3.50840928],
    high: [
      3.04848583, 0.00135172818, -4.85794075e-7, 7.88536486e-11, -4.69807489e-15, -14266.1171, 6.0170979,
    ],
  },
  {
    name: 'H2',
    description: 'hydrogen',
    source: 'TPIS78',
    atoms: { C: 0, H: 2, O: 0, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [2.34433112, 0.00798052075, -1.9478151e-5, 2.01572094e-8, -7.37611761e-12, -917.935173, 0.683010238],
    high: [
      2.93286579, 0.000826607967, -1.46402335e-7, 1.54100359e-11, -6.88804432e-16, -813.065597, -1.02432887,
    ],
  },
  {
    name: 'O',
    description: 'oxygen atom',
    source: 'L 1/90',
    atoms: { C: 0, H: 0, O: 1, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [3.1682671, -0.00327931884, 6.64306396e-6, -6.12806624e-9, 2.11265971e-12, 29122.2592, 2.05193346],
    high: [2.54363697, -2.73162486e-5, -4.1902952e-9, 4.95481845e-12, -4.79553694e-16, 29226.012, 4.92229457],
  },
  {
    name: 'H',
    description: 'hydrogen atom',
    source: 'L 5/93',
    atoms: { C: 0, H: 1, O: 0, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [2.5, 0, 0, 0, 0, 25473.6599, -0.446682853],
    high: [
      2.50000286, -5.65334214e-9, 3.63251723e-12, -9.1994972e-16, 7.95260746e-20, 25473.6589, -0.446698494,
    ],
  },
  {
    name: 'OH',
    description: 'hydroxyl',
    source: 'TPIS78',
    atoms: { C: 0, H: 1, O: 1, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [3.99201543, -0.00240131752, 4.61793841e-6, -3.88113333e-9, 1.3641147e-12, 3615.08056, -0.103925458],
    high: [
      2.83864607, 0.00110725586, -2.93914978e-7, 4.20524247e-11, -2.42169092e-15, 3943.95852, 5.84452662,
    ],
  },
  {
    name: 'NO',
    description: 'nitric oxide',
    source: 'TPIS89',
    atoms: { C: 0, H: 0, O: 1, N: 1, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [4.21859896, -0.00463988124, 1.10443049e-5, -9.34055507e-9, 2.80554874e-12, 9845.09964, 2.28061001],
    high: [
      3.26071234, 0.00119101135, -4.29122646e-7, 6.94481463e-11, -4.03295681e-15, 9921.43132, 6.36900518,
    ],
  },
  {
    name: 'CH4',
    description: 'methane',
    source: 'L 8/88',
    atoms: { C: 1, H: 4, O: 0, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [5.14987613, -0.0136709788, 4.91800599e-5, -4.84743026e-8, 1.66693956e-11, -10246.6476, -4.64130376],
    high: [
      1.63552643, 0.0100842795, -3.36916254e-6, 5.34958667e-10, -3.15518833e-14, -10005.6455, 9.99313326,
    ],
  },
  {
    name: 'C3H8',
    description: 'propane',
    source: 'L 6/90',
    atoms: { C: 3, H: 8, O: 0, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [4.2110262, 0.00171599803, 7.06183472e-5, -9.19594116e-8, 3.64421372e-11, -14381.2106, 5.60930491],
    high: [6.66789363, 0.0206120214, -7.36553027e-6, 1.18440761e-9, -7.0695321e-14, -16274.8521, -13.1859503],
  },
  {
    name: 'iC8H18',
    description: 'iso-octane (2,2,4-trimethylpentane)',
    source: 'X 4/85',
    atoms: { C: 8, H: 18, O: 0, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [0.815737338, 0.0732643959, 1.78300688e-5, -6.9358962e-8, 3.21629382e-11, -30477.2862, 24.1509994],
    high: [15.9899273, 0.055318479, -1.95267072e-5, 3.11779172e-9, -1.85312577e-13, -35875.7973, -60.1161414],
  },
  {
    name: 'C7H16',
    description: 'n-heptane',
    source: 'X10/85',
    atoms: { C: 7, H: 16, O: 0, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [11.1532484, -0.00949415433, 0.000195571181, -2.4975252e-7, 9.84873213e-11, -26771.1735, -15.909611],
    high: [18.5354704, 0.0391420468, -1.38030268e-5, 2.22403874e-9, -1.3345258e-13, -31950.0783, -70.190284],
  },
  {
    name: 'C7H8',
    description: 'toluene',
    source: 'L 1/93',
    atoms: { C: 7, H: 8, O: 0, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [1.611914, 0.0211188902, 8.53221453e-5, -1.32566876e-7, 5.59406109e-11, 4096.51976, 20.2973614],
    high: [12.939475, 0.0266921558, -9.68420108e-6, 1.5739214e-9, -9.46670482e-14, -677.035769, -46.7255302],
  },
  {
    name: 'C6H6',
    description: 'benzene',
    source: 'L 1/91',
    atoms: { C: 6, H: 6, O: 0, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [0.503469664, 0.0185142363, 7.37864409e-5, -1.18106127e-7, 5.07182527e-11, 8552.66293, 21.6481796],
    high: [11.0771708, 0.0207067895, -7.516251e-6, 1.22209416e-9, -7.35312513e-14, 4309.88395, -40.011695],
  },
  {
    name: 'C2H5OH',
    description: 'ethanol',
    source: 'L 8/88',
    atoms: { C: 2, H: 6, O: 1, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [4.85868178, -0.0037400674, 6.95550267e-5, -8.86541147e-8, 3.5168443e-11, -29996.1309, 4.80192294],
    high: [
      6.5628977, 0.0152034264, -5.38922247e-6, 8.62150224e-10, -5.12824683e-14, -31525.7984, -9.47557644,
    ],
  },
  {
    name: 'CH3OH',
    description: 'methanol',
    source: 'L 8/88',
    atoms: { C: 1, H: 4, O: 1, N: 0, Ar: 0 },
    tLow: 200,
    tMid: 1000,
    tHigh: 6000,
    low: [5.71539582, -0.0152309129, 6.52441155e-5, -7.10806889e-8, 2.61352698e-11, -25642.7656, -1.50409823],
    high: [3.60134486, 0.0102430954, -3.59985517e-6, 5.72505986e-10, -3.3911764e-14, -25997.191, 4.70512253],
  },
];
