/** A calibration for people: what moved and how surely, before and after by speed, what could not be told. */
import type { CalibrationResult, FitPoint, FittedKnob } from '@valvetide/core';
import { referenceAir } from './correction.ts';
import { fixed } from './fixed.ts';
import { leftOutLines } from './marched.ts';
import { calibrationChart } from './measuredChart.ts';
import { linesText, noteLines, wrapped } from './notes.ts';
import { answerText, madeBy, paragraphs } from './paragraphs.ts';
import { plain } from './plain.ts';
import { heldBackLine } from './pullRate.ts';
import { signed } from './signed.ts';
import { type Column, table } from './table.ts';
import type { TextOptions } from './textOptions.ts';
import { SHOWN, type UnitSystem } from './units.ts';

/** What a builder does to measure a knob. */
const MEASURED_BY: Readonly<Partial<Record<FittedKnob['name'], string>>> = {
  flow: 'the intake flow, on another bench',
  metering: 'the flow of the carburetor or throttle, on a bench',
  dyno: 'what this dyno reads, with weights hung on its arm',
};

/** `written` says where the calibrated combination went; empty for nothing to say. */
export function calibrationText(result: CalibrationResult, written: string, options: TextOptions): string {
  const { width, units } = options;
  return paragraphs([
    answerText(calibrationAnswer(result), options) +
      [calibrationBasis(result, units), heldBackLine(result.heldBack, units), written]
        .map((line) => wrapped(line, width))
        .join(''),
    table(knobColumns(), result.knobs, width),
    [
      '+/- is one standard deviation: the true value lies within it two times in three, within twice of it 19 times in 20.',
      ...calibrationFindings(result),
    ]
      .map((line) => wrapped(line, width))
      .join(''),
    table(calibrationPoints(result, units), result.points, width),
    calibrationChart(result, options),
    disagreement(result, width),
    linesText([...noteLines(result.notes), ...leftOutLines(result.leftOut)], width),
    madeBy(result.program),
  ]);
}

export function calibrationAnswer(result: CalibrationResult): string {
  const { outcome, error, sheets, combination } = result;
  const names = sheets.map(plain).join(', ');
  const errors = `${fixed(100 * error.before, 1)} % before, ${fixed(100 * error.after, 1)} % after`;
  if (outcome === 'fitted')
    return `${plain(combination)} fitted to ${names}: off by ${errors} (root mean square)`;
  if (outcome === 'lost')
    return `${plain(combination)} not fitted to ${names}: too many speeds have no figures`;
  const taken = result.calibration === null ? '' : '; accepted all the same';
  return `${plain(combination)} and ${names} disagree: off by ${errors}, and no knob within its limits does better${taken}`;
}

/** What the measured figures count as, and how they are weighed. */
export function calibrationBasis(result: CalibrationResult, units: UnitSystem): string {
  const { repeatability, modelError, standard, forecasts, points } = result;
  const { pulls, deviation, assumed } = repeatability;
  const scatter = `${fixed(100 * deviation, 2)} %${assumed ? ' (assumed)' : ''}`;
  const measured = points.some(({ kind }) => kind !== 'torque')
    ? `peak figures are taken as right to ${scatter}, their speeds to 200 rpm beside the model's own error`
    : `a pull scatters by ${scatter}, and there ${pulls === 1 ? 'is 1 pull' : `are ${pulls} pulls`}`;
  return `Measured figures are taken as ${referenceAir(standard, units)}. What they weigh, in standard deviations: ${measured}; the model is taken to be off by ${fixed(100 * modelError, 1)} % at each speed, wherever its knobs stand. ${forecasts} forecasts were run.`;
}

/** Each knob before and after, and how sure it is. */
export function knobColumns(): readonly Column<FittedKnob>[] {
  const unit = ({ unit: u }: FittedKnob): string => (u === '' ? '' : ` ${u}`);
  const digits = ({ unit: u }: FittedKnob): number => (u === '%' ? 2 : 3);
  return [
    { name: 'knob', unit: '', cell: ({ what }) => what, align: 'left' },
    { name: 'before', unit: '', cell: (knob) => `${fixed(knob.before, digits(knob))}${unit(knob)}` },
    { name: '+/-', unit: '', cell: (knob) => fixed(knob.spreadBefore, digits(knob)) },
    {
      name: 'after',
      unit: '',
      cell: (knob) => `${fixed(knob.after, digits(knob))}${unit(knob)}${knob.atLimit ? '!' : ''}`,
    },
    { name: '+/-', unit: '', cell: (knob) => fixed(knob.spread, digits(knob)) },
  ];
}

/** What the figures could and could not tell. */
export function calibrationFindings({
  knobs,
  confusions,
  points,
  measureFirst,
}: CalibrationResult): readonly string[] {
  const nameOf = (name: FittedKnob['name']): string => knobs.find((knob) => knob.name === name)?.what ?? name;
  const hardly = knobs.filter((knob) => knob.told === 'hardly').map(({ what }) => what);
  const lines = confusions.map(({ knobs: [a, ...others], correlation }) => {
    if (others.length > 1)
      return `${capital(nameOf(a))} cannot be told apart from ${listed(others.map(nameOf))} together (correlation ${fixed(correlation, 2)}). Trust what they do together, not any one value.`;
    const [b] = others;
    const sense = correlation < 0 ? 'more of one with less of the other' : 'more of both, or less of both,';
    return `${capital(nameOf(a))} and ${nameOf(b)} cannot be told apart by these figures: ${sense} fits as well (correlation ${fixed(correlation, 2)}). Trust what the two do together, not either value by itself.`;
  });
  if (hardly.length > 0)
    lines.push(
      `These figures say next to nothing of ${listed(hardly)}: little surer after the fit than before it.`,
    );
  if (points.length > 0 && points.every(({ kind }) => kind !== 'torque'))
    lines.push('Peaks alone say little about a curve; a sheet of the whole pull says more about each knob.');
  if (measureFirst !== null)
    lines.push(
      `Measure this first: ${measuredBy(measureFirst, knobs)}. What the fit leaves open of mean power is then +/- ${fixed(measureFirst.leftPct, 2)} % in place of ${fixed(measureFirst.sigmaPct, 2)} %.`,
    );
  const dyno = knobs.find(({ name }) => name === 'dyno');
  if (dyno !== undefined)
    lines.push(
      `${isAtWheels(dyno) ? 'At the wheels this' : 'This'} dyno reads ${signed(100 * (dyno.after - 1), 1)} % against the engine, give or take ${fixed(100 * dyno.spread, 1)} %: no forecast and no gain is moved by that.${noDriveline(dyno)}`,
    );
  if (knobs.some((knob) => knob.atLimit)) lines.push('! stopped at its limit; the figures ask for more.');
  return lines;
}

function measuredBy({ knob }: { readonly knob: FittedKnob['name'] }, knobs: readonly FittedKnob[]): string {
  const found = knobs.find(({ name }) => name === knob);
  if (found !== undefined && isAtWheels(found))
    return 'what driveline and tyres take, by the engine on an engine dyno, or as the dyno tells it from a run down in gear';
  return MEASURED_BY[knob] ?? found?.what ?? knob;
}

/** A dyno that brakes the wheels is believed to read less than the engine gives, before anything is fitted. */
function isAtWheels({ name, before }: FittedKnob): boolean {
  return name === 'dyno' && before < 1;
}

/** Where next to nothing is left for a driveline: more than any dyno's own error explains. */
function noDriveline(dyno: FittedKnob): string {
  return isAtWheels(dyno) && dyno.after > dyno.before + 2 * dyno.spreadBefore
    ? ' Driveline and tyres take more than that: are these figures those of the engine, worked out by the dyno? Then take the word of wheels out of the sheet.'
    : '';
}

/** `a`, `a and b`, `a, b and c`. */
function listed(names: readonly string[]): string {
  const last = names[names.length - 1];
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${last}`;
}

/** What was measured, and the forecast before and after. */
export function calibrationPoints(result: CalibrationResult, units: UnitSystem): readonly Column<FitPoint>[] {
  const { torque, torqueUnit, power, powerUnit } = SHOWN[units];
  const isSpeed = (kind: FitPoint['kind']): boolean => kind.endsWith('speed');
  const shown = (kind: FitPoint['kind'], value: number): string => {
    if (isSpeed(kind)) return `${fixed(value)} rpm`;
    return kind.startsWith('power')
      ? `${fixed(power(value), 1)} ${powerUnit}`
      : `${fixed(torque(value), 1)} ${torqueUnit}`;
  };
  const off = (side: 'before' | 'after') => (point: FitPoint) =>
    isSpeed(point.kind)
      ? signed(point[side] - point.measured)
      : signed(100 * (point[side] / point.measured - 1), 1);
  const curve = result.points.every(({ kind }) => kind === 'torque');
  const what: Column<FitPoint> = curve
    ? { name: 'speed', unit: 'rpm', cell: ({ rpm }) => fixed(rpm) }
    : { name: 'figure', unit: '', cell: ({ kind }) => kind, align: 'left' };
  const value = (side: 'measured' | 'before' | 'after') => (point: FitPoint) =>
    curve ? fixed(torque(point[side]), 1) : shown(point.kind, point[side]);
  const unit = curve ? torqueUnit : '';
  return [
    what,
    { name: 'measured', unit, cell: value('measured') },
    { name: 'before', unit, cell: value('before') },
    { name: 'off', unit: curve ? '%' : '%, rpm', cell: off('before') },
    { name: 'after', unit, cell: value('after') },
    { name: 'off', unit: curve ? '%' : '%, rpm', cell: off('after') },
  ];
}

function disagreement({ disagreement: found }: CalibrationResult, width: number): string {
  if (found === null) return '';
  const culprits = found.culprits.map((culprit) => `- ${culprit}`);
  return `${wrapped(found.message, width)}Check first:\n${linesText(culprits, width)}`;
}

function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}
