import { existsSync } from 'node:fs'
import { readTemplate, TEMPLATES } from './read-template.ts'

const OWN_CAUSES = 'causes.shop.yaml'

/**
 * The table of causes as shipped (templates/causes.yaml) and a shop's own entries, where it keeps any
 * (templates/causes.shop.yaml); both as parsed and not yet checked, see verdicts/causes/schema.ts.
 *
 * @throws YAMLParseError for a file that is no YAML
 */
export function loadCauses(folder: URL = TEMPLATES): { shipped: unknown; overrides: unknown } {
  return {
    shipped: readTemplate('causes.yaml', folder),
    overrides: existsSync(new URL(OWN_CAUSES, folder)) ? readTemplate(OWN_CAUSES, folder) : undefined,
  }
}
