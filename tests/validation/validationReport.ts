/** The whole validation report: page, plots, and what doesn't hold. */
import { type ValidationPlot, validationPlots } from './plots.ts';
import { allResults } from './results.ts';
import { staleLines } from './staleness.ts';
import { validationDocument } from './validationDocument.ts';

export interface ValidationReport {
  /** Text of docs/validation.md. */
  readonly document: string;
  /** Drawings beside it. */
  readonly plots: readonly ValidationPlot[];
  /** Required figures that don't hold. */
  readonly failures: readonly string[];
  /** What a committed page no longer says rightly. */
  readonly staleIn: (committed: string) => readonly string[];
}

export async function validationReport(onSource?: (title: string) => void): Promise<ValidationReport> {
  const sources = await allResults(onSource);
  const plots = await validationPlots(sources);
  return {
    document: validationDocument(sources, plots),
    plots,
    failures: sources.flatMap(({ source, results }) =>
      results.filter((r) => !r.holds && !r.check.aim).map((r) => `${source.title}: ${r.check.what}`),
    ),
    staleIn: (committed) => staleLines(committed, sources),
  };
}
