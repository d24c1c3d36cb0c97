// Made by src/write-catalogue.mjs from templates/texts/en.yaml. Not to be edited: npm run words
import type { Arg, Figure, NoArgs } from './args.ts'

/** Every sentence of the program: its key and the arguments it needs. */
export interface Catalogue {
  'verdict.level': { lateRisePct: Arg; limitPct: Figure }
  'verdict.lean': { lateRisePct: Arg; limitPct: Figure }
  'verdict.falling': { lateRisePct: Arg; limitPct: Figure }
  'verdict.rich': { lateRisePct: Arg; limitPct: Figure }
  'verdict.low-compression': { lateRisePct: Arg; limitPct: Figure }
  'verdict.borderline': { lateRisePct: Arg; limitPct: Figure }
  'verdict.external-resistance': { startExcessPct: Arg; earlyDropExcessPct: Arg }
  'verdict.open-secondary': { noLineSharePct: Arg; topExcessKv: Figure }
  'verdict.open-secondary-alone': { noLineSharePct: Arg; topKv: Figure; limitKv: Figure }
  'verdict.open-secondary-relative': { noLineSharePct: Arg; noLineTopExcessPct: Arg }
  'verdict.misfiring': { noLineSharePct: Arg; limitPct: Figure }
  'verdict.misfire-unsure': { noLineSharePct: Arg }
  'verdict.goes-out': { wentOutSharePct: Arg; stubMs: Figure; limitPct: Figure }
  'verdict.external-shape': { earlyDropPct: Arg }
  'verdict.external-even': { earlyDropPct: Arg; limitPct: Arg; firingKv: Arg; limitKv: Arg }
  'verdict.falling-throughout': { lateRisePct: Arg; limitPct: Figure }
  'verdict.rich-throughout': { lateRisePct: Arg; limitPct: Figure }
  'verdict.low-compression-throughout': { lateRisePct: Arg; limitPct: Figure }
  'verdict.lean-of-fellows': { againstLevelPct: Arg; limitPct: Figure }
  'verdict.falling-of-fellows': { againstLevelPct: Arg; limitPct: Figure }
  'verdict.rich-of-fellows': { againstLevelPct: Arg; limitPct: Figure }
  'verdict.low-compression-of-fellows': { againstLevelPct: Arg; limitPct: Figure }
  'verdict.level-of-fellows': { lateRisePct: Arg; againstLevelPct: Arg; limitPct: Figure }
  'verdict.borderline-of-fellows': { againstLevelPct: Arg; limitPct: Figure }
  'verdict.lean-off-idle': { lateRisePct: Arg; limitPct: Figure; bendPct: Figure }
  'verdict.level-off-idle': { lateRisePct: Arg; limitPct: Figure }
  'verdict.borderline-off-idle': { lateRisePct: Arg }
  'verdict.too-few-lines': { lines: Figure; minEvents: Figure }
  'verdict.too-few-events': { events: Figure; minEvents: Figure }
  'verdict.gated': { why: Arg }
  'verdict.figure-absent': { why: Arg }
  'apart.firing-high': { size: Arg; limitPct: Figure }
  'apart.firing-low': { size: Arg; limitPct: Figure }
  'apart.firing-high-kv': { size: Arg; limitKv: Figure }
  'apart.firing-low-kv': { size: Arg; limitKv: Figure }
  'apart.firing-unusual-high': { figure: Arg; lowKv: Figure; highKv: Figure }
  'apart.firing-unusual-low': { figure: Arg; lowKv: Figure; highKv: Figure }
  'apart.burn-long': { size: Arg; limitPct: Figure }
  'apart.burn-short': { size: Arg; limitPct: Figure }
  'apart.burn-unusual-long': { figure: Arg; lowMs: Figure; highMs: Figure }
  'apart.burn-unusual-short': { figure: Arg; lowMs: Figure; highMs: Figure }
  'apart.oscillations-few': { cycles: Figure; usual: Figure }
  'pattern.none': { judged: Figure }
  'pattern.none-unsure': { unsure: Figure; judged: Figure }
  'pattern.none-apart': { judged: Figure; cylinders: Arg }
  'pattern.none-apart-one': { judged: Figure; cylinders: Arg }
  'pattern.not-judged': NoArgs
  'pattern.cylinder': { cylinder: Figure; verdict: Arg }
  'pattern.all-lean': NoArgs
  'pattern.all-falling': NoArgs
  'pattern.all-circuit': NoArgs
  'pattern.all-misfiring': NoArgs
  'pattern.bank-lean': { cylinders: Arg; bank: Arg }
  'pattern.bank-falling': { cylinders: Arg; bank: Arg }
  'pattern.bank-circuit': { cylinders: Arg; bank: Arg }
  'pattern.bank-misfiring': { cylinders: Arg; bank: Arg }
  'pattern.mixed': { cylinders: Arg }
  'pattern.unsure': { pattern: Arg; cylinders: Arg }
  'where.engine': NoArgs
  'where.all': NoArgs
  'where.bank': { bank: Arg }
  'where.cylinder': { cylinders: Arg }
  'where.cylinders': { cylinders: Arg }
  'where.place': { place: Arg }
  'headline.found.lean': { where: Arg }
  'headline.found.rich': { where: Arg }
  'headline.found.falling': { where: Arg }
  'headline.found.lean-near': { where: Arg }
  'headline.found.falling-near': { where: Arg }
  'headline.found.lean-low': { where: Arg }
  'headline.found.lean-high': { where: Arg }
  'headline.found.falling-low': { where: Arg }
  'headline.found.falling-high': { where: Arg }
  'headline.found.open': { where: Arg }
  'headline.found.resistance': { where: Arg }
  'headline.found.misfire': { where: Arg }
  'headline.found.firing-high': { where: Arg }
  'headline.found.firing-low': { where: Arg }
  'headline.found.burn-short': { where: Arg }
  'headline.found.burn-long': { where: Arg }
  'headline.found.oscillation': { where: Arg }
  'headline.found.compression-low': { where: Arg }
  'headline.found.compression-high': { where: Arg }
  'headline.found.fuel-pressure-low': NoArgs
  'headline.found.fuel-pressure-high': NoArgs
  'headline.found.fuel-pressure-falls': NoArgs
  'headline.found.trim-lean': { where: Arg; size: Figure }
  'headline.found.trim-rich': { where: Arg; size: Figure }
  'headline.found.gas-lean': NoArgs
  'headline.found.gas-rich': NoArgs
  'headline.found.gas-out': { reading: Arg }
  'headline.found.vacuum-low': NoArgs
  'headline.found.vacuum-high': NoArgs
  'headline.found.leak': { where: Arg }
  'headline.found.leak-torn': { where: Arg }
  'headline.found.part': { test: Arg; where: Arg }
  'headline.found.code': { reading: Arg }
  'headline.found.code-at': { reading: Arg; where: Arg }
  'headline.found.idle-swings': { size: Figure }
  'headline.found.of-fellows': { found: Arg; condition: Arg }
  'headline.found.of-limit': { found: Arg; condition: Arg }
  'condition.cold': { condition: Arg }
  'headline.not-recorded': NoArgs
  'headline.in-order': NoArgs
  'headline.not-judged': NoArgs
  'headline.cause.clear': { cause: Arg }
  'headline.cause.clear-at': { cause: Arg; place: Arg }
  'headline.cause.leading': { cause: Arg }
  'headline.cause.leading-at': { cause: Arg; place: Arg }
  'headline.cause.several': { cause: Arg }
  'headline.cause.several-at': { cause: Arg; place: Arg }
  'headline.cause.open': NoArgs
  'headline.repair.confirmed': NoArgs
  'headline.repair.confirmed-log': NoArgs
  'headline.repair.improved': NoArgs
  'headline.repair.no-change': NoArgs
  'headline.repair.worse': NoArgs
  'headline.repair.none': NoArgs
  'headline.repair.now-in-order': NoArgs
  'headline.repair.not-shown': NoArgs
  'conclusion.repair.none': NoArgs
  'conclusion.repair.nothing-after': NoArgs
  'conclusion.repair.too-early': NoArgs
  'conclusion.repair.not-comparable': NoArgs
  'conclusion.repair.not-read-again': NoArgs
  'conclusion.repair.captures-missing': NoArgs
  'conclusion.repair.cylinder-not-judged': NoArgs
  'conclusion.repair.confirmed': NoArgs
  'conclusion.repair.confirmed-by-log': NoArgs
  'conclusion.repair.opposed': NoArgs
  'conclusion.repair.part-left': NoArgs
  'conclusion.repair.no-change': NoArgs
  'conclusion.repair.worse': NoArgs
  'conclusion.cold-level': NoArgs
  'page.found.not-recorded': NoArgs
  'page.found.no-captures': NoArgs
  'page.found.in-order': NoArgs
  'page.found.not-judged': NoArgs
  'page.found.unsure': { cylinders: Arg }
  'page.found.of-fellows': { condition: Arg }
  'page.found.of-limit': { condition: Arg }
  'page.found.near-one': { cylinders: Arg }
  'page.found.near': { cylinders: Arg }
  'page.found.near-all': NoArgs
  'page.found.lean-low': { where: Arg }
  'page.found.lean-high': { where: Arg }
  'page.found.falling-low': { where: Arg }
  'page.found.falling-high': { where: Arg }
  'page.found.firing-high': { where: Arg }
  'page.found.firing-low': { where: Arg }
  'page.found.burn-short': { where: Arg }
  'page.found.burn-long': { where: Arg }
  'page.found.oscillation': { where: Arg }
  'page.found.compression-high': { where: Arg }
  'page.found.fuel-pressure-low': { size: Figure }
  'page.found.fuel-pressure-high': { size: Figure }
  'page.found.fuel-pressure-falls': NoArgs
  'page.found.trim-lean': { size: Figure; where: Arg }
  'page.found.trim-rich': { where: Arg; size: Figure }
  'page.found.gas-lean': NoArgs
  'page.found.gas-rich': NoArgs
  'page.found.gas-out': { reading: Arg }
  'page.found.vacuum-low': NoArgs
  'page.found.vacuum-high': NoArgs
  'page.found.leak': { place: Arg }
  'page.found.leak-torn': { place: Arg }
  'page.found.part': { where: Arg; test: Arg }
  'page.found.code': { reading: Arg }
  'page.found.codes-open': { codes: Arg }
  'page.found.idle-swings': { size: Figure }
  'page.cause.clear': { cause: Arg }
  'page.cause.clear-at': { cause: Arg; place: Arg }
  'page.cause.leading': { cause: Arg }
  'page.cause.leading-at': { cause: Arg; place: Arg }
  'page.cause.several': { cause: Arg }
  'page.cause.several-at': { cause: Arg; place: Arg }
  'page.cause.open': NoArgs
  'page.stated.agrees': { words: Arg }
  'page.stated.not-tested': { words: Arg }
  'page.stated.contradicted': { words: Arg }
  'page.sure.rise': { size: Figure; limitHigh: Figure }
  'page.sure.fall': { size: Figure; limitLow: Figure }
  'page.sure.rise-fellows': { size: Figure }
  'page.sure.fall-fellows': { size: Figure }
  'page.sure.misses': { size: Figure }
  'page.sure.start': { size: Figure; limitHigh: Figure }
  'page.sure.compression': { size: Figure; where: Arg; limitLow: Figure }
  'page.sure.compression-kpa': { size: Figure; where: Arg }
  'page.sure.firing': { size: Figure; limitHigh: Figure }
  'page.mended.yes': NoArgs
  'page.mended.yes-log': NoArgs
  'page.mended.now-in-order': NoArgs
  'page.mended.improved': NoArgs
  'page.mended.said-not-fixed': NoArgs
  'page.mended.uncovered': NoArgs
  'page.mended.no-change': NoArgs
  'page.mended.worse': NoArgs
  'page.mended.left-one': { cylinders: Arg }
  'page.mended.left': { cylinders: Arg }
  'page.mended.nothing': NoArgs
  'page.mended.no-repair': NoArgs
  'page.mended.not-shown': NoArgs
  'page.mended.nothing-after': NoArgs
  'page.mended.too-early': NoArgs
  'page.mended.not-comparable': NoArgs
  'page.mended.not-read-again': NoArgs
  'page.mended.captures-missing': NoArgs
  'page.mended.cylinder-not-judged': NoArgs
  'page.again.mixture': NoArgs
  'page.again.compression': NoArgs
  'page.again.fuel-pressure': NoArgs
  'page.again.trim': NoArgs
  'page.again.gas': NoArgs
  'page.again.vacuum': NoArgs
  'page.again.leak': NoArgs
  'page.again.part': NoArgs
  'page.again.code': NoArgs
  'page.again.idle-speed': NoArgs
  'page.unchecked.cold-and-road': NoArgs
  'page.unchecked.cold': NoArgs
  'page.unchecked.road': NoArgs
  'page.unchecked.capped': { place: Arg }
  'page.unchecked.unread': { rows: Arg }
  'log-row.at': { step: Arg; place: Arg }
  'page.driving.brake': NoArgs
  'page.driving.servo-shut': { place: Arg }
  'page.driving.fuel': NoArgs
  'page.driving.catalyst': NoArgs
  'page.next.none': NoArgs
  'page.next.none-now': NoArgs
  'page.next.none-open': NoArgs
  'page.remark.too-early': { what: Arg }
  'page.remark.cold-after': NoArgs
  'page.remark.cold-found': NoArgs
  'page.remark.not-relearned': NoArgs
  'page.remark.long-alone': NoArgs
  'page.remark.other-part': { place: Arg }
  'conclusion.repair.uncovered': NoArgs
  'state.in-order': NoArgs
  'state.not-known': NoArgs
  'state.nothing': NoArgs
  'report.stated.held': { words: Arg; stands: Arg }
  'report.stated.agrees': NoArgs
  'report.stated.not-tested': NoArgs
  'report.stated.contradicted': NoArgs
  'summary.looked': { events: Figure; cylinders: Figure }
  'summary.looked-one': { events: Figure }
  'summary.lean-one': { cylinders: Arg }
  'summary.lean-some': { cylinders: Arg }
  'summary.lean-bank': { bank: Arg; cylinders: Arg }
  'summary.lean-all': NoArgs
  'summary.falling-one': { cylinders: Arg }
  'summary.falling-some': { cylinders: Arg }
  'summary.falling-bank': { bank: Arg; cylinders: Arg }
  'summary.falling-all': NoArgs
  'summary.rich-one': { cylinders: Arg }
  'summary.rich-some': { cylinders: Arg }
  'summary.rich-bank': { bank: Arg; cylinders: Arg }
  'summary.rich-all': NoArgs
  'summary.low-compression-one': { cylinders: Arg }
  'summary.low-compression-some': { cylinders: Arg }
  'summary.low-compression-bank': { bank: Arg; cylinders: Arg }
  'summary.low-compression-all': NoArgs
  'summary.external-resistance-one': { cylinders: Arg }
  'summary.external-resistance-some': { cylinders: Arg }
  'summary.external-resistance-bank': { bank: Arg; cylinders: Arg }
  'summary.external-resistance-all': NoArgs
  'summary.open-secondary-one': { cylinders: Arg }
  'summary.open-secondary-some': { cylinders: Arg }
  'summary.open-secondary-bank': { bank: Arg; cylinders: Arg }
  'summary.open-secondary-all': NoArgs
  'summary.misfiring-one': { cylinders: Arg }
  'summary.misfiring-some': { cylinders: Arg }
  'summary.misfiring-bank': { bank: Arg; cylinders: Arg }
  'summary.misfiring-all': NoArgs
  'summary.open.borderline': { cylinders: Arg }
  'summary.open.borderline-one': { cylinders: Arg }
  'summary.open.not-judged': { cylinders: Arg }
  'summary.open.not-judged-one': { cylinders: Arg }
  'revision.nothing': NoArgs
  'revision.input-added': { file: Arg }
  'revision.input-removed': { file: Arg }
  'revision.input-changed': { file: Arg }
  'revision.program': { before: Arg; after: Arg }
  'revision.limit': { meaning: Arg; before: Arg; after: Arg }
  'revision.language': { before: Arg; after: Arg }
  'revision.own-texts': { keys: Arg }
  'revision.verdict': { mark: Arg; before: Arg; after: Arg }
  'revision.repair': { before: Arg; after: Arg }
  'revision.review': { before: Figure; after: Figure }
  'revision.not-signed': NoArgs
  'review.verdict': { by: Arg; cylinder: Figure; when: Arg; instead: Arg; said: Arg }
  'review.verdict-alike': { by: Arg; cylinder: Figure; when: Arg; instead: Arg }
  'review.cause': { by: Arg; instead: Arg; said: Arg }
  'review.cause-alike': { by: Arg; instead: Arg }
  'review.as-found': NoArgs
  'review.after': NoArgs
  'review.none-said': NoArgs
  'review.not-recorded': NoArgs
  'review.at': { cause: Arg; place: Arg }
  'history.late-rise': NoArgs
  'history.firing': NoArgs
  'history.burn': NoArgs
  'history.none': NoArgs
  'history.changed': { cylinder: Figure; when: Arg; figure: Arg; now: Arg; visits: Figure; reference: Figure; change: Figure; most: Figure }
  'history.unchanged': { count: Figure; visits: Figure }
  'history.no-healthy': { visits: Figure }
  'history.weak': NoArgs
  'history.left-out': { count: Figure }
  'history.why.unreadable': NoArgs
  'history.why.altered': NoArgs
  'history.why.not-signed': NoArgs
  'history.why.other-engine': NoArgs
  'chart.history.title': { figure: Arg; unit: Arg }
  'chart.history.alt': { panels: Figure; visits: Figure; changed: Figure }
  'chart.history.healthy': NoArgs
  'chart.history.odd': NoArgs
  'chart.history.now': NoArgs
  'chart.history.band': NoArgs
  'chart.history.cylinder': { cylinder: Figure }
  'conditions.condition': { before: Arg; after: Arg }
  'conditions.engine': { before: Arg; after: Arg }
  'conditions.speed': { before: Figure; after: Figure; limitPct: Figure }
  'conditions.pickup': { before: Arg; after: Arg }
  'conditions.rate': { before: Figure; after: Figure }
  'conditions.steps': { before: Figure; after: Figure }
  'word.code-system.powertrain': NoArgs
  'word.code-system.chassis': NoArgs
  'word.code-system.body': NoArgs
  'word.code-system.network': NoArgs
  'word.polarity.positive': NoArgs
  'word.polarity.negative': NoArgs
  'word.engine.warm': NoArgs
  'word.engine.cold': NoArgs
  'chart.cylinder': { cylinder: Arg }
  'chart.number': { cylinder: Arg }
  'chart.cylinder-in': { cylinder: Arg }
  'chart.cylinders-in': { cylinders: Arg }
  'list.and': { first: Arg; last: Arg }
  'list.comma': NoArgs
  'list.semicolon': NoArgs
  'list.colon': { name: Arg; value: Arg }
  'chart.quoted': { words: Arg }
  'chart.absent': NoArgs
  'chart.no-line': NoArgs
  'chart.not-captured': NoArgs
  'chart.verdict.level': NoArgs
  'chart.verdict.lean': NoArgs
  'chart.verdict.falling': NoArgs
  'chart.verdict.rich': NoArgs
  'chart.verdict.low-compression': NoArgs
  'chart.verdict.borderline': NoArgs
  'chart.verdict.external-resistance': NoArgs
  'chart.verdict.open-secondary': NoArgs
  'chart.verdict.misfiring': NoArgs
  'chart.verdict.not-judged': NoArgs
  'chart.verdicts-level': NoArgs
  'chart.verdicts-one': { who: Arg; verdict: Arg }
  'chart.verdicts-odd': { verdicts: Arg }
  'chart.stage.before': NoArgs
  'chart.stage.after': NoArgs
  'chart.short.before': NoArgs
  'chart.short.after': NoArgs
  'chart.condition.idle': NoArgs
  'chart.condition.2500-rpm': NoArgs
  'chart.condition.snap': NoArgs
  'chart.condition.cranking': NoArgs
  'chart.condition.cruise': NoArgs
  'chart.engine.warm': NoArgs
  'chart.engine.cold': NoArgs
  'chart.repeat': { turn: Figure }
  'chart.axis.burn-ms': NoArgs
  'chart.axis.kv': NoArgs
  'chart.axis.share': NoArgs
  'chart.axis.late-rise': NoArgs
  'chart.axis.late-rise-short': NoArgs
  'chart.axis.firing': NoArgs
  'chart.axis.time-s': NoArgs
  'chart.axis.rpm': NoArgs
  'chart.axis.standing': NoArgs
  'chart.rise.one.up': { who: Arg; by: Figure }
  'chart.rise.one.down': { who: Arg; by: Figure }
  'chart.rise.many.up': { who: Arg; low: Figure; high: Figure }
  'chart.rise.many.down': { who: Arg; low: Figure; high: Figure }
  'chart.rise.others': { within: Figure }
  'chart.rise.all': { within: Figure }
  'chart.rise.absent': { who: Arg }
  'chart.rise.join': NoArgs
  'chart.spark-lines.title': { setting: Arg }
  'chart.spark-lines.shown': { shown: Figure; of: Figure }
  'chart.spark-lines.key-event': NoArgs
  'chart.spark-lines.key-median': NoArgs
  'chart.spark-lines.alt': { cylinders: Figure; setting: Arg; rise: Arg; verdicts: Arg }
  'chart.late-rise.title': { setting: Arg }
  'chart.late-rise.limit': { limit: Arg }
  'chart.late-rise.alt': { setting: Arg; limit: Arg; rise: Arg; verdicts: Arg }
  'chart.firing.title': { setting: Arg }
  'chart.firing.title-extrapolated': { setting: Arg }
  'chart.firing.alt': { setting: Arg; low: Figure; lowest: Arg; high: Figure; highest: Arg }
  'chart.firing.alt-none': { setting: Arg }
  'chart.firing.alt-bound': { kv: Figure; who: Arg }
  'chart.firing.alt-extrapolated': { who: Arg }
  'chart.speed.title-sprays': { file: Arg }
  'chart.speed.title-trace': { file: Arg }
  'chart.speed.title-events': { setting: Arg }
  'chart.speed.entry': { place: Arg; finding: Arg }
  'chart.speed.entry-tests': { entry: Arg; tests: Arg }
  'chart.speed.alt-sprays': { file: Arg; low: Figure; high: Figure; sprays: Figure; findings: Arg }
  'chart.speed.alt-finding': { finding: Arg; places: Arg }
  'chart.speed.alt-trace': { file: Arg; low: Figure; high: Figure }
  'chart.speed.alt-events': { setting: Arg; low: Figure; high: Figure }
  'chart.finding.response': NoArgs
  'chart.finding.no-response': NoArgs
  'chart.finding.unclear': NoArgs
  'chart.finding.recorded': NoArgs
  'chart.finding.in-limits': NoArgs
  'chart.finding.out-of-limits': NoArgs
  'chart.before-after.rise-title': { setting: Arg }
  'chart.before-after.rise-alt': { setting: Arg; limit: Arg; before: Arg; after: Arg }
  'chart.before-after.lines-title': { setting: Arg }
  'chart.before-after.lines-alt': { setting: Arg; before: Arg; after: Arg }
  'chart.before-after.change': { before: Arg; after: Arg }
  'chart.customer.title': { who: Arg }
  'chart.customer.title-both': { who: Arg }
  'chart.customer.all': NoArgs
  'chart.customer.before': NoArgs
  'chart.customer.after': NoArgs
  'chart.customer.recorded': NoArgs
  'chart.customer.begins': NoArgs
  'chart.customer.ends': NoArgs
  'chart.customer.axis': NoArgs
  'chart.customer.band': NoArgs
  'chart.customer.band-fellows': NoArgs
  'chart.customer.who': { when: Arg; who: Arg }
  'chart.customer.no-spark': NoArgs
  'chart.customer.points.level': NoArgs
  'chart.customer.points.lean': NoArgs
  'chart.customer.points.falling': NoArgs
  'chart.customer.points.borderline': NoArgs
  'chart.customer.points.external-resistance': NoArgs
  'chart.customer.points.misfiring': NoArgs
  'chart.customer.points.open-secondary': NoArgs
  'chart.top.title': NoArgs
  'chart.top.title-none': NoArgs
  'chart.top.alt': { cylinders: Figure; who: Arg }
  'chart.top.alt-none': { cylinders: Figure }
  'chart.customer.alt': { who: Arg }
  'chart.customer.alt-each': NoArgs
  'chart.customer.alt-before': { means: Arg }
  'chart.customer.alt-after': { means: Arg }
  'chart.customer.alt-recorded': { means: Arg }
  'chart.customer.means.level': NoArgs
  'chart.customer.means.lean': NoArgs
  'chart.customer.means.falling': NoArgs
  'chart.customer.means.rich': NoArgs
  'chart.customer.means.low-compression': NoArgs
  'chart.customer.means.borderline': NoArgs
  'chart.customer.means.external-resistance': NoArgs
  'chart.customer.means.open-secondary': NoArgs
  'chart.customer.means.misfiring': NoArgs
  'chart.customer.means.not-judged': NoArgs
  'chart.customer.means.level-where-judged': NoArgs
  'chart.customer.means.level-but': { who: Arg }
  'chart.customer.means.several': NoArgs
  'chart.causes.title': NoArgs
  'chart.causes.at': { cause: Arg; place: Arg }
  'chart.causes.alt': { causes: Figure; first: Arg; percent: Arg }
  'report.kind': NoArgs
  'report.title': { workOrder: Arg }
  'report.subject': NoArgs
  'report.header': { workOrder: Arg; shop: Arg }
  'report.footer': { workOrder: Arg }
  'report.page-of': { page: Figure; pages: Figure }
  'report.withheld': NoArgs
  'report.work-order': NoArgs
  'report.revision': NoArgs
  'report.revision-words': { number: Figure; replaced: Figure }
  'report.not-given': NoArgs
  'report.date': { day: Arg; month: Arg; year: Arg }
  'report.month.1': NoArgs
  'report.month.2': NoArgs
  'report.month.3': NoArgs
  'report.month.4': NoArgs
  'report.month.5': NoArgs
  'report.month.6': NoArgs
  'report.month.7': NoArgs
  'report.month.8': NoArgs
  'report.month.9': NoArgs
  'report.month.10': NoArgs
  'report.month.11': NoArgs
  'report.month.12': NoArgs
  'report.stage.before': NoArgs
  'report.stage.after': NoArgs
  'report.customer.title': NoArgs
  'report.customer.redacted': { fields: Arg }
  'report.customer.reported': NoArgs
  'report.customer.for': NoArgs
  'report.customer.unit': { unit: Arg }
  'report.customer.logo-alt': { shop: Arg }
  'report.customer.complaint': NoArgs
  'report.customer.found': NoArgs
  'report.customer.explains': NoArgs
  'report.customer.review': NoArgs
  'report.customer.review-more': { count: Figure; title: Arg }
  'report.customer.history': NoArgs
  'report.customer.history-changed': { cylinders: Arg }
  'report.customer.done': NoArgs
  'report.customer.fixed': NoArgs
  'report.customer.certain': NoArgs
  'report.customer.rests': { for: Figure; against: Figure }
  'report.customer.uncertain': NoArgs
  'report.customer.driving': NoArgs
  'report.driving.in-order': NoArgs
  'report.driving.fault': NoArgs
  'report.driving.suspected': NoArgs
  'report.driving.not-known': NoArgs
  'report.driving.not-looked-at': NoArgs
  'report.customer.then': NoArgs
  'report.customer.no-date': NoArgs
  'report.customer.no-repair-time': NoArgs
  'report.customer.quoted': { words: Arg }
  'report.customer.work': { work: Arg }
  'report.customer.no-work': NoArgs
  'report.customer.pattern-only': NoArgs
  'report.customer.by-ear': NoArgs
  'report.customer.inside': NoArgs
  'report.felt.air': NoArgs
  'report.felt.fuel': NoArgs
  'report.felt.spark': NoArgs
  'report.felt.pressure': NoArgs
  'report.felt.fuel-pressure': NoArgs
  'report.felt.idle': NoArgs
  'report.felt.other': NoArgs
  'report.felt.none': NoArgs
  'report.felt.unknown': NoArgs
  'report.record.title': NoArgs
  'report.record.status': NoArgs
  'report.status.fault': NoArgs
  'report.status.suspected': NoArgs
  'report.status.not-known': NoArgs
  'report.status.in-order': NoArgs
  'report.record.cause-stated': NoArgs
  'report.record.cause-found': NoArgs
  'report.record.clear': { cause: Arg }
  'report.record.leading': { cause: Arg }
  'report.record.several': { cause: Arg }
  'report.record.open': { cause: Arg }
  'report.record.rival': { cause: Arg }
  'report.record.rival-far': { cause: Arg }
  'report.record.result': { evidence: Arg; marks: Arg }
  'report.record.more-results': { count: Figure }
  'report.record.nothing-against': NoArgs
  'report.record.codes': NoArgs
  'report.record.in-order': NoArgs
  'report.record.next': NoArgs
  'report.record.or': NoArgs
  'report.record.outcome-alone': { outcome: Arg }
  'report.record.outcome-first': { first: Arg }
  'report.record.outcome': { outcomes: Arg; first: Arg }
  'report.record.review': NoArgs
  'report.record.lacks': NoArgs
  'report.record.earlier': NoArgs
  'report.record.absent': NoArgs
  'report.record.parts': NoArgs
  'report.record.marks': { marks: Arg }
  'report.record.mark-capture': { mark: Arg }
  'report.record.mark-cylinder': { mark: Arg; cylinder: Arg }
  'report.record.mark-test': { mark: Arg }
  'report.record.cylinders': NoArgs
  'report.record.recorded': NoArgs
  'report.record.capture': { length: Arg; rate: Arg }
  'report.record.sparks': { count: Figure }
  'report.record.further': NoArgs
  'report.record.remarks': NoArgs
  'report.record.no-remarks': NoArgs
  'report.record.remarks-count': { count: Figure; title: Arg }
  'report.record.untested': NoArgs
  'report.record.worked': NoArgs
  'report.record.signed': NoArgs
  'report.record.signed-by': { name: Arg; date: Arg }
  'report.record.sealed': NoArgs
  'report.record.unsigned': NoArgs
  'report.record.untouched': NoArgs
  'report.record.untouched-words': NoArgs
  'report.record.of-vehicle': NoArgs
  'report.record.of-vehicle-words': NoArgs
  'report.record.more': { count: Figure }
  'report.record.rule': NoArgs
  'report.record.rule-words': { limitPct: Figure }
  'report.record.page': { page: Figure }
  'report.lacks.vin': NoArgs
  'report.lacks.vin-check': NoArgs
  'report.lacks.odometer': NoArgs
  'report.lacks.cause': NoArgs
  'report.lacks.correction': NoArgs
  'report.lacks.repair': NoArgs
  'report.lacks.proof': NoArgs
  'report.lacks.closed': NoArgs
  'report.lacks.calibration': NoArgs
  'report.lacks.uncertainty': NoArgs
  'report.lacks.signature': NoArgs
  'report.lacks.nothing': NoArgs
  'report.claim.cause': NoArgs
  'report.claim.found': { cause: Arg }
  'report.claim.repair': { date: Arg; work: Arg }
  'report.claim.not-shown': NoArgs
  'report.claim.not-shown-why': { why: Arg }
  'report.claim.figure': { name: Arg; figure: Arg }
  'report.claim.figure-after': { name: Arg; figure: Arg; after: Arg }
  'report.claim.limit': { limit: Arg }
  'report.claim.unstated': NoArgs
  'report.decided.title': NoArgs
  'report.decided.limit': NoArgs
  'report.decided.not-again': NoArgs
  'report.decided.cylinders': { cylinders: Arg }
  'report.decided.mixture': NoArgs
  'report.decided.circuit': NoArgs
  'report.decided.misfire': NoArgs
  'report.decided.firing-voltage': NoArgs
  'report.decided.burn-time': NoArgs
  'report.decided.oscillation': NoArgs
  'report.decided.compression': NoArgs
  'report.decided.fuel-pressure': NoArgs
  'report.decided.trim': NoArgs
  'report.decided.gas': NoArgs
  'report.decided.vacuum': NoArgs
  'report.decided.leak': NoArgs
  'report.decided.code': NoArgs
  'report.decided.part': NoArgs
  'report.decided.idle-speed': NoArgs
  'report.recordings.title': NoArgs
  'report.weighing.title': NoArgs
  'report.signatures.title': NoArgs
  'report.review.title': NoArgs
  'report.review.intro': NoArgs
  'report.review.what': NoArgs
  'report.review.said': NoArgs
  'report.review.instead': NoArgs
  'report.review.reason': NoArgs
  'report.review.by': NoArgs
  'report.review.cylinder': { cylinder: Figure; when: Arg }
  'report.review.cause': NoArgs
  'report.review.signs': { title: Arg }
  'report.history.title': NoArgs
  'report.history.intro': { alarms: Figure }
  'report.history.scatter': { rise: Figure; firing: Figure; burn: Figure; others: Figure }
  'report.history.visit': { workOrder: Arg; date: Arg }
  'report.history.figure': NoArgs
  'report.history.now': NoArgs
  'report.history.reference': NoArgs
  'report.history.change': NoArgs
  'report.history.most': NoArgs
  'report.history.left-out': { outputs: Arg }
  'report.test-figures.title': NoArgs
  'report.test-figures.figures': NoArgs
  'report.annex': { letter: Arg; title: Arg }
  'report.ccc.complaint': NoArgs
  'report.ccc.correction': NoArgs
  'report.ccc.work': NoArgs
  'report.ccc.repair': { date: Arg; work: Arg; mark: Arg }
  'report.ccc.as-found': NoArgs
  'report.ccc.after': NoArgs
  'report.ccc.proof': NoArgs
  'report.ccc.vehicle': NoArgs
  'report.ccc.job': NoArgs
  'report.ccc.make': NoArgs
  'report.ccc.vin': NoArgs
  'report.ccc.vin-check': NoArgs
  'report.vin-check.passes': NoArgs
  'report.vin-check.fails': NoArgs
  'report.vin-check.not-given': NoArgs
  'report.vin-check.not-a-vin': NoArgs
  'report.ccc.plate': NoArgs
  'report.ccc.unit': NoArgs
  'report.ccc.odometer': NoArgs
  'report.ccc.engine': NoArgs
  'report.ccc.engine-words': { cylinders: Figure; strokes: Figure; fuel: Arg }
  'report.ccc.ignition': NoArgs
  'report.ignition.distributor': NoArgs
  'report.ignition.coil-per-cylinder': NoArgs
  'report.ignition.wasted-spark': NoArgs
  'report.ccc.firing-order': NoArgs
  'report.ccc.bank': { bank: Arg }
  'report.ccc.opened': NoArgs
  'report.ccc.closed': NoArgs
  'report.ccc.technician': NoArgs
  'report.ccc.certificate': NoArgs
  'report.ccc.customer': NoArgs
  'report.ccc.contact': NoArgs
  'report.ccc.reference': NoArgs
  'report.ccc.shop': NoArgs
  'report.cylinders.title': NoArgs
  'report.cylinders.intro': NoArgs
  'report.cylinders.before': NoArgs
  'report.cylinders.after': NoArgs
  'report.cylinders.setting': { setting: Arg; files: Arg }
  'report.cylinders.pool': { mark: Arg; files: Arg }
  'report.cylinders.extrapolated': { fromKv: Figure }
  'report.cylinders.why.level': { limitPct: Figure }
  'report.cylinders.why.lean': { limitPct: Figure }
  'report.cylinders.why.falling': { limitPct: Figure }
  'report.cylinders.why.rich': { limitPct: Figure }
  'report.cylinders.why.low-compression': { limitPct: Figure }
  'report.cylinders.events': { count: Figure }
  'report.cylinders.of-fellows': { condition: Arg }
  'report.cylinders.of-limit': { condition: Arg }
  'report.cylinders.why': { verdict: Arg; marks: Arg; why: Arg }
  'report.cylinders.apart': { mark: Arg; what: Arg }
  'report.cylinders.misfires': { count: Figure }
  'report.cylinders.went-out': { count: Figure }
  'report.cylinders.signs': { signs: Arg }
  'report.sign.in-order': NoArgs
  'report.sign.climbs': NoArgs
  'report.sign.falls': NoArgs
  'report.sign.unsure': NoArgs
  'report.sign.circuit': NoArgs
  'report.sign.misfiring': NoArgs
  'report.sign.not-judged': NoArgs
  'report.cylinders.none': NoArgs
  'report.cylinders.more-charts': { files: Arg }
  'report.column.cylinder': NoArgs
  'report.column.mark': NoArgs
  'report.column.verdict': NoArgs
  'report.column.late-rise-pct': NoArgs
  'report.column.firing-kv': NoArgs
  'report.column.burn-ms': NoArgs
  'report.column.start-kv': NoArgs
  'report.column.mid-kv': NoArgs
  'report.column.early-slope-kv-per-ms': NoArgs
  'report.column.late-slope-kv-per-ms': NoArgs
  'report.column.coil-cycles': NoArgs
  'report.absent.too-short': NoArgs
  'report.absent.no-spark-line': NoArgs
  'report.absent.clipped': NoArgs
  'report.absent.under-sampled': NoArgs
  'report.absent.ratio-unknown': NoArgs
  'report.absent.partial': NoArgs
  'report.absent.not-recorded': NoArgs
  'report.absent.no-next-event': NoArgs
  'report.absent.not-visible': NoArgs
  'report.absent.too-few-events': NoArgs
  'report.absent.not-applicable': NoArgs
  'report.tests.title': NoArgs
  'report.tests.intro': NoArgs
  'report.tests.day': { date: Arg }
  'report.tests.beyond': NoArgs
  'report.tests.short.unclear': { change: Arg }
  'report.tests.short.no-response': { change: Arg }
  'report.tests.short.up': { change: Arg; latency: Figure }
  'report.tests.short.down': { change: Arg; latency: Figure }
  'report.tests.number': NoArgs
  'report.tests.test': NoArgs
  'report.tests.finding': NoArgs
  'report.tests.meaning': NoArgs
  'report.tests.after': NoArgs
  'report.tests.expected': { low: Arg; high: Arg }
  'report.tests.expected-each': { low: Arg; high: Arg }
  'report.tests.outcome': { words: Arg }
  'report.outcome.response': NoArgs
  'report.outcome.no-response': NoArgs
  'report.outcome.fixed': NoArgs
  'report.outcome.not-fixed': NoArgs
  'report.outcome.leak': NoArgs
  'report.outcome.no-leak': NoArgs
  'report.outcome.follows': NoArgs
  'report.outcome.stays': NoArgs
  'report.outcome.misleads': NoArgs
  'report.outcome.in-order': NoArgs
  'report.outcome.low': NoArgs
  'report.outcome.high': NoArgs
  'report.outcome.open': NoArgs
  'report.outcome.worn': NoArgs
  'report.outcome.cracked': NoArgs
  'report.outcome.fouled': NoArgs
  'report.outcome.weak': NoArgs
  'report.outcome.more': NoArgs
  'report.outcome.less': NoArgs
  'report.outcome.stuck-open': NoArgs
  'report.outcome.shuts': NoArgs
  'report.outcome.none': NoArgs
  'report.outcome.wrong': NoArgs
  'report.outcome.water': NoArgs
  'report.outcome.intake': NoArgs
  'report.outcome.exhaust': NoArgs
  'report.outcome.crankcase': NoArgs
  'report.outcome.coolant': NoArgs
  'report.outcome.marks-right': NoArgs
  'report.outcome.marks-out': NoArgs
  'report.tests.observed': NoArgs
  'report.tests.note': { words: Arg }
  'report.tests.shared': { marks: Arg; words: Arg }
  'report.tests.cylinder': { cylinder: Arg }
  'report.step.spray': NoArgs
  'report.step.cap': NoArgs
  'report.step.uncap': NoArgs
  'report.step.smoke': NoArgs
  'report.step.trim': NoArgs
  'report.step.gas': NoArgs
  'report.step.fuel-pressure': NoArgs
  'report.step.vacuum': NoArgs
  'report.step.compression': NoArgs
  'report.step.code': NoArgs
  'report.step.fuel-sample': NoArgs
  'report.step.back-pressure': NoArgs
  'report.step.leak-down': NoArgs
  'report.step.power-drop': NoArgs
  'report.step.air-meter': NoArgs
  'report.step.oxygen-sensor': NoArgs
  'report.step.coolant-sensor': NoArgs
  'report.step.exhaust-joints': NoArgs
  'report.step.command': NoArgs
  'report.step.timing': NoArgs
  'report.step.secondary-resistance': NoArgs
  'report.step.primary-resistance': NoArgs
  'report.step.cap-and-rotor': NoArgs
  'report.step.plugs': NoArgs
  'report.step.injector-balance': NoArgs
  'report.step.swap': NoArgs
  'report.step.airflow': NoArgs
  'report.step.repair': NoArgs
  'report.step.photo': NoArgs
  'report.step.note': NoArgs
  'report.finding.response': NoArgs
  'report.finding.no-response': NoArgs
  'report.finding.unclear': NoArgs
  'report.finding.in-limits': NoArgs
  'report.finding.out-of-limits': NoArgs
  'report.finding.recorded': NoArgs
  'report.finding.smoke-response': NoArgs
  'report.finding.smoke-no-response': NoArgs
  'report.finding.swap-response': NoArgs
  'report.finding.swap-no-response': NoArgs
  'report.reading.starting-fluid': NoArgs
  'report.reading.propane': NoArgs
  'report.reading.key-on': NoArgs
  'report.reading.idle': NoArgs
  'report.reading.hold': NoArgs
  'report.reading.manifold': NoArgs
  'report.reading.barometer': NoArgs
  'report.reading.coil': NoArgs
  'report.reading.lead': NoArgs
  'report.reading.plug': NoArgs
  'report.reading.injector': NoArgs
  'report.reading.rotor': NoArgs
  'report.reading.coil-lead': NoArgs
  'report.reading.valve': NoArgs
  'report.reading.ignition': NoArgs
  'report.reading.idle-valve': NoArgs
  'report.reading.egr': NoArgs
  'report.reading.purge': NoArgs
  'report.reading.ethanol': NoArgs
  'report.reading.water': NoArgs
  'report.reading.raised': NoArgs
  'report.reading.full-load': NoArgs
  'report.reading.none': NoArgs
  'report.reading.bank-1': NoArgs
  'report.reading.bank-2': NoArgs
  'report.reading.co2': NoArgs
  'report.reading.o2': NoArgs
  'report.computed.total-trim-bank': { n: Arg }
  'report.computed.exact-trim-bank': { n: Arg }
  'report.computed.metered-air': NoArgs
  'report.computed.unmetered-air': NoArgs
  'report.computed.hole': NoArgs
  'report.computed.effective-area': NoArgs
  'report.computed.predicted-trim': { n: Arg }
  'report.computed.manifold-kpa': NoArgs
  'report.computed.barometer-kpa': NoArgs
  'report.computed.lambda': NoArgs
  'report.computed.carbon-misfit': NoArgs
  'report.computed.key-on-kpa': NoArgs
  'report.computed.idle-kpa': NoArgs
  'report.computed.hold-kpa': NoArgs
  'report.computed.hold-loss': NoArgs
  'report.computed.cylinder-kpa': { n: Arg }
  'report.computed.lowest-to-highest': NoArgs
  'report.computed.change': NoArgs
  'report.computed.change-together': NoArgs
  'report.computed.swing': NoArgs
  'report.computed.swing-change': NoArgs
  'report.computed.latency': NoArgs
  'report.computed.stretches': NoArgs
  'report.before-after.readings': NoArgs
  'report.before-after.reading': NoArgs
  'report.before-after.change': NoArgs
  'report.before-after.unit': NoArgs
  'report.before-after.title': NoArgs
  'report.before-after.shifts': NoArgs
  'report.before-after.verdict': { verdict: Arg }
  'report.before-after.before': NoArgs
  'report.before-after.after': NoArgs
  'report.before-after.outcome': NoArgs
  'report.repair.repair-confirmed': NoArgs
  'report.repair.improved-not-in-order': NoArgs
  'report.repair.no-change': NoArgs
  'report.repair.worse': NoArgs
  'report.repair.not-checked': NoArgs
  'report.shift.late-rise-pct': NoArgs
  'report.shift.burn-ms': NoArgs
  'report.shift.firing-kv': NoArgs
  'report.shift.mid-kv': NoArgs
  'report.causes.title': NoArgs
  'report.causes.opinion': NoArgs
  'report.causes.rank': NoArgs
  'report.causes.cause': NoArgs
  'report.causes.probability': NoArgs
  'report.causes.for': NoArgs
  'report.causes.against': NoArgs
  'report.causes.ranking': NoArgs
  'report.causes.chain': NoArgs
  'report.causes.after': NoArgs
  'report.causes.first': NoArgs
  'report.causes.after-captures': NoArgs
  'report.causes.after-repair-check': NoArgs
  'report.causes.ruled-out': NoArgs
  'report.causes.by': NoArgs
  'report.causes.causes': NoArgs
  'report.causes.weighed': NoArgs
  'report.causes.sensitivity': NoArgs
  'report.causes.robust': NoArgs
  'report.causes.left-out': { percent: Figure; count: Figure }
  'report.causes.next': NoArgs
  'report.method.title': NoArgs
  'report.method.intro': NoArgs
  'report.method.instrument-words': NoArgs
  'report.method.calibrated': NoArgs
  'report.method.calibration-due': NoArgs
  'report.method.calibration-certificate': NoArgs
  'report.method.voltage': NoArgs
  'report.method.time': NoArgs
  'report.method.stated': { figure: Arg }
  'report.method.default': { figure: Arg }
  'report.method.rule': NoArgs
  'report.method.rule-text': NoArgs
  'report.method.rule-off-idle': NoArgs
  'report.method.rule-risk': NoArgs
  'report.method.uncertainty': NoArgs
  'report.method.uncertainty-text': NoArgs
  'report.method.budget-text': NoArgs
  'report.method.budget': NoArgs
  'report.method.budget-half': NoArgs
  'report.budget.scatter': NoArgs
  'report.budget.captures': NoArgs
  'report.budget.noise': NoArgs
  'report.budget.sampling': NoArgs
  'report.budget.quantisation': NoArgs
  'report.budget.pickup': NoArgs
  'report.budget.method': NoArgs
  'report.budget.instrument': NoArgs
  'report.budget.zero': NoArgs
  'report.method.data': NoArgs
  'report.method.marks': NoArgs
  'report.method.file': NoArgs
  'report.method.setting': NoArgs
  'report.method.taken': NoArgs
  'report.method.rate': NoArgs
  'report.method.length': NoArgs
  'report.method.events': NoArgs
  'report.method.sync': NoArgs
  'report.method.left-out': { partial: Figure; wasted: Figure }
  'report.method.sync-words': { seen: Figure; bridged: Figure; rejected: Figure }
  'report.method.no-remarks': NoArgs
  'report.method.channel': { capture: Arg; channel: Arg; count: Figure; of: Figure }
  'report.method.missing-signs': { codes: Arg }
  'report.method.unsaid': NoArgs
  'report.method.no-after': NoArgs
  'report.method.cannot-where': NoArgs
  'report.method.cannot-condition': NoArgs
  'report.method.cannot-ring': NoArgs
  'report.method.cannot-future': NoArgs
  'report.limits.title': NoArgs
  'report.own-texts.title': NoArgs
  'report.own-texts.intro': NoArgs
  'report.own-texts.own': NoArgs
  'report.own-texts.shipped': NoArgs
  'report.limits.as-shipped': NoArgs
  'report.limits.whole': { count: Figure }
  'report.limits.some-changed': { count: Figure }
  'report.limits.origins': NoArgs
  'report.limits.origin': NoArgs
  'report.limits.entry': { meaning: Arg; key: Arg }
  'report.limits.entry-changed': { meaning: Arg; key: Arg }
  'report.limits.meaning': NoArgs
  'report.limits.value': NoArgs
  'report.cautions.title': NoArgs
  'report.cautions.precedence': NoArgs
  'report.cautions.spray-title': NoArgs
  'report.cautions.spray': NoArgs
  'report.cautions.vapour-title': NoArgs
  'report.cautions.vapour': NoArgs
  'report.cautions.high-voltage-title': NoArgs
  'report.cautions.high-voltage': NoArgs
  'report.cautions.exhaust-title': NoArgs
  'report.cautions.exhaust': NoArgs
  'report.cautions.compressed-air-title': NoArgs
  'report.cautions.compressed-air': NoArgs
  'report.cautions.moving-title': NoArgs
  'report.cautions.moving': NoArgs
  'report.cautions.hot-title': NoArgs
  'report.cautions.hot': NoArgs
  'report.cautions.sources': NoArgs
  'report.evidence.title': NoArgs
  'report.evidence.intro': { version: Arg }
  'report.evidence.file': NoArgs
  'report.evidence.bytes': NoArgs
  'report.evidence.sha256': NoArgs
  'report.evidence.photo-alt': { words: Arg }
  'report.evidence.shop-file': { file: Arg }
  'report.evidence.logo-file': { file: Arg }
  'report.evidence.history-file': { file: Arg }
  'report.evidence.unprintable': { file: Arg }
  'report.evidence.signing': NoArgs
  'report.evidence.redacted': { fields: Arg }
  'report.evidence.unsigned': NoArgs
  'report.evidence.signed': { fingerprint: Arg }
  'report.evidence.certified': { name: Arg; date: Arg; fingerprint: Arg }
  'report.evidence.certified-tooltip': { name: Arg; date: Arg }
  'report.evidence.certified-unknown': NoArgs
  'report.declaration.title': NoArgs
  'report.declaration.items': NoArgs
  'report.declaration.in-full': NoArgs
  'report.declaration.supplied': NoArgs
  'report.declaration.no-accreditation': NoArgs
  'report.declaration.kind': NoArgs
  'report.declaration.kind-words': NoArgs
  'report.declaration.identity': NoArgs
  'report.declaration.identity-words': { workOrder: Arg }
  'report.declaration.replaces': { number: Figure; digest: Arg }
  'report.declaration.changes': NoArgs
  'report.declaration.place': NoArgs
  'report.declaration.place-shop': { address: Arg }
  'report.declaration.place-absent': NoArgs
  'report.declaration.received': NoArgs
  'report.declaration.received-words': { date: Arg }
  'report.declaration.performed': NoArgs
  'report.declaration.performed-words': { from: Arg; to: Arg }
  'report.declaration.issued': NoArgs
  'report.declaration.issued-open': NoArgs
  'report.declaration.condition': NoArgs
  'report.declaration.condition-words': NoArgs
  'report.declaration.sampling': NoArgs
  'report.declaration.sampling-words': NoArgs
  'report.declaration.deviations': NoArgs
  'report.declaration.deviations-none': NoArgs
  'report.declaration.deviations-limits': NoArgs
  'report.declaration.deviations-causes': NoArgs
  'report.declaration.deviations-texts': NoArgs
  'report.declaration.others': NoArgs
  'report.declaration.others-words': NoArgs
  'report.declaration.opinions': NoArgs
  'report.declaration.opinions-words': NoArgs
  'report.declaration.program': NoArgs
  'report.declaration.authorises': NoArgs
  'report.declaration.receives': NoArgs
  'report.declaration.signed': NoArgs
  'report.declaration.end': { workOrder: Arg }
  'attachment.result.json': NoArgs
  'attachment.cylinders.csv': NoArgs
  'attachment.events.csv': NoArgs
  'attachment.tests.csv': NoArgs
  'attachment.inputs.json': NoArgs
  'attachment.capture': NoArgs
  'problem.not-a-folder': { path: Arg }
  'problem.file-not-folder': { path: Arg }
  'problem.missing-file': { path: Arg; nearest: Arg }
  'alone.missing-file': { path: Arg }
  'problem.unreadable-file': { path: Arg; why: Arg }
  'problem.leaves-folder': { path: Arg }
  'problem.empty-file': { path: Arg }
  'problem.empty-job': NoArgs
  'problem.not-text': { path: Arg; why: Arg }
  'problem.too-large': { path: Arg; size: Arg; limit: Arg }
  'problem.yaml-syntax': { found: Arg; why: Arg }
  'problem.not-utf8': { found: Arg }
  'problem.unknown-key': { key: Arg; nearest: Arg }
  'alone.unknown-key': { key: Arg }
  'problem.review-unknown': { key: Arg; found: Arg; nearest: Arg; known: Arg }
  'problem.missing-key': { key: Arg }
  'problem.wrong-value': { key: Arg; found: Arg; expected: Arg }
  'problem.unknown-word': { key: Arg; found: Arg; nearest: Arg; known: Arg }
  'alone.unknown-word': { key: Arg; found: Arg; known: Arg }
  'problem.duplicate-entry': { found: Arg; key: Arg }
  'problem.inconsistent': { key: Arg; found: Arg; expected: Arg }
  'problem.list-in-one-line': { key: Arg }
  'problem.taken-as': { found: Arg; taken: Arg }
  'problem.date-open': { found: Arg; meant: Arg; count: Figure }
  'problem.rate-doubtful': { perS: Figure; rpm: Figure; condition: Arg; usual: Arg }
  'problem.units-mixed': { step: Arg; units: Arg }
  'problem.unit-doubtful': { found: Arg; unit: Arg }
  'problem.no-such-file': { path: Arg; nearest: Arg }
  'alone.no-such-file': { path: Arg }
  'problem.vin-check-digit': { vin: Arg; expected: Arg }
  'problem.vin-shape': { vin: Arg }
  'problem.default-uncertainty': { percent: Arg }
  'problem.guess-left': { found: Arg }
  'problem.text-cut': { found: Arg; lost: Arg }
  'problem.word-quotes': { found: Arg }
  'problem.unusual-value': { key: Arg; found: Arg; usual: Arg }
  'problem.date-outside': { found: Arg; opened: Arg; closed: Arg }
  'problem.stage-order': { stage: Arg; taken: Arg; other: Arg; when: Arg }
  'problem.same-contents': { path: Arg; other: Arg }
  'problem.file-not-named': { path: Arg }
  'problem.calibration-overdue': { due: Arg; taken: Arg }
  'problem.no-data-rows': { path: Arg }
  'problem.unknown-column': { column: Arg; nearest: Arg; columns: Arg }
  'alone.unknown-column': { column: Arg; columns: Arg }
  'problem.not-a-number': { found: Arg; column: Arg; count: Arg }
  'problem.not-a-time': { found: Arg; column: Arg; count: Arg }
  'problem.ragged-row': { found: Arg; text: Arg; expected: Arg; count: Arg }
  'problem.time-backwards': { before: Arg; after: Arg; count: Arg }
  'problem.time-gap': { at: Arg; length: Arg; count: Arg }
  'problem.time-missing': { path: Arg }
  'problem.ambiguous-dialect': { first: Arg; second: Arg }
  'problem.gzip-broken': { why: Arg }
  'problem.two-sync': { cylinders: Arg }
  'problem.sync-missing': { channel: Arg }
  'problem.columns-doubtful': { column: Arg; carries: Arg; looks: Arg }
  'problem.sync-lost': { fromS: Figure; toS: Figure; why: Arg }
  'problem.no-events': { channel: Arg }
  'problem.unsupported-ignition': { why: Arg }
  'problem.wrong-unit': { column: Arg; unit: Arg; found: Arg; expected: Arg }
  'problem.line-too-long': { limit: Arg }
  'problem.too-many-columns': { found: Arg; limit: Arg }
  'problem.too-many-rows': { limit: Arg }
  'problem.header-mismatch': { found: Arg; expected: Arg }
  'problem.frame-columns': { column: Arg; found: Arg; expected: Arg }
  'problem.header-again': { found: Arg }
  'problem.empty-cell': { column: Arg; count: Arg }
  'problem.out-of-range': { column: Arg; found: Arg; count: Arg }
  'problem.implausible-voltage': { column: Arg; found: Arg; most: Arg }
  'problem.implausible-speed': { column: Arg; found: Arg; expected: Arg }
  'problem.implausible-clock': { rate: Arg; length: Arg; expected: Arg }
  'problem.rate-contradicted': { stated: Arg; column: Arg; found: Arg }
  'problem.nul-bytes': { count: Arg }
  'problem.rows-above': { count: Arg; found: Arg }
  'problem.line-ends-change': { found: Arg; expected: Arg; count: Arg }
  'problem.shifted-bytes': NoArgs
  'problem.row-cut-off': { found: Arg }
  'problem.rows-without-figures': { count: Arg }
  'problem.time-repeat': { at: Arg; count: Arg }
  'problem.time-coarse': { digit: Arg; length: Arg; percent: Arg }
  'problem.time-uneven': { step: Arg; shortest: Arg; longest: Arg; count: Arg }
  'problem.changed-while-read': { path: Arg }
  'problem.more-problems': { count: Arg }
  'problem.near-column': { column: Arg; nearest: Arg }
  'problem.csv-quotes': { found: Arg }
  'problem.unknown-step': { found: Arg; nearest: Arg }
  'alone.unknown-step': { found: Arg }
  'problem.unknown-reading': { found: Arg; step: Arg; nearest: Arg; known: Arg }
  'alone.unknown-reading': { found: Arg; step: Arg; known: Arg }
  'problem.missing-cell': { column: Arg; step: Arg }
  'problem.wrong-cell': { column: Arg; found: Arg; expected: Arg }
  'problem.reading-twice': { reading: Arg; found: Arg; other: Arg; line: Arg }
  'problem.outcome-unread': { found: Arg; step: Arg; words: Arg }
  'problem.row-says-nothing': { step: Arg; words: Arg }
  'problem.too-many-places': { found: Arg; limit: Arg }
  'problem.near-place': { found: Arg; nearest: Arg }
  'problem.unknown-trace': { found: Arg; nearest: Arg }
  'alone.unknown-trace': { found: Arg }
  'problem.spray-outside-trace': { from: Arg; to: Arg; start: Arg; end: Arg }
  'problem.log-header-missing': { found: Arg }
  'problem.not-an-image': { path: Arg; found: Arg }
  'problem.picture-broken': { path: Arg; why: Arg }
  'phrase.picture-broken.broken': NoArgs
  'phrase.picture-broken.cut-off': NoArgs
  'phrase.picture-broken.damaged': NoArgs
  'phrase.picture-broken.unsupported': NoArgs
  'problem.picture-colours': { path: Arg }
  'problem.picture-too-large': { path: Arg; limit: Figure }
  'problem.picture-mislabelled': { path: Arg; found: Arg }
  'problem.logo-unsupported': { path: Arg; why: Arg }
  'problem.shop-differs': { job: Arg; file: Arg }
  'problem.no-signing-date': NoArgs
  'problem.text-kept': { key: Arg }
  'problem.text-misfit': { key: Arg; lacks: Arg; unknown: Arg; shipped: Arg }
  'problem.near-form': { found: Arg; field: Arg }
  'problem.copies-of-one-name': { path: Arg }
  'problem.word-of-the-record': { where: Arg }
  'problem.report-too-large': { size: Arg; limit: Arg }
  'problem.replaced-report': { workOrder: Arg; path: Arg; why: Arg }
  'phrase.replaced-report.none': NoArgs
  'phrase.replaced-report.not-a-result': NoArgs
  'phrase.replaced-report.altered': NoArgs
  'phrase.replaced-report.in-the-way': NoArgs
  'phrase.logo-unsupported.unknown': NoArgs
  'phrase.logo-unsupported.broken': NoArgs
  'phrase.logo-unsupported.cut-off': NoArgs
  'phrase.logo-unsupported.damaged': NoArgs
  'phrase.logo-unsupported.ink-colours': NoArgs
  'phrase.logo-unsupported.unsupported': NoArgs
  'phrase.logo-unsupported.too-large': NoArgs
  'problem.template-invalid': { key: Arg; found: Arg; expected: Arg }
  'problem.output-exists': { path: Arg }
  'problem.cannot-write': { path: Arg; why: Arg }
  'problem.duplicate-work-order': { workOrder: Arg; other: Arg }
  'problem.out-of-memory': { limit: Arg }
  'problem.memory-short': { limit: Arg }
  'problem.system-short': { why: Arg }
  'problem.internal-error': { what: Arg }
  'phrase.none': NoArgs
  'phrase.unknown': NoArgs
  'phrase.text': NoArgs
  'phrase.date': NoArgs
  'phrase.time': NoArgs
  'phrase.cylinder': NoArgs
  'phrase.cylinder-list': NoArgs
  'phrase.review-reason': NoArgs
  'phrase.cylinders': NoArgs
  'phrase.column': NoArgs
  'phrase.column-name': NoArgs
  'phrase.positive': NoArgs
  'phrase.not-negative': NoArgs
  'phrase.number': NoArgs
  'phrase.number-or-outcome': NoArgs
  'phrase.scale': NoArgs
  'phrase.limits': NoArgs
  'phrase.low-high': NoArgs
  'phrase.year': NoArgs
  'phrase.mapping': NoArgs
  'phrase.odometer': NoArgs
  'phrase.list': NoArgs
  'phrase.filled-list': NoArgs
  'phrase.captures-or-log': NoArgs
  'phrase.time-axis': NoArgs
  'phrase.pair': NoArgs
  'phrase.banks': NoArgs
  'phrase.firing-order': NoArgs
  'phrase.no-pairs': NoArgs
  'phrase.pairs-share-out': NoArgs
  'phrase.pair-half-cycle': NoArgs
  'phrase.sync-cylinder': NoArgs
  'phrase.pickup-cylinders': NoArgs
  'phrase.no-cylinders': NoArgs
  'phrase.folder-name': NoArgs
  'phrase.file-path': NoArgs
  'phrase.not-a-regular-file': NoArgs
  'phrase.gzip-trailing': NoArgs
  'phrase.not-text.workbook': NoArgs
  'phrase.not-text.zip': NoArgs
  'phrase.not-text.archive': NoArgs
  'phrase.not-text.pdf': NoArgs
  'phrase.not-text.picture': NoArgs
  'phrase.not-text.web-page': NoArgs
  'phrase.not-text.document': NoArgs
  'phrase.not-text.side-file': NoArgs
  'phrase.not-text.zeros': NoArgs
  'phrase.yaml-indent': NoArgs
  'phrase.yaml-tab': NoArgs
  'phrase.yaml-blank': NoArgs
  'phrase.yaml-space': NoArgs
  'phrase.yaml-unclosed': NoArgs
  'phrase.yaml-colon': NoArgs
  'phrase.yaml-no-colon': NoArgs
  'phrase.yaml-alias': NoArgs
  'phrase.yaml-quote': NoArgs
  'phrase.yaml-unexpected': NoArgs
  'phrase.yaml-documents': NoArgs
  'phrase.yaml-tag': NoArgs
  'phrase.yaml-deep': NoArgs
  'phrase.yaml-other': NoArgs
  'phrase.unreadable-file.EACCES': NoArgs
  'phrase.unreadable-file.EPERM': NoArgs
  'phrase.unreadable-file.ELOOP': NoArgs
  'phrase.unreadable-file.ENAMETOOLONG': NoArgs
  'phrase.system-short.EAGAIN': NoArgs
  'phrase.system-short.EMFILE': NoArgs
  'phrase.system-short.ENFILE': NoArgs
  'phrase.system-short.ENOMEM': NoArgs
  'phrase.cannot-write.EACCES': NoArgs
  'phrase.cannot-write.EPERM': NoArgs
  'phrase.cannot-write.ENOSPC': NoArgs
  'phrase.cannot-write.EROFS': NoArgs
  'phrase.cannot-write.EDQUOT': NoArgs
  'phrase.cannot-write.EFBIG': NoArgs
  'phrase.cannot-write.EIO': NoArgs
  'phrase.cannot-write.ENOTDIR': NoArgs
  'phrase.cannot-write.EEXIST': NoArgs
  'phrase.gzip-broken.Z_BUF_ERROR': NoArgs
  'phrase.gzip-broken.Z_DATA_ERROR': NoArgs
  'phrase.sync-lost.no-pulses': NoArgs
  'phrase.sync-lost.pulses-disagree': NoArgs
  'phrase.sync-lost.pulse-midway': NoArgs
  'phrase.sync-lost.too-few-events': NoArgs
  'phrase.sync-lost.pulses-wide': NoArgs
  'phrase.sync-lost.one-pulse': NoArgs
  'phrase.sync-lost.firings-missing': NoArgs
  'phrase.unsupported-ignition.multi-strike': NoArgs
  'phrase.unsupported-ignition.capacitor-discharge': NoArgs
  'phrase.before-capture': NoArgs
  'phrase.repair-row': NoArgs
  'phrase.trouble-code': NoArgs
  'phrase.speed-trace': NoArgs
  'phrase.after-from': NoArgs
  'tests.spray.response-up': { change: Arg; place: Arg; latency: Figure }
  'tests.spray.response-down': { change: Arg; place: Arg; latency: Figure }
  'tests.spray.no-response': { place: Arg; change: Arg }
  'tests.spray.caveat': NoArgs
  'tests.spray.small': { place: Arg; change: Arg }
  'tests.spray.unclear': { place: Arg; change: Arg }
  'tests.spray.too-few': { place: Arg; longerS: Figure }
  'tests.spray.repeats': { repeats: Figure }
  'tests.spray.contradictory': NoArgs
  'tests.spray.basis': { p: Figure; stretches: Figure }
  'tests.spray.basis-places': { p: Figure; stretches: Figure; places: Figure }
  'tests.spray.basis-short': { longerS: Figure }
  'tests.spray.basis-guarded': { p: Figure }
  'tests.spray.ear-differs': { outcome: Arg }
  'tests.spray.observed-response': { place: Arg }
  'tests.spray.observed-no-response': { place: Arg }
  'tests.spray.observed-recorded': { place: Arg }
  'tests.spray.spoilt-early': { place: Arg }
  'tests.spray.spoilt-throttle': { place: Arg }
  'tests.spray.spoilt-too-soon': { place: Arg }
  'tests.spray.spoilt-off-trace': { place: Arg }
  'tests.spray.spoilt-too-slow': { place: Arg }
  'tests.spray.spoilt-too-short': { place: Arg }
  'tests.isolation.itself': { place: Arg; capped: Arg }
  'tests.isolation.through': { place: Arg; capped: Arg }
  'tests.isolation.open-missing': { place: Arg; capped: Arg }
  'tests.isolation.only-capped': { place: Arg; capped: Arg }
  'tests.isolation.contradiction': { place: Arg }
  'tests.isolation.untested-repair': { place: Arg }
  'tests.isolation.untested-cap': { place: Arg }
  'tests.contradiction.cap': { place: Arg }
  'tests.contradiction.smoke': { place: Arg }
  'tests.contradiction.compression': { place: Arg }
  'tests.contradiction.methods': { place: Arg }
  'tests.cap.changed': { place: Arg }
  'tests.cap.unchanged': { place: Arg }
  'tests.cap.recorded': { place: Arg }
  'tests.cap.traced-speed': { place: Arg; change: Arg }
  'tests.cap.traced-swing': { place: Arg; swing: Arg }
  'tests.cap.traced-none': { place: Arg; change: Arg }
  'tests.cap.traced-unclear': { place: Arg; change: Arg }
  'tests.cap.traced-swung': { swing: Arg }
  'tests.cap.basis': { p: Figure; ports: Figure }
  'tests.cap.spoilt-early': { place: Arg }
  'tests.cap.spoilt-throttle': { place: Arg }
  'tests.cap.spoilt-short': { place: Arg }
  'tests.cap.spoilt-slow': { place: Arg }
  'tests.uncap.recorded': { place: Arg }
  'tests.uncap.changed': { place: Arg }
  'tests.uncap.unchanged': { place: Arg }
  'tests.smoke.leak': { place: Arg }
  'tests.smoke.tight': { place: Arg }
  'tests.smoke.recorded': { place: Arg }
  'tests.repair.done': { place: Arg }
  'tests.repair.fixed': { place: Arg }
  'tests.repair.not-fixed': { place: Arg }
  'tests.trim.lean': { bank: Figure; total: Arg; limitPct: Figure }
  'tests.trim.rich': { bank: Figure; total: Arg; limitPct: Figure }
  'tests.trim.in-order': { bank: Figure; total: Arg; limitPct: Figure }
  'tests.trim.maker-in-order': { bank: Figure; total: Arg }
  'tests.trim.part-lean': { bank: Figure; total: Arg; limitPct: Figure }
  'tests.trim.part-rich': { bank: Figure; total: Arg; limitPct: Figure }
  'tests.trim.part-in-order': { bank: Figure; total: Arg; limitPct: Figure }
  'tests.trim.pattern.falls-with-speed': NoArgs
  'tests.trim.pattern.falls-with-speed-one-bank': { bank: Figure }
  'tests.trim.pattern.rises-with-load': NoArgs
  'tests.trim.pattern.rises-with-load-one-bank': { bank: Figure }
  'tests.trim.pattern.lean-throughout': NoArgs
  'tests.trim.pattern.lean-throughout-one-bank': { bank: Figure }
  'tests.trim.pattern.rich': NoArgs
  'tests.trim.pattern.rich-one-bank': { bank: Figure }
  'tests.trim.pattern.in-order': NoArgs
  'tests.trim.pattern.in-order-one-bank': { bank: Figure }
  'tests.gas.lean': { lambda: Arg; high: Figure }
  'tests.gas.lean-near': { lambda: Arg; high: Figure }
  'tests.gas.rich': { lambda: Arg; low: Figure }
  'tests.gas.rich-near': { lambda: Arg; low: Figure }
  'tests.gas.in-order': { lambda: Arg; low: Figure; high: Figure }
  'tests.gas.in-order-near': { lambda: Arg; low: Figure; high: Figure }
  'tests.gas.air-after-engine': { o2Pct: Figure }
  'tests.gas.unburnt': { hcPpm: Figure }
  'tests.gas.misfit': { lambda: Arg; expectedPct: Figure; carbonPct: Figure }
  'tests.gas.incomplete': { missing: Arg }
  'tests.gas.no-combustion': NoArgs
  'tests.gas.trims-both-lean': NoArgs
  'tests.gas.trims-compensated': NoArgs
  'tests.gas.trims-gas-lean-only': NoArgs
  'tests.gas.trims-opposed': NoArgs
  'tests.fuel-pressure.low': { reading: Arg; kpa: Arg }
  'tests.fuel-pressure.high': { reading: Arg; kpa: Arg }
  'tests.fuel-pressure.in-order': { reading: Arg; kpa: Arg }
  'tests.fuel-pressure.caveat': NoArgs
  'tests.fuel-pressure.recorded': { reading: Arg; kpa: Arg }
  'tests.fuel-pressure.falls': { loss: Arg; limitPct: Figure }
  'tests.fuel-pressure.holds': { loss: Arg; limitPct: Figure }
  'tests.vacuum.low': { absolute: Arg }
  'tests.vacuum.high': { absolute: Arg }
  'tests.vacuum.in-order': { absolute: Arg }
  'tests.vacuum.recorded': { absolute: Arg }
  'tests.vacuum.as-gauge': NoArgs
  'tests.vacuum.as-gauge-barometer': { barometer: Arg }
  'tests.vacuum.as-absolute': NoArgs
  'tests.compression.low': { cylinder: Figure; kpa: Arg; sharePct: Figure; limitPct: Figure }
  'tests.compression.high': { cylinder: Figure; kpa: Arg }
  'tests.compression.even': { lowest: Figure; limitPct: Figure }
  'tests.compression.in-order': NoArgs
  'tests.compression.single': NoArgs
  'tests.secondary-resistance.off': { cylinders: Arg }
  'tests.secondary-resistance.in-order': { cylinders: Arg }
  'tests.secondary-resistance.recorded': NoArgs
  'tests.primary-resistance.off': { cylinders: Arg }
  'tests.primary-resistance.in-order': { cylinders: Arg }
  'tests.primary-resistance.recorded': NoArgs
  'tests.plugs.worn': { cylinders: Arg }
  'tests.plugs.fouled': { cylinders: Arg }
  'tests.plugs.in-order': { cylinders: Arg }
  'tests.plugs.recorded': NoArgs
  'tests.injector-balance.less': { cylinders: Arg }
  'tests.injector-balance.more': { cylinders: Arg }
  'tests.injector-balance.even': { cylinders: Arg }
  'tests.injector-balance.recorded': NoArgs
  'tests.swap.followed': { place: Arg }
  'tests.swap.stayed': { place: Arg }
  'tests.swap.recorded': { place: Arg }
  'tests.leak-down.leaks': { cylinders: Arg }
  'tests.leak-down.intake': { cylinders: Arg }
  'tests.leak-down.exhaust': { cylinders: Arg }
  'tests.leak-down.crankcase': { cylinders: Arg }
  'tests.leak-down.coolant': { cylinders: Arg }
  'tests.leak-down.in-order': { cylinders: Arg }
  'tests.leak-down.recorded': NoArgs
  'tests.timing.off': NoArgs
  'tests.timing.in-order': NoArgs
  'tests.timing.ignition-off': NoArgs
  'tests.timing.ignition-in-order': NoArgs
  'tests.timing.recorded': NoArgs
  'tests.command.passes': NoArgs
  'tests.command.shuts': NoArgs
  'tests.command.stuck': NoArgs
  'tests.command.moves': NoArgs
  'tests.command.recorded': NoArgs
  'tests.fuel-sample.wrong': NoArgs
  'tests.fuel-sample.in-order': NoArgs
  'tests.fuel-sample.recorded': NoArgs
  'tests.back-pressure.high': NoArgs
  'tests.back-pressure.in-order': NoArgs
  'tests.back-pressure.recorded': NoArgs
  'tests.power-drop.weak': { cylinders: Arg }
  'tests.power-drop.even': { cylinders: Arg }
  'tests.power-drop.recorded': NoArgs
  'tests.cap-and-rotor.worn': NoArgs
  'tests.cap-and-rotor.in-order': NoArgs
  'tests.cap-and-rotor.recorded': NoArgs
  'tests.oxygen-sensor.misleads': NoArgs
  'tests.oxygen-sensor.follows': NoArgs
  'tests.oxygen-sensor.recorded': NoArgs
  'tests.exhaust-joints.leaks': NoArgs
  'tests.exhaust-joints.tight': NoArgs
  'tests.exhaust-joints.recorded': NoArgs
  'tests.air-meter.low': NoArgs
  'tests.air-meter.high': NoArgs
  'tests.air-meter.in-order': NoArgs
  'tests.air-meter.recorded': NoArgs
  'tests.coolant-sensor.cold': NoArgs
  'tests.coolant-sensor.hot': NoArgs
  'tests.coolant-sensor.in-order': NoArgs
  'tests.coolant-sensor.recorded': NoArgs
  'tests.code.none': NoArgs
  'tests.airflow.recorded': { air: Arg }
  'tests.airflow.in-order': { air: Arg }
  'tests.airflow.out': { air: Arg }
  'tests.air.none': { trim: Arg }
  'tests.air.unmetered': { trim: Arg; unmetered: Arg }
  'tests.air.hole': { manifold: Figure; hole: Arg }
  'tests.air.hole-choked': { manifold: Figure; hole: Arg }
  'tests.air.hole-assumed': { hole: Arg }
  'tests.air.no-pressure-drop': NoArgs
  'tests.air.predicts': { predicted: Arg }
  'tests.air.agrees': { predicted: Arg; measured: Arg }
  'tests.air.disagrees': { predicted: Arg; measured: Arg }
  'tests.code.maker': { code: Arg }
  'tests.code.not-listed': { code: Arg; system: Arg }
  'tests.code.lean': { code: Arg; bank: Figure }
  'tests.code.rich': { code: Arg; bank: Figure }
  'tests.code.lean-idle': { code: Arg; bank: Figure }
  'tests.code.rich-idle': { code: Arg; bank: Figure }
  'tests.code.misfire-several': { code: Arg }
  'tests.code.misfire-cylinder': { code: Arg; cylinder: Figure }
  'tests.code.injector': { code: Arg; cylinder: Figure }
  'tests.code.coil': { code: Arg; coil: Arg }
  'tests.code.air-meter': { code: Arg }
  'tests.code.coolant-sensor': { code: Arg }
  'tests.code.manifold-pressure': { code: Arg }
  'tests.code.oxygen-sensor': { code: Arg; bank: Figure }
  'tests.code.fuel-pressure-low': { code: Arg }
  'tests.code.fuel-pressure-high': { code: Arg }
  'tests.code.exhaust-recirculation': { code: Arg }
  'tests.code.catalyst': { code: Arg; bank: Figure }
  'tests.code.purge': { code: Arg }
  'tests.code.idle-control': { code: Arg }
  'tests.code.valve-timing': { code: Arg }
  'method.read': { file: Arg; rows: Figure; rateHz: Figure }
  'method.find': { events: Figure; file: Arg; polarity: Arg }
  'method.find-sync': { events: Figure; file: Arg; polarity: Arg; seen: Figure; bridged: Figure; rejected: Figure }
  'method.levels': { start: Figure; mid: Figure; late: Figure }
  'method.slopes': { earlyFrom: Figure; earlyTo: Figure; lateFrom: Figure; lateTo: Figure }
  'method.summarise': { voltagePct: Arg; timePpm: Figure; minEvents: Figure }
  'method.judge': { rules: Figure; limitPct: Figure }
  'method.proof': { date: Arg; version: Arg; captures: Figure; burnPct: Arg; midPct: Arg; riseKv: Arg }
  'method.proof-other': { date: Arg; version: Arg }
  'method.proof-fails': { date: Arg }
  'method.tests': { tests: Figure }
  'method.tests-traced': { tests: Figure; traced: Figure }
  'remark.no-events-channel': { channel: Arg }
  'remark.polarity-unsure': { channel: Arg }
  'remark.polarity-contradicted': { channel: Arg }
  'remark.clipped-top': { count: Figure; of: Figure; channel: Arg; limit: Figure }
  'remark.clipped-line': { count: Figure; of: Figure; channel: Arg; limit: Figure }
  'remark.sampling-slow': { rateKhz: Figure; count: Figure; of: Figure; channel: Arg }
  'remark.together.clipped-top': { limit: Figure; channels: Arg }
  'remark.together.clipped-line': { limit: Figure; channels: Arg }
  'remark.together.sampling-slow': { rateKhz: Figure; channels: Arg }
  'remark.sync-bridged': { missing: Figure; seen: Figure; events: Figure }
  'remark.sync-extra': { extra: Figure; seen: Figure }
  'remark.sync-untold': { count: Figure; of: Figure }
  'remark.wasted-unclear': { cylinder: Figure }
  'remark.no-lines': { of: Figure; cylinder: Figure }
  'remark.wasted-some-unclear': { cylinder: Figure; count: Figure; of: Figure }
  'remark.mains-hum': { channel: Arg; humHz: Figure; peak: Figure }
  'remark.pickup-droop': { channel: Arg; fadesMs: Figure }
  'meaning.not-a-folder': NoArgs
  'meaning.file-not-folder': NoArgs
  'explain.not-a-folder': NoArgs
  'explain.file-not-folder': NoArgs
  'meaning.missing-file': NoArgs
  'explain.missing-file': NoArgs
  'meaning.unreadable-file': NoArgs
  'explain.unreadable-file': NoArgs
  'meaning.leaves-folder': NoArgs
  'explain.leaves-folder': NoArgs
  'meaning.empty-file': NoArgs
  'meaning.empty-job': NoArgs
  'explain.empty-file': NoArgs
  'explain.empty-job': NoArgs
  'meaning.not-text': NoArgs
  'explain.not-text': NoArgs
  'meaning.too-large': NoArgs
  'explain.too-large': NoArgs
  'meaning.yaml-syntax': NoArgs
  'explain.yaml-syntax': NoArgs
  'meaning.not-utf8': NoArgs
  'explain.not-utf8': NoArgs
  'meaning.unknown-key': NoArgs
  'meaning.review-unknown': NoArgs
  'explain.review-unknown': NoArgs
  'explain.unknown-key': NoArgs
  'meaning.missing-key': NoArgs
  'explain.missing-key': NoArgs
  'meaning.wrong-value': NoArgs
  'meaning.unknown-word': NoArgs
  'explain.wrong-value': NoArgs
  'explain.unknown-word': NoArgs
  'meaning.duplicate-entry': NoArgs
  'explain.duplicate-entry': NoArgs
  'meaning.inconsistent': NoArgs
  'explain.inconsistent': NoArgs
  'meaning.list-in-one-line': NoArgs
  'explain.list-in-one-line': NoArgs
  'meaning.taken-as': NoArgs
  'explain.taken-as': NoArgs
  'meaning.date-open': NoArgs
  'explain.date-open': NoArgs
  'meaning.rate-doubtful': NoArgs
  'explain.rate-doubtful': NoArgs
  'meaning.units-mixed': NoArgs
  'explain.units-mixed': NoArgs
  'meaning.unit-doubtful': NoArgs
  'explain.unit-doubtful': NoArgs
  'meaning.no-such-file': NoArgs
  'explain.no-such-file': NoArgs
  'meaning.vin-check-digit': NoArgs
  'explain.vin-check-digit': NoArgs
  'meaning.vin-shape': NoArgs
  'explain.vin-shape': NoArgs
  'meaning.default-uncertainty': NoArgs
  'explain.default-uncertainty': NoArgs
  'meaning.guess-left': NoArgs
  'explain.guess-left': NoArgs
  'meaning.text-cut': NoArgs
  'explain.text-cut': NoArgs
  'meaning.word-quotes': NoArgs
  'explain.word-quotes': NoArgs
  'meaning.unusual-value': NoArgs
  'explain.unusual-value': NoArgs
  'meaning.date-outside': NoArgs
  'explain.date-outside': NoArgs
  'meaning.stage-order': NoArgs
  'explain.stage-order': NoArgs
  'meaning.same-contents': NoArgs
  'explain.same-contents': NoArgs
  'meaning.file-not-named': NoArgs
  'explain.file-not-named': NoArgs
  'meaning.calibration-overdue': NoArgs
  'explain.calibration-overdue': NoArgs
  'meaning.no-data-rows': NoArgs
  'explain.no-data-rows': NoArgs
  'meaning.unknown-column': NoArgs
  'explain.unknown-column': NoArgs
  'meaning.not-a-number': NoArgs
  'explain.not-a-number': NoArgs
  'meaning.not-a-time': NoArgs
  'explain.not-a-time': NoArgs
  'meaning.ragged-row': NoArgs
  'explain.ragged-row': NoArgs
  'meaning.time-backwards': NoArgs
  'explain.time-backwards': NoArgs
  'meaning.time-gap': NoArgs
  'explain.time-gap': NoArgs
  'meaning.time-missing': NoArgs
  'explain.time-missing': NoArgs
  'meaning.ambiguous-dialect': NoArgs
  'explain.ambiguous-dialect': NoArgs
  'meaning.gzip-broken': NoArgs
  'explain.gzip-broken': NoArgs
  'meaning.two-sync': NoArgs
  'explain.two-sync': NoArgs
  'meaning.sync-missing': NoArgs
  'explain.sync-missing': NoArgs
  'meaning.columns-doubtful': NoArgs
  'explain.columns-doubtful': NoArgs
  'meaning.sync-lost': NoArgs
  'explain.sync-lost': NoArgs
  'meaning.no-events': NoArgs
  'explain.no-events': NoArgs
  'meaning.unsupported-ignition': NoArgs
  'explain.unsupported-ignition': NoArgs
  'meaning.wrong-unit': NoArgs
  'explain.wrong-unit': NoArgs
  'meaning.line-too-long': NoArgs
  'explain.line-too-long': NoArgs
  'meaning.too-many-columns': NoArgs
  'explain.too-many-columns': NoArgs
  'meaning.too-many-rows': NoArgs
  'explain.too-many-rows': NoArgs
  'meaning.header-mismatch': NoArgs
  'explain.header-mismatch': NoArgs
  'meaning.frame-columns': NoArgs
  'explain.frame-columns': NoArgs
  'meaning.header-again': NoArgs
  'explain.header-again': NoArgs
  'meaning.empty-cell': NoArgs
  'explain.empty-cell': NoArgs
  'meaning.out-of-range': NoArgs
  'explain.out-of-range': NoArgs
  'meaning.implausible-voltage': NoArgs
  'meaning.implausible-speed': NoArgs
  'explain.implausible-speed': NoArgs
  'explain.implausible-voltage': NoArgs
  'meaning.implausible-clock': NoArgs
  'explain.implausible-clock': NoArgs
  'meaning.rate-contradicted': NoArgs
  'explain.rate-contradicted': NoArgs
  'meaning.nul-bytes': NoArgs
  'explain.nul-bytes': NoArgs
  'meaning.rows-above': NoArgs
  'explain.rows-above': NoArgs
  'meaning.line-ends-change': NoArgs
  'explain.line-ends-change': NoArgs
  'meaning.shifted-bytes': NoArgs
  'explain.shifted-bytes': NoArgs
  'meaning.row-cut-off': NoArgs
  'explain.row-cut-off': NoArgs
  'meaning.rows-without-figures': NoArgs
  'explain.rows-without-figures': NoArgs
  'meaning.time-repeat': NoArgs
  'explain.time-repeat': NoArgs
  'meaning.time-coarse': NoArgs
  'explain.time-coarse': NoArgs
  'meaning.time-uneven': NoArgs
  'explain.time-uneven': NoArgs
  'meaning.changed-while-read': NoArgs
  'explain.changed-while-read': NoArgs
  'meaning.more-problems': NoArgs
  'explain.more-problems': NoArgs
  'meaning.near-column': NoArgs
  'explain.near-column': NoArgs
  'meaning.csv-quotes': NoArgs
  'explain.csv-quotes': NoArgs
  'meaning.unknown-step': NoArgs
  'explain.unknown-step': NoArgs
  'meaning.unknown-reading': NoArgs
  'explain.unknown-reading': NoArgs
  'meaning.missing-cell': NoArgs
  'explain.missing-cell': NoArgs
  'meaning.wrong-cell': NoArgs
  'explain.wrong-cell': NoArgs
  'meaning.reading-twice': NoArgs
  'meaning.outcome-unread': NoArgs
  'explain.outcome-unread': NoArgs
  'meaning.row-says-nothing': NoArgs
  'explain.row-says-nothing': NoArgs
  'meaning.too-many-places': NoArgs
  'explain.too-many-places': NoArgs
  'meaning.near-place': NoArgs
  'explain.near-place': NoArgs
  'explain.reading-twice': NoArgs
  'meaning.unknown-trace': NoArgs
  'explain.unknown-trace': NoArgs
  'meaning.spray-outside-trace': NoArgs
  'explain.spray-outside-trace': NoArgs
  'meaning.log-header-missing': NoArgs
  'explain.log-header-missing': NoArgs
  'meaning.not-an-image': NoArgs
  'explain.not-an-image': NoArgs
  'meaning.picture-broken': NoArgs
  'explain.picture-broken': NoArgs
  'meaning.picture-colours': NoArgs
  'explain.picture-colours': NoArgs
  'meaning.picture-too-large': NoArgs
  'explain.picture-too-large': NoArgs
  'meaning.picture-mislabelled': NoArgs
  'explain.picture-mislabelled': NoArgs
  'meaning.shop-differs': NoArgs
  'explain.shop-differs': NoArgs
  'meaning.no-signing-date': NoArgs
  'meaning.text-kept': NoArgs
  'meaning.text-misfit': NoArgs
  'meaning.near-form': NoArgs
  'meaning.copies-of-one-name': NoArgs
  'meaning.word-of-the-record': NoArgs
  'meaning.report-too-large': NoArgs
  'explain.no-signing-date': NoArgs
  'explain.text-kept': NoArgs
  'explain.text-misfit': NoArgs
  'explain.near-form': NoArgs
  'explain.copies-of-one-name': NoArgs
  'explain.word-of-the-record': NoArgs
  'explain.report-too-large': NoArgs
  'meaning.replaced-report': NoArgs
  'explain.replaced-report': NoArgs
  'meaning.logo-unsupported': NoArgs
  'explain.logo-unsupported': NoArgs
  'meaning.template-invalid': NoArgs
  'explain.template-invalid': NoArgs
  'meaning.output-exists': NoArgs
  'explain.output-exists': NoArgs
  'meaning.cannot-write': NoArgs
  'explain.cannot-write': NoArgs
  'meaning.duplicate-work-order': NoArgs
  'explain.duplicate-work-order': NoArgs
  'meaning.out-of-memory': NoArgs
  'explain.out-of-memory': NoArgs
  'meaning.memory-short': NoArgs
  'explain.memory-short': NoArgs
  'meaning.system-short': NoArgs
  'explain.system-short': NoArgs
  'meaning.internal-error': NoArgs
  'explain.internal-error': NoArgs
  'meaning.no-events-channel': NoArgs
  'explain.no-events-channel': NoArgs
  'meaning.polarity-unsure': NoArgs
  'explain.polarity-unsure': NoArgs
  'meaning.polarity-contradicted': NoArgs
  'explain.polarity-contradicted': NoArgs
  'meaning.clipped-top': NoArgs
  'explain.clipped-top': NoArgs
  'meaning.clipped-line': NoArgs
  'explain.clipped-line': NoArgs
  'meaning.sampling-slow': NoArgs
  'explain.sampling-slow': NoArgs
  'meaning.sync-bridged': NoArgs
  'explain.sync-bridged': NoArgs
  'meaning.sync-extra': NoArgs
  'explain.sync-extra': NoArgs
  'meaning.sync-untold': NoArgs
  'explain.sync-untold': NoArgs
  'meaning.wasted-unclear': NoArgs
  'explain.wasted-unclear': NoArgs
  'meaning.no-lines': NoArgs
  'explain.no-lines': NoArgs
  'meaning.wasted-some-unclear': NoArgs
  'explain.wasted-some-unclear': NoArgs
  'meaning.pickup-droop': NoArgs
  'explain.pickup-droop': NoArgs
  'meaning.mains-hum': NoArgs
  'explain.mains-hum': NoArgs
  'why.new': NoArgs
  'why.forced': NoArgs
  'why.program': NoArgs
  'why.template': { file: Arg }
  'why.limit': { limit: Arg; from: Arg; to: Arg }
  'why.option': { option: Arg; from: Arg; to: Arg }
  'why.input': { file: Arg }
  'why.output': { file: Arg }
  'batch.captures-not-read': NoArgs
  'batch.up-to-date': NoArgs
  'batch.invalid': NoArgs
  'batch.skipped': NoArgs
  'batch.unjudged.before': { cylinders: Arg; why: Arg }
  'batch.unjudged.after': { cylinders: Arg; why: Arg }
  'batch.why': { reasons: Arg }
  'batch.same-rows': { count: Arg; lines: Arg }
  'batch.total': { jobs: Figure; reported: Figure; upToDate: Figure; invalid: Figure; skipped: Figure }
  'batch.failed': { rule: Arg; count: Arg; jobs: Arg; orders: Arg }
  'batch.progress': { done: Figure; jobs: Figure; failed: Figure }
  'batch.progress-left': { done: Figure; jobs: Figure; failed: Figure; left: Arg }
  'batch.seconds': { seconds: Figure }
  'batch.minutes': { minutes: Figure }
  'batch.stopping': NoArgs
  'fleet.line': { jobs: Figure; reported: Figure; others: Figure }
  'fleet.title': NoArgs
  'fleet.kind': NoArgs
  'fleet.subject': NoArgs
  'fleet.footer': { jobs: Figure }
  'fleet.period': { from: Arg; to: Arg }
  'fleet.no-dates': NoArgs
  'fleet.no-date': NoArgs
  'fleet.day': { year: Arg; month: Arg; day: Arg }
  'fleet.month': { month: Arg; year: Arg }
  'fleet.short-month': { year: Arg; month: Arg }
  'fleet.quarter': { year: Arg; quarter: Arg }
  'fleet.vin': { mark: Arg }
  'fleet.unit': { mark: Arg }
  'fleet.plate': { mark: Arg }
  'fleet.jobs': NoArgs
  'fleet.outcome.fault': NoArgs
  'fleet.outcome.unsure': NoArgs
  'fleet.outcome.in-order': NoArgs
  'fleet.outcome.no-record': NoArgs
  'fleet.repeat-faults': NoArgs
  'fleet.confirmed': NoArgs
  'fleet.unchecked': NoArgs
  'fleet.after-confirmed-title': NoArgs
  'fleet.after-confirmed': { jobs: Figure }
  'fleet.attention': NoArgs
  'fleet.column.vehicle': NoArgs
  'fleet.column.jobs': NoArgs
  'fleet.column.faults': NoArgs
  'fleet.column.repeats': NoArgs
  'fleet.column.unchecked': NoArgs
  'fleet.column.last': NoArgs
  'fleet.column.now': NoArgs
  'fleet.column.job': NoArgs
  'fleet.column.found': NoArgs
  'fleet.column.earlier': NoArgs
  'fleet.column.alike': NoArgs
  'fleet.column.rise': NoArgs
  'fleet.column.cause': NoArgs
  'fleet.column.repair': NoArgs
  'fleet.column.code': NoArgs
  'fleet.column.means': NoArgs
  'fleet.alike.same-cylinder': NoArgs
  'fleet.alike.same-kind': NoArgs
  'fleet.found': { verdict: Arg; cylinders: Arg }
  'fleet.more': { jobs: Figure }
  'fleet.over-time.title': NoArgs
  'fleet.over-time.chart': NoArgs
  'fleet.over-time.alt': { jobs: Figure; periods: Figure }
  'fleet.causes.title': NoArgs
  'fleet.causes.intro': { settled: Figure; unsettled: Figure }
  'fleet.causes.none': NoArgs
  'fleet.causes.rest': { causes: Figure }
  'fleet.causes.confirmed': NoArgs
  'fleet.causes.not-confirmed': NoArgs
  'fleet.causes.not-checked': NoArgs
  'fleet.causes.chart': NoArgs
  'fleet.causes.alt': { causes: Figure; first: Arg }
  'fleet.repairs.title': NoArgs
  'fleet.repairs.chart': NoArgs
  'fleet.repairs.alt': { confirmed: Figure; jobs: Figure }
  'fleet.repairs.unchecked-title': NoArgs
  'fleet.repairs.unchecked': { jobs: Figure }
  'fleet.repeats.title': NoArgs
  'fleet.repeats.intro': NoArgs
  'fleet.history.title': NoArgs
  'fleet.history.intro': { vehicles: Figure }
  'fleet.history.chart': NoArgs
  'fleet.history.chart-part': { page: Figure; pages: Figure }
  'fleet.history.alt': { from: Figure; to: Figure; jobs: Figure; repeats: Figure }
  'fleet.history.table-title': NoArgs
  'fleet.key.repeat': NoArgs
  'fleet.key.confirmed': NoArgs
  'fleet.review.title': NoArgs
  'fleet.review.intro': { overruled: Figure; reviewer: Figure; report: Figure; neither: Figure; open: Figure }
  'fleet.review.reviewer': NoArgs
  'fleet.review.report': NoArgs
  'fleet.review.neither': NoArgs
  'fleet.review.open': NoArgs
  'fleet.review.settled-by': { workOrder: Arg }
  'fleet.review.cylinder': { cylinder: Figure; words: Arg }
  'fleet.review.nothing': NoArgs
  'fleet.column.said': NoArgs
  'fleet.column.instead': NoArgs
  'fleet.column.later': NoArgs
  'fleet.family.circuit': NoArgs
  'fleet.family.falling': NoArgs
  'fleet.rise.title': NoArgs
  'fleet.rise.intro': NoArgs
  'fleet.rise.chart': NoArgs
  'fleet.rise.chart-part': { page: Figure; pages: Figure }
  'fleet.rise.alt': { vehicles: Figure }
  'fleet.rise.found': NoArgs
  'fleet.rise.after': NoArgs
  'fleet.rise.changed': NoArgs
  'fleet.quality.title': NoArgs
  'fleet.state.reported': NoArgs
  'fleet.state.invalid': NoArgs
  'fleet.state.skipped': NoArgs
  'fleet.state.unreadable': NoArgs
  'fleet.state.altered': NoArgs
  'fleet.quality.not-judged': NoArgs
  'fleet.quality.no-vehicle': NoArgs
  'fleet.quality.vin-fails': NoArgs
  'fleet.quality.assumed': NoArgs
  'fleet.quality.limits': NoArgs
  'fleet.quality.unsigned': NoArgs
  'fleet.quality.reasons': NoArgs
  'fleet.quality.warnings': NoArgs
  'fleet.quality.remarks': NoArgs
  'fleet.about.title': NoArgs
  'fleet.about.vehicle': NoArgs
  'fleet.about.repeat': { kinds: Arg }
  'fleet.about.cause': NoArgs
  'fleet.about.review': NoArgs
  'fleet.about.limits': NoArgs
  'fleet.about.files': { version: Arg }
  'phrase.fleet-line': NoArgs
  'seal.holds': NoArgs
  'seal.broken': NoArgs
  'seal.no-such': { path: Arg }
  'seal.no-manifest': NoArgs
  'seal.not-a-manifest': NoArgs
  'seal.manifest-form': NoArgs
  'seal.manifest-changed': NoArgs
  'seal.missing': NoArgs
  'seal.extra': NoArgs
  'seal.changed': NoArgs
  'seal.not-a-file': NoArgs
  'seal.too-large': NoArgs
  'seal.not-a-pdf': NoArgs
  'seal.pdf-unsealed': NoArgs
  'seal.pdf-changed': NoArgs
  'seal.embedded-unreadable': NoArgs
  'seal.embedded-missing': { file: Arg }
  'seal.embedded-extra': { file: Arg }
  'seal.embedded-changed': { file: Arg }
  'seal.inputs-differ': NoArgs
  'seal.unsigned': NoArgs
  'seal.signature-invalid': NoArgs
  'seal.other-key': { wanted: Arg; found: Arg }
  'seal.signed': { fingerprint: Arg }
  'seal.pdf-signature-invalid': NoArgs
  'seal.certificate-other-key': { found: Arg; wanted: Arg }
  'seal.certified': { fingerprint: Arg }
  'seal.not-signed-as-named': { named: Arg }
  'seal.signed-not-named': { found: Arg }
  'seal.signed-by-another': { named: Arg; found: Arg }
  'seal.not-certified-as-named': { named: Arg }
  'seal.certified-not-named': { found: Arg }
  'seal.not-a-copy': NoArgs
  'seal.redaction-broken': { part: Arg }
  'seal.redaction-holds': { shown: Figure; withheld: Arg }
  'seal.redaction-unproven': NoArgs
  'seal.other-original': NoArgs
  'seal.ledger-line': { line: Figure }
  'seal.ledger-chain': { line: Figure }
  'seal.ledger-torn': { line: Figure }
  'seal.ledger-head': { head: Arg }
  'seal.ledger-at': { lines: Figure; head: Arg }
  'seal.ledger-deleted': { workOrder: Arg }
  'seal.ledger-replaced': { workOrder: Arg }
  'seal.ledger-unlisted': { workOrder: Arg }
  'key.made': { file: Arg; fingerprint: Arg; certificate: Arg }
  'key.unnamed': NoArgs
  'key.exists': { path: Arg }
  'key.cannot-write': { path: Arg; why: Arg }
  'redact.without': { fields: Arg }
  'redact.proven': NoArgs
  'redact.unproven': NoArgs
  'cause.leak-throttle-body': NoArgs
  'cause.leak-intake-duct': NoArgs
  'cause.leak-brake-booster': NoArgs
  'cause.leak-vacuum-hose': NoArgs
  'cause.leak-crankcase-ventilation': NoArgs
  'cause.leak-manifold': NoArgs
  'cause.leak-runner-joint': NoArgs
  'cause.leak-injector-seal': NoArgs
  'cause.purge-stuck-open': NoArgs
  'cause.egr-stuck-open': NoArgs
  'cause.fuel-delivery-low': NoArgs
  'cause.fuel-pressure-high': NoArgs
  'cause.air-meter-low': NoArgs
  'cause.coolant-sensor-misleads': NoArgs
  'cause.fuel-quality': NoArgs
  'cause.oxygen-sensor-biased': NoArgs
  'cause.exhaust-leak': NoArgs
  'cause.injector-restricted': NoArgs
  'cause.injector-leaking': NoArgs
  'cause.secondary-cylinder': NoArgs
  'cause.secondary-shared': NoArgs
  'cause.plug-worn': NoArgs
  'cause.plug-fouled': NoArgs
  'cause.compression-loss': NoArgs
  'cause.valve-timing': NoArgs
  'cause.idle-valve-sticks': NoArgs
  'cause.exhaust-restricted': NoArgs
  'cause.leak-at-place': NoArgs
  'cause.other': NoArgs
  'cause.at': { cause: Arg; place: Arg }
  'cause.at-cylinder': { number: Arg }
  'cause.at-cylinders': { cylinders: Arg }
  'cause.at-bank': { number: Arg }
  'evidence.factor-for': { factor: Figure; evidence: Arg; marks: Arg }
  'evidence.factor-against': { factor: Figure; evidence: Arg; marks: Arg }
  'evidence.burn-all-lean': NoArgs
  'evidence.burn-bank-lean': { cylinders: Arg }
  'evidence.burn-cylinder-lean': { cylinders: Arg }
  'evidence.burn-some-lean': { cylinders: Arg }
  'evidence.burn-all-falling': NoArgs
  'evidence.burn-bank-falling': { cylinders: Arg }
  'evidence.burn-cylinder-falling': { cylinders: Arg }
  'evidence.burn-some-falling': { cylinders: Arg }
  'evidence.burn-cylinder-circuit': { cylinders: Arg }
  'evidence.burn-some-circuit': { cylinders: Arg }
  'evidence.burn-all-circuit': NoArgs
  'evidence.burn-cylinder-misfiring': { cylinders: Arg }
  'evidence.burn-some-misfiring': { cylinders: Arg }
  'evidence.burn-all-misfiring': NoArgs
  'evidence.burn-level': { judged: Figure }
  'evidence.firing-high': { cylinders: Arg }
  'evidence.firing-some-high': { cylinders: Arg }
  'evidence.firing-all-high': NoArgs
  'evidence.firing-low': { cylinders: Arg }
  'evidence.firing-some-low': { cylinders: Arg }
  'evidence.firing-all-low': NoArgs
  'evidence.burn-time-short': { cylinders: Arg }
  'evidence.burn-time-some-short': { cylinders: Arg }
  'evidence.burn-time-all-short': NoArgs
  'evidence.burn-time-long': { cylinders: Arg }
  'evidence.burn-time-some-long': { cylinders: Arg }
  'evidence.burn-time-all-long': NoArgs
  'evidence.oscillations-few': { cylinders: Arg }
  'evidence.code-misfire-cylinder': { code: Arg }
  'evidence.code-misfire-several': { code: Arg }
  'evidence.trims-fall': NoArgs
  'evidence.trims-fall-bank': { bank: Arg }
  'evidence.trims-rise': NoArgs
  'evidence.trims-rise-bank': { bank: Arg }
  'evidence.trims-lean-throughout': NoArgs
  'evidence.trims-lean-throughout-bank': { bank: Arg }
  'evidence.trims-rich': NoArgs
  'evidence.trims-rich-bank': { bank: Arg }
  'evidence.trims-in-order': NoArgs
  'evidence.trim-idle-lean': NoArgs
  'evidence.trim-idle-lean-bank': { bank: Arg }
  'evidence.trim-idle-rich': NoArgs
  'evidence.trim-idle-rich-bank': { bank: Arg }
  'evidence.trim-idle-in-order': NoArgs
  'evidence.code-lean': { code: Arg }
  'evidence.code-lean-bank': { code: Arg; bank: Arg }
  'evidence.code-rich': { code: Arg }
  'evidence.code-rich-bank': { code: Arg; bank: Arg }
  'evidence.lambda-lean': NoArgs
  'evidence.lambda-rich': NoArgs
  'evidence.lambda-in-order': NoArgs
  'evidence.gas-air-after-engine': NoArgs
  'evidence.gas-both-lean': NoArgs
  'evidence.gas-compensated': NoArgs
  'evidence.gas-lean-only': NoArgs
  'evidence.gas-opposed': NoArgs
  'evidence.air-agrees': NoArgs
  'evidence.air-disagrees': NoArgs
  'evidence.spray-response': { place: Arg }
  'evidence.spray-silent': { place: Arg }
  'evidence.isolation-itself': { place: Arg; capped: Arg }
  'evidence.isolation-spared': { capped: Arg; place: Arg }
  'evidence.isolation-through': { place: Arg; capped: Arg }
  'evidence.isolation-not-itself': { place: Arg; capped: Arg }
  'evidence.cap-changed': { place: Arg }
  'evidence.cap-unchanged': { place: Arg }
  'evidence.smoke-leak': { place: Arg }
  'evidence.smoke-none': { place: Arg }
  'evidence.compression-low': { cylinders: Arg }
  'evidence.compression-all-low': { cylinders: Arg }
  'evidence.compression-in-order': { cylinders: Arg }
  'evidence.compression-high': { cylinders: Arg }
  'evidence.fuel-pressure-low': NoArgs
  'evidence.fuel-pressure-high': NoArgs
  'evidence.fuel-pressure-in-order': NoArgs
  'evidence.fuel-pressure-falls': NoArgs
  'evidence.vacuum-low': NoArgs
  'evidence.vacuum-in-order': NoArgs
  'evidence.idle-swings': NoArgs
  'evidence.code-air-meter': { code: Arg }
  'evidence.code-coolant-sensor': { code: Arg }
  'evidence.code-oxygen-sensor': { code: Arg }
  'evidence.code-injector': { code: Arg }
  'evidence.code-ignition': { code: Arg }
  'evidence.code-coil': { code: Arg }
  'evidence.code-egr': { code: Arg }
  'evidence.code-purge': { code: Arg }
  'evidence.code-fuel-pressure-low': { code: Arg }
  'evidence.code-fuel-pressure-high': { code: Arg }
  'evidence.code-idle-control': { code: Arg }
  'evidence.code-valve-timing': { code: Arg }
  'evidence.code-catalyst': { code: Arg }
  'evidence.secondary-resistance-high': { cylinders: Arg }
  'evidence.secondary-resistance-in-order': { cylinders: Arg }
  'evidence.primary-resistance-off': { cylinders: Arg }
  'evidence.primary-resistance-in-order': { cylinders: Arg }
  'evidence.plug-seen-worn': { cylinders: Arg }
  'evidence.plug-seen-fouled': { cylinders: Arg }
  'evidence.plug-seen-in-order': { cylinders: Arg }
  'evidence.cap-rotor-worn': NoArgs
  'evidence.cap-rotor-in-order': NoArgs
  'evidence.leak-down-high': { cylinders: Arg }
  'evidence.leak-down-in-order': { cylinders: Arg }
  'evidence.power-drop-weak': { cylinders: Arg }
  'evidence.power-drop-even': { cylinders: Arg }
  'evidence.injector-passes-less': { cylinders: Arg }
  'evidence.injector-passes-more': { cylinders: Arg }
  'evidence.injectors-even': { cylinders: Arg }
  'evidence.timing-out': NoArgs
  'evidence.timing-in-order': NoArgs
  'evidence.egr-passes-shut': NoArgs
  'evidence.egr-does-not-move': NoArgs
  'evidence.egr-shuts': NoArgs
  'evidence.egr-moves': NoArgs
  'evidence.purge-passes-shut': NoArgs
  'evidence.purge-does-not-move': NoArgs
  'evidence.purge-shuts': NoArgs
  'evidence.purge-moves': NoArgs
  'evidence.idle-valve-stuck': NoArgs
  'evidence.idle-valve-moves': NoArgs
  'evidence.air-meter-counts-low': NoArgs
  'evidence.air-meter-counts-high': NoArgs
  'evidence.air-meter-counts-right': NoArgs
  'evidence.coolant-reads-cold': NoArgs
  'evidence.coolant-reads-hot': NoArgs
  'evidence.coolant-reads-right': NoArgs
  'evidence.oxygen-sensor-misleads': NoArgs
  'evidence.oxygen-sensor-follows': NoArgs
  'evidence.fuel-wrong': NoArgs
  'evidence.fuel-right': NoArgs
  'evidence.exhaust-joint-leaks': NoArgs
  'evidence.exhaust-joints-tight': NoArgs
  'evidence.back-pressure-high': NoArgs
  'evidence.back-pressure-in-order': NoArgs
  'evidence.repair-codes-clear': { place: Arg }
  'evidence.swap-coil-followed': { cylinders: Arg }
  'evidence.swap-coil-stayed': { cylinders: Arg }
  'evidence.swap-lead-followed': { cylinders: Arg }
  'evidence.swap-lead-stayed': { cylinders: Arg }
  'evidence.swap-plug-followed': { cylinders: Arg }
  'evidence.swap-plug-stayed': { cylinders: Arg }
  'evidence.swap-injector-followed': { cylinders: Arg }
  'evidence.swap-injector-stayed': { cylinders: Arg }
  'evidence.repair-confirmed': { place: Arg }
  'evidence.repair-confirmed-by-log': { place: Arg }
  'evidence.work-done': { place: Arg }
  'evidence.repair-improved': { place: Arg }
  'evidence.repair-without-effect': { place: Arg }
  'evidence.repair-trims-recovered': { place: Arg }
  'evidence.repair-word-fixed': { place: Arg }
  'evidence.repair-word-not-fixed': { place: Arg }
  'standing.nothing': NoArgs
  'standing.clear': { first: Arg; percent: Figure }
  'standing.leading-short': { first: Arg; percent: Figure; limitPct: Figure; second: Arg; secondPercent: Figure }
  'standing.leading-on-patterns': { first: Arg; percent: Figure }
  'standing.leading-spoken-against': { first: Arg; percent: Figure }
  'standing.leading-on-one': { first: Arg; percent: Figure; entry: Arg; without: Arg }
  'standing.leading-contradicted': { first: Arg; percent: Figure }
  'standing.leading-disputed': { first: Arg; percent: Figure }
  'standing.leading-on-weights': { first: Arg; percent: Figure; otherPercent: Figure }
  'standing.leading-beside': { first: Arg; percent: Figure; entry: Arg; beside: Arg }
  'standing.two': { first: Arg; percent: Figure; second: Arg; secondPercent: Figure }
  'standing.several': { first: Arg; percent: Figure; second: Arg; secondPercent: Figure }
  'standing.not-listed': { second: Arg; secondPercent: Figure }
  'standing.sensitive': { first: Arg; entry: Arg }
  'standing.contradicted': { entry: Arg }
  'standing.overridden': { entries: Arg }
  'standing.judgement': NoArgs
  'fault.standing.clear': { cause: Arg; factor: Figure; keeps: Figure; low: Figure; high: Figure }
  'fault.standing.leading': { cause: Arg; factor: Figure; keeps: Figure; low: Figure; high: Figure }
  'fault.standing.several': { cause: Arg; factor: Figure; keeps: Figure; low: Figure; high: Figure }
  'fault.standing.open': NoArgs
  'next-test.says': { test: Arg; minutes: Figure; why: Arg }
  'next-test.says-repair': { test: Arg; minutes: Figure; why: Arg }
  'next-test.why.separates': { first: Arg; second: Arg }
  'next-test.why.tells-most': NoArgs
  'next-test.why.beside': { first: Arg }
  'next-test.outcome': { outcome: Arg; first: Arg; percent: Figure }
  'next-test.outcome-found': { first: Arg; percent: Figure; outcome: Arg }
  'next-test.none-settled': NoArgs
  'next-test.none-left': NoArgs
  'next-test.trims-two-speeds': NoArgs
  'next-test.trims-two-speeds.falls': NoArgs
  'next-test.trims-two-speeds.rises': NoArgs
  'next-test.trims-two-speeds.rich': NoArgs
  'next-test.trims-two-speeds.in-order': NoArgs
  'next-test.spray-round': NoArgs
  'next-test.spray-round.begin': { step: Arg }
  'next-test.spray-round.found': NoArgs
  'next-test.spray-round.nothing': NoArgs
  'next-test.spray-place': { target: Arg }
  'next-test.spray-place.response': NoArgs
  'next-test.spray-place.silent': NoArgs
  'next-test.cap-place': { target: Arg }
  'next-test.cap-place.changed': NoArgs
  'next-test.cap-place.unchanged': NoArgs
  'next-test.smoke': NoArgs
  'next-test.smoke.found': NoArgs
  'next-test.smoke.nothing': NoArgs
  'next-test.compression': NoArgs
  'next-test.compression.found': NoArgs
  'next-test.compression.nothing': NoArgs
  'next-test.fuel-pressure': NoArgs
  'next-test.fuel-pressure.low': NoArgs
  'next-test.fuel-pressure.high': NoArgs
  'next-test.fuel-pressure.falls': NoArgs
  'next-test.fuel-pressure.in-order': NoArgs
  'next-test.vacuum': NoArgs
  'next-test.vacuum.low': NoArgs
  'next-test.vacuum.in-order': NoArgs
  'next-test.gas': NoArgs
  'next-test.gas.lean': NoArgs
  'next-test.gas.rich': NoArgs
  'next-test.gas.in-order': NoArgs
  'next-test.secondary-resistance': { cylinder: Arg }
  'next-test.secondary-resistance.high': NoArgs
  'next-test.secondary-resistance.in-order': NoArgs
  'next-test.read-plugs': { cylinder: Arg }
  'next-test.read-plugs.worn': NoArgs
  'next-test.read-plugs.fouled': NoArgs
  'next-test.read-plugs.in-order': NoArgs
  'next-test.swap-injector': { cylinder: Arg }
  'next-test.swap-injector.moves': NoArgs
  'next-test.swap-injector.stays': NoArgs
  'next-test.injector-flow': { cylinder: Arg }
  'next-test.injector-flow.less': NoArgs
  'next-test.injector-flow.more': NoArgs
  'next-test.injector-flow.even': NoArgs
  'next-test.rotor-and-cap': NoArgs
  'next-test.rotor-and-cap.worn': NoArgs
  'next-test.rotor-and-cap.in-order': NoArgs
  'next-test.fuel-sample': NoArgs
  'next-test.fuel-sample.wrong': NoArgs
  'next-test.fuel-sample.in-order': NoArgs
  'next-test.block-recirculation': NoArgs
  'next-test.block-recirculation.changed': NoArgs
  'next-test.block-recirculation.unchanged': NoArgs
  'next-test.oxygen-sensor': { target: Arg }
  'next-test.oxygen-sensor.misleads': NoArgs
  'next-test.oxygen-sensor.follows': NoArgs
  'next-test.exhaust-joints': { target: Arg }
  'next-test.exhaust-joints.leaks': NoArgs
  'next-test.exhaust-joints.tight': NoArgs
  'next-test.air-meter': NoArgs
  'next-test.air-meter.low': NoArgs
  'next-test.air-meter.in-order': NoArgs
  'next-test.coolant-sensor': NoArgs
  'next-test.coolant-sensor.cold': NoArgs
  'next-test.coolant-sensor.hot': NoArgs
  'next-test.coolant-sensor.in-order': NoArgs
  'next-test.timing-marks': NoArgs
  'next-test.timing-marks.out': NoArgs
  'next-test.timing-marks.in-order': NoArgs
  'next-test.swap-coil': { cylinder: Arg }
  'next-test.swap-coil.moves': NoArgs
  'next-test.swap-coil.stays': NoArgs
  'next-test.idle-valve': NoArgs
  'next-test.idle-valve.stuck': NoArgs
  'next-test.idle-valve.moves': NoArgs
  'next-test.purge-shut': NoArgs
  'next-test.purge-shut.passes': NoArgs
  'next-test.purge-shut.shuts': NoArgs
  'next-test.back-pressure': NoArgs
  'next-test.back-pressure.high': NoArgs
  'next-test.back-pressure.in-order': NoArgs
  'next-test.cylinder-leakage': { seat: Arg }
  'next-test.cylinder-leakage.why': NoArgs
  'next-test.cylinder-leakage.intake': NoArgs
  'next-test.cylinder-leakage.exhaust': NoArgs
  'next-test.cylinder-leakage.crankcase': NoArgs
  'next-test.cylinder-leakage.coolant': NoArgs
  'next-test.repair-and-capture': { target: Arg }
  'next-test.repair-and-capture.why': NoArgs
  'next-test.repair-and-capture.why-now': NoArgs
  'next-test.repair-and-capture.why-likeliest': NoArgs
  'next-test.repair-and-capture.in-order': NoArgs
  'next-test.repair-and-capture.stays': NoArgs
  'next-test.repair-both': { target: Arg }
  'next-test.repair-both.why': NoArgs
  'next-test.repair-both.in-order': NoArgs
  'next-test.repair-both.stays': NoArgs
  'next-test.capture-after': NoArgs
  'next-test.capture-after.why': NoArgs
  'next-test.capture-after.in-order': NoArgs
  'next-test.capture-after.stays': NoArgs
  'next-test.check-work': { target: Arg }
  'next-test.check-work.why': NoArgs
  'next-test.check-work.holds': NoArgs
  'next-test.check-work.fails': NoArgs
  'next-test.test-again': { target: Arg }
  'next-test.test-again.why': NoArgs
  'next-test.test-again.shown': NoArgs
  'next-test.test-again.not-shown': NoArgs
  'next-test.capture-before': NoArgs
  'next-test.capture-before.why': NoArgs
  'next-test.capture-before.all': NoArgs
  'next-test.capture-before.bank': NoArgs
  'next-test.capture-before.cylinder': NoArgs
  'next-test.capture-before.level': NoArgs
  'next-test.capture-when-it-shows': NoArgs
  'next-test.capture-when-it-shows.why': NoArgs
  'next-test.capture-when-it-shows.odd': NoArgs
  'next-test.capture-when-it-shows.level': NoArgs
  'meaning.few-events': NoArgs
  'explain.few-events': NoArgs
  'meaning.line-slow': NoArgs
  'explain.line-slow': NoArgs
  'meaning.steps-coarse': NoArgs
  'explain.steps-coarse': NoArgs
  'meaning.level-drift': NoArgs
  'explain.level-drift': NoArgs
  'meaning.cold-engine': NoArgs
  'explain.cold-engine': NoArgs
  'meaning.cranking': NoArgs
  'explain.cranking': NoArgs
  'meaning.not-at-idle': NoArgs
  'explain.not-at-idle': NoArgs
  'meaning.events-left-out': NoArgs
  'explain.events-left-out': NoArgs
  'meaning.recording-only': NoArgs
  'explain.recording-only': NoArgs
  'meaning.rise-with-speed': NoArgs
  'explain.rise-with-speed': NoArgs
  'meaning.class-with-speed': NoArgs
  'explain.class-with-speed': NoArgs
  'meaning.ratio-unknown': NoArgs
  'meaning.burn-short': NoArgs
  'explain.ratio-unknown': NoArgs
  'explain.burn-short': NoArgs
  'meaning.whole-coil': NoArgs
  'explain.whole-coil': NoArgs
  'meaning.clock-jumps': NoArgs
  'explain.clock-jumps': NoArgs
  'meaning.frames': NoArgs
  'explain.frames': NoArgs
  'peek.file.whole': { file: Arg; size: Arg; packed: Arg }
  'peek.file.part': { file: Arg; size: Arg; packed: Arg; text: Arg }
  'peek.packed': NoArgs
  'peek.plain': NoArgs
  'peek.dialect': { separator: Arg; decimal: Arg; line: Figure; encoding: Arg }
  'peek.separator.comma': NoArgs
  'peek.separator.semicolon': NoArgs
  'peek.separator.tab': NoArgs
  'peek.separator.blank': NoArgs
  'peek.separator.none': NoArgs
  'peek.evidence': { evidence: Arg }
  'peek.over-range': { words: Arg }
  'peek.rows': { rows: Figure }
  'peek.rows-part': { rows: Figure; all: Figure }
  'peek.clock': { rate: Arg; duration: Arg }
  'peek.clock-uneven': { rate: Arg; duration: Arg }
  'peek.no-clock': NoArgs
  'peek.clock-preamble': { line: Figure; text: Arg }
  'peek.time-unit-guessed': { unit: Arg }
  'peek.column': { number: Figure; name: Arg; role: Arg }
  'peek.because': { reasons: Arg }
  'peek.role.secondary': NoArgs
  'peek.role.sync': NoArgs
  'peek.role.primary-voltage': NoArgs
  'peek.role.primary-current': NoArgs
  'peek.role.speed': NoArgs
  'peek.role.time': NoArgs
  'peek.role.counter': NoArgs
  'peek.role.words': NoArgs
  'peek.role.frame': NoArgs
  'peek.frames': { count: Figure; to: Figure }
  'peek.role.unknown': NoArgs
  'peek.sure.sure': { percent: Figure }
  'peek.sure.likely': { percent: Figure }
  'peek.sure.unsure': { percent: Figure }
  'peek.because.nothing': NoArgs
  'peek.because.sparks': { count: Figure; perS: Figure }
  'peek.because.dwell': { percent: Figure }
  'peek.because.pulses': { count: Figure; perS: Figure }
  'peek.because.even-pulses': { percent: Figure }
  'peek.because.quiet-between': { percent: Figure }
  'peek.because.speed-range': { low: Figure; high: Figure }
  'peek.because.unit': { unit: Arg }
  'peek.because.name': { name: Arg }
  'peek.range': { low: Arg; high: Arg }
  'peek.bits.range': { bits: Arg; step: Arg }
  'peek.bits.used': { bits: Arg; step: Arg }
  'peek.clipped': { count: Figure }
  'peek.pulses': { rpm: Figure; count: Figure }
  'peek.events': { count: Figure; perS: Figure; polarity: Arg; kv: Figure }
  'peek.polarity.positive': NoArgs
  'peek.polarity.negative': NoArgs
  'peek.scale': { scale: Arg; unit: Arg }
  'peek.per-pulse': { count: Figure; percent: Figure }
  'peek.makes.capture': NoArgs
  'peek.makes.trace': NoArgs
  'peek.makes.nothing': NoArgs
  'peek.refuse': NoArgs
  'peek.warn': NoArgs
  'new.ask.shop': NoArgs
  'new.ask.technician': NoArgs
  'new.ask.instrument': NoArgs
  'new.ask.work-order': { guess: Arg }
  'new.ask.vehicle': NoArgs
  'new.ask.complaint': NoArgs
  'new.ask.engine': { guess: Arg }
  'new.ask.rate': { files: Arg }
  'new.ask.after': { files: Arg; guess: Arg }
  'new.looks-repaired': { file: Arg; other: Arg }
  'new.kept': { file: Arg }
  'new.not-stated': NoArgs
  'new.no-guess': NoArgs
  'new.made': { folder: Arg; count: Figure }
  'new.added': { folder: Arg; files: Arg }
  'new.granted': { file: Arg }
  'new.granted-line': { line: Arg; why: Arg }
  'new.open': NoArgs
  'new.next': { commands: Arg }
  'new.taken-as': { found: Arg; taken: Arg }
  'new.refused.words': { found: Arg }
  'new.refused.diesel': NoArgs
  'new.refused.order': { found: Arg; count: Figure }
  'new.refused.order-length': { found: Arg; count: Figure }
  'new.refused.cylinders': { found: Arg }
  'new.refused.rate': { found: Arg }
  'new.refused.no-rate': { files: Arg }
  'new.refused.nothing': { files: Arg }
  'new.refused.numbers': { found: Arg }
  'new.refused.percent': { found: Arg }
  'new.why.stage-name': NoArgs
  'new.why.stage-repair': NoArgs
  'new.why.stage-first': NoArgs
  'new.why.stage-looks': { other: Arg }
  'new.why.condition': NoArgs
  'new.why.warm': NoArgs
  'new.why.file-date': NoArgs
  'new.why.preamble-date': NoArgs
  'new.why.over-range': NoArgs
  'new.why.time-unit': NoArgs
  'new.why.preamble-rate': { line: Figure; text: Arg }
  'new.why.sync-cylinder': NoArgs
  'new.why.role-and-unit': NoArgs
  'new.why.role': NoArgs
  'new.why.unit': NoArgs
  'new.why.per-pulse': { count: Figure }
  'new.why.pickups': { count: Figure }
  'new.why.one-pickup': NoArgs
  'new.why.own-files': { count: Figure }
  'new.why.own-pickup': NoArgs
  'new.why.usual-order': { count: Figure }
  'new.why.pairs': NoArgs
  'new.why.folder': NoArgs
  'new.why.opened': NoArgs
  'new.why.today': NoArgs
  'new.why.not-said': NoArgs
  'new.why.fuel': NoArgs
  'new.why.as-before': { file: Arg }
  'log.ask': NoArgs
  'log.ask-more': { example: Arg }
  'log.precedence': NoArgs
  'log.no-step': { found: Arg; nearest: Arg }
  'log.no-step-alone': { found: Arg }
  'log.time-open': { found: Arg; meant: Arg }
  'log.time-unread': { found: Arg }
  'log.not-written': { step: Arg; example: Arg }
  'log.understood': { test: Arg }
  'log.nothing': NoArgs
  'log.undone': { test: Arg }
  'log.example.place': NoArgs
  'log.example.smoke': NoArgs
  'log.example.trim': NoArgs
  'log.example.gas': NoArgs
  'log.example.fuel-pressure': NoArgs
  'log.example.fuel-sample': NoArgs
  'log.example.vacuum': NoArgs
  'log.example.back-pressure': NoArgs
  'log.example.compression': NoArgs
  'log.example.leak-down': NoArgs
  'log.example.power-drop': NoArgs
  'log.example.code': NoArgs
  'log.example.airflow': NoArgs
  'log.example.air-meter': NoArgs
  'log.example.coolant-sensor': NoArgs
  'log.example.part': NoArgs
  'log.example.joints': NoArgs
  'log.example.command': NoArgs
  'log.example.timing': NoArgs
  'log.example.resistance': NoArgs
  'log.example.worn': NoArgs
  'log.example.injector': NoArgs
  'log.example.swap': NoArgs
  'log.example.repair': NoArgs
  'log.example.note': NoArgs
  'remark.few-events': { cylinders: Arg; fewest: Figure; durationS: Figure; minEvents: Figure; recordS: Figure }
  'remark.line-slow': { rateKhz: Figure; channel: Arg; samples: Figure; least: Figure; neededKhz: Figure }
  'remark.steps-coarse': { channel: Arg; step: Figure; stepPct: Figure; limitPct: Figure }
  'remark.level-drift': { channel: Arg; range: Figure; rangePct: Figure; stepPct: Figure }
  'remark.cold-engine': NoArgs
  'remark.cranking': NoArgs
  'remark.not-at-idle': { meanRpm: Arg; condition: Arg; idleMostRpm: Figure }
  'remark.events-left-out': { starting: Figure; of: Figure; offSpeed: Figure }
  'remark.recording-only': { cylinders: Arg; fewest: Figure; recordS: Figure }
  'remark.rise-with-speed': { cylinders: Arg; atLow: Figure; lowRpm: Figure; atHigh: Figure; highRpm: Figure }
  'remark.class-with-speed': { cylinders: Arg; atLow: Figure; lowRpm: Figure; atHigh: Figure; highRpm: Figure }
  'remark.ratio-unknown': { channel: Arg }
  'remark.burn-short': { leastMs: Figure; mostMs: Figure; lowMs: Figure; highMs: Figure }
  'remark.whole-coil': { fallPct: Figure; sharePct: Figure }
  'remark.clock-jumps': { gaps: Figure; missingMs: Figure; repeats: Figure; events: Figure }
  'remark.frames': { frames: Figure; lengthMs: Figure; cut: Figure }
  'gate.few-events': NoArgs
  'gate.line-slow': NoArgs
  'gate.steps-coarse': NoArgs
  'gate.cranking': NoArgs
  'gate.no-events-channel': NoArgs
  'gate.polarity-unsure': NoArgs
  'gate.polarity-contradicted': NoArgs
  'gate.clipped-line': NoArgs
  'gate.no-lines': NoArgs
  'gate.wasted-unclear': NoArgs
  'gate.unknown-speed': NoArgs
  'prove.capture': NoArgs
  'prove.events': NoArgs
  'prove.short.missedPct': NoArgs
  'prove.short.falseEvents': NoArgs
  'prove.short.wrongCylinders': NoArgs
  'prove.short.wrongKinds': NoArgs
  'prove.short.burnErrorPct': NoArgs
  'prove.short.midErrorPct': NoArgs
  'prove.short.lateRiseErrorKv': NoArgs
  'prove.short.intervalsMissed': NoArgs
  'prove.short.wrongVerdicts': NoArgs
  'prove.figure.missedPct': NoArgs
  'prove.figure.falseEvents': NoArgs
  'prove.figure.wrongCylinders': NoArgs
  'prove.figure.wrongKinds': NoArgs
  'prove.figure.burnErrorPct': NoArgs
  'prove.figure.midErrorPct': NoArgs
  'prove.figure.lateRiseErrorKv': NoArgs
  'prove.figure.intervalsMissed': NoArgs
  'prove.figure.wrongVerdicts': NoArgs
  'prove.holds': { figure: Arg; error: Arg; unit: Arg; limit: Arg; capture: Arg }
  'prove.fails': { figure: Arg; error: Arg; unit: Arg; limit: Arg; capture: Arg }
  'prove.all-hold': NoArgs
  'prove.not-all-hold': NoArgs
  'prove.written': { path: Arg }
  'leak-hunt.left-capped': { place: Arg; test: Arg }
  'leak-hunt.left-capped-brakes': { place: Arg; test: Arg }
  'leak-hunt.next': { step: Arg }
  'leak-hunt.next.spray': { place: Arg }
  'leak-hunt.next.cap': { place: Arg }
  'leak-hunt.next.cap-and-spray': { place: Arg }
  'leak-hunt.next.again': { place: Arg }
  'leak-hunt.next.meter': NoArgs
  'leak-hunt.next.duct': NoArgs
  'leak-hunt.next.throttle': NoArgs
  'leak-hunt.next.plenum': NoArgs
  'leak-hunt.next.hoses': NoArgs
  'leak-hunt.next.vacuum-hoses': NoArgs
  'leak-hunt.next.breather': NoArgs
  'leak-hunt.next.brake-servo': NoArgs
  'leak-hunt.next.purge': NoArgs
  'leak-hunt.next.recirculation': NoArgs
  'leak-hunt.next.manifold': NoArgs
  'leak-hunt.next.manifold-bank': { bank: Arg }
  'leak-hunt.next.runner': { cylinder: Arg }
  'leak-hunt.next.port': { cylinder: Arg }
  'chart.hunt.title': NoArgs
  'chart.hunt.alt': { places: Arg; untried: Figure }
  'chart.hunt.alt-place': { place: Arg; state: Arg }
  'chart.hunt.meter': NoArgs
  'chart.hunt.duct': NoArgs
  'chart.hunt.throttle': NoArgs
  'chart.hunt.plenum': NoArgs
  'chart.hunt.manifold': NoArgs
  'chart.hunt.manifold-bank': { bank: Arg }
  'chart.hunt.runners': NoArgs
  'chart.hunt.ports': NoArgs
  'chart.hunt.valves': NoArgs
  'chart.hunt.hose-vacuum': NoArgs
  'chart.hunt.hose-breather': NoArgs
  'chart.hunt.hose-brake-servo': NoArgs
  'chart.hunt.hose-purge': NoArgs
  'chart.hunt.hose-recirculation': NoArgs
  'chart.hunt.state.answered': NoArgs
  'chart.hunt.state.through': NoArgs
  'chart.hunt.state.disputed': NoArgs
  'chart.hunt.state.silent': NoArgs
  'chart.hunt.state.capped': NoArgs
  'chart.hunt.state.unclear': NoArgs
  'chart.hunt.untried': NoArgs
  'chart.hunt.next': NoArgs
  'chart.hunt.entry': { place: Arg; state: Arg; tests: Arg }
  'chart.hunt.entry-after': { entry: Arg; after: Arg }
}

export type TextKey = keyof Catalogue
