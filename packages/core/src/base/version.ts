/** Version of the library, the same as in its package.json (a test holds them together). */
export const VERSION = '0.1.0';
