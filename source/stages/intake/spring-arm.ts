import {formatTypedLength} from '../../units/length.ts';
import {mapEntry} from '../common/map-entry.ts';
import {readSpringArm, springArmExample} from '../common/spring-arm-entry.ts';
import type {Field} from './field.ts';
import {words} from './words.ts';

/** The arm that the springs pull on, if somebody measured it. */
export const springArm: Field = {
	id: 'spring-arm',
	label: words.labels.springArm,
	shown: ({springArmMm, units}) =>
		springArmMm === undefined ? words.notMeasured : formatTypedLength(springArmMm, units),
	how: () => words.hows.springArm,
	example: () => springArmExample,
	read(text, sheet) {
		const typed = text.trim();
		const {springArmMm: _, ...rest} = sheet;
		if (typed.toLowerCase() === words.notMeasured) return {kind: 'value', value: rest, entered: typed};
		return mapEntry(readSpringArm(text, sheet.units), springArmMm => ({...sheet, springArmMm}));
	},
};
