/** A sweep for people: the best point first, then the picture and every point. */
import type { SweepPoint, SweepResult } from '@valvetide/core';
import { bandText } from './bandText.ts';
import { basisLine } from './basisLine.ts';
import { breachLegend, breachWarnings, markedName } from './breaches.ts';
import { fixed } from './fixed.ts';
import { type Line, linesChart } from './linesChart.ts';
import { leftOutLines } from './marched.ts';
import { linesText, warningLines, wrapped } from './notes.ts';
import { answerText, madeBy, paragraphs } from './paragraphs.ts';
import { plain } from './plain.ts';
import { signed } from './signed.ts';
import { sweptNumbers } from './sweptNumbers.ts';
import { type Column, table } from './table.ts';
import type { TextOptions } from './textOptions.ts';
import { SHOWN, type UnitSystem } from './units.ts';

const LETTERS = 'abcdefghijklmnopqrstuvwxyz';

/** `note` says where the speeds come from; empty where the user named them. */
export function sweepText(sweep: SweepResult, note: string, options: TextOptions): string {
  const { width, units, paint, detail } = options;
  const answer = answerText(sweepAnswer(sweep, units), options);
  if (detail === 'quiet') return answer;
  return paragraphs([
    answer +
      [...sweepNotes(sweep), `${plain(sweep.combination)}. ${basisLine(sweep, units)}`, note]
        .map((line) => wrapped(line, width))
        .join(''),
    chart(sweep, options),
    sweep.variables.length === 2 && detail !== 'verbose' ? grid(sweep, options) : points(sweep, options),
    linesText([...refusals(sweep), ...leftOutLines(sweep.leftOut)], width),
    paint.caution(linesText(sweepWarnings(sweep), width)),
    madeBy(sweep.program),
  ]);
}

/** The best point and what it gains. */
export function sweepAnswer(sweep: SweepResult, units: UnitSystem): string {
  const { best, points: all, baseline } = sweep;
  const { power, powerUnit } = SHOWN[units];
  const top = sweep.highest === null ? null : all[sweep.highest];
  if (top === null)
    return sweep.complete
      ? 'No best: every point has a speed without figures'
      : 'Interrupted before the first point was done';
  const gainOf = ({ bandGainPct }: SweepPoint): string =>
    bandGainPct === null ? '' : `, ${signed(bandGainPct, 1)} %`;
  const limit = `breaks a limit: ${plain(top.breaches[0]?.message ?? '')}`;
  const figures = best === null ? null : all[best.index].figures;
  if (best === null || figures === null)
    return `None is allowed ${bandText(sweep)}: the one that makes most, ${plain(top.name)}${gainOf(top)}, ${limit}`;
  const beyond =
    best.index === sweep.highest ? '' : `. ${plain(top.name)} makes more${gainOf(top)}, but ${limit}`;
  const where = sweep.variables.map(({ path }, i) => `${path} ${best.values[i]}`).join(', ');
  const mean = `${fixed(power(figures.band.powerKw), 1)} ${powerUnit} mean power`;
  if (baseline === null || best.bandGainPct === null)
    return `Best ${bandText(sweep)}: ${plain(where)}, ${mean}${beyond}`;
  const gain = signed(power(figures.band.powerKw - baseline.band.powerKw), 1);
  return `Best ${bandText(sweep)}: ${plain(where)}, ${mean}, ${gain} ${powerUnit} (${signed(best.bandGainPct, 1)} %) against the combination as it is${beyond}`;
}

/** What to know of the best point, of values that were refused, and of an interrupt. */
export function sweepNotes(sweep: SweepResult): readonly string[] {
  const unended = unfinished(sweep);
  return [...bestNotes(sweep), ...(unended === '' ? [] : [unended])];
}

/** How flat the top is, what the combination has now, and whether more may lie beyond. */
function bestNotes({ best, variables, points: all }: SweepResult): readonly string[] {
  if (best === null) return [];
  const broken = all.some(({ breaches }) => breaches.length > 0) ? ' or breaks a limit' : '';
  const now = variables
    .filter(({ current }) => current !== null)
    .map(({ path, current }) => plain(`${path} ${current}`));
  return [
    ...(now.length === 0 ? [] : [`As it is: ${now.join(', ')}.`]),
    ...best.flatness.flatMap(({ path, withinPct, from, to }) => {
      if (from !== to)
        return [plain(`Within ${withinPct} % of the best with ${path} from ${from} to ${to}.`)];
      // No top: beyond the edge it may rise further, and one value alone has none.
      const tried = variables.find((variable) => variable.path === path)?.values.length ?? 0;
      if (best.atEdge.includes(path) || tried < 2) return [];
      return [plain(`A sharp top: the nearest other ${path} tried loses more than ${withinPct} %${broken}.`)];
    }),
    ...best.atEdge.map((path) =>
      plain(`The best ${path} is the first or last that was tried: more may lie beyond.`),
    ),
  ];
}

interface Row {
  readonly label: string;
  readonly cells: readonly string[];
}

/** Gains of a grid, the first variable downward, the second across. */
function grid({ variables, points: all, best, leftOut }: SweepResult, { width }: TextOptions): string {
  const [down, across] = variables;
  const columns: Column<Row>[] = [
    { name: down.path, unit: '', cell: ({ label }) => plain(label), align: 'left' },
    ...across.values.map((value, i) => ({
      name: plain(String(value)),
      unit: '',
      cell: ({ cells }: Row) => cells[i],
    })),
  ];
  const rows = down.values.map((value, r) => ({
    label: String(value),
    cells: across.values.map((_, c) => {
      const index = r * across.values.length + c;
      const mark = best?.index === index ? '*' : all[index].breaches.length > 0 ? '!' : ' ';
      return `${gainCell(all[index], leftOut)}${mark}`;
    }),
  }));
  const heading = `Gain in mean power, %, against the combination as it is; ${plain(across.path)} across, * the best\n`;
  return wrapped(heading.trimEnd(), width) + table(columns, rows, width) + wrapped(breachLegend(all), width);
}

function gainCell({ name, bandGainPct, refused }: SweepPoint, leftOut: SweepResult['leftOut']): string {
  if (refused !== null) return 'refused';
  if (bandGainPct === null && leftOut.some(({ curve }) => curve === name)) return 'lost';
  return bandGainPct === null ? 'not run' : signed(bandGainPct, 2);
}

function points(
  { variables, points: all, best, leftOut }: SweepResult,
  { width, units }: TextOptions,
): string {
  const { torque, torqueUnit, power, powerUnit } = SHOWN[units];
  const shown = (value: (figures: NonNullable<SweepPoint['figures']>) => string) => (point: SweepPoint) =>
    point.figures === null ? '' : value(point.figures);
  const mark = (point: SweepPoint): string =>
    all[best?.index ?? -1] === point ? ' *' : markedName('', point);
  const columns: Column<SweepPoint>[] = [
    ...variables.map(({ path }, i) => ({
      name: path,
      unit: '',
      cell: (point: SweepPoint) => plain(`${point.values[i]}${i === 0 ? mark(point) : ''}`),
      align: 'left' as const,
    })),
    {
      name: 'mean',
      unit: powerUnit,
      cell: (point) =>
        point.figures === null ? gainCell(point, leftOut) : fixed(power(point.figures.band.powerKw), 1),
    },
    { name: 'gain', unit: '%', cell: (point) => (point.figures === null ? '' : gainCell(point, leftOut)) },
    { name: 'mean', unit: torqueUnit, cell: shown(({ band }) => fixed(torque(band.torqueNm), 1)) },
    { name: 'peak', unit: torqueUnit, cell: shown(({ peak }) => fixed(torque(peak.torque.torqueNm), 1)) },
    { name: 'at', unit: 'rpm', cell: shown(({ peak }) => fixed(peak.torque.rpm)) },
    { name: 'peak', unit: powerUnit, cell: shown(({ peak }) => fixed(power(peak.power.powerKw), 1)) },
    { name: 'at', unit: 'rpm', cell: shown(({ peak }) => fixed(peak.power.rpm)) },
    {
      name: 'worst loss',
      unit: '%',
      cell: ({ figures, worstLoss }) =>
        figures === null ? '' : worstLoss === null ? 'none' : fixed(worstLoss.torquePct, 1),
    },
    { name: 'at', unit: 'rpm', cell: ({ worstLoss }) => (worstLoss === null ? '' : fixed(worstLoss.rpm)) },
  ];
  return `${table(columns, all, width)}* the best\n${wrapped(breachLegend(all), width)}`;
}

/** Mean power along the first variable, a line for each value of the second; none where the values are no numbers of one unit. */
function chart({ variables, points: all }: SweepResult, { width, units }: TextOptions): string {
  const { power, powerUnit } = SHOWN[units];
  const [along, other] = variables;
  const scale = sweptNumbers(along.values);
  if (scale === null) return '';
  const letters = other?.values ?? [''];
  if (letters.length > LETTERS.length) return '';
  const lines = letters.map(
    (value, i): Line => ({
      letter: other === undefined ? '*' : LETTERS[i],
      points: all.flatMap((point) => {
        if (point.figures === null || (other !== undefined && point.values[1] !== value)) return [];
        const x = scale.numbers[along.values.indexOf(point.values[0])];
        return [{ x, y: power(point.figures.band.powerKw) }];
      }),
    }),
  );
  const drawn = linesChart(lines, { width, unit: plain(scale.unit), zero: false });
  if (drawn === '') return '';
  const key =
    other === undefined
      ? ''
      : `; ${other.path} ${other.values.map((value, i) => `${LETTERS[i]} ${value}`).join(', ')}, # where they meet`;
  return wrapped(plain(`Mean power, ${powerUnit}, along ${along.path}${key}`), width) + drawn;
}

function refusals({ variables, points: all }: SweepResult): readonly string[] {
  return all.flatMap(({ values, refused }) => {
    if (refused === null) return [];
    return [
      plain(`refused: ${variables.map(({ path }, i) => `${path} ${values[i]}`).join(', ')}: ${refused}`),
    ];
  });
}

/** What the combination is warned of as it is, and what a point raises beyond that. */
export function sweepWarnings({ warnings, points: all }: SweepResult): readonly string[] {
  const at = ({ values }: SweepPoint): string => values.join(', ');
  const breaches = all.flatMap((point) => breachWarnings(`at ${at(point)} it`, point));
  const cautions = [...new Set(all.flatMap((point) => point.cautions))].map((caution) => {
    const where = all.filter((point) => point.cautions.includes(caution)).map(at);
    return plain(`warning: at ${where.join('; ')}: ${caution}`);
  });
  return [...warningLines(warnings), ...breaches, ...cautions];
}

function unfinished({ complete, points: all }: SweepResult): string {
  if (complete) return '';
  const done = all.filter(({ figures }) => figures !== null).length;
  return `Interrupted: ${done} of ${all.length} points were forecast.`;
}
