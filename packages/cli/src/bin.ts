import { main } from './main.ts';
import { processIo } from './processIo.ts';

process.exitCode = await main(process.argv.slice(2), processIo());
