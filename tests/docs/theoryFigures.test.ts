/** Figures that a page repeats from the code are those of the code. */
import { describe, expect, it } from 'vitest';
import { DEFAULT_MESH } from '../../packages/core/src/assembly/mesh.ts';
import { INCH, INCH_OF_MERCURY } from '../../packages/core/src/base/constants.ts';
import { MODEL_ERROR } from '../../packages/core/src/calibration/calibrationTarget.ts';
import { DYNO_SPREAD, KNOB_LIMIT } from '../../packages/core/src/calibration/knobs.ts';
import { LEAST_GAIN_PCT } from '../../packages/core/src/changes/notModelled.ts';
import { KNOCK_ENERGY } from '../../packages/core/src/cycle/endGasGone.ts';
import { PERIODIC_DEFAULTS } from '../../packages/core/src/cycle/periodic.ts';
import { DYNO } from '../../packages/core/src/dyno/dynoResolution.ts';
import { MODEL_ERRORS } from '../../packages/core/src/forecast/modelError.ts';
import {
  CAUTION_BEYOND,
  J1349_FRICTION,
  NOTE_BEYOND,
} from '../../packages/core/src/forecast/weatherCorrection.ts';
import { FREEZE_PRESSURE, FREEZE_TEMPERATURE } from '../../packages/core/src/gas/buildGasTables.ts';
import {
  EXHAUST_SHARE,
  FLOW_BY_LIFT_OVER_DIAMETER,
  FOUR_VALVE_FACTOR,
  GOOD_PORT,
  PIPE_STUB_GAIN,
  PORT_LIFT,
} from '../../packages/core/src/geometry/defaultFlow.ts';
import { ROUGHNESS } from '../../packages/core/src/geometry/pipeFriction.ts';
import { OPEN_END, PLENUM_END } from '../../packages/core/src/geometry/tractProfile.ts';
import { CENTRED_CA50, DEVELOPMENT_INSTANT } from '../../packages/core/src/processes/burnDuration.ts';
import { SIDE_PATH, SQUISH_TURBULENCE, STILL_BURN } from '../../packages/core/src/processes/chamberBurn.ts';
import { AUDIBLE_MARGIN, RATING_TEMPERATURES } from '../../packages/core/src/processes/knock.ts';
import { MIXTURE_SCATTER } from '../../packages/core/src/processes/mixtureScatter.ts';
import { PEAK_PRESSURE_SHARE } from '../../packages/core/src/processes/peakPressureFriction.ts';
import * as walls from '../../packages/core/src/processes/wallHeat.ts';
import * as cam from '../../packages/core/src/reading/defaults/cam.ts';
import {
  EVAPORATION_SPREAD,
  HEATING_SPREAD,
  VAPOUR_SPREAD,
} from '../../packages/core/src/reading/defaults/charge.ts';
import {
  CAST_AREA_RATIO,
  CAST_LENGTH_RATIO,
  COLLECTOR_RATIO,
  COLLECTOR_WALL,
  MERGE_LENGTH_RATIO,
  PRIMARY_WALL,
  SECONDARY_LENGTH,
  SECONDARY_RATIO,
} from '../../packages/core/src/reading/defaults/header.ts';
import * as parts from '../../packages/core/src/reading/defaults/inductionParts.ts';
import { MANIFOLD_STYLES } from '../../packages/core/src/reading/defaults/manifold.ts';
import {
  RATED_FILLING,
  THROTTLE_COEFFICIENT,
  THROTTLE_DROP,
} from '../../packages/core/src/reading/defaults/metering.ts';
import {
  MUFFLED_AT_LEAST,
  MUFFLER_PIPE_LENGTH,
  MUFFLER_VOLUME,
  RETURNED,
} from '../../packages/core/src/reading/defaults/outlet.ts';
import { MINIMUM_OVER_MEAN, PORT_LENGTH_RATIO } from '../../packages/core/src/reading/defaults/ports.ts';
import * as rated from '../../packages/core/src/reading/defaults/ratedSpeed.ts';
import { LAMBDA, WALL_TEMPERATURES } from '../../packages/core/src/reading/defaults/running.ts';
import { DRAWS } from '../../packages/core/src/uncertainty/deviates.ts';
import { COARSE } from '../../packages/core/src/uncertainty/responseWorld.ts';
import { readGuide } from './guides.ts';

const [firstFlow] = FLOW_BY_LIFT_OVER_DIAMETER;
const lastFlow = FLOW_BY_LIFT_OVER_DIAMETER[FLOW_BY_LIFT_OVER_DIAMETER.length - 1];
const manifolds = Object.values(MANIFOLD_STYLES);
const { head, piston, liner } = WALL_TEMPERATURES;
const { sheets } = MODEL_ERRORS;

/** A share in percent, or a length in inches, without what floating point leaves behind it. */
const percent = (share: number): number => Number((100 * share).toFixed(6));
const inches = (length: number): number => Number((length / INCH).toFixed(6));

/** Page, and the words on it that carry figures of the code. */
const CLAIMS: readonly (readonly [page: string, words: string])[] = [
  ['gas-properties', `(${FREEZE_TEMPERATURE} K)`],
  ['gas-properties', `at ${FREEZE_TEMPERATURE} K and ${FREEZE_PRESSURE / 1e5} bar`],
  [
    'charge-temperature',
    `spreads of ${HEATING_SPREAD.none} K (${HEATING_SPREAD.exhaust} K with a crossover), ${EVAPORATION_SPREAD} and ${VAPOUR_SPREAD}`,
  ],
  ['flow-area', `${firstFlow[1]} at a lift of ${firstFlow[0]}`],
  ['flow-area', `${lastFlow[1]} at ${lastFlow[0]}`],
  ['flow-area', `full above ${PORT_LIFT.full} diameters, 1 below ${PORT_LIFT.alike}`],
  ['flow-area', `0.85 (${GOOD_PORT.throat} / throat)^4 + 0.15 (${GOOD_PORT.smallest} / smallest)^2`],
  [
    'flow-area',
    `flows ${EXHAUST_SHARE.twoValve} of it at equal lift over diameter (${EXHAUST_SHARE.fourValve} with`,
  ],
  [
    'duct',
    `${1000 * DEFAULT_MESH.intakeCell} mm in the intake, ${1000 * DEFAULT_MESH.exhaustCell} mm in the`,
  ],
  [
    'uncertainty',
    `cells of ${1000 * (COARSE.mesh?.intakeCell ?? 0)} mm (intake) and ${1000 * (COARSE.mesh?.exhaustCell ?? 0)} mm (exhaust)`,
  ],
  ['volumes-and-merge', `${MERGE_LENGTH_RATIO} collector diameters`],
  ['wall-heat', `C1 = ${walls.WOSCHNI_C1_GAS_EXCHANGE} with a valve open, ${walls.WOSCHNI_C1_CLOSED} with`],
  ['wall-heat', `C2 = ${walls.WOSCHNI_C2.toExponential()}`],
  ['wall-heat', `(Vr / V)^${walls.MOTORED_EXPONENT}`],
  ['wall-heat', `${walls.ANNAND_A} (k / B)`],
  ['wall-heat', `${walls.ANNAND_C / walls.STEFAN_BOLTZMANN} sigma`],
  ['friction', `${PEAK_PRESSURE_SHARE} x (peak pressure`],
  ['time-march', `within ${PERIODIC_DEFAULTS.tolerance * 1e5}e-5`],
  ['time-march', `at most ${PERIODIC_DEFAULTS.maxCycles}`],
  ['cycle-audit', `${PERIODIC_DEFAULTS.tolerance * 1e5}e-5 is asked`],
  ['weather-correction', `${1 + J1349_FRICTION} factor - ${J1349_FRICTION}`],
  ['estimates', `${rated.CAM_REFERENCE.gasSpeed} m/s at ${rated.CAM_REFERENCE.duration} deg`],
  [
    'estimates',
    `${rated.RATED_PISTON_SPEED_TWO_VALVE} m/s with two valves, ${rated.RATED_PISTON_SPEED_MULTI_VALVE} with`,
  ],
  ['estimates', `intake and ${cam.EXHAUST_EXTRA} deg`],
  [
    'estimates',
    `${cam.SEPARATION} cam deg, ${cam.PRODUCTION_SEPARATION} for a production cam; ${cam.ADVANCE} deg`,
  ],
  ['estimates', `a rated speed above ${cam.HYDRAULIC_UP_TO} rpm is stated`],
  ['estimates', `${rated.PRODUCTION_SHORTER} deg less where no cam`],
  ['estimates', `cast: ${CAST_LENGTH_RATIO} bores long, ${CAST_AREA_RATIO} of the port`],
  ['estimates', `${cam.LIFT_REFERENCE.ratio} diameters at ${cam.LIFT_REFERENCE.duration} deg`],
  ['estimates', `${PORT_LENGTH_RATIO.intake} and ${PORT_LENGTH_RATIO.exhaust} bores`],
  ['estimates', `${MINIMUM_OVER_MEAN} of the mean area`],
  [
    'estimates',
    `${Object.entries(MANIFOLD_STYLES)
      .map(([style, { runner }]) => `${style} ${Number((runner / 0.0254).toFixed(3))}`)
      .join(', ')} in on a 4 in bore`,
  ],
  ['estimates', `${manifolds.map(({ loss }) => 100 * loss).join(', ')} % of the port`],
  ['estimates', `with ${100 * RATED_FILLING} % filling`],
  ['estimates', `effective area over ${parts.RATING_OVER_VENTURI} `],
  ['estimates', `holes ${parts.BORE_OVER_VENTURI} venturis, opening ${parts.OPENING_OVER_BORES} bores`],
  [
    'estimates',
    `plate ${parts.DISCHARGE.plate}, sonic ${parts.DISCHARGE.sonic} and ${100 * parts.SONIC_RECOVERY} % back`,
  ],
  ['induction-parts', `${parts.VENTURI_COEFFICIENT} of its venturis`],
  ['estimates', `${COLLECTOR_RATIO} primaries`],
  [
    'estimates',
    `head ${head} K, piston ${piston} K, liner ${liner} K; primaries ${PRIMARY_WALL.headers} K, collectors ${COLLECTOR_WALL} K`,
  ],
  ['estimates', `| ${LAMBDA} `],
  ['estimates', `${SECONDARY_RATIO} primaries where two meet, ${inches(SECONDARY_LENGTH)} in long`],
  ['estimates', `costs ${THROTTLE_DROP / INCH_OF_MERCURY} inHg at rated speed`],
  [
    'estimates',
    `${MUFFLER_VOLUME.chambered} displacements with chambers, ${MUFFLER_VOLUME['straight-through']} around a straight pipe, of ${MUFFLED_AT_LEAST} cylinders at least; pipe as wide as the one in front, ${MUFFLER_PIPE_LENGTH} m long`,
  ],
  ['induction-parts', `${THROTTLE_COEFFICIENT} of its bore`],
  ['flow-area', `valves ${FOUR_VALVE_FACTOR} times that`],
  ['flow-area', `gains ${percent(PIPE_STUB_GAIN)} % for the pipe`],
  [
    'duct',
    `${(1e3 * ROUGHNESS.tube).toFixed(3)} mm for tubes, ${(1e3 * ROUGHNESS.cast).toFixed(3)} mm for cast runners and ports`,
  ],
  ['duct-ends', `e = ${PLENUM_END} at the plenum, ${OPEN_END} in the open`],
  ['volumes-and-merge', `estimate of ${percent(RETURNED.open.value)} % for an open pipe`],
  ['volumes-and-merge', `${percent(RETURNED.muffled.value)} % for a muffler`],
  ['burn', `gas ${DEVELOPMENT_INSTANT} deg before top centre`],
  ['burn', `puts CA50 at ${CENTRED_CA50} deg counts as that one`],
  ['burn', `scatter ${MIXTURE_SCATTER}`],
  ['chamber-form', `main = ${STILL_BURN.main} way^(2/3) (u / u0)^(-2/3)`],
  ['chamber-form', `development = ${STILL_BURN.development} way^(4/9)`],
  ['chamber-form', `(${SQUISH_TURBULENCE} v)^2`],
  ['chamber-form', `1 / ${SIDE_PATH} for a central one`],
  ['knock', `until energy falls below ${KNOCK_ENERGY / 1e6} MJ/m3`],
  ['knock', `+ ${AUDIBLE_MARGIN} of a reference fuel`],
  ['knock', `${RATING_TEMPERATURES.research} and ${RATING_TEMPERATURES.motor} K`],
  ['weather-correction', `Beyond ${percent(NOTE_BEYOND)} % a correction is noted`],
  ['weather-correction', `beyond ${percent(CAUTION_BEYOND)} %`],
  ['uncertainty', `${DRAWS} draws`],
  [
    'uncertainty',
    `${percent(sheets.torque)} % of torque, ${percent(sheets.power)} % of power, ${sheets.torqueSpeed} and ${sheets.powerSpeed} rpm of the speeds of their peaks and ${percent(sheets.gain)} % of a gain`,
  ],
  ['calibration', `held at ${percent(KNOB_LIMIT)} % from where it started`],
  ['calibration', `1 +/- ${DYNO_SPREAD}: honest dynos`],
  ['calibration', `sigma_model = ${percent(MODEL_ERROR)} %`],
  ['../guide/rank', `gain more than ${LEAST_GAIN_PCT} %`],
  ['../guide/dyno-sheets', `repeats within ${DYNO.repeatabilityPct} %`],
  ['../guide/calibrate', `Knobs stop at ${percent(KNOB_LIMIT)} %`],
];

describe('the figures that pages repeat from the code', () => {
  it.each(CLAIMS)('%s: %s', (page, words) => {
    expect(readGuide(`docs/theory/${page}.md`).replaceAll(/\s+/g, ' ')).toContain(words);
  });
});
