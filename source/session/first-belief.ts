import {priorAsBuilt} from '../estimation/as-built.ts';
import {type Belief, priorBelief} from '../estimation/belief.ts';
import {learn} from '../estimation/learn.ts';
import {withArmTold} from '../planning/claw-sense.ts';
import {instrumentFrom} from './instrument.ts';
import {type InstrumentSheet, stretchMm} from './sheet.ts';

/** What is believed of any bridge with what a ruler told of this one's arm, before memory and readings. */
export function firstBeliefOf(sheet: InstrumentSheet): Belief {
	const plain = priorBelief(instrumentFrom(sheet), {nut: 'locked', newness: 0});
	const prior = sheet.springLengthsMm === undefined ? plain : priorAsBuilt(plain);
	return sheet.springArmMm === undefined ? prior : withArmTold(prior, sheet.springArmMm / 1000);
}

/** The belief about a guitar as it came in, with what a ruler told of its springs then. */
export function withSpringsMeasured(cameIn: Belief, {springLengthsMm}: InstrumentSheet): Belief {
	if (springLengthsMm === undefined) return cameIn;
	return learn(cameIn, {kind: 'stretch', stretchM: stretchMm(springLengthsMm) / 1000});
}
