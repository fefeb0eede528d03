/** Completion for bash, from version 3.2 on. */
import type { CommandSpec } from '../../commandSpec.ts';
import { type Completes, operandOf, optionsOf, optionValue } from './completes.ts';

export function bashCompletion(commands: readonly CommandSpec[]): string {
  const names = commands.map(({ name }) => name);
  return `# Completes valvetide in bash: source <(valvetide completion bash)
_valvetide() {
  local IFS=$'\\n' word=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]} command= i
  for ((i = 1; i < COMP_CWORD; i++)); do
    if [[ \${COMP_WORDS[i]} != -* ]]; then command=\${COMP_WORDS[i]}; break; fi
  done
  COMPREPLY=()
  case "$command $before" in
${commands.flatMap(afterOptions).join('\n')}
  esac
  case "$command $word" in
    ' '-*) COMPREPLY=($(compgen -W ${list(['--help', '--no-color', '--version'])} -- "$word")) ;;
    ' '*) COMPREPLY=($(compgen -W ${list([...names, 'help'])} -- "$word")) ;;
    'help '*) COMPREPLY=($(compgen -W ${list(names)} -- "$word")) ;;
${commands.flatMap(behindCommand).join('\n')}
  esac
}
complete -o filenames -F _valvetide valvetide
`;
}

/** Where the word before is an option that takes a value. */
function afterOptions(command: CommandSpec): string[] {
  return optionsOf(command).flatMap((option) => {
    const value = optionValue(option);
    if (value === undefined) return [];
    const spelled = [option.name, ...(option.short === undefined ? [] : [option.short])].map(
      (name) => `'${command.name} ${name.length === 1 ? '-' : '--'}${name}'`,
    );
    return [`    ${spelled.join(' | ')}) ${reply(value)}return ;;`];
  });
}

function behindCommand(command: CommandSpec): string[] {
  const options = optionsOf(command).map(({ name }) => `--${name}`);
  return [
    `    '${command.name} '-*) COMPREPLY=($(compgen -W ${list(options)} -- "$word")) ;;`,
    `    '${command.name} '*) ${reply(operandOf(command))};;`,
  ];
}

function reply(what: Completes): string {
  if (what.kind === 'files') return 'COMPREPLY=($(compgen -f -- "$word")); ';
  return what.kind === 'words' ? `COMPREPLY=($(compgen -W ${list(what.words)} -- "$word")); ` : '';
}

/** Words one a line, as IFS has it. */
function list(words: readonly string[]): string {
  return `$'${words.join('\\n')}'`;
}
