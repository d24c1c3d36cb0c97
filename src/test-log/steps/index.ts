import type { Step } from '../../job/log-steps.ts'
import type { StepKind } from '../step-kind.ts'
import { airMeter } from './air-meter.ts'
import { airflow } from './airflow.ts'
import { backPressure } from './back-pressure.ts'
import { capAndRotor } from './cap-and-rotor.ts'
import { cap } from './cap.ts'
import { code } from './code.ts'
import { command } from './command.ts'
import { coolantSensor } from './coolant-sensor.ts'
import { compression } from './compression.ts'
import { exhaustJoints } from './exhaust-joints.ts'
import { fuelPressure } from './fuel-pressure.ts'
import { fuelSample } from './fuel-sample.ts'
import { gas } from './gas.ts'
import { injectorBalance } from './injector-balance.ts'
import { leakDown } from './leak-down.ts'
import { note, photo } from './noted.ts'
import { oxygenSensor } from './oxygen-sensor.ts'
import { plugs } from './plugs.ts'
import { powerDrop } from './power-drop.ts'
import { repair } from './repair.ts'
import { primaryResistance, secondaryResistance } from './resistance.ts'
import { smoke } from './smoke.ts'
import { spray } from './spray.ts'
import { swap } from './swap.ts'
import { timing } from './timing.ts'
import { trim } from './trim.ts'
import { uncap } from './uncap.ts'
import { vacuum } from './vacuum.ts'

/** Every step of the log. A new one is a file here, its name in job/log-steps.ts, its line below, its texts and its test. */
export const STEP_KINDS: Readonly<Record<Step, StepKind>> = {
  spray,
  cap,
  uncap,
  smoke,
  trim,
  gas,
  'fuel-pressure': fuelPressure,
  'fuel-sample': fuelSample,
  vacuum,
  'back-pressure': backPressure,
  compression,
  'leak-down': leakDown,
  'power-drop': powerDrop,
  code,
  airflow,
  'air-meter': airMeter,
  'oxygen-sensor': oxygenSensor,
  'coolant-sensor': coolantSensor,
  'exhaust-joints': exhaustJoints,
  command,
  timing,
  'secondary-resistance': secondaryResistance,
  'primary-resistance': primaryResistance,
  'cap-and-rotor': capAndRotor,
  plugs,
  'injector-balance': injectorBalance,
  swap,
  repair,
  photo,
  note,
}
