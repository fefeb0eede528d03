/** Where a queue of forecasts is: with its password for whoever connects, and without for whoever reads. */
import { misuse } from '../commandFailure.ts';
import type { Environment } from '../io.ts';
import { plainShort } from '../render/plain.ts';

export interface QueueAddress {
  /** Holds the password: for the connection alone. */
  readonly url: string;
  /** Server, port and number of the data base, for messages. */
  readonly shown: string;
}

/** The text itself is not shown, since what is wrong with it may be its password. */
const HOW =
  '--queue: write redis://HOST:PORT, rediss://HOST:PORT for a connection that is encrypted, /N behind it for a data base other than 0';

/**
 * `redis://host:6379`, with user, password and number of the data base where there are any. A password left out is
 * taken from the variable `VALVETIDE_QUEUE_PASSWORD`: what stands on a command line can be read by every user of the machine.
 */
export function queueAddress(text: string, env: Environment): QueueAddress {
  const url = URL.canParse(text) ? new URL(text) : null;
  if (url === null || !/^rediss?:$/.test(url.protocol) || url.hostname === '') throw misuse(HOW);
  if (!/^(\/\d{0,4})?$/.test(url.pathname) || url.search !== '' || url.hash !== '') throw misuse(HOW);
  const password = env.VALVETIDE_QUEUE_PASSWORD;
  if (url.password === '' && password !== undefined) url.password = encodeURIComponent(password);
  const { protocol, hostname, port, pathname } = url;
  const path = pathname === '/' ? '' : pathname;
  return { url: url.href, shown: plainShort(`${protocol}//${hostname}:${port || '6379'}${path}`) };
}
