/** A command as data: the parser, the help text and the suggestions are all made from it. */
import type { Core } from './core.ts';
import type { ExitCode } from './exitCodes.ts';
import type { Io } from './io.ts';

/** An option or a switch of a command. */
export interface OptionSpec {
  /** Without the dashes. */
  readonly name: string;
  readonly short?: string;
  /** Name of the value in help, `FILE`; absent for a switch. */
  readonly value?: string;
  readonly choices?: readonly string[];
  /** What the choices mean to somebody who knows other words for them. */
  readonly choicesMean?: string;
  /** May be given several times. */
  readonly many?: boolean;
  readonly help: string;
}

/** Values as parsed: text options by name, switches set or absent. */
export interface Flags {
  text(name: string): string | undefined;
  /** Every value of an option that may be given several times. */
  texts(name: string): readonly string[];
  on(name: string): boolean;
  /** `--color` true, `--no-color` false, neither undefined. */
  readonly color: boolean | undefined;
}

/** A command under way: how it was called, and all it needs to read, compute and write. */
export interface Invocation {
  /** Name of the command. */
  readonly command: string;
  /** What was named behind it, files for the most part. */
  readonly operands: readonly string[];
  readonly flags: Flags;
  readonly io: Io;
  readonly core: Core;
}

/** A command: how it is called, and what it does. */
export interface CommandSpec {
  readonly name: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** What follows the command's name in help: `FILE`; empty where nothing does. */
  readonly operand: string;
  /** Words the operand may be, where it is no file; shells complete them. */
  readonly operandChoices?: readonly string[];
  /** How many operands at most; one where left out and `operand` is not empty. */
  readonly mostOperands?: number;
  readonly examples: readonly (readonly [command: string, what: string])[];
  readonly options: readonly OptionSpec[];
  /** Paragraphs under the options. */
  readonly notes: readonly string[];
  run(invocation: Invocation): Promise<ExitCode>;
}

export const OUTPUT_OPTIONS: readonly OptionSpec[] = [
  { name: 'output', short: 'o', value: 'FILE', help: 'write the result to FILE in place of standard output' },
  { name: 'force', help: 'let -o replace a file that is already there' },
];

export const COMMON_OPTIONS: readonly OptionSpec[] = [
  { name: 'no-color', help: 'plain text; so do NO_COLOR and TERM=dumb' },
  { name: 'help', short: 'h', help: 'show this help' },
  { name: 'version', short: 'V', help: 'show the version' },
];
