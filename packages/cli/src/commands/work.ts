/** `valvetide work`: does forecasts that studies on other machines ask for. */
import { CommandFailure, usageFailure } from '../commandFailure.ts';
import type { CommandSpec, Invocation } from '../commandSpec.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { progressLine } from '../output/progressLine.ts';
import { queueAddress } from '../queue/queueAddress.ts';
import { plain, plainShort } from '../render/plain.ts';
import { version } from '../version.ts';
import { detailOf, whole } from './readFlags.ts';
import { workersOf } from './withWorkers.ts';

export const workCommand: CommandSpec = {
  name: 'work',
  summary: 'do the forecasts that studies on other machines put on a queue',
  operand: '',
  examples: [
    ['valvetide work --queue redis://render:6379', 'a thread a core, until Ctrl-C'],
    [
      'valvetide work --queue redis://render:6379 --workers 2 --idle 600',
      'until there was no work for 10 min',
    ],
    [
      'valvetide sweep engine.yaml --vary "exhaust.primary.length=28:36:0.1 in" --queue redis://render:6379',
      'whose forecasts it does, on any machine',
    ],
  ],
  options: [
    {
      name: 'queue',
      value: 'URL',
      help: 'redis://HOST:PORT, or rediss:// where the connection is encrypted',
    },
    { name: 'workers', value: 'N', help: 'forecasts at a time; without it one a core' },
    { name: 'idle', value: 'SECONDS', help: 'end after so long without work; without it never' },
    { name: 'quiet', short: 'q', help: 'no progress' },
  ],
  notes: [
    'Ctrl-C and SIGTERM let the forecasts under way end, for 20 s at most; what is not done then goes back on the queue. What a machine held that was cut off is taken up by another within 15 s.',
    'Whoever reaches the queue can have forecasts done here: give its server a password, in VALVETIDE_QUEUE_PASSWORD, and let it listen on a network you trust.',
    'The queue takes two packages that valvetide does not bring: npm install --ignore-scripts bullmq@6.7.0 ioredis@6.0.0',
  ],
  run,
};

async function run({ flags, io, core }: Invocation): Promise<ExitCode> {
  const queue = flags.text('queue');
  if (queue === undefined) throw usageFailure('work', 'work needs --queue URL');
  const address = queueAddress(queue, io.env);
  const workers = workersOf(flags);
  const idleSeconds = whole(flags, 'idle', 1, 1_000_000);
  const runner = await core.openRunner(workers, { apart: true });
  const progress = progressLine(io, detailOf(flags));
  const say = (line: string): void => {
    progress.clear();
    io.stderr.write(`${plain(line)}\n`);
  };
  try {
    const { done, handedBack, otherVersion } = await core.workOnQueue(address, {
      workers,
      runner,
      idleSeconds,
      signal: io.watchForStop(['SIGINT', 'SIGTERM']),
      onDone: (so) => progress.show(`${so} forecasts done`),
      say,
    });
    if (otherVersion !== null)
      throw new CommandFailure(EXIT.input, [
        `${address.shown}: valvetide ${plainShort(otherVersion)} asks for forecasts, and this is ${version()}: install one version on both sides`,
      ]);
    if (!flags.on('quiet'))
      say(`${done} forecasts done${handedBack > 0 ? `, ${handedBack} handed back` : ''}`);
    return EXIT.ok;
  } finally {
    progress.clear();
    await runner.close();
  }
}
