/** A study of restrictions for people: what governs first, then each element's bar, the speeds and the changes. */
import type {
  ElementGains,
  Governing,
  OperatingPoint,
  RestrictionElement,
  RestrictionState,
  RestrictionsResult,
} from '@valvetide/core';
import { bandText } from './bandText.ts';
import { basisLine } from './basisLine.ts';
import { fixed } from './fixed.ts';
import { leftOutLines, markedSpeed, marksText, NO_FIGURE, worstOf } from './marched.ts';
import { linesText, warningLines, wrapped } from './notes.ts';
import { answerText, madeBy, paragraphs } from './paragraphs.ts';
import { plain } from './plain.ts';
import { signed } from './signed.ts';
import { type Column, table } from './table.ts';
import type { TextOptions } from './textOptions.ts';
import { SHOWN, type UnitSystem } from './units.ts';

/** Elements in words, short enough for the head of a column; `metering` goes by what the engine has. */
const NAMES: Readonly<Record<Exclude<RestrictionElement, 'metering'>, string>> = {
  'air-cleaner': 'air cleaner',
  restrictor: 'restrictor',
  manifold: 'manifold',
  'intake-port': 'intake port',
  'exhaust-port': 'exhaust port',
  primary: 'primary',
  'collector-and-muffler': 'collector, muffler',
  'charge-heating': 'charge heating',
  pumping: 'pumping',
  friction: 'friction',
};

/** Longest bar in letters. */
const LONGEST = 40;

/** `note` says where the speeds come from; empty where the user named them. */
export function restrictionsText(study: RestrictionsResult, note: string, options: TextOptions): string {
  const { width, units, paint, detail } = options;
  const answer = answerText(restrictionsAnswer(study), options);
  if (detail === 'quiet') return answer;
  const [now, ...changed] = study.states;
  const sections = study.states.filter(
    ({ points }, i) => points !== null && (i === 0 || detail === 'verbose'),
  );
  return paragraphs([
    answer +
      [`${plain(now.name)}. ${basisLine(study, units)}`, note, unfinished(study)]
        .map((line) => wrapped(line, width))
        .join(''),
    now.bandGoverning === null ? '' : bars(study, now, width),
    ...sections.map((state) => bySpeed(study, state, options)),
    fillingTable(now, width),
    changesTable(study, changed, options),
    meanings(study, width),
    linesText(leftOutLines(study.leftOut), width),
    paint.caution(linesText(restrictionsWarnings(study), width)),
    madeBy(study.program),
  ]);
}

/** The warnings of the engine as it is, and those that each change adds. */
export function restrictionsWarnings({ states, warnings }: RestrictionsResult): readonly string[] {
  return [
    ...warningLines(warnings),
    ...states.flatMap(({ name, cautions }) =>
      cautions.map((caution) => plain(`warning: ${name}: ${caution}`)),
    ),
  ];
}

/** The element in the way, over the band. */
export function restrictionsAnswer(study: RestrictionsResult): string {
  const [now] = study.states;
  const { bandGoverning } = now;
  if (bandGoverning === null)
    return now.points === null
      ? 'Interrupted before the first forecast was done'
      : `No mean ${bandText(study)}: a speed has no figures. What is in the way at the others stands below`;
  const { element, torquePct, second, secondPct } = bandGoverning;
  if (element === null)
    return `Nothing much is in the way ${bandText(study)}: no element gains 0.3 % of torque`;
  const next = second === null ? '' : `; next the ${elementName(second, now)}, ${signed(secondPct, 1)} %`;
  return `In the way ${bandText(study)}: the ${elementName(element, now)}, ${signed(torquePct, 1)} % of torque if it were free${next}`;
}

/** The element as the trade calls it in this engine. */
export function elementName(
  element: RestrictionElement,
  { metering }: Pick<RestrictionState, 'metering'>,
): string {
  return element === 'metering' ? metering : NAMES[element];
}

/** Few engines have a restrictor: that there is none says nothing. */
export function isShown({ element, alreadyFree }: ElementGains): boolean {
  return !(element === 'restrictor' && alreadyFree);
}

function bars(study: RestrictionsResult, now: RestrictionState, width: number): string {
  const most = Math.max(0.1, ...now.elements.map(({ band }) => Math.abs(band?.torquePct ?? 0)));
  const length = Math.max(10, Math.min(LONGEST, width - 34));
  const bar = ({ band }: ElementGains): string => {
    const pct = band?.torquePct ?? 0;
    return (pct < 0 ? '-' : '#').repeat(Math.round((Math.abs(pct) / most) * length));
  };
  const columns: Column<ElementGains>[] = [
    { name: 'if free', unit: '', cell: ({ element }) => elementName(element, now), align: 'left' },
    { name: 'torque', unit: '%', cell: shownGain },
    { name: '', unit: '', cell: bar, align: 'left' },
  ];
  const heading = `Torque gained ${bandText(study)} if one alone were free; gains don't add up\n`;
  return heading + table(columns, now.elements.filter(isShown), width, 1);
}

function shownGain({ alreadyFree, byRpm, band }: ElementGains): string {
  if (alreadyFree) return 'is free';
  if (byRpm === null) return 'not run';
  return band === null ? NO_FIGURE : signed(band.torquePct, 1);
}

interface Row {
  readonly rpm: number;
  /** Undefined where the speed was lost. */
  readonly point: NonNullable<RestrictionState['points']>[number] | undefined;
}

function bySpeed(study: RestrictionsResult, state: RestrictionState, { width, units }: TextOptions): string {
  const { points, governing, elements } = state;
  if (points === null) return '';
  const { torque, torqueUnit } = SHOWN[units];
  const columns: Column<Row>[] = [
    { name: 'speed', unit: 'rpm', cell: ({ rpm }) => markedSpeed({ rpm, status: statusAt(state, rpm) }) },
    {
      name: 'torque',
      unit: torqueUnit,
      cell: ({ point }) => (point === undefined ? NO_FIGURE : fixed(torque(point.torqueNm), 1)),
    },
    {
      name: 'in the way',
      unit: '',
      cell: ({ rpm }) => {
        const found = governing.find((entry) => entry.rpm === rpm);
        return found === undefined ? NO_FIGURE : governingName(found, state);
      },
      align: 'left',
    },
    ...elements
      .filter(({ alreadyFree, byRpm }) => !alreadyFree && byRpm !== null)
      .map(
        ({ element, byRpm }): Column<Row> => ({
          name: elementName(element, state),
          unit: '%',
          cell: ({ rpm }) => {
            const gain = byRpm?.find((entry) => entry.rpm === rpm);
            return gain === undefined ? NO_FIGURE : signed(gain.torquePct, 1);
          },
        }),
      ),
  ];
  const rows = study.rpm.map((rpm) => ({ rpm, point: points.find((point) => point.rpm === rpm) }));
  return (
    wrapped(`By speed, ${plain(state.name)}: torque gained if one alone were free`, width) +
    table(columns, rows, width) +
    marksText(rows.map(({ rpm }) => ({ status: statusAt(state, rpm) })))
  );
}

function governingName(governing: Governing | undefined, state: RestrictionState): string {
  if (governing === undefined || governing.element === null) return 'nothing much';
  return elementName(governing.element, state);
}

/** The worst that became of a speed, as it is or with an element free. */
function statusAt({ points, elements }: RestrictionState, rpm: number): OperatingPoint['status'] {
  const lists = [points, ...elements.map(({ byRpm }) => byRpm)].filter((list) => list !== null);
  return worstOf(lists.map((list) => list.find((entry) => entry.rpm === rpm)?.status ?? 'lost'));
}

function fillingTable({ points }: RestrictionState, width: number): string {
  if (points === null) return '';
  const loss = (
    name: string,
    key: keyof (typeof points)[number]['fillingLoss'],
  ): Column<(typeof points)[number]> => ({
    name,
    unit: '%',
    cell: ({ fillingLoss }) => fixed(fillingLoss[key], 1),
  });
  const columns = [
    { name: 'speed', unit: 'rpm', cell: ({ rpm }: { readonly rpm: number }) => fixed(rpm) },
    loss('depression', 'depressionPct'),
    loss('warmth', 'warmthPct'),
    loss('residual', 'residualPct'),
  ];
  return `What takes of the air that a cylinder could hold\n${table(columns, points, width)}`;
}

function changesTable(
  study: RestrictionsResult,
  changed: readonly RestrictionState[],
  { width, units }: TextOptions,
): string {
  if (changed.length === 0) return '';
  const columns = changedStates(study, units);
  return `What is in the way after each change, ${bandText(study)}\n${table(columns, changed, width)}`;
}

/** The columns of what is in the way after a change. */
export function changedStates(
  study: RestrictionsResult,
  units: UnitSystem,
): readonly Column<RestrictionState>[] {
  const { torque, torqueUnit } = SHOWN[units];
  const [now] = study.states;
  return [
    { name: 'after', unit: '', cell: ({ name }) => plain(name), align: 'left' },
    {
      name: 'torque',
      unit: torqueUnit,
      cell: ({ points, bandTorqueNm }) =>
        points === null
          ? 'not run'
          : bandTorqueNm === null || now.bandTorqueNm === null
            ? NO_FIGURE
            : signed(torque(bandTorqueNm - now.bandTorqueNm), 1),
    },
    {
      name: 'in the way',
      unit: '',
      cell: (state) => (state.bandGoverning === null ? '' : governingName(state.bandGoverning, state)),
      align: 'left',
    },
    {
      name: 'if free',
      unit: '%',
      cell: ({ bandGoverning }) => (bandGoverning === null ? '' : signed(bandGoverning.torquePct, 1)),
    },
    {
      name: 'next',
      unit: '',
      cell: (state) => {
        const second = state.bandGoverning?.second ?? null;
        return second === null ? '' : elementName(second, state);
      },
      align: 'left',
    },
    {
      name: 'if free',
      unit: '%',
      cell: ({ bandGoverning }) =>
        bandGoverning === null || bandGoverning.second === null ? '' : signed(bandGoverning.secondPct, 1),
    },
    { name: 'by speed', unit: '', cell: (state) => runs(state), align: 'left' },
  ];
}

/** `4500 manifold, 5500-8000 carburetor`. */
function runs(state: RestrictionState): string {
  const parts: { from: number; to: number; name: string }[] = [];
  for (const governing of state.governing) {
    const name = governingName(governing, state);
    const rpm = governing.rpm ?? 0;
    const last = parts[parts.length - 1];
    if (last?.name === name) last.to = rpm;
    else parts.push({ from: rpm, to: rpm, name });
  }
  return parts
    .map(({ from, to, name }) => `${from === to ? fixed(from) : `${fixed(from)}-${fixed(to)}`} ${name}`)
    .join(', ');
}

function meanings(study: RestrictionsResult, width: number): string {
  return `What free means\n${linesText(
    meaningLines(study).map((line) => `- ${line}`),
    width,
  )}`;
}

/** What free means for each element that is shown in one of the states. */
export function meaningLines({ states, meanings }: RestrictionsResult): readonly string[] {
  const [now] = states;
  const isHidden = (of: RestrictionElement): boolean =>
    states.every(({ elements }) => elements.some((one) => one.element === of && !isShown(one)));
  return meanings
    .filter(({ element }) => !isHidden(element))
    .map(({ element, meaning }) => `${elementName(element, now)}: ${meaning}`);
}

function unfinished({ complete }: RestrictionsResult): string {
  return complete ? '' : 'Interrupted: what was not run is left out.';
}
