/** The first signal that asked to stop, if one did, and the signal that passes it on. */
export interface Stopping {
  signal: AbortSignal
  by: () => 'SIGINT' | 'SIGTERM' | undefined
  release: () => void
}

/**
 * Takes Ctrl-C and SIGTERM as a wish to stop cleanly. A second one is left to the system, which ends the program at once.
 *
 * @param asked  called when the first signal comes
 */
export function stopOnSignals(asked: () => void): Stopping {
  const controller = new AbortController()
  let by: 'SIGINT' | 'SIGTERM' | undefined
  const onSignal = (signal: 'SIGINT' | 'SIGTERM') => {
    release()
    by = signal
    asked()
    controller.abort()
  }
  const [onInt, onTerm] = [() => onSignal('SIGINT'), () => onSignal('SIGTERM')]
  const release = () => {
    process.off('SIGINT', onInt)
    process.off('SIGTERM', onTerm)
  }
  process.on('SIGINT', onInt)
  process.on('SIGTERM', onTerm)
  return { signal: controller.signal, by: () => by, release }
}
