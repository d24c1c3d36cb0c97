/** What of the engine bears on where causes can sit. */
export interface EngineLayout {
  /** Undefined where it is not known: every part of any ignition is then thought of. */
  ignition?: 'distributor' | 'coil-per-cylinder' | 'wasted-spark'
  cylinders: readonly number[]
  /** Bank name -> its cylinders, where the job states them. */
  banks: Readonly<Record<string, readonly number[]>> | undefined
}

/** Name of the bank a cylinder belongs to. */
export const bankOf = (engine: EngineLayout, cylinder: number): string | undefined =>
  Object.entries(engine.banks ?? {}).find(([, members]) => members.includes(cylinder))?.[0]
