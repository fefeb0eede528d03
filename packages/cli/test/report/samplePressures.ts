/** A comparison of pressures as the library would give it, invented. */
import type { PressureComparison } from '@valvetide/core';

export function samplePressures(): PressureComparison {
  const angleDeg = Array.from({ length: 240 }, (_, i) => -360 + 3 * i);
  const wave = (angle: number): number => {
    const turn = (angle * Math.PI) / 180;
    return 115e3 + 14e3 * Math.sin(turn / 2) + 8e3 * Math.cos(1.5 * turn);
  };
  const measuredPa = angleDeg.map(wave);
  const forecastPa = angleDeg.map((angle) => wave(angle - 4.2));
  const swing = Math.max(...measuredPa) - Math.min(...measuredPa);
  return {
    schemaVersion: 1,
    program: { name: 'valvetide', version: '0.1.0' },
    combination: 'Invented single',
    overlays: [
      {
        sheet: 'p.csv',
        rpm: 6000,
        cylinder: 1,
        place: 'exhaust',
        fromValveM: 0.26,
        fidelity: 'representative',
        status: 'settled',
        angleDeg,
        measuredPa,
        forecastPa,
        meanMeasuredPa: 115e3,
        meanForecastPa: 115e3,
        swingMeasuredPa: swing,
        swingForecastPa: swing,
        rootMeanSquarePa: 900,
        lagDeg: 4.2,
        likeness: 0.99,
      },
    ],
    notes: [],
  };
}
