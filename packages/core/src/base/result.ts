/** What comes of reading and of studies: a value, or everything that stands in its way. */

/**
 * A value, or the list of everything that is wrong. Ask `ok` first; the compiler then knows which of the two it is. What
 * is read in parts says by its third type what is left of it where some parts are wrong; who takes any result leaves it out.
 *
 * @example
 * ```ts
 * const read = readCombination(text, { file: 'engine.yaml' });
 * if (read.ok) console.log(read.value.name);
 * else for (const problem of read.problems) console.error(problemLine(problem));
 * ```
 */
export type Result<Value, Fault, Sound = unknown> =
  | {
      readonly ok: true;
      /** What was asked for. */
      readonly value: Value;
    }
  | {
      readonly ok: false;
      /** Everything that is wrong, in the order of the file. */
      readonly problems: readonly Fault[];
      /** What is sound of it by itself, where anything is. */
      readonly partial?: Sound;
    };
