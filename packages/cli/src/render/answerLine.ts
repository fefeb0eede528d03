/** The one line a builder reads first: peaks, their speeds, the reference air and the fidelity. */
import type { Curve } from '@valvetide/core';
import { referenceAir } from './correction.ts';
import { fixed } from './fixed.ts';
import { peakFigure } from './shortFigure.ts';
import type { UnitSystem } from './units.ts';

export function answerLine(curve: Curve, units: UnitSystem): string {
  if (curve.peak === null) return 'No figures at any speed';
  const { torque, power } = curve.peak;
  const [torqueText, powerText] =
    units === 'trade'
      ? [`${peakFigure(torque.torqueLbFt)} lb-ft`, `${peakFigure(power.powerHp)} hp`]
      : [`${peakFigure(torque.torqueNm)} Nm`, `${peakFigure(power.powerKw)} kW`];
  const basis = `${referenceAir(curve.correction.standard, units)}, ${curve.fidelity}`;
  return `Peak ${torqueText} at ${fixed(torque.rpm)} rpm, ${powerText} at ${fixed(power.rpm)} rpm (${basis})`;
}
