// Writes one output over and over until it is killed: write-forever.mjs <target> <first turn>. Needs a build.
import { createHash } from 'node:crypto'
import { writeWhole } from '../../dist/files/write-whole.js'

const [target, from] = process.argv.slice(2)
const sha256 = (text) => createHash('sha256').update(text).digest('hex')
process.stdout.write('ready\n')
for (let turn = Number(from); ; turn++) {
  const files = new Map(
    Array.from({ length: 12 }, (_, i) => [`charts/${i}.svg`, `turn ${turn} `.repeat(500 + (turn % 7) * 100)]),
  )
  const outputs = [...files].map(([file, text]) => ({ file, sha256: sha256(text) }))
  files.set('manifest.json', JSON.stringify({ program: { name: 'burnline' }, turn, outputs }))
  await writeWhole(target, files)
}
