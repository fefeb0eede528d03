/** The trade's own arithmetic, beside the figures it can be held against. Shown, never used by the forecast. */
import type { Chamber } from '../combination/combination.ts';

/** How well a rule is founded: worked from the formula it names, or handed on without a source. */
export type RuleSource = 'worked' | 'common practice, no source';

/** A figure of the trade beside the one computed here. */
export interface RuleOfThumb {
  /** Stable, for machines. */
  readonly code: string;
  /** What the rule speaks of. */
  readonly subject: string;
  /** The rule itself. */
  readonly says: string;
  /** Lower end of what it expects of this combination, in `unit`: the upper one where it names one number, null where it has no lower end. */
  readonly low: number | null;
  /** Upper end, in `unit`. */
  readonly high: number;
  /** Unit of the figures; empty for a pure number. */
  readonly unit: string;
  /** The combination's own figure in the same unit; null where only a forecast or a dyno can tell. */
  readonly here: number | null;
  /** Where the rule comes from. */
  readonly source: RuleSource;
}

/** What the rules are worked from, in the trade's units. */
export interface RuleFacts {
  readonly cylinders: number;
  /** Whole engine. */
  readonly cubicInches: number;
  readonly strokeIn: number;
  readonly compressionRatio: number;
  readonly chamber: Pick<Chamber, 'shape' | 'plug' | 'squishArea'>;
  /** One cylinder at full lift and 28 inH2O. */
  readonly intakeCfm: number;
  readonly exhaustOverIntake: number;
  /** Mean section of one cylinder's intake port. */
  readonly portIn2: number;
  /** Section of one primary. */
  readonly primaryIn2: number;
  /** Collector over primary diameter, and how many primaries meet in it; null for open primaries. */
  readonly collector: { readonly ratio: number; readonly primaries: number } | null;
  /** Carburetor or throttle, whole engine, at 1.5 inHg. */
  readonly ratingCfm: number;
  readonly researchOctane: number;
  readonly lambda: number;
  /** Highest speed of the band. */
  readonly topRpm: number;
}

/** Squish of the bore from which a chamber with its plug at the side is a closed one, and a fast one [-]. */
const CLOSED = 0.12;
const FAST = 0.24;

/** Best total timing of a gasoline engine at middle and high speed by chamber [deg before top centre], and which it is. */
function usualTiming({ shape, plug, squishArea }: RuleFacts['chamber']): readonly [number, number, string] {
  if (plug === 'central') return [24, 30, 'plug in the middle'];
  if (shape === 'hemispherical') return [36, 42, 'hemispherical chamber'];
  if (squishArea >= FAST) return [28, 34, 'plug at the side, much squish'];
  return squishArea >= CLOSED
    ? [32, 36, 'plug at the side, usual squish']
    : [36, 40, 'plug at the side, little squish'];
}

/** Mean gas speed of 245 ft/s over one stroke, as the trade writes it [rpm in3 / in2]. */
const TORQUE_SPEED = 88_200;

/** The rules, flow and speeds first. */
export function rulesOfThumb(facts: RuleFacts): RuleOfThumb[] {
  return [...flowRules(facts), ...combustionRules(facts), ...partRules(facts)];
}

/** What ports, valves and pipes would pass, and at which speeds they suit. */
function flowRules(facts: RuleFacts): RuleOfThumb[] {
  const { cubicInches, cylinders, intakeCfm, topRpm } = facts;
  const perCylinder = cubicInches / cylinders;
  const powerRpm = (1195 / perCylinder) * intakeCfm;
  return [
    {
      ...handedOn('flow-power', 'power from intake flow', '0.257 hp per cfm at 28 inH2O, each cylinder'),
      ...exactly(0.257 * intakeCfm * cylinders, 'hp'),
      here: null,
    },
    {
      ...handedOn(
        'flow-speed',
        'speed of peak power',
        '1195 x cfm / cylinder in3, street cams to 25 % lower',
      ),
      low: 0.75 * powerRpm,
      high: powerRpm,
      unit: 'rpm',
      here: null,
    },
    {
      ...handedOn(
        'port-speed',
        'speed of peak torque, intake port',
        '88200 x area / cylinder in3 (245 ft/s)',
      ),
      ...exactly((TORQUE_SPEED * facts.portIn2) / perCylinder, 'rpm'),
      here: null,
    },
    {
      ...handedOn('primary-speed', 'speed of peak torque, primary', '88200 x area / cylinder in3 (245 ft/s)'),
      ...exactly((TORQUE_SPEED * facts.primaryIn2) / perCylinder, 'rpm'),
      here: null,
    },
    {
      ...worked(
        'carburetor-demand',
        `air drawn at ${topRpm} rpm`,
        'in3 x rpm x 0.95 / 3456, rating at 1.5 inHg',
      ),
      ...exactly((cubicInches * topRpm * 0.95) / 3456, 'cfm'),
      here: facts.ratingCfm,
    },
    {
      ...worked('flow-ceiling', 'intake flow', 'at most 147 cfm per in2 of port at 28 inH2O'),
      low: null,
      high: 147 * facts.portIn2,
      unit: 'cfm',
      here: intakeCfm,
    },
    {
      ...handedOn('exhaust-share', 'exhaust over intake flow', 'usually 75 to 80 %'),
      low: 75,
      high: 80,
      unit: '%',
      here: 100 * facts.exhaustOverIntake,
    },
  ];
}

/** What the fuel and the mixture should be. */
function combustionRules(facts: RuleFacts): RuleOfThumb[] {
  const octane = 92 + 4 * (facts.compressionRatio - 8);
  return [
    {
      ...handedOn(
        'octane',
        'octane for the compression',
        '8:1 needs 92 RON, 4 more a point, modern chambers 8 less',
      ),
      low: octane - 8,
      high: octane,
      unit: 'RON',
      here: facts.researchOctane,
    },
    {
      ...handedOn('mixture', 'lambda for best power', '0.86 to 0.90'),
      low: 0.86,
      high: 0.9,
      unit: '',
      here: facts.lambda,
    },
  ];
}

/** How fast parts may run, how early the spark comes, how wide the collector is. */
function partRules(facts: RuleFacts): RuleOfThumb[] {
  const { topRpm } = facts;
  const [timingLow, timingHigh, chamberKind] = usualTiming(facts.chamber);
  return [
    {
      ...handedOn(
        'piston-speed',
        `piston speed at ${topRpm} rpm`,
        '3500 production parts, 4000 heavy-duty, 5000 drag',
      ),
      low: 3500,
      high: 5000,
      unit: 'ft/min',
      here: (facts.strokeIn * topRpm) / 6,
    },
    {
      ...handedOn('timing', 'best total spark', `${chamberKind}, on gasoline`),
      low: timingLow,
      high: timingHigh,
      unit: 'deg',
      here: null,
    },
    ...(facts.collector === null ? [] : [collectorRule(facts.collector)]),
  ];
}

function collectorRule({ ratio, primaries }: NonNullable<RuleFacts['collector']>): RuleOfThumb {
  // Of four into one; other numbers keep the ratio of areas, as the estimate of a collector does.
  const alike = Math.sqrt(primaries / 4);
  return {
    ...handedOn(
      'collector',
      'collector over primary diameter',
      '1.7 to 1.9 of four, by area of other numbers',
    ),
    low: 1.7 * alike,
    high: 1.9 * alike,
    unit: '',
    here: ratio,
  };
}

type Words = Pick<RuleOfThumb, 'code' | 'subject' | 'says' | 'source'>;

function worked(code: string, subject: string, says: string): Words {
  return { code, subject, says, source: 'worked' };
}

function handedOn(code: string, subject: string, says: string): Words {
  return { code, subject, says, source: 'common practice, no source' };
}

function exactly(value: number, unit: string): Pick<RuleOfThumb, 'low' | 'high' | 'unit'> {
  return { low: value, high: value, unit };
}
