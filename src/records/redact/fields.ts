import type { Result } from '../result.ts'

type Review = NonNullable<Result['review']>

/** What can be taken out of a copy, and the words of the job it stands for. */
export const REDACTABLE = {
  customer: (job) => Object.values(job.customer ?? {}),
  technician: (job, review) => [...Object.values(job.technician), ...review.map(({ by }) => by)],
  shop: (job) => Object.values(job.shop),
  vin: ({ vehicle }) => [vehicle.vin],
  plate: ({ vehicle }) => [vehicle.plate],
  unit: ({ vehicle }) => [vehicle.unit_number],
  words: (job, review) => [job.complaint, job.cause, job.correction, ...review.map(({ reason }) => reason)],
} as const satisfies Record<string, (job: Result['job'], review: Review) => readonly (string | null)[]>

export type RedactableField = keyof typeof REDACTABLE
export const REDACTABLE_FIELDS = Object.keys(REDACTABLE) as RedactableField[]
