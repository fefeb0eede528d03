/** What a calibration says of a dyno that brakes the wheels. */
import { describe, expect, it } from 'vitest';
import { calibrationFindings } from '../src/render/calibrationText.ts';
import { sampleCalibration } from './report/sampleStudies.ts';

const said = (before: number, after: number): string => {
  const [friction] = sampleCalibration().knobs;
  const dyno = { ...friction, name: 'dyno', what: 'what this dyno reads', before, after } as const;
  const knobs = [{ ...dyno, spreadBefore: 0.05, spread: 0.02 }];
  return calibrationFindings(sampleCalibration({ knobs })).join(' ');
};

describe('calibrationFindings(result)', () => {
  it('asks whether figures at the wheels are those of the engine, where nothing is left for the driveline', () => {
    expect(said(0.87, 0.99)).toContain('At the wheels this dyno reads -1.0 % against the engine');
    expect(said(0.87, 0.99)).toContain('are these figures those of the engine');
    expect(said(0.87, 0.9)).not.toContain('are these figures those of the engine');
  });

  it('asks nothing of a dyno on the crank that reads high', () => {
    expect(said(1, 1.12)).toContain('This dyno reads +12.0 % against the engine');
    expect(said(1, 1.12)).not.toContain('are these figures those of the engine');
  });
});
