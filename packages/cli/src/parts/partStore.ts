/** Forecasts that were done before, by other machines or before an interrupt: where each stands, so that memory holds none of them. */
import type { Curve } from '@valvetide/core';
import { CommandFailure } from '../commandFailure.ts';
import { EXIT } from '../exitCodes.ts';
import type { Io } from '../io.ts';
import { reasonOf } from '../output/reasonOf.ts';
import { plainShort } from '../render/plain.ts';
import { version } from '../version.ts';
import { curveLine, curveOfLine, headLine, readLine } from './partLines.ts';

interface Place {
  readonly path: string;
  readonly at: number;
  readonly bytes: number;
}

/** Forecasts by the key of their job; one that is there twice counts once. */
export class PartStore {
  readonly #io: Io;
  readonly #places = new Map<string, Place>();
  readonly #journal: string | null;

  /** @param journal - where new forecasts are kept as soon as they are done; what it holds already counts as done */
  constructor(io: Io, parts: readonly string[], journal: string | null) {
    this.#io = io;
    this.#journal = journal;
    for (const path of parts) this.#scan(path);
    if (journal === null) return;
    if (io.kindOf(journal) === 'nothing') {
      this.#write(journal, () => io.appendFile(journal, `${headLine(version())}\n`));
      return;
    }
    // What a crash cut short stays a line of its own, and is passed over.
    if (!this.#scan(journal)) this.#write(journal, () => io.appendFile(journal, '\n'));
  }

  /** The curve of a job that was done; null where none was. */
  curve(key: string): Curve | null {
    const place = this.#places.get(key);
    if (place === undefined) return null;
    return curveOfLine(this.#io.readSlice(place.path, place.at, place.bytes));
  }

  has(key: string): boolean {
    return this.#places.has(key);
  }

  /** Keeps a curve in the journal, where there is one. */
  add(key: string, curve: Curve): void {
    const journal = this.#journal;
    if (journal === null || this.#places.has(key)) return;
    const line = curveLine(key, curve);
    const end = this.#write(journal, () => this.#io.appendFile(journal, `${line}\n`));
    const bytes = Buffer.byteLength(line);
    this.#places.set(key, { path: journal, at: end - bytes - 1, bytes });
  }

  /** Notes where each forecast of a file stands; false where its last line does not end. */
  #scan(path: string): boolean {
    let headed = false;
    const ended = this.#read(path, () =>
      this.#io.scanLines(path, (line, at, bytes) => {
        const found = readLine(line);
        if (found === null) return;
        if ('version' in found) {
          headed = true;
          if (found.version !== version()) throw otherVersion(path, found.version);
        } else if (headed && !this.#places.has(found.key)) this.#places.set(found.key, { path, at, bytes });
      }),
    );
    if (!headed)
      throw new CommandFailure(EXIT.input, [`${plainShort(path)}: holds no forecasts of valvetide`]);
    return ended;
  }

  #read<Value>(path: string, read: () => Value): Value {
    try {
      return read();
    } catch (error) {
      if (error instanceof CommandFailure) throw error;
      throw new CommandFailure(EXIT.file, [`${plainShort(path)}: can't be read (${reasonOf(error)})`]);
    }
  }

  #write<Value>(path: string, write: () => Value): Value {
    try {
      return write();
    } catch (error) {
      throw new CommandFailure(EXIT.file, [`${plainShort(path)}: can't be written (${reasonOf(error)})`]);
    }
  }
}

function otherVersion(path: string, other: string): CommandFailure {
  return new CommandFailure(EXIT.input, [
    `${plainShort(path)}: made by valvetide ${plainShort(other)}, and this is ${version()}: their forecasts may differ`,
  ]);
}
