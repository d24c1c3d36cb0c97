// A worker for the tests of the pool: does what its message says.
import { parentPort, workerData } from 'node:worker_threads'

const held = []
const takeBuffers = () => setInterval(() => held.push(Buffer.alloc(16 * 2 ** 20, 1)), 5)
parentPort.on('message', ({ name, act, ms = 0 }) => {
  switch (act) {
    case 'heap':
      for (;;) held.push(new Array(1000).fill(name))
    // falls through: the line above never ends
    case 'buffers':
      takeBuffers()
      break
    case 'buffers-at-first':
      if (Atomics.add(workerData, 0, 1) === 0) takeBuffers()
      else parentPort.postMessage(name)
      break
    case 'exit':
      process.exit(3)
      break
    case 'throw':
      throw new Error('broken on purpose')
    case 'busy':
      for (;;) Math.sqrt(2)
    default:
      setTimeout(() => parentPort.postMessage(name), ms)
  }
})
