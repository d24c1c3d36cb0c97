import type { TopLevelSpec } from 'vega-lite'
import { VEGA_LITE_SCHEMA } from './chart-plan.ts'
import { numberLocale } from './number-locale.ts'
import { VEGA_LITE_CONFIG } from './theme.ts'

/** A Vega-Lite spec in the report's looks, with the decimal sign of its language. Its parts are held against Vega-Lite's schema by a test. */
export const liteSpec = (language: string, parts: object): TopLevelSpec =>
  ({
    $schema: VEGA_LITE_SCHEMA,
    padding: 0,
    config: { ...VEGA_LITE_CONFIG, locale: { number: numberLocale(language) } },
    ...parts,
  }) as unknown as TopLevelSpec

/** A field that holds a look (a colour, a dash, a shape) as it is. */
export const raw = (field: string) => ({ field, type: 'nominal' as const, scale: null })

/** Of rows of several kinds in one table, those a layer draws: a facet parts one table, so its layers share it. */
export const only = (kind: string) => [{ filter: `datum.kind === '${kind}'` }]
