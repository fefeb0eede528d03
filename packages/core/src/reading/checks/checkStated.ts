/** Cross-checks on what a file states, before any gap is filled. */
import type { Problem } from '../../combination/problem.ts';
import type { CombinationDocument } from '../combinationDocument.ts';
import type { PartialFile } from '../schema/combinationFile.ts';
import { checkCalibration } from './checkCalibration.ts';
import { checkCam } from './checkCam.ts';
import { checkEngine } from './checkEngine.ts';
import { checkParts } from './checkParts.ts';
import { Report } from './report.ts';

/** All of them, on whichever sections could be read. */
export function checkStated(document: CombinationDocument, file: PartialFile): readonly Problem[] {
  const report = new Report(document);
  checkEngine(file, report);
  checkCam(file, report);
  checkParts(file, report);
  checkCalibration(file, report);
  return report.problems;
}
