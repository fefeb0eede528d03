/** The words before the command's name: what stands there for all commands alike, and what belongs behind. */
import { type CommandFailure, misuse } from './commandFailure.ts';
import { COMMON_OPTIONS } from './commandSpec.ts';
import { plainShort } from './render/plain.ts';
import { suggest } from './suggest.ts';

export interface Lead {
  /** What is to be shown in place of running a command. */
  readonly asked: 'help' | 'version' | undefined;
  /** The command's name; undefined where none was given. */
  readonly word: string | undefined;
  /** What follows it, with `--no-color` or `--color` where that stood before. */
  readonly rest: readonly string[];
}

export function readLead(argv: readonly string[]): Lead {
  const carried: string[] = [];
  let asked: Lead['asked'];
  for (const [i, word] of argv.entries()) {
    if (word === '--help' || word === '-h') asked ??= 'help';
    else if (word === '--version' || word === '-V') asked ??= 'version';
    else if (word === '--no-color' || word === '--color') carried.push(word);
    else if (word.startsWith('-')) throw misplaced(word);
    else return { asked, word, rest: [...carried, ...argv.slice(i + 1)] };
  }
  return { asked, word: undefined, rest: carried };
}

function misplaced(word: string): CommandFailure {
  const shown = plainShort(word);
  if (word === '-v')
    return misuse('-v belongs behind a command', '-V shows the version; after a command -v shows more');
  const near = suggest(word.replace(/^-+/, ''), [...COMMON_OPTIONS.map(({ name }) => name), 'color']);
  return near === undefined
    ? misuse(`name a command first, then ${shown}`, 'valvetide --help lists the commands')
    : misuse(`no option ${shown} before a command`, `did you mean --${near}?`);
}
