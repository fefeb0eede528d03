/** The system's Chromium, headless, kept from talking to anyone. */
import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

const PATHS = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

export async function launchChromium(): Promise<Browser> {
  const executablePath = process.env['CHROMIUM'] ?? PATHS.find((path) => existsSync(path));
  if (executablePath === undefined)
    throw new Error('no Chromium: install the system package chromium, or name one in CHROMIUM');
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}
