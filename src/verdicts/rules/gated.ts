import { gateRule } from '../gate-rule.ts'

/** The capture's quality forbids any verdict. */
export const gated = gateRule('gated', 'all')
