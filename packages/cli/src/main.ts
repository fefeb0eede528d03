/** The command line: flags to core to rendering to an exit code. */
export type { Curve } from '@valvetide/core';
