/** Cross-checks on the completed combination: problems returned, doubts put among the warnings. */

import { INCH, INCH_OF_MERCURY } from '../../base/constants.ts';
import type { Combination } from '../../combination/combination.ts';
import type { Problem } from '../../combination/problem.ts';
import { SIDES } from '../../combination/sides.ts';
import { airPressureText } from '../../combination/sizeText.ts';
import { saturationPressure } from '../../gas/air.ts';
import { CARBURETOR_DEPRESSION } from '../../geometry/flowSheet.ts';
import type { CombinationDocument } from '../combinationDocument.ts';
import type { ResolveContext } from '../resolve/context.ts';
import { COMPRESSION_LIMIT, COMPRESSION_REMARK } from '../resolve/resolveChamber.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import { checkBores } from './checkBores.ts';
import { checkFlow, greatestLift } from './checkFlow.ts';
import { checkLobes } from './checkLobes.ts';
import { checkPorts } from './checkPorts.ts';
import { checkSlips } from './checkSlips.ts';
import { checkUnused } from './checkUnused.ts';
import { Report } from './report.ts';
import { isTrusted } from './trust.ts';

/** Valve head diameters side by side over bore [-]: flat chambers, and domed ones whose valves are canted. */
const VALVES_ABREAST = { flat: 1, hemispherical: 1.12 } as const;
/** Area of all valve heads over bore area [-]; four-valve race heads reach 0.55, from memory. */
const VALVE_AREA_LIMIT = 0.62;
/** Hot lash of solid lifters outside which a slip is likely [m]. */
const LASH_BAND = { min: 0.003 * INCH, max: 0.04 * INCH } as const;

export function checkResolved(
  document: CombinationDocument,
  context: ResolveContext,
  combination: Combination,
): readonly Problem[] {
  const bores = new Report(document);
  checkBores(document, context, combination, bores);
  const report = new Report(document);
  checkCompression(context, combination, report);
  checkFit(combination, report);
  checkAgainstValves(context, combination, report);
  checkLash(context, combination, report);
  checkSlips(context, combination, report);
  checkLobes(context, combination, report);
  checkFlow(context, combination, report);
  checkPorts(context, combination);
  checkVapour(context, combination, report);
  checkUnused(context, combination);
  checkJoined(combination, report);
  checkBox(context, combination, report);
  checkCleaner(context, combination);
  checkMixtures(combination, report);
  remarks(context);
  // A size in a wrong unit spoils every other figure that rests on it.
  return [...bores.problems, ...report.problems.filter((problem) => isTrusted(problem, bores.problems))];
}

function checkCompression({ file, ledger }: ResolveContext, { chamber }: Combination, report: Report): void {
  const stated = file.chamber?.compression;
  const computed = chamber.compressionRatio;
  if (!(computed >= 4 && computed <= 20)) {
    const message = `comes to a compression ratio of ${computed.toFixed(1)}: no engine has that, so check the volumes`;
    report.problem('chamber', 'compression-impossible', message);
    return;
  }
  if (stated === undefined || file.chamber?.volume === undefined) return;
  const difference = Math.abs(stated - computed);
  const message = `is ${stated}, but the volumes give ${computed.toFixed(2)}`;
  // What the head would have to hold, the piston, deck and gasket being what they are.
  const swept = chamber.clearanceVolume * (computed - 1);
  const chamberOf = file.chamber.volume + swept / (stated - 1) - chamber.clearanceVolume;
  const hint = `${stated} would take ${chamberOf > 0 ? `a chamber of ${(1e6 * chamberOf).toFixed(1)} cc` : 'another piston'}: check chamber, dome, dish, deck and gasket, or leave the ratio out`;
  if (difference > COMPRESSION_LIMIT)
    report.problem('chamber.compression', 'compression-disagrees', message, hint);
  else if (difference > COMPRESSION_REMARK) {
    ledger.warn('compression-disagrees', 'chamber.compression', `${message}; the volumes are used`);
  }
}

/** Throats and stems that are stated, where the valve that they have to fit is an estimate. */
function checkAgainstValves({ file }: ResolveContext, engine: Combination, report: Report): void {
  for (const side of SIDES) {
    const { valve, throat, stem } = file.heads?.[side] ?? {};
    const { valveDiameter } = engine[side];
    if (valve !== undefined) continue;
    const hint = `that valve is an estimate: state heads.${side}.valve`;
    const size = report.length(valveDiameter);
    if (throat !== undefined && !(throat < valveDiameter))
      report.problem(`heads.${side}.throat`, 'throat', `is not smaller than the valve, ${size}`, hint);
    if (stem !== undefined && !(stem < valveDiameter / 2))
      report.problem(`heads.${side}.stem`, 'stem', `is too thick for a valve of ${size}`, hint);
  }
}

/** Mixtures of single cylinders that still burn [-], as that of all. */
const BURNS = { min: 0.5, max: 1.6 } as const;

/** No cylinder may be richer or leaner than an engine can be, at any speed. */
function checkMixtures({ lambda, bySpeed, lambdaDifferences = [] }: Combination, report: Report): void {
  for (const each of [lambda, ...(bySpeed?.lambda?.value ?? [])]) {
    const cylinder = lambdaDifferences.findIndex(
      (difference) => !(each + difference >= BURNS.min && each + difference <= BURNS.max),
    );
    if (cylinder < 0) continue;
    const own = (each + lambdaDifferences[cylinder]).toFixed(2);
    const message = `gives cylinder ${cylinder + 1} a lambda of ${own}: outside ${BURNS.min} to ${BURNS.max}`;
    report.problem('mixture.differences', 'out-of-range', message);
    return;
  }
}

/** A balance tube has two collectors to join, and joins them where they are. */
function checkJoined({ exhaustSystem: { balance, collectors } }: Combination, report: Report): void {
  if (balance === undefined) return;
  const count = collectors?.groups.length ?? 0;
  if (count !== 2)
    report.problem('exhaust.balance', 'balance', `joins two collectors, and this engine has ${count}`);
  const length = collectors?.length ?? 0;
  if (count === 2 && balance.at > length)
    report.problem(
      'exhaust.balance.at',
      'balance',
      `lies behind the end of the collectors, ${report.length(length)}`,
    );
}

/** The box of a muffler that nothing speaks of would be left out in silence. */
function checkBox({ file }: ResolveContext, { exhaustSystem }: Combination, report: Report): void {
  if (file.exhaust?.box === undefined || file.exhaust.muffler !== undefined) return;
  if (exhaustSystem.muffler !== undefined) return;
  if (file.exhaust.box.backPressure !== undefined) {
    const how = 'give exhaust.muffler: { backPressure: 1.5 psi }, or straight-through or chambered';
    report.problem('exhaust.box.backPressure', 'muffler', 'goes with a muffler that is named', how);
    return;
  }
  const hint = 'give exhaust.muffler: its back-pressure, its rated flow, or straight-through or chambered';
  report.problem('exhaust.box', 'muffler', 'has no word of what the muffler loses', hint);
}

/** A filter on each trumpet has to pass what its one cylinder draws, so that the flow of one for all looks larger than it is. */
function checkCleaner({ ledger }: ResolveContext, { block, induction }: Combination): void {
  const { airCleanerArea, plenums } = induction;
  if (airCleanerArea === null || plenums.length > 0 || block.cylinders === 1) return;
  const message = `is taken for one filter on each of ${block.cylinders} trumpets, with that share of its flow, through which one cylinder draws at a time: where one stands in front of a box, write induction.airbox`;
  ledger.warn('cleaner-shared', 'induction.airCleaner', message);
}

function checkFit({ block, chamber, intake, exhaust }: Combination, report: Report): void {
  const { bore } = block;
  const abreast = (intake.valveDiameter + exhaust.valveDiameter) / bore;
  const limit = chamber.shape === 'hemispherical' ? VALVES_ABREAST.hemispherical : VALVES_ABREAST.flat;
  const area =
    (intake.valves * intake.valveDiameter ** 2 + exhaust.valves * exhaust.valveDiameter ** 2) / (bore * bore);
  if (abreast > limit || area > VALVE_AREA_LIMIT) {
    const message = `does not fit: valves of ${report.length(intake.valveDiameter)} and ${report.length(exhaust.valveDiameter)} in a bore of ${report.length(bore)}`;
    report.problem('heads.intake.valve', 'valves-too-large', message);
  }
}

function checkLash({ file, ledger }: ResolveContext, combination: Combination, report: Report): void {
  const hydraulic = file.cam?.lifter?.startsWith('hydraulic') ?? false;
  for (const side of SIDES) {
    const port = combination[side];
    const path: FieldPath = `valvetrain.${side}Lash`;
    if (!(greatestLift(port) > 0)) {
      report.problem(path, 'lash', 'leaves the valve shut: lash and bending take all of the lift');
    }
    if (greatestLift(port) > 0.45 * port.valveDiameter) {
      const message = `the ${side} valve lifts ${report.length(greatestLift(port))}, more than 0.45 of its diameter`;
      ledger.warn('lift-high', `cam.${side}`, message);
    }
    if (hydraulic && port.lash > 0) ledger.warn('lash-band', path, 'hydraulic lifters run without lash');
    if (!hydraulic && port.lash > LASH_BAND.max) {
      ledger.warn('lash-band', path, `${report.length(port.lash)} is more than any usual hot lash`);
    }
    if (file.cam?.lifter !== undefined && !hydraulic && port.lash < LASH_BAND.min) {
      ledger.warn(
        'lash-band',
        path,
        `${report.length(port.lash)} is less than any usual hot lash of solid lifters`,
      );
    }
  }
}

/** Air can't hold more vapour than its temperature lets it; 1 % for rounding. */
function checkVapour({ file }: ResolveContext, { weather }: Combination, report: Report): void {
  const most = saturationPressure(weather.temperature, weather.pressure);
  if (file.weather?.vapourPressure === undefined || weather.vapourPressure <= 1.01 * most) return;
  const message = `is more than air of this temperature can hold, ${report.airPressure(most)}`;
  report.problem('weather.vapourPressure', 'vapour-pressure', message);
}

/** Choices of the file that can be read in two ways. */
function remarks({ file, ledger }: ResolveContext): void {
  const assumed = (end: string) => ledger.assumed.find(({ path }) => path.endsWith(end));
  const { barrels, ratedAt, rating } = file.induction?.carburetor ?? {};
  const inHg = (ratedAt ?? 0) / INCH_OF_MERCURY;
  if (barrels !== undefined && ratedAt !== undefined && (barrels > 2 ? inHg > 2.9 : inHg < 1.6)) {
    const shown = (pressure: number): string => airPressureText(pressure, file.units);
    const { fourBarrel, twoBarrel } = CARBURETOR_DEPRESSION;
    const message = `${barrels} barrels rated at ${shown(ratedAt)} is unusual: four barrels are rated at ${shown(fourBarrel)}, one and two at ${shown(twoBarrel)}`;
    ledger.warn('carburetor-basis', 'induction.carburetor.ratedAt', message);
  }
  // One barrel is assumed where four are out of the question, and two are rated as it is.
  if (rating !== undefined && ratedAt === undefined && Number(assumed('carburetor.barrels')?.value) > 1) {
    const message =
      'the rating depends on the number of barrels, which was assumed: state barrels, or the drop it is rated at, ratedAt';
    ledger.warn('carburetor-basis', 'induction.carburetor.rating', message);
  }
  if (file.correction === undefined) {
    const message = 'no correction standard stated, J607 assumed: against J1349 that is 4 to 5 %';
    ledger.warn('correction-assumed', 'correction', message);
  }
  const cardRatio = assumed('cardRatio');
  // Where the lobe lifts the valve itself there are no rockers to try.
  const hasRockers = (file.valvetrain?.type ?? assumed('valvetrain.type')?.value) !== 'direct-acting';
  if (cardRatio !== undefined && hasRockers) {
    const message =
      'valve lifts on the card are taken at the ratio of the rockers fitted: state it before trying others';
    ledger.warn('card-ratio', cardRatio.path, message);
  }
}
