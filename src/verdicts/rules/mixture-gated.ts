import { gateRule } from '../gate-rule.ts'

/** The circuit could be read, but the capture's quality forbids a verdict on the mixture. */
export const mixtureGated = gateRule('mixture-gated', 'mixture')
