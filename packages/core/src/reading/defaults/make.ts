/** What kind of parts stand in for those that a file leaves out. */

/** `production`: nothing speaks for other parts than the engine was made with. `performance`: something does. */
export type Make = 'production' | 'performance';
