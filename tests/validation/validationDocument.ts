/** docs/validation.md from the results of the checks. */
import { errorOf, type PublishedCase } from '../published/publishedCase.ts';
import type { ValidationPlot } from './plots.ts';
import { NOT_MODELLED, PREFACE } from './prose.ts';
import type { CaseResult, SourceResult } from './results.ts';

/** Columns of a case's row, in order. */
export const HEADINGS = ['what', 'published', 'program', 'error', 'allowed', 'holds'] as const;

/** Rows shown as the worst. */
const WORST = 5;

export function validationDocument(
  sources: readonly SourceResult[],
  plots: readonly ValidationPlot[],
): string {
  return [
    PREFACE,
    '## Summary',
    summary(sources),
    '## The worst rows',
    'Those that use up most of what is allowed, closed forms and tables aside:',
    worstRows(sources),
    '## Plots',
    ...plots.flatMap(({ file, title, description }) => [`![${title}](${file})`, description]),
    '## Every figure',
    '"Not yet" stands at an aim that is not required and not reached. A bound has no error; what it leaves is to be read from the two values. Where the published value is 0 the program shows its largest difference.',
    ...sources.map(section),
    NOT_MODELLED,
  ].join('\n\n');
}

function summary(sources: readonly SourceResult[]): string {
  return table(
    ['source', 'figures', 'hold', 'largest share of what is allowed'],
    sources.map(({ source, results }) => {
      const shares = results.map((r) => r.share ?? 0);
      const most = Math.max(...shares);
      return [
        `[${source.title}](#${anchor(source.title)})`,
        `${results.length}`,
        `${results.filter((r) => r.holds).length}`,
        results.some((r) => r.share !== null) ? `${(100 * most).toFixed(0)} %` : '',
      ];
    }),
  );
}

/** Cases of more than rounding, most used up first; those that don't hold before all. */
function worst(sources: readonly SourceResult[]): readonly (readonly [string, CaseResult])[] {
  return sources
    .filter(({ source }) => !source.exact)
    .flatMap(({ source, results }) => results.map((r) => [source.title, r] as const))
    .filter(([, r]) => !r.holds || r.share !== null)
    .sort(([, a], [, b]) => Number(a.holds) - Number(b.holds) || (b.share ?? 0) - (a.share ?? 0))
    .slice(0, WORST);
}

function worstRows(sources: readonly SourceResult[]): string {
  return table(
    ['source', ...HEADINGS],
    worst(sources).map(([title, result]) => [title, ...cells(result)]),
  );
}

function section({ source, results }: SourceResult): string {
  return [
    `### ${source.title}`,
    `Source: ${source.source}.`,
    ...(source.note === undefined ? [] : [source.note]),
    table(HEADINGS, results.map(cells)),
    ...causes(results),
  ].join('\n\n');
}

/** What is believed to be behind the rows that don't hold, each cause once. */
function causes(results: readonly CaseResult[]): readonly string[] {
  const missed = results.filter((r) => !r.holds);
  const known = [...new Set(missed.flatMap(({ check }) => check.cause ?? []))];
  return known.map((cause) => {
    const rows = missed.filter(({ check }) => check.cause === cause).map(({ check }) => check.what);
    return `Not yet (${rows.join('; ')}), believed: ${cause}.`;
  });
}

/** The row of one case. */
export function cells(result: CaseResult): readonly string[] {
  const { check, ours } = result;
  return [
    check.what,
    `${RELATION[check.relation ?? 'equal']}${quantity(check.value, check)}`,
    quantity(ours, check),
    result.share === null ? '' : error(check, ours),
    allowed(check),
    result.holds ? 'yes' : check.aim ? 'not yet' : 'NO',
  ];
}

const RELATION = { equal: '', 'at most': '≤ ', 'at least': '≥ ' } as const;

function quantity(value: number, check: PublishedCase): string {
  return `${value.toFixed(check.decimals)}${check.unit === '' ? '' : ` ${check.unit}`}`;
}

function error(check: PublishedCase, ours: number): string {
  const difference = errorOf(check, ours);
  const sign = difference < 0 ? '-' : '+';
  const size = Math.abs(difference);
  return check.relative ? `${sign}${(100 * size).toPrecision(2)} %` : `${sign}${plain(size)}`;
}

function allowed(check: PublishedCase): string {
  if (check.within === 0) return '';
  return check.relative ? `${plain(100 * check.within)} %` : plain(check.within);
}

/** Two digits that mean something, without an exponent down to a billionth. */
function plain(value: number): string {
  if (value === 0) return '0';
  const digits = Math.max(0, Math.min(9, 1 - Math.floor(Math.log10(value))));
  return value
    .toFixed(digits)
    .replace(/(\.\d*?)0+$/, '$1')
    .replace(/\.$/, '');
}

function table(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (row: readonly string[]): string => `| ${row.join(' | ')} |`;
  return [line(headings), line(headings.map(() => '---')), ...rows.map(line)].join('\n');
}

function anchor(title: string): string {
  return title
    .toLowerCase()
    .replace(/[^a-z0-9 -]/g, '')
    .replaceAll(' ', '-');
}
