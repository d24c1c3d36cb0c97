export { asCapture } from '../../src/prove/as-capture.ts'
