/** A form with its words beside it, for files that only studies read. */
import * as z from 'zod/mini';

export function explained<Out, In>(
  form: z.ZodMiniType<Out, In>,
  description: string,
  ...examples: readonly In[]
): z.ZodMiniType<Out, In> {
  return form.check(z.meta(examples.length > 0 ? { description, examples: [...examples] } : { description }));
}
