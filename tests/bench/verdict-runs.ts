import { median } from '../../src/maths/median.ts'
import { RUN_KINDS, type RunCylinder } from '../support/running-captures.ts'

const isWrong = ({ truth, verdict }: { truth: string; verdict: string }): boolean =>
  ['lean', 'level', 'falling', 'rich', 'low compression'].includes(verdict) && !isRight({ truth, verdict })
const isRight = ({ truth, verdict }: { truth: string; verdict: string }): boolean => verdict === truth

/** Per running condition and per gate: what was said of clear cylinders, and what the gate would have let through. */
export function tellRuns(all: readonly RunCylinder[]): void {
  const row = (name: string, cells: readonly (string | number)[]): string =>
    `${name.padEnd(26)}${cells.map((c) => String(c).padStart(10)).join('')}`
  console.log(`\n${row('run', ['cylinders', 'clear', 'called', 'refused', 'wrong', 'width'])}`)
  for (const { name } of RUN_KINDS) {
    const own = all.filter((c) => c.kind === name)
    const clear = own.filter((c) => c.clear)
    const width = median(own.flatMap((c) => c.width ?? []))
    console.log(
      row(name, [
        own.length,
        clear.length,
        clear.filter(isRight).length,
        clear.filter((c) => !isRight(c) && !isWrong(c)).length,
        own.filter(isWrong).length,
        width === undefined ? '-' : width.toFixed(1),
      ]),
    )
  }
  const clear = all.filter((c) => c.clear)
  const called = clear.filter(isRight).length
  console.log(
    row('all', [
      all.length,
      clear.length,
      called,
      clear.length - called - clear.filter(isWrong).length,
      all.filter(isWrong).length,
      `${((100 * called) / clear.length).toFixed(1)} %`,
    ]),
  )
  console.log(`\n${row('gate', ['refused', 'clear', 'right', 'unsure', 'wrong'])}   had it let through`)
  for (const gate of new Set(all.flatMap((c) => c.gate ?? []))) {
    const own = all
      .filter((c) => c.gate === gate)
      .map(({ truth, clear, ungated }) => ({ truth, clear, verdict: ungated! }))
    console.log(
      row(gate, [
        own.length,
        own.filter((c) => c.clear).length,
        own.filter(isRight).length,
        own.filter((c) => !isRight(c) && !isWrong(c)).length,
        own.filter(isWrong).length,
      ]),
    )
  }
}
