/** A change as its file says it: apart from its check, so that no types of the checker reach whoever uses the library. */

/** One change as written. */
export interface ChangeEntry {
  readonly name: string;
  readonly set?: Readonly<Record<string, unknown>> | undefined;
  readonly scale?: Readonly<Record<string, unknown>> | undefined;
  readonly add?: Readonly<Record<string, unknown>> | undefined;
  readonly cost?: number | undefined;
  readonly hours?: number | undefined;
  readonly reversible?: boolean | undefined;
  readonly insteadOf?: string | undefined;
}
