import { enterReports } from '../../dist/evidence/ledger-file.js'

/** Enters reports one after the other into a ledger: path, name of the work orders, how many. */
const [path, name, count] = process.argv.slice(2)
for (let i = 1; i <= Number(count); i++)
  await enterReports(path, [{ work_order: `${name}-${i}`, manifest: String(i).padStart(64, '0') }], undefined)
