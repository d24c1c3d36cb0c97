import { Worker } from 'node:worker_threads'

/** One piece of work for a worker thread. */
export interface PoolTask<T> {
  task: T
  /** How heavy it is beside the others. */ weight: number
}

/** How a piece of work ended. */
export type PoolEnd<R> =
  | { how: 'done'; result: R }
  /** It filled its heap, or brought the whole process to its limit with no other piece of work beside it. */
  | { how: 'out-of-memory'; limit: 'heap' | 'process' }
  /** Its thread ended without a result. */
  | { how: 'crashed'; error: Error }
  /** Never begun, or given up, because the pool was stopped. */
  | { how: 'stopped' }

export interface PoolSettings {
  /** Script of the workers: answers each message with one result. */
  script: URL
  workerData: unknown
  workers: number
  /** Most a worker's JavaScript heap may grow to, MiB. */
  heapMib: number
  /** Most memory the whole process may take before work is given up, bytes. */
  memoryBytes: number
  /** Aborting it begins no more work, and gives up after `graceMs` what is still going on. */
  stop: AbortSignal
  graceMs: number
}

/**
 * Room for young objects of a worker, MiB, three times V8's own: with that a third of a job's processor time went into
 * moving objects that are dropped a moment later.
 */
const YOUNG_MIB = 48

/** How often the memory of the process is looked at, ms. */
const WATCH_MS = 100
/** Looks left out after work was given up: the system gets its memory back only little by little. */
const REST_LOOKS = 15

interface Slot<T> {
  worker: Worker
  busy: (PoolTask<T> & { alone: boolean }) | undefined
}

interface Told<T, R> {
  ended: (task: T, end: PoolEnd<R>) => void
  settle: () => void
}

/**
 * Runs pieces of work on warm threads, the heaviest first, and tells of each end once. A piece that breaks its thread
 * ends alone: its thread is replaced.
 *
 * A heap is limited by V8. What lies outside the heaps, such as the samples of a capture, is watched: when the process
 * comes to its limit, the heaviest piece under way is given up, and tried again by itself when all others are done.
 *
 * @param ended  called in the order of finishing
 */
export function runPool<T, R>(
  tasks: readonly PoolTask<T>[],
  settings: PoolSettings,
  ended: (task: T, end: PoolEnd<R>) => void,
): Promise<void> {
  return new Promise((settle) => new Pool<T, R>(tasks, settings, { ended, settle }).fill())
}

class Pool<T, R> {
  readonly #waiting: PoolTask<T>[]
  readonly #alone: PoolTask<T>[] = []
  readonly #slots = new Set<Slot<T>>()
  readonly #settings: PoolSettings
  readonly #told: Told<T, R>
  readonly #watch: NodeJS.Timeout
  #grace: NodeJS.Timeout | undefined
  #rest = 0
  #over = false

  constructor(tasks: readonly PoolTask<T>[], settings: PoolSettings, told: Told<T, R>) {
    this.#waiting = tasks.toSorted((a, b) => b.weight - a.weight)
    this.#settings = settings
    this.#told = told
    this.#watch = setInterval(() => this.#watchMemory(), WATCH_MS)
    settings.stop.addEventListener('abort', this.#stop)
    if (settings.stop.aborted) this.#stop()
  }

  /** Gives waiting work to free threads, opens threads while there is work for them, and ends when there is none left. */
  fill(): void {
    if (this.#over) return
    for (const slot of this.#slots) if (!slot.busy) this.#give(slot, this.#waiting.shift(), false)
    while (this.#waiting.length > 0 && this.#slots.size < this.#settings.workers)
      this.#give(this.#open(), this.#waiting.shift(), false)
    const busy = [...this.#slots].some((slot) => slot.busy)
    if (busy || this.#waiting.length > 0) return
    const next = this.#alone.shift()
    if (next === undefined) return this.#end()
    for (const slot of this.#slots) this.#close(slot)
    this.#rest = REST_LOOKS
    this.#give(this.#open(), next, true)
  }

  #give(slot: Slot<T>, next: PoolTask<T> | undefined, alone: boolean): void {
    if (next === undefined) return
    slot.busy = { ...next, alone }
    slot.worker.postMessage(next.task)
  }

  #open(): Slot<T> {
    const { script, workerData, heapMib } = this.#settings
    const worker = new Worker(script, {
      workerData,
      resourceLimits: { maxOldGenerationSizeMb: heapMib, maxYoungGenerationSizeMb: YOUNG_MIB },
    })
    const slot: Slot<T> = { worker, busy: undefined }
    this.#slots.add(slot)
    worker.on('message', (result: R) => this.#ended(slot, { how: 'done', result }))
    worker.on('error', (error: NodeJS.ErrnoException) => {
      this.#broken(
        slot,
        error.code === 'ERR_WORKER_OUT_OF_MEMORY'
          ? { how: 'out-of-memory', limit: 'heap' }
          : { how: 'crashed', error },
      )
    })
    worker.on('exit', (code) =>
      this.#broken(slot, { how: 'crashed', error: new Error(`worker thread ended with code ${code}`) }),
    )
    return slot
  }

  #ended(slot: Slot<T>, end: PoolEnd<R>): void {
    const { busy } = slot
    slot.busy = undefined
    if (busy) this.#told.ended(busy.task, end)
    this.fill()
  }

  /** The thread is gone; its work ends with it. Called again for the same thread, it does nothing. */
  #broken(slot: Slot<T>, end: PoolEnd<R>): void {
    if (this.#slots.delete(slot)) this.#ended(slot, end)
  }

  #close(slot: Slot<T>): void {
    this.#slots.delete(slot)
    void slot.worker.terminate()
  }

  #watchMemory(): void {
    if (this.#rest-- > 0 || process.memoryUsage.rss() <= this.#settings.memoryBytes) return
    this.#rest = REST_LOOKS
    const [heaviest] = [...this.#slots]
      .filter((slot) => slot.busy)
      .sort((a, b) => b.busy!.weight - a.busy!.weight)
    if (!heaviest) return
    const { busy } = heaviest
    heaviest.busy = undefined
    this.#close(heaviest)
    // The only one under way may still stand in the memory of one given up just now: it counts when it was alone throughout.
    if (busy!.alone) this.#told.ended(busy!.task, { how: 'out-of-memory', limit: 'process' })
    else this.#alone.push(busy!)
    this.fill()
  }

  readonly #stop = (): void => {
    for (const { task } of [...this.#waiting.splice(0), ...this.#alone.splice(0)])
      this.#told.ended(task, { how: 'stopped' })
    this.#grace = setTimeout(() => {
      for (const slot of this.#slots) {
        if (slot.busy) this.#told.ended(slot.busy.task, { how: 'stopped' })
        slot.busy = undefined
      }
      this.#end()
    }, this.#settings.graceMs)
    this.fill()
  }

  #end(): void {
    if (this.#over) return
    this.#over = true
    clearInterval(this.#watch)
    clearTimeout(this.#grace)
    this.#settings.stop.removeEventListener('abort', this.#stop)
    const closed = [...this.#slots].map((slot) => slot.worker.terminate())
    this.#slots.clear()
    void Promise.allSettled(closed).then(() => this.#told.settle())
  }
}
