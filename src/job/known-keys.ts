import { z } from 'zod'
import type { KeyPath } from './yaml-document.ts'

/**
 * The keys a schema knows at a path, in the order of the schema; of every form where it allows several.
 * Empty where the path does not lead to a mapping with fixed keys.
 */
export function knownKeys(schema: z.core.$ZodType, path: KeyPath): string[] {
  return [
    ...new Set(
      formsAt(schema, path).flatMap((form) => (form instanceof z.ZodObject ? Object.keys(form.shape) : [])),
    ),
  ]
}

function formsAt(schema: z.core.$ZodType, path: KeyPath): z.core.$ZodType[] {
  return path.reduce<z.core.$ZodType[]>(
    (forms, name) => forms.flatMap((form) => inside(form, name)).flatMap(unwrapped),
    unwrapped(schema),
  )
}

/** What a schema says of one of its parts. */
function inside(form: z.core.$ZodType, name: PropertyKey): z.core.$ZodType[] {
  if (form instanceof z.ZodArray) return [form.element]
  if (form instanceof z.ZodRecord) return [form.valueType]
  if (form instanceof z.ZodObject && Object.hasOwn(form.shape, name)) return [form.shape[name as string]]
  return []
}

/** The schema without its wrappers; each form of a union by itself. */
function unwrapped(schema: z.core.$ZodType): z.core.$ZodType[] {
  if (schema instanceof z.ZodUnion) return schema.options.flatMap(unwrapped)
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodNullable || schema instanceof z.ZodDefault) {
    return unwrapped(schema.unwrap())
  }
  return [schema]
}
