import { defineRule } from '../define-rule.ts'

/**
 * A half-wave of about 0.2 ms that stands for half of it or more above 0.9 of a level has its crest at 0.9 sqrt(2) = 1.27
 * of that level or higher: so much of the cut level is beyond it at least.
 */
const CREST_BEYOND = 0.27

/**
 * Open secondary: most turns pass without a spark line, and the voltage goes clearly higher than the other cylinders
 * need: the coil finds no gap it can break down, so all its voltage shows and then rings away.
 *
 * A recorder may cut the tops: then they are known to be at least so high. Tops that stand at its limit for longer than
 * any firing line climbs are the coil's whole half-wave, where nothing broke down and the crest lies well above the cut.
 */
export const openSecondary = defineRule({
  id: 'open-secondary',
  verdict: 'open secondary',
  basis: 'fellows',
  needs: ['noLineSharePct', 'noLineTopKv', 'noLineTopExcessKv', 'noLineTopLastsMs'],
  whenAbsent: 'pass over',
  limits: ['openNoLineSharePct', 'openFiringExcessKv', 'openTopLastsMs'],
  sources: ['shop-practice', 'project-judgement'],
  says: 'verdict.open-secondary',
  decide: (
    { noLineSharePct, noLineTopKv, noLineTopExcessKv, noLineTopLastsMs },
    limits,
    { noLineTopsClipped },
  ) => {
    const crestExcessKv = noLineTopExcessKv.value + noLineTopKv.value * CREST_BEYOND
    const cutOff = noLineTopsClipped && noLineTopLastsMs.value > limits.openTopLastsMs && crestExcessKv > 0
    return noLineSharePct.low > limits.openNoLineSharePct &&
      (noLineTopExcessKv.low > limits.openFiringExcessKv || cutOff)
      ? {
          noLineSharePct,
          topExcessKv: Math.max(noLineTopExcessKv.value, 0),
          limitKv: limits.openFiringExcessKv,
        }
      : undefined
  },
})

/** Open secondary by its own height alone: higher than any gap needs at idle. For engines without a cylinder to compare with. */
export const openSecondaryAlone = defineRule({
  id: 'open-secondary-alone',
  verdict: 'open secondary',
  basis: 'limit',
  needs: ['noLineSharePct', 'noLineTopKv'],
  whenAbsent: 'pass over',
  limits: ['openNoLineSharePct', 'openTopKv'],
  sources: ['shop-practice', 'project-judgement'],
  says: 'verdict.open-secondary-alone',
  decide: ({ noLineSharePct, noLineTopKv }, { openNoLineSharePct, openTopKv }) =>
    noLineSharePct.low > openNoLineSharePct && noLineTopKv.low > openTopKv
      ? { noLineSharePct, topKv: noLineTopKv.value, limitKv: openTopKv }
      : undefined,
})

/** Open secondary by a share of the others' height: for pickups whose ratio is not known, so that kV mean nothing. */
export const openSecondaryRelative = defineRule({
  id: 'open-secondary-relative',
  verdict: 'open secondary',
  basis: 'fellows',
  needs: ['noLineSharePct', 'noLineTopExcessPct'],
  whenAbsent: 'pass over',
  limits: ['openNoLineSharePct', 'openTopExcessPct'],
  sources: ['project-judgement'],
  says: 'verdict.open-secondary-relative',
  decide: ({ noLineSharePct, noLineTopExcessPct }, { openNoLineSharePct, openTopExcessPct }) =>
    noLineSharePct.low > openNoLineSharePct && noLineTopExcessPct.low > openTopExcessPct
      ? { noLineSharePct, noLineTopExcessPct, limitPct: openTopExcessPct }
      : undefined,
})
