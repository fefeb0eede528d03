/** What several forecasts are asked for: loaded when a command comes to it. */
import {
  backtest,
  calibrate,
  calibratedText,
  choose,
  compare,
  forecastSpread,
  gainUncertainty,
  rank,
  restrictions,
  sweep,
} from '@valvetide/core';

export interface Studies {
  readonly backtest: typeof backtest;
  readonly calibrate: typeof calibrate;
  readonly calibratedText: typeof calibratedText;
  readonly choose: typeof choose;
  readonly compare: typeof compare;
  readonly forecastSpread: typeof forecastSpread;
  readonly gainUncertainty: typeof gainUncertainty;
  readonly rank: typeof rank;
  readonly restrictions: typeof restrictions;
  readonly sweep: typeof sweep;
}

export const STUDIES: Studies = {
  backtest,
  calibrate,
  calibratedText,
  choose,
  compare,
  forecastSpread,
  gainUncertainty,
  rank,
  restrictions,
  sweep,
};
