/** Checks of induction, exhaust and running conditions as stated: things given twice, or half. */

import { SIDES } from '../../combination/sides.ts';
import { oxygenDemand } from '../../gas/atoms.ts';
import type { Fuel } from '../../gas/fuel.ts';
import { FUEL_NAMES, fuelNamed } from '../../gas/fuels.ts';
import { nearestName } from '../nearestName.ts';
import { engineNotForecast, notForecastMessage } from '../notForecast.ts';
import type { PartialFile } from '../schema/combinationFile.ts';
import type { ExhaustSection, PipeSection } from '../schema/exhaustSection.ts';
import type { PipePath } from '../schema/fieldPath.ts';
import type { FuelSection } from '../schema/runningSections.ts';
import { wordForFuel } from '../tradeWords.ts';
import type { Report } from './report.ts';

export function checkParts(file: PartialFile, report: Report): void {
  if (file.induction?.carburetor !== undefined && file.induction.throttle !== undefined) {
    report.problem(
      'induction.throttle',
      'metering-twice',
      'is given beside a carburetor: keep one of the two',
    );
  }
  if (file.mixture?.lambda !== undefined && file.mixture.airFuelRatio !== undefined) {
    report.problem('mixture.airFuelRatio', 'mixture-twice', 'is given beside lambda: keep one of the two');
  }
  checkDifferences(file, report);
  checkExhaust(file, report);
  checkBurn(file, report);
  checkFuel(file, report);
  checkWeather(file, report);
  checkInlineFlow(file, report);
}

/** One for each cylinder. */
function checkDifferences({ mixture, engine }: PartialFile, report: Report): void {
  const count = mixture?.differences?.length;
  report.each('mixture.differences', 'by-cylinder', count, engine?.cylinders, 'give one a cylinder');
}

function checkExhaust({ exhaust, engine }: PartialFile, report: Report): void {
  if (exhaust === undefined) return;
  checkPipe(exhaust.primary, 'exhaust.primary', report);
  checkPipe(exhaust.secondary, 'exhaust.secondary', report);
  checkPipe(exhaust.balance, 'exhaust.balance', report);
  checkPrimary(exhaust, engine?.cylinders, report);
  checkMerges(exhaust, engine?.cylinders, report);
  if (typeof exhaust.collector === 'object') checkPipe(exhaust.collector, 'exhaust.collector', report);
  if (exhaust.collector === 'none' && exhaust.groups !== undefined) {
    report.problem('exhaust.groups', 'groups', 'is given although there is no collector');
  }
  const { muffler, box } = exhaust;
  checkPipe(box?.pipe, 'exhaust.box.pipe', report);
  if (box !== undefined && muffler === 'open')
    report.problem('exhaust.box', 'muffler', "is given although the muffler is 'open'");
  if (box?.kind !== undefined && typeof muffler === 'string' && muffler !== 'open' && box.kind !== muffler)
    report.problem('exhaust.box.kind', 'muffler', `is ${box.kind}, and the muffler is ${muffler}`);
  if (typeof muffler !== 'object') return;
  if (box?.backPressure !== undefined) {
    const message = 'is given beside a muffler by its rating or its back-pressure: keep one of the two';
    report.problem('exhaust.box.backPressure', 'muffler', message);
  }
  if ((muffler.flow === undefined) === (muffler.backPressure === undefined)) {
    const message = 'needs either its rated flow or its back-pressure';
    report.problem('exhaust.muffler', 'muffler', message);
  }
}

/** Lengths for every cylinder, and sizes one behind the other. */
function checkPrimary({ primary }: ExhaustSection, cylinders: number | undefined, report: Report): void {
  const { lengths, length, steps = [] } = primary ?? {};
  report.each('exhaust.primary.lengths', 'primary-lengths', lengths?.length, cylinders, null, 'length');
  if (lengths !== undefined && length !== undefined) {
    const message = 'is given beside the length of each: keep one of the two';
    report.problem('exhaust.primary.length', 'primary-lengths', message);
  }
  const shortest = Math.min(length ?? Number.POSITIVE_INFINITY, ...(lengths ?? []));
  steps.forEach((step, i) => {
    const path = `exhaust.primary.steps.${i}` as const;
    checkPipe(step, path, report);
    if (step.diameter === undefined && step.inside === undefined)
      report.problem(path, 'primary-step', 'needs the next size: a diameter, or the inside');
    if (i > 0 && !(step.after > steps[i - 1].after))
      report.problem(`${path}.after`, 'primary-step', 'must lie behind the step before it');
    if (step.after >= shortest)
      report.problem(`${path}.after`, 'primary-step', 'lies behind the end of the primary');
  });
}

/** First merges within collectors, and two collectors where a tube joins two. */
function checkMerges(exhaust: ExhaustSection, cylinders: number | undefined, report: Report): void {
  const { secondary, balance, collector, groups } = exhaust;
  if (collector === 'none') {
    const message = 'is given although there is no collector';
    if (secondary !== undefined) report.problem('exhaust.secondary', 'secondary', message);
    if (balance !== undefined) report.problem('exhaust.balance', 'balance', message);
    return;
  }
  const first = secondary?.groups;
  if (first === undefined) return;
  const all = first.flat();
  if (cylinders !== undefined && (new Set(all).size !== all.length || all.length !== cylinders))
    report.problem(
      'exhaust.secondary.groups',
      'secondary',
      `must hold each of the ${cylinders} cylinders once`,
    );
  for (const pair of first)
    if (groups?.some((g) => g.includes(pair[0]) && !pair.every((c) => g.includes(c))))
      report.problem(
        'exhaust.secondary.groups',
        'secondary',
        `joins ${pair.join(' and ')}, which end in two collectors`,
      );
}

function checkPipe(
  pipe: PipeSection | undefined,
  path: PipePath | `exhaust.primary.steps.${number}`,
  report: Report,
): void {
  const { diameter, inside, wall } = pipe ?? {};
  if (diameter !== undefined && inside !== undefined) {
    report.problem(
      `${path}.inside`,
      'pipe-twice',
      'is given beside the outside diameter: keep one of the two',
    );
  }
  if (diameter !== undefined && wall !== undefined && !(2 * wall < 0.5 * diameter)) {
    report.problem(`${path}.wall`, 'pipe-wall', 'is too thick for this tube');
  }
}

function checkBurn({ burn }: PartialFile, report: Report): void {
  if (burn === undefined) return;
  const { timing, spark, ca50 } = burn;
  if (timing === 'spark' && spark === undefined) {
    report.problem('burn.timing', 'timing', "is 'spark', but burn.spark gives no table");
  }
  if (timing === 'ca50' && ca50 === undefined) {
    report.problem('burn.timing', 'timing', "is 'ca50', but burn.ca50 gives no angle");
  }
  if (timing === undefined && spark !== undefined && ca50 !== undefined) {
    report.problem(
      'burn.ca50',
      'timing',
      'is given beside a spark table: state burn.timing, or keep one of the two',
    );
  }
  const speeds = (spark ?? []).map((point) => point.rpm);
  if (new Set(speeds).size < speeds.length) report.problem('burn.spark', 'timing', 'gives one speed twice');
}

function checkFuel({ fuel }: PartialFile, report: Report): void {
  if (typeof fuel === 'string') {
    if (FUEL_NAMES.includes(fuel)) return;
    const matter = engineNotForecast(fuel);
    if (matter !== null) {
      const { message, hint } = notForecastMessage(matter);
      report.problem('fuel', 'fuel-unknown', message, hint);
      return;
    }
    const nearest = nearestName(fuel, FUEL_NAMES);
    const known = `${byResearchNumber(fuel)}known: ${FUEL_NAMES.join(', ')}; pump fuels by antiknock index, (R+M)/2`;
    // Of two names with a number the nearest spelling may be another fuel.
    const isSpelling = nearest !== null && (!/\d/u.test(fuel) || spelt(fuel) === spelt(nearest));
    const trade = /\d{2}/u.test(fuel) && byResearchNumber(fuel) !== '' ? null : wordForFuel(fuel);
    const hint = trade ?? (isSpelling ? `did you mean ${nearest}?` : known);
    report.problem('fuel', 'fuel-unknown', `is not a fuel this program knows: '${fuel}'`, hint);
  } else if (fuel !== undefined && !(fuel.atoms.C > 0 && oxygenDemand({ ...fuel.atoms, N: 0, Ar: 0 }) > 0)) {
    report.problem(
      'fuel.atoms',
      'fuel-atoms',
      'does not burn: it needs carbon, and less oxygen than it can burn with',
    );
  } else if (fuel !== undefined) checkHeat(fuel, report);
}

const spelt = (name: string): string => name.toLowerCase().replace(/[^a-z0-9]/gu, '');

/** Research octane numbers of gasoline at pumps. */
const RESEARCH = { min: 90, max: 102 } as const;

/** Where pumps show the research number, a fuel is asked for by it: the pump fuel next to it, for a name that is none. */
function byResearchNumber(name: string): string {
  const number = Number(/\d+(?:\.\d+)?/u.exec(name)?.[0] ?? Number.NaN);
  const isResearch = /\b(?:ron|roz|euro|super)\b/iu.test(name) || /^pump\b/iu.test(name);
  if (!isResearch || !(number >= RESEARCH.min && number <= RESEARCH.max)) return '';
  const pumps = FUEL_NAMES.filter((each) => /^pump-\d+$/u.test(each)).map((each) => fuelNamed(each));
  const distance = ({ researchOctane }: Fuel): number => Math.abs(researchOctane - number);
  const { name: nearest, researchOctane } = pumps.reduce((a, b) => (distance(b) < distance(a) ? b : a));
  return `a research octane of ${number} is next to that of ${nearest}, ${researchOctane}; `;
}

/** How far a stated heating value may lie from the one its atoms give [-]: the rule is good to 10 %. */
const HEAT_SLACK = 0.25;

/** Dulong's rule, lower: 33.8 C + 144.2 (H - O/8) less the heat in the water, 2.44 * 9 H [MJ/kg] by mass (from memory). */
function checkHeat({ atoms, heatingValue }: FuelSection, report: Report): void {
  const mass = 12.011 * atoms.C + 1.008 * atoms.H + 15.999 * atoms.O;
  const share = { C: (12.011 * atoms.C) / mass, H: (1.008 * atoms.H) / mass, O: (15.999 * atoms.O) / mass };
  const expected = (33.8 * share.C + 144.2 * (share.H - share.O / 8) - 2.44 * 9 * share.H) * 1e6;
  if (Math.abs(heatingValue / expected - 1) <= HEAT_SLACK) return;
  const message = `is ${(heatingValue / 1e6).toFixed(1)} MJ/kg; these atoms give about ${(expected / 1e6).toFixed(0)} MJ/kg`;
  report.problem('fuel.heatingValue', 'fuel-heat', message);
}

function checkWeather({ weather }: PartialFile, report: Report): void {
  if (weather === undefined) return;
  const given = (['humidity', 'vapourPressure', 'dewPoint'] as const).filter(
    (field) => weather[field] !== undefined,
  );
  if (given.length > 1) {
    const message = `is given beside ${given[0]}: keep one of them`;
    report.problem(`weather.${given[1]}`, 'humidity-twice', message);
  }
  const { dewPoint, temperature } = weather;
  if (dewPoint !== undefined && temperature !== undefined && dewPoint > temperature) {
    report.problem('weather.dewPoint', 'dew-point', 'is above the temperature of the air');
  }
}

function checkInlineFlow({ heads }: PartialFile, report: Report): void {
  for (const side of SIDES) {
    const flow = heads?.[side]?.flow;
    if (!Array.isArray(flow)) continue;
    flow.forEach((point, index) => {
      const path = `heads.${side}.flow.${index}` as const;
      if (index > 0 && !(point.lift > flow[index - 1].lift)) {
        report.problem(path, 'flow-lift', 'has a lift that does not rise from point to point');
      }
      if (point.lift > 0 && !(point.flow > 0))
        report.problem(path, 'flow-none', 'has no flow at an open valve');
    });
    if (flow.filter((point) => point.lift > 0).length < 2) {
      report.problem(`heads.${side}.flow`, 'flow-points', 'needs at least two points with the valve open');
    }
  }
}
