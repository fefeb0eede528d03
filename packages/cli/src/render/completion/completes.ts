/** What may follow on a command line, for whatever shell asks. */
import { COMMON_OPTIONS, type CommandSpec, type OptionSpec } from '../../commandSpec.ts';

/** Names of files, one of some words, or something that only the user knows. */
export type Completes =
  | { readonly kind: 'files' }
  | { readonly kind: 'words'; readonly words: readonly string[] }
  | { readonly kind: 'anything' };

/** Names of values that stand for files, as help has them. */
const FILES = /^(FILE|SHEET)\b/;

/** The value of an option; undefined for a switch. */
export function optionValue({ value, choices }: OptionSpec): Completes | undefined {
  return value === undefined ? undefined : completes(value, choices);
}

export function operandOf({ operand, operandChoices }: CommandSpec): Completes {
  return completes(operand, operandChoices);
}

export function optionsOf(command: CommandSpec): readonly OptionSpec[] {
  return [...command.options, ...COMMON_OPTIONS];
}

function completes(name: string, choices: readonly string[] | undefined): Completes {
  if (choices !== undefined) return { kind: 'words', words: choices };
  return FILES.test(name) ? { kind: 'files' } : { kind: 'anything' };
}
