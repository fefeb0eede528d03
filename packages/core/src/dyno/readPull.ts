/** One pull of a dyno sheet: its remarks, its air and its points in order. */
import { counted } from '../base/counted.ts';
import type { Problem } from '../combination/problem.ts';
import type { CorrectionStandard, Weather } from '../combination/running.ts';
import { brakeFactorIn } from '../forecast/weatherCorrection.ts';
import { sheetProblem } from '../reading/sheet/sheetProblem.ts';
import { impossibleAir, partOfAir, weatherOf } from './airOfDay.ts';
import type { DynoColumnKind } from './dynoColumns.ts';
import type { Remark } from './dynoLines.ts';
import { type DynoMeta, readMeta } from './dynoMeta.ts';
import { orderPull, type PullPoint, type PullRows } from './dynoPulls.ts';
import { type DynoRow, lineList } from './dynoRows.ts';

/** One pull, speeds rising. */
export interface Pull {
  /** As the sheet calls it, or its number in the sheet. */
  readonly name: string;
  /** Air the pull was made in; null where the sheet doesn't say. */
  readonly weather: Weather | null;
  /**
   * How much its speed rose in a second [1/min/s], below 0 where it fell; 0: speeds were held, or the dyno added what the pull held back.
   * Absent: the sheet doesn't say.
   */
  readonly rate?: number;
  /** One a speed, rising. */
  readonly points: readonly PullPoint[];
}

/** Fewest speeds that make a pull. */
export const MIN_POINTS = 2;
/** Printed and computed correction factors may differ by so much [-]. */
const FACTOR_SLACK = 0.006;

/** What remarks say, on top of what was said before; as it was before, and a problem told, where the air is impossible. */
export function readRemarks(
  remarks: readonly Remark[],
  before: DynoMeta,
  name: string,
  problems: Problem[],
): DynoMeta {
  let meta = before;
  for (const { text, line } of remarks) {
    const read = readMeta(text, line, meta);
    if ('slip' in read) {
      problems.push(sheetProblem(name, line, read.slip.code, read.slip.message, read.slip.hint));
      continue;
    }
    meta = read.meta;
    const impossible = impossibleAir(meta);
    if (impossible !== null) {
      const message = `gives an impossible ${impossible}: '${text.trim().slice(0, 40)}'`;
      problems.push(sheetProblem(name, line, 'out-of-range', message));
      return before;
    }
  }
  return meta;
}

/** What a pull is read with; problems and notes are added to. */
export interface PullContext {
  readonly opening: DynoMeta;
  readonly standard: CorrectionStandard;
  readonly name: string;
  readonly problems: Problem[];
  readonly notes: string[];
}

/** Null where it is no pull: too few speeds, or a problem that is told. */
export function readPull(group: PullRows, index: number, of: number, context: PullContext): Pull | null {
  const { opening, standard, name, problems, notes } = context;
  const remarks =
    index === 0 && group.name === null
      ? []
      : group.rows.flatMap((row) => (row.source.line > 0 ? row.source.remarks : []));
  const fresh = { ...opening, pull: null, rate: null, way: null };
  const own = index === 0 ? opening : readRemarks(remarks, fresh, name, problems);
  const meta = own.rate === null ? { ...own, rate: opening.rate, way: opening.way } : own;
  const pullName = group.name ?? meta.pull ?? String(index + 1);
  const label = of === 1 ? '' : `pull ${pullName}: `;
  const ordered = orderPull(group.rows, label);
  if (ordered.fault !== null) {
    problems.push(
      sheetProblem(name, ordered.fault.line, 'sheet-speed', ordered.fault.message, ordered.fault.hint),
    );
    return null;
  }
  notes.push(...ordered.repairs);
  if (ordered.points.length < MIN_POINTS) {
    notes.push(
      `${label}only ${counted(ordered.points.length, 'speed')}, left out (line ${group.rows[0].line})`,
    );
    return null;
  }
  if (meta.unread.length > 0)
    notes.push(
      `speaks of the air at ${lineList(meta.unread)} in words that were not understood: write it like \`Barometer: 29.35 inHg\``,
    );
  const known = withColumns(meta, group.rows);
  const air = weatherOf(known);
  const part = partOfAir(known);
  if (part !== null) notes.push(part);
  if (air !== null && air.note !== null) notes.push(air.note);
  checkFactor(meta, air?.weather ?? null, standard, notes);
  const rate = rateOf(meta, ordered.turned, label, notes);
  return {
    name: pullName,
    weather: air?.weather ?? null,
    ...(rate === null ? {} : { rate }),
    points: ordered.points,
  };
}

/** Rate of a pull with its sign [1/min/s]; 0 where nothing is held back; null where nothing is said. */
function rateOf(
  { rate, way, inertiaCorrected }: DynoMeta,
  turned: boolean,
  label: string,
  notes: string[],
): number | null {
  if (inertiaCorrected) {
    if (rate !== null && rate !== 0)
      notes.push(
        `${label}is corrected for inertia by its dyno: nothing is added for its ${Math.abs(rate)} rpm/s`,
      );
    return 0;
  }
  if (rate === null || rate === 0) return rate;
  if (way !== null) return way === 'falling' ? -Math.abs(rate) : rate;
  if (!turned) return rate;
  notes.push(
    `${label}its ${rate} rpm/s is taken as falling, as its rows do; write rising beside it where they are merely listed that way`,
  );
  return -rate;
}

/** Weather from columns where no line gives it: the mean over the pull. */
function withColumns(meta: DynoMeta, rows: readonly DynoRow[]): DynoMeta {
  const mean = (kind: DynoColumnKind): number | null => {
    const values = rows.flatMap((row) => row.others.get(kind) ?? []);
    return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
  };
  return {
    ...meta,
    barometer: meta.barometer ?? mean('barometerKpa'),
    temperature: meta.temperature ?? mean('airTemperatureK'),
    vapourPressure: meta.vapourPressure ?? mean('vapourPressureKpa'),
  };
}

/** A printed factor that its standard's own formula does not give for the printed air. */
function checkFactor(
  { factor }: DynoMeta,
  weather: Weather | null,
  standard: CorrectionStandard,
  notes: string[],
): void {
  if (factor === null || weather === null || standard === 'none') return;
  const own = brakeFactorIn(standard, weather);
  if (Math.abs(own - factor) <= FACTOR_SLACK) return;
  const other = standard === 'J607' ? 'J1349' : 'J607';
  const fits = Math.abs(brakeFactorIn(other, weather) - factor) <= FACTOR_SLACK;
  const guess = fits ? `; ${other} gives it, so the standard may be ${other}` : '';
  notes.push(`prints the factor ${factor}, ${standard} gives ${own.toFixed(4)} for its air${guess}`);
}
