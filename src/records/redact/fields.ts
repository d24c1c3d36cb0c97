import type { Result } from '../result.ts'

/** What can be taken out of a copy, and the words of the job it stands for. */
export const REDACTABLE = {
  customer: (job) => Object.values(job.customer ?? {}),
  technician: (job) => Object.values(job.technician),
  shop: (job) => Object.values(job.shop),
  vin: ({ vehicle }) => [vehicle.vin],
  plate: ({ vehicle }) => [vehicle.plate],
  unit: ({ vehicle }) => [vehicle.unit_number],
  words: (job) => [job.complaint, job.cause, job.correction],
} as const satisfies Record<string, (job: Result['job']) => readonly (string | null)[]>

export type RedactableField = keyof typeof REDACTABLE
export const REDACTABLE_FIELDS = Object.keys(REDACTABLE) as RedactableField[]
