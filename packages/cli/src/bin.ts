import { main } from './main.ts';
import { processIo } from './processIo.ts';

const code = await main(process.argv.slice(2), processIo());
// Set already where standard output could not be written.
process.exitCode ??= code;
