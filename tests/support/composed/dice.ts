import { makeRandom, type Random } from '../../../src/maths/random.ts'

/** A seeded source of choices. */
export interface Dice extends Random {
  chance(p: number): boolean
  pick<T>(among: readonly T[]): T
  /** One of the values, each as likely as its weight. */
  weighed<T>(among: readonly (readonly [T, number])[]): T
  between(low: number, high: number): number
  shuffled<T>(list: readonly T[]): T[]
}

export function dice(seed: number): Dice {
  const random = makeRandom(seed)
  const pick = <T>(among: readonly T[]): T => among[random.integer(among.length)]!
  return {
    ...random,
    pick,
    chance: (p) => random.uniform() < p,
    between: (low, high) => low + (high - low) * random.uniform(),
    weighed(among) {
      let left = random.uniform() * among.reduce((sum, [, weight]) => sum + weight, 0)
      return (among.find(([, weight]) => (left -= weight) < 0) ?? among.at(-1)!)[0]
    },
    shuffled(list) {
      const out = [...list]
      for (let i = out.length - 1; i > 0; i--) {
        const k = random.integer(i + 1)
        ;[out[i], out[k]] = [out[k]!, out[i]!]
      }
      return out
    },
  }
}
