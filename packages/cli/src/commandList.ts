/** Every command there is, in the order help shows them. */
import type { CommandSpec } from './commandSpec.ts';
import { backtestCommand } from './commands/backtest.ts';
import { calibrateCommand } from './commands/calibrate.ts';
import { chooseCommand } from './commands/choose.ts';
import { compareCommand } from './commands/compare.ts';
import { completionCommand } from './commands/completion.ts';
import { forecastCommand } from './commands/forecast.ts';
import { initCommand } from './commands/init.ts';
import { inspectCommand } from './commands/inspect.ts';
import { pressuresCommand } from './commands/pressures.ts';
import { pullsCommand } from './commands/pulls.ts';
import { rankCommand } from './commands/rank.ts';
import { restrictionsCommand } from './commands/restrictions.ts';
import { schemaCommand } from './commands/schema.ts';
import { sweepCommand } from './commands/sweep.ts';
import { workCommand } from './commands/work.ts';

const WORKING: readonly CommandSpec[] = [
  forecastCommand,
  compareCommand,
  sweepCommand,
  rankCommand,
  chooseCommand,
  restrictionsCommand,
  pullsCommand,
  pressuresCommand,
  calibrateCommand,
  backtestCommand,
  inspectCommand,
  initCommand,
  schemaCommand,
  workCommand,
];

export const COMMANDS: readonly CommandSpec[] = [...WORKING, completionCommand(WORKING)];
