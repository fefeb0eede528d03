import { describe, expect, it } from 'vitest';
import { forecast } from '../../packages/core/src/forecast/forecast.ts';
import { engineFile } from '../physics/engines.ts';

/** Source and its uncertain fields: see the file. */
const FILE = 'tests/data/engines/street-350.yaml';
/** Measured [lb-ft], [rpm], [hp], [rpm]. */
const MEASURED = { torque: 377, torqueRpm: 3800, power: 336, powerRpm: 5300 };
const RPM = [3000, 3300, 3600, 3800, 4000, 4300, 4600, 5000, 5300, 5600, 6000];

describe('an engine measured on a dyno, forecast from its sheets alone', () => {
  it('reaches the measured peak torque and power within 8 %', () => {
    const { peak } = forecast(engineFile(FILE), { rpm: RPM });
    expect(Math.abs(peak.torque.torqueLbFt / MEASURED.torque - 1)).toBeLessThan(0.08);
    expect(Math.abs(peak.power.powerHp / MEASURED.power - 1)).toBeLessThan(0.08);
  });

  it('peaks in power within 300 rpm of the measured speed', () => {
    const { peak } = forecast(engineFile(FILE), { rpm: RPM });
    expect(Math.abs(peak.power.rpm - MEASURED.powerRpm)).toBeLessThanOrEqual(300);
  });
});
