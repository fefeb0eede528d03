import type { BuildOptions } from 'vite';

/** What a page is given. */
export interface PageChunk {
  readonly code: string;
  /** Paths of the modules that went in. */
  readonly moduleIds: readonly string[];
  readonly imports: readonly string[];
  readonly dynamicImports: readonly string[];
}

/** @param options - what goes in, and in which form it comes out */
export declare function buildForPage(options: BuildOptions): Promise<PageChunk>;
