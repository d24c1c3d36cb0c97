import { existsSync, readFileSync } from 'node:fs'
import { parse } from 'yaml'

const TEMPLATES = new URL('../../templates/', import.meta.url)

/**
 * The table of causes as shipped (templates/causes.yaml) and a shop's own entries, where it keeps any
 * (templates/causes.shop.yaml); both as parsed and not yet checked, see verdicts/causes/schema.ts.
 *
 * @throws YAMLParseError for a file that is no YAML
 */
export function loadCauses(folder: URL = TEMPLATES): { shipped: unknown; overrides: unknown } {
  const own = new URL('causes.shop.yaml', folder)
  return {
    shipped: parse(readFileSync(new URL('causes.yaml', folder), 'utf8')) as unknown,
    overrides: existsSync(own) ? (parse(readFileSync(own, 'utf8')) as unknown) : undefined,
  }
}
