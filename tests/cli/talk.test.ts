import { PassThrough } from 'node:stream'
import { expect, test } from 'vitest'
import { Interrupted, talkOn, type AskLine } from '../../src/cli/talk.ts'

const streams = () => ({ input: new PassThrough(), output: new PassThrough() })
const three = async (ask: AskLine): Promise<string[]> => [await ask('1 '), await ask('2 '), await ask('3 ')]

test('lines pasted in one piece answer one question each', async () => {
  const { input, output } = streams()
  const talk = talkOn({ input, output }, three)
  input.write('a\n b \nc\n')
  expect(await talk).toEqual(['a', 'b', 'c'])
})

test('lines typed before the first question wait for theirs', async () => {
  const { input, output } = streams()
  input.write('a\nb\n')
  const talk = talkOn({ input, output }, async (ask) => {
    await new Promise((go) => setTimeout(go, 20))
    return three(ask)
  })
  setTimeout(() => input.write('c\n'), 40)
  expect(await talk).toEqual(['a', 'b', 'c'])
})

test('one line at a time, and the question is shown', async () => {
  const { input, output } = streams()
  const talk = talkOn({ input, output }, (ask) => ask('Work order: '))
  setTimeout(() => input.write('24-1\n'), 10)
  expect(await talk).toBe('24-1')
  expect(String(output.read())).toContain('Work order: ')
})

test('after the end of the input every answer is empty', async () => {
  const { input, output } = streams()
  input.end('a\n')
  expect(await talkOn({ input, output }, three)).toEqual(['a', '', ''])
})

test('Ctrl-C ends the talk, at once and for every question after', async () => {
  const { input, output } = streams()
  const talk = talkOn({ input, output, terminal: true }, three)
  setTimeout(() => input.write('\u0003'), 10)
  await expect(talk).rejects.toBeInstanceOf(Interrupted)
})
