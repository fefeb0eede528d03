/** Drawings of the validation report. */
import type { Plot, Point } from '../../packages/cli/src/report/draw/plot.ts';
import { figureTable } from '../../packages/cli/src/report/figure.ts';
import { standaloneSvg } from '../../packages/cli/src/report/standaloneSvg.ts';
import { REFERENCE_TABLE } from '../../packages/core/test/cycle/referenceRun.ts';
import { FIRST, first, populationResults, SECOND, second } from '../published/cases/engineCases.ts';
import { fillingAt } from '../published/cases/waveCases.ts';
import type { SourceResult } from './results.ts';

export interface ValidationPlot {
  /** Beside the page. */
  readonly file: string;
  readonly title: string;
  readonly description: string;
  readonly svg: string;
}

type Drawing = Omit<ValidationPlot, 'file' | 'svg'> & { readonly id: string; readonly plot: Plot };

export async function validationPlots(sources: readonly SourceResult[]): Promise<readonly ValidationPlot[]> {
  const drawings = [rated(), filling(), dyno(), shares(sources)];
  return Promise.all(
    drawings.map(async ({ id, title, description, plot }) => ({
      file: `validation-${id}.svg`,
      title,
      description,
      svg: await standaloneSvg({
        id,
        title,
        description,
        drawing: { kind: 'plot', plot },
        table: figureTable([], []),
      }),
    })),
  );
}

/** Share of the rating that a forecast of a production engine may be off. */
const BAND = 0.15;

function rated(): Drawing {
  const line = (factor: number): readonly Point[] => [7, 10.5].map((x) => ({ x, y: factor * x }));
  const results = populationResults();
  return {
    id: 'population',
    title: 'Production engines of 1985, rated and forecast',
    description: `Brake mean effective pressure at rated power of ${results.length} engines, each forecast from its bore, stroke, compression and rated speed alone; dashed: 15 % either way. A forecast that knows no cam and no port can't tell a lively engine from a lazy one of the same size.`,
    plot: {
      x: { title: 'rated [bar]', domain: [7, 10.5] },
      y: { title: 'forecast [bar]', domain: [6, 12] },
      layers: [
        { kind: 'line', name: 'equal', points: line(1), colour: 'soft' },
        { kind: 'line', name: '15 % off', points: line(1 + BAND), colour: 'soft', dash: 'dashed' },
        { kind: 'line', name: null, points: line(1 - BAND), colour: 'soft', dash: 'dashed' },
        {
          kind: 'dots',
          name: 'engines',
          points: results.map((r) => ({ x: r.rated, y: r.ours })),
          colour: 'a',
          shape: 'circle',
        },
      ],
    },
  };
}

function filling(): Drawing {
  return {
    id: 'filling',
    title: 'Filling by speed, one cylinder with strong waves',
    description:
      'Volumetric efficiency by this program and by an independent one-dimensional solution: peaks at 3500 and 6000 to 6500 rpm, holes at 2500 and 4500.',
    plot: {
      x: { title: 'speed [rpm]', whole: true },
      y: { title: 'volumetric efficiency' },
      layers: [
        {
          kind: 'line',
          name: 'this program',
          points: REFERENCE_TABLE.map(([speed]) => ({ x: speed, y: fillingAt(speed) })),
          colour: 'a',
        },
        {
          kind: 'dots',
          name: 'independent solution',
          points: REFERENCE_TABLE.map(([x, y]) => ({ x, y })),
          colour: 'b',
          shape: 'square',
        },
      ],
    },
  };
}

function dyno(): Drawing {
  const curve = (of: typeof first): readonly Point[] => of().points.map((p) => ({ x: p.rpm, y: p.powerHp }));
  /** Measured power at both peaks; 5252.113 makes horsepower of lb-ft and rpm. */
  const peaks = (m: typeof FIRST): readonly Point[] => [
    { x: m.torqueRpm, y: (m.torque * m.torqueRpm) / 5252.113 },
    { x: m.powerRpm, y: m.power },
  ];
  return {
    id: 'dyno',
    title: 'An engine on a dyno, in two states',
    description:
      'Power forecast from the sheets, and as measured at the peaks of torque and of power. Nothing was fitted.',
    plot: {
      x: { title: 'speed [rpm]', whole: true },
      y: { title: 'power [hp]' },
      layers: [
        { kind: 'line', name: 'second state, forecast', points: curve(second), colour: 'b' },
        { kind: 'dots', name: 'measured', points: peaks(SECOND), colour: 'b', shape: 'square' },
        { kind: 'line', name: 'first state, forecast', points: curve(first), colour: 'a', dash: 'dashed' },
        { kind: 'dots', name: 'measured', points: peaks(FIRST), colour: 'a', shape: 'circle' },
      ],
    },
  };
}

function shares(sources: readonly SourceResult[]): Drawing {
  const points = (exact: boolean): readonly Point[] =>
    sources.flatMap(({ source, results }, i) =>
      (source.exact ?? false) === exact
        ? results.flatMap((r) => (r.share === null ? [] : [{ x: i + 1, y: 100 * r.share }]))
        : [],
    );
  return {
    id: 'errors',
    title: 'Errors over what is allowed',
    description: `Every figure that has an error: ${sources.map(({ source }, i) => `${i + 1} ${source.title}`).join('; ')}.`,
    plot: {
      x: { title: 'source', domain: [0, sources.length + 1], whole: true },
      y: { title: 'error over what is allowed [%]', zero: true },
      layers: [
        { kind: 'rule', name: 'allowed', y: 100, colour: 'soft', dash: 'dashed' },
        { kind: 'dots', name: 'closed forms and tables', points: points(true), colour: 'a', shape: 'circle' },
        {
          kind: 'dots',
          name: 'calculated and measured engines',
          points: points(false),
          colour: 'b',
          shape: 'square',
        },
      ],
    },
  };
}
