/** Checks of block, chamber and valves as stated. */

import { counted } from '../../base/counted.ts';
import { SIDES } from '../../combination/sides.ts';
import { pistonArea } from '../../geometry/sliderCrank.ts';
import { layout, usualFiringOrder } from '../defaults/firing.ts';
import { splitValves } from '../defaults/valves.ts';
import { statedOrder } from '../resolve/resolveBlock.ts';
import { valveCounts } from '../resolve/resolveValves.ts';
import type { PartialFile } from '../schema/combinationFile.ts';
import type { EngineSection } from '../schema/engineSection.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import type { Report } from './report.ts';

/** Rod over stroke that an engine can have [-]: shorter hits the liner, longer is a slip. */
const ROD_LIMITS = { min: 1.1, max: 3.5 } as const;

export function checkEngine(file: PartialFile, report: Report): void {
  const { engine } = file;
  if (engine !== undefined) {
    checkFiring(engine, report);
    checkPartition(engine.banks, engine.cylinders, 'engine.banks', 'banks', report);
    checkPartition(file.exhaust?.groups, engine.cylinders, 'exhaust.groups', 'groups', report);
    checkRod(engine, report);
  }
  checkChamber(file, report);
  checkValves(file, report);
}

function checkRod({ rod, stroke }: EngineSection, report: Report): void {
  if (rod === undefined) return;
  const ratio = rod / stroke;
  if (ratio >= ROD_LIMITS.min && ratio <= ROD_LIMITS.max) return;
  report.problem(
    'engine.rod',
    'rod',
    `is impossible with this stroke: rod over stroke is ${ratio.toFixed(2)}`,
  );
}

function checkFiring(engine: EngineSection, report: Report): void {
  const { cylinders, firingIntervals: intervals } = engine;
  const order = statedOrder(engine.firingOrder);
  const kind = engine.layout ?? layout(cylinders).value;
  if (order === null && usualFiringOrder(cylinders, kind) === null) {
    const message = `is needed: no usual one is known for ${counted(cylinders, 'cylinder')}, ${kind}`;
    report.problem('engine.firingOrder', 'firing-order', message);
  }
  if (order !== null && !isEach(order, cylinders)) {
    report.problem(
      'engine.firingOrder',
      'firing-order',
      `must hold each cylinder from 1 to ${cylinders} once`,
    );
  }
  if (intervals === undefined) return;
  const sum = intervals.reduce((total, interval) => total + interval, 0);
  if (intervals.length !== cylinders) {
    report.each('engine.firingIntervals', 'firing-intervals', intervals.length, cylinders, null, 'interval');
  } else if (!(Math.abs(sum - 720) <= 0.5)) {
    report.problem('engine.firingIntervals', 'firing-intervals', `adds up to ${sum} deg, not 720 deg`);
  }
}

function checkPartition(
  groups: readonly (readonly number[])[] | undefined,
  cylinders: number,
  path: FieldPath,
  noun: 'banks' | 'groups',
  report: Report,
): void {
  if (groups === undefined || isEach(groups.flat(), cylinders)) return;
  report.problem(path, noun, `must hold each cylinder from 1 to ${cylinders} once, in all ${noun} together`);
}

function isEach(numbers: readonly number[], cylinders: number): boolean {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted.length === cylinders && sorted.every((number, index) => number === index + 1);
}

function checkChamber(file: PartialFile, report: Report): void {
  const { chamber, engine } = file;
  if (chamber === undefined && report.wrote('chamber')) return;
  const { volume, compression, dome, dish, deck, gasketThickness, gasketBore } = chamber ?? {};
  for (const field of ['compressions', 'volumes'] as const) {
    report.each(
      `chamber.${field}`,
      'by-cylinder',
      chamber?.[field]?.length,
      engine?.cylinders,
      'give one a cylinder',
    );
  }
  if (compression === undefined && volume === undefined) {
    const hint = 'give chamber.compression, or chamber.volume and the other volumes';
    report.problem(
      'chamber',
      'compression-missing',
      'has neither a compression ratio nor a chamber volume',
      hint,
    );
    for (const field of ['dome', 'dish', 'deck', 'gasketBore', 'gasketThickness', 'crevice'] as const) {
      if (chamber?.[field] !== undefined)
        report.problem(`chamber.${field}`, 'volume-missing', 'is of no use without chamber.volume');
    }
  }
  if (engine === undefined) return;
  const disc = pistonArea(engine);
  const above = (volume ?? 0) + (dish ?? 0) + disc * ((deck ?? 0) + (gasketThickness ?? 0.001));
  if (volume !== undefined && dome !== undefined && !(dome < above)) {
    report.problem('chamber.dome', 'dome', 'leaves no room: it is larger than the volume around it');
  }
  if (deck !== undefined && gasketThickness !== undefined && !(deck > -gasketThickness)) {
    report.problem(
      'chamber.deck',
      'deck',
      'puts the piston into the head: it stands proud by more than the gasket',
    );
  }
  if (gasketBore !== undefined && !(gasketBore >= 0.98 * engine.bore)) {
    report.problem(
      'chamber.gasketBore',
      'gasket-bore',
      `is smaller than the bore, ${report.length(engine.bore)}`,
    );
  }
}

function checkValves(file: PartialFile, report: Report): void {
  const { heads } = file;
  if (heads === undefined && report.wrote('heads')) return;
  if (valveCounts(heads) === null) {
    const path = heads === undefined ? 'heads' : 'heads.valvesPerCylinder';
    report.problem(path, 'missing', 'is missing', 'write heads: { valvesPerCylinder: 2 }');
  }
  if (heads?.valvesPerCylinder !== undefined) {
    const split = splitValves(heads.valvesPerCylinder);
    const stated = (heads.intake?.valves ?? split.intake) + (heads.exhaust?.valves ?? split.exhaust);
    if (stated !== heads.valvesPerCylinder) {
      const message = `is ${heads.valvesPerCylinder}, but intake and exhaust valves add up to ${stated}`;
      report.problem('heads.valvesPerCylinder', 'valve-count', message);
    }
  }
  for (const side of SIDES) {
    const { valve, throat, stem, minimumArea, portArea } = heads?.[side] ?? {};
    if (valve !== undefined && throat !== undefined && !(throat < valve)) {
      report.problem(
        `heads.${side}.throat`,
        'throat',
        `is not smaller than the valve, ${report.length(valve)}`,
      );
    }
    if (valve !== undefined && stem !== undefined && !(stem < valve / 2)) {
      report.problem(`heads.${side}.stem`, 'stem', `is too thick for a valve of ${report.length(valve)}`);
    }
    if (minimumArea !== undefined && portArea !== undefined && !(minimumArea <= portArea)) {
      report.problem(`heads.${side}.minimumArea`, 'port-area', 'is larger than the mean area of the port');
    }
  }
}
