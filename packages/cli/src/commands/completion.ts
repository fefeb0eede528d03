/** `valvetide completion`: what a shell needs to complete our command lines. */
import { usageFailure } from '../commandFailure.ts';
import { type CommandSpec, type Invocation, OUTPUT_OPTIONS } from '../commandSpec.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { chooseDestination, deliver } from '../output/deliver.ts';
import { bashCompletion } from '../render/completion/bashCompletion.ts';
import { fishCompletion } from '../render/completion/fishCompletion.ts';
import { zshCompletion } from '../render/completion/zshCompletion.ts';
import { plainShort } from '../render/plain.ts';

const SHELLS: ReadonlyMap<string, (commands: readonly CommandSpec[]) => string> = new Map([
  ['bash', bashCompletion],
  ['zsh', zshCompletion],
  ['fish', fishCompletion],
]);

/** The command that completes itself and the `others`. */
export function completionCommand(others: readonly CommandSpec[]): CommandSpec {
  const names = [...SHELLS.keys()];
  const command: CommandSpec = {
    name: 'completion',
    summary: 'print what a shell needs to complete command lines',
    operand: 'SHELL',
    operandChoices: names,
    examples: [
      ['source <(valvetide completion bash)', 'for this session; in ~/.bashrc for every one'],
      ['valvetide completion zsh -o ~/.zfunc/_valvetide', 'into a folder of your fpath'],
      ['valvetide completion fish -o ~/.config/fish/completions/valvetide.fish', 'where fish looks'],
    ],
    options: OUTPUT_OPTIONS,
    notes: ['Commands, options and their words complete, and names of files where a file is asked for.'],
    async run(invocation: Invocation): Promise<ExitCode> {
      const [operand] = invocation.operands;
      const script = SHELLS.get(operand ?? '');
      if (script === undefined) {
        const got = operand === undefined ? 'completion needs a shell' : `no shell ${plainShort(operand)}`;
        throw usageFailure('completion', `${got}: ${names.join(', ')}`);
      }
      const destination = chooseDestination([], invocation);
      deliver(invocation.io, destination, script([...others, command]));
      if (destination.path !== undefined)
        invocation.io.stderr.write(`wrote ${plainShort(destination.path)}\n`);
      return EXIT.ok;
    },
  };
  return command;
}
